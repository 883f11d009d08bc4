//! The flange of a binding in two fabrics does not show.

use super::Context;
use super::wording::fold::ruler_step;
use crate::finding::{Correction, Finding, Label};
use crate::quantity::Scale;
use crate::quilt_math::binding::flange_shows;
use crate::requirement::binding::{BindingNeeds, Flange, StripWidth};
use crate::rule_book::LengthValue;

/// How much of a flange is to show at least.
const LEAST_SHOWN: LengthValue = LengthValue::named("flange_shown");

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    let Some(flange) = needs.flange else { return };
    findings.extend(needs.widths.iter().filter_map(|strip| finding(context, needs, flange, strip)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, flange: Flange, strip: &StripWidth<'_>) -> Option<Finding> {
    let (own, least) = (strip.stated.value.length, context.settings.length(LEAST_SHOWN));
    let shows = flange_shows(own, flange.width);
    if shows >= least {
        return None;
    }
    let stated = needs.stated.flange.stated()?;
    let needed = (own + least * 2).up_to(ruler_step(context.settings, &stated.value));
    let scale = Scale::of(needs.measure, &[flange.width, own, shows, least, needed]);
    let what = if shows.is_positive() {
        format!("only {} of it shows", scale.down(shows))
    } else {
        "nothing of it shows".to_string()
    };
    let (wide, must) = (scale.down(flange.width), scale.up(needed));
    let message = format!(
        "A flange from strips {wide} wide stated; {must} needed beside a binding of {}: {what}.",
        scale.up(own)
    );
    Some(
        Finding::new(Label::new(stated.at, what), message)
            .for_some_size(strip.size.map(|size| size.name.as_str()))
            .see(Some(strip.stated.at), "the strips that it is sewn to")
            .help(format!(
                "What shows is half of what the flange's strip is wider than the binding's. Cut it {must} wide."
            ))
            .numbers(wide, must)
            .corrected(Some(Correction::new(stated.at, stated.value.rewrite(needed)))),
    )
}
