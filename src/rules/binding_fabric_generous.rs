//! More fabric than the binding takes, by a whole step of what the shop sells.
//!
//! It goes by the strips that must be printed, those needed with the spare or those stated, whichever are more.
//! Otherwise a manuscript that is short of strips would be told to buy less.

use super::Context;
use super::wording::binding::{buying_for, cut_working, fabric_correction};
use super::wording::pair::Halves;
use crate::finding::{Finding, Label};
use crate::quantity::Yardage;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(needs, size)));
}

fn finding(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    // Strips that must still be added take fabric too.
    let plan = size.print?;
    let generous =
        stated.value.halves().all(|half| Yardage(half.length) >= needs.shop.generous_from(plan.fabric, half.unit));
    if !generous {
        return None;
    }
    let halves = Halves::new(needs.shop, &stated.value);
    let needed = halves.to_buy(plan.fabric);
    let working = cut_working(needs, size, &plan);
    let message = format!(
        "{} stated; {needed} is enough: {working}. The reader buys {} more than is needed.",
        halves.stated(),
        halves.more_than(plan.fabric),
    );
    Some(
        Finding::new(Label::new(stated.at, "more than is needed"), message)
            .for_size(&size.size.name)
            .see(size.stated.strips.at(), format!("{} to cut", plan.strips.of("strip")))
            .help(format!("{working}; {}.", buying_for(needs, stated, plan.fabric)))
            .help("If the extra is meant, accept this finding with the reason.")
            .numbers(halves.stated(), needed)
            .corrected(fabric_correction(needs, size)),
    )
}
