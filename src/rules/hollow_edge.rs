//! The fold reaches so far that the edge is hollow.

use super::Context;
use super::wording::fold::{fold_working, see_seam_and_loft, width_for};
use crate::finding::{Finding, Label};
use crate::rule_book::LengthValue;

const MAX_REACH: LengthValue = LengthValue::named("most_reach");

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(finding(context));
}

fn finding(context: &Context<'_>) -> Option<Finding> {
    let needs = context.needs.binding.as_ref()?;
    let most = context.settings.length(MAX_REACH);
    let reach = needs.reach().filter(|reach| *reach > most)?;
    let stated = needs.stated.strip_width.stated()?;
    let width = width_for(context.settings, needs, most)?;
    let message = format!(
        "Strips {} wide stated: folded over, the binding reaches {} past the stitching, more than {}. Nothing fills so wide a fold, and the edge is hollow.",
        needs.down(stated.value.length),
        needs.up(reach),
        needs.up(most),
    );
    let finding = Finding::new(
        Label::new(stated.at, format!("the fold reaches {} past the stitching", needs.up(reach))),
        message,
    )
    .help(fold_working(needs)?)
    .help(format!(
        "Strips up to about {} wide are filled by this seam; or sew a wider seam, or state a thicker loft.",
        needs.up(width)
    ))
    .numbers(needs.down(stated.value.length), format!("at most about {}", needs.up(width)));
    Some(see_seam_and_loft(finding, needs))
}
