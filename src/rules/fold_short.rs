//! The strip is too narrow for its fold to reach the stitching.

use super::Context;
use super::wording::fold::{cover, fold_working, folded_side, see_seam_and_loft, width_correction, width_for};
use crate::finding::{Finding, Label};
use crate::manuscript::model::Fold;
use crate::requirement::binding::{BindingNeeds, StripWidth};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.widths.iter().filter_map(|strip| finding(context, needs, strip)));
    findings.extend(needs.widths.iter().filter_map(|strip| narrow_facing(needs, strip)));
}

/// A facing of which the seam that sews it on and the edge that is turned under leave nothing.
fn narrow_facing(needs: &BindingNeeds<'_>, strip: &StripWidth<'_>) -> Option<Finding> {
    let (seam, stated) = (needs.seam?, strip.stated);
    let taken = seam * 2;
    if needs.fold != Some(Fold::Facing) || stated.value.length > taken {
        return None;
    }
    let message = format!(
        "Strips {} wide stated for a facing: its seam and the edge that is turned under take {}, and nothing is left.",
        needs.down(stated.value.length),
        needs.up(taken),
    );
    let at = Label::new(stated.at, "nothing is left to lie on the back");
    let help = "Cut it wide enough to be turned to the back whole and stitched down.";
    let finding = Finding::new(at, message).help(help);
    let size = strip.size.map(|size| size.name.as_str());
    Some(finding.for_some_size(size).numbers(needs.down(stated.value.length), format!("more than {}", needs.up(taken))))
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
