//! Enough strips, and not one to spare.
//!
//! A spare strip is counted where the house asks for one, and this rule alone speaks of it: fabric that is enough for
//! the strips that go round is never called short.

use super::Context;
use super::wording::binding::{
    asked_for, buying_for, cut_working, edge_working, fabric_correction, print_strips, strips_correction,
    strips_working,
};
use super::wording::pair::Halves;
use crate::finding::{Finding, Label, Subject};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    for size in &needs.sizes {
        if let Some(finding) = strips(context, needs, size) {
            findings.push(finding);
        }
        if let Some(finding) = fabric(needs, size) {
            findings.push(finding);
        }
    }
}

/// Fabric alone is stated, and gives the strips that go round and no more.
fn fabric(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    // A half that does not go round is for `binding-fabric-short` and `pair-disagrees`.
    let (stated, print) = (size.stated.fabric.stated()?, size.lacks_spare()?);
    let round = size.strips?;
    let halves = Halves::new(needs.shop, &stated.value);
    let (needed, working) = (halves.to_buy(print.fabric), cut_working(needs, size, &print));
    let spare = if needs.spares.0 == 1 { "the spare" } else { "all that are to spare" };
    let message = format!(
        "{} stated; {needed} needed: {working}. What is stated is enough for the strips that go around, but not for {spare}.",
        halves.stated(),
    );
    Some(
        Finding::new(Label::new(stated.at, "no spare strip comes out of it"), message)
            .for_size(&size.size.name)
            .about(Subject::number("binding fabric"))
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .help(edge_working(needs, size.size, &size.lengths))
            .help(strips_working(needs, size, round))
            .help(format!("{}; {}.", super::sentence(&working), buying_for(needs, stated, print.fabric)))
            .numbers(halves.stated(), needed)
            .corrected(fabric_correction(needs, size)),
    )
}

fn strips(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.strips.stated()?;
    let (enough, print) = (size.strips?, size.strips_to_print(needs)?);
    if stated.value < enough || stated.value >= print {
        return None;
    }
    let method = &size.method;
    let left = size.joined(stated.value) - size.lengths.asked;
    let spare = stated.value.less(enough);
    let have = match spare.0 {
        0 => "with none to spare: one bad cut and the reader is 1 strip short".to_string(),
        _ => format!("with {spare} to spare, which is {} short", print.less(stated.value)),
    };
    let message = format!(
        "{} stated; {print} needed: {enough} to go around with {}, and {} to spare. What is stated is enough, {have}.",
        stated.value.of("strip"),
        asked_for(&method.ends),
        needs.spares,
    );
    Some(
        Finding::new(Label::new(stated.at, format!("enough, with {} left over", needs.down(left))), message)
            .for_size(&size.size.name)
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .help(edge_working(needs, size.size, &size.lengths))
            .help(strips_working(needs, size, stated.value))
            .help(print_strips(context, needs, size, print))
            .numbers(stated.value.of("strip"), print.of("strip"))
            .corrected(strips_correction(context, needs, size, print)),
    )
}
