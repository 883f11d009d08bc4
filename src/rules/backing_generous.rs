//! More backing fabric than its panels take, by a whole step of what the shop sells.

use super::Context;
use super::wording::backing::{fabric_correction, fabric_working, seams_working, see_size, sheet_working};
use super::wording::pair::Halves;
use crate::finding::{Finding, Label};
use crate::quantity::Yardage;
use crate::requirement::backing::{BackingNeeds, SizeBacking};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.backing.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(needs, size)));
}

fn finding(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let panels = &size.print;
    let generous = |amount: Yardage, unit| amount >= needs.shop.generous_from(panels.fabric, unit);
    if !stated.value.halves().all(|half| generous(Yardage(half.length), half.unit)) {
        return None;
    }
    let halves = Halves::new(needs.shop, &stated.value);
    let (shown, needed) = (halves.stated(), halves.to_buy(panels.fabric));
    let message = format!(
        "{shown} stated; {needed} is enough: {}. The reader buys {} more than is needed.",
        fabric_working(needs, panels),
        halves.more_than(panels.fabric),
    );
    let finding = Finding::new(Label::new(stated.at, "more than is needed"), message);
    Some(
        see_size(finding.for_size(&size.size.name), needs, size)
            .see(size.stated.panels_run.at().or(needs.stated.directional.at()), "the way that the panels run")
            .help(sheet_working(needs, size))
            .help(seams_working(needs, size, panels))
            .help("If the extra is meant, accept this finding with the reason.")
            .numbers(shown, needed)
            .corrected(fabric_correction(needs, size)),
    )
}
