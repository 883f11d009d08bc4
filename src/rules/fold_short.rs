//! The strip is too narrow for its fold to reach the stitching.

use super::Context;
use super::wording::fold::{cover, fold_working, folded_side, see_seam_and_loft, width_correction, width_for};
use crate::finding::{Finding, Label};
use crate::requirement::binding::{BindingNeeds, StripWidth};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.widths.iter().filter_map(|strip| finding(context, needs, strip)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, strip: &StripWidth<'_>) -> Option<Finding> {
    let reach = strip.reach.filter(|reach| reach.is_negative())?;
    let stated = strip.stated;
    let width = width_for(context.settings, needs, strip, cover(context.settings, needs)?)?;
    let (short, side) = (needs.up(-reach), folded_side(needs));
    let message = format!(
        "Strips {} wide stated; {} needed: folded over to the {side}, the binding falls {short} short of the stitching.",
        needs.down(stated.value.length),
        needs.up(width),
    );
    let finding = Finding::new(Label::new(stated.at, format!("the fold falls {short} short")), message)
        .help(fold_working(needs, strip)?)
        .help(format!("Cut strips {} wide or wider, or sew a narrower seam.", needs.up(width)))
        .numbers(needs.down(stated.value.length), needs.up(width))
        .corrected(Some(width_correction(strip, width)));
    Some(see_seam_and_loft(finding, needs, strip))
}
