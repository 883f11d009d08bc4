//! The fold reaches so far that the edge is hollow.

use super::Context;
use super::wording::fold::{fold_working, see_seam_and_loft, widest_for};
use crate::finding::{Finding, Label};
use crate::quantity::Length;
use crate::requirement::binding::{BindingNeeds, StripWidth};
use crate::rule_book::LengthValue;

const MAX_REACH: LengthValue = LengthValue::named("most_reach");

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.widths.iter().filter_map(|strip| finding(context, needs, strip)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, strip: &StripWidth<'_>) -> Option<Finding> {
    let most = context.settings.length(MAX_REACH);
    let reach = strip.reach.filter(|reach| *reach > most)?;
    let stated = strip.stated;
    let width = widest_for(context.settings, needs, strip, most)?;
    let message = format!(
        "Strips {} wide stated: folded over, the binding reaches {} past the stitching, more than {}. Nothing fills a fold that wide, and the edge is hollow.",
        needs.down(stated.value.length),
        needs.up(reach),
        needs.up(most),
    );
    let finding = Finding::new(
        Label::new(stated.at, format!("the fold reaches {} past the stitching", needs.up(reach))),
        message,
    )
    .help(fold_working(needs, strip)?)
    .help(if width.is_positive() {
        format!(
            "Strips up to {} wide are filled by this seam; or sew a wider seam, or state a thicker loft.",
            needs.down(width)
        )
    } else {
        "No strip is filled by this seam beside such a flange: sew a wider seam, or state a thicker loft.".to_string()
    })
    .numbers(needs.down(stated.value.length), format!("at most {}", needs.down(width.max(Length::ZERO))));
    Some(see_seam_and_loft(finding, needs, strip))
}
