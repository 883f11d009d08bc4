//! The strip is too narrow for its fold to reach the stitching.

use super::Context;
use super::wording::fold::{cover, fold_working, folded_side, see_seam_and_loft, width_correction, width_for};
use crate::finding::{Finding, Label};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(finding(context));
}

fn finding(context: &Context<'_>) -> Option<Finding> {
    let needs = context.needs.binding.as_ref()?;
    let reach = needs.reach().filter(|reach| reach.is_negative())?;
    let stated = needs.stated.strip_width.stated()?;
    let width = width_for(context.settings, needs, cover(context.settings, needs)?)?;
    let (short, side) = (needs.up(-reach), folded_side(needs));
    let message = format!(
        "Strips {} wide stated; {} needed: folded over to the {side}, the binding falls {short} short of the stitching.",
        needs.down(stated.value.length),
        needs.up(width),
    );
    let finding = Finding::new(Label::new(stated.at, format!("the fold falls {short} short")), message)
        .help(fold_working(needs)?)
        .help(format!("Cut strips {} wide or wider, or sew a narrower seam.", needs.up(width)))
        .numbers(needs.down(stated.value.length), needs.up(width))
        .corrected(width_correction(needs, width));
    Some(see_seam_and_loft(finding, needs))
}
