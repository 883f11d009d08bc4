//! Enough fabric for what is cut from it, and nothing for squaring up the cut edge.

use super::Context;
use super::bias_short::{buy_for_strips, square_correction, strips_correction};
use super::binding_fabric_short::flange_working;
use super::wording::fabric::Purchase;
use super::wording::pair::{Half, Halves};
use crate::finding::{Correction, Finding, Label, Subject};
use crate::manuscript::Spanned;
use crate::quantity::{Amount, Yardage};
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if let Some(needs) = context.needs.binding.as_ref() {
        // Where the spare strip does not come out of it, `spare-strip` says so.
        let purchases = needs.sizes.iter().filter_map(|size| Purchase::of_printed_binding(needs, size));
        findings.extend(purchases.filter_map(|purchase| of_purchase(&purchase)));
        findings.extend(needs.sizes.iter().filter_map(|size| of_flange(context, needs, size)));
        findings.extend(needs.bias.iter().filter_map(|size| of_bias(needs, size)));
    }
    let purchases = context
        .needs
        .fabrics
        .each()
        .filter_map(|(fabric, size)| Purchase::of_fabric(&context.needs.fabrics, fabric, size));
    findings.extend(purchases.filter_map(|purchase| of_purchase(&purchase)));
}

fn of_purchase(purchase: &Purchase<'_>) -> Option<Finding> {
    let least = purchase.stated.value.least();
    let squaring = Yardage(purchase.shop.squaring);
    // Where nothing is bought, nothing is squared up.
    if !least.0.is_positive() || least < purchase.cut || least >= purchase.cut + squaring {
        return None;
    }
    let halves = Halves::new(purchase.shop, &purchase.stated.value);
    let rest = left(halves, purchase.cut, squaring);
    let (stated, needed) = (halves.stated(), purchase.needed());
    let told = purchase.words();
    let message = format!(
        "{}: {}, and {rest} left for squaring up the cut edge, which takes {}.{}",
        purchase.stated_and_needed(&stated, &told.of),
        told.working,
        halves.up(squaring.0),
        purchase.missing(),
    );
    let finding = Finding::new(Label::new(purchase.stated.at, format!("{rest} left for squaring up")), message);
    Some(purchase.explain(told, finding.numbers(stated, needed)))
}

/// What is left of each half that leaves too little: `only 1/4 in is`, and of a pair `of 70 cm only 0.1 cm is`.
fn left(halves: Halves<'_>, cut: Yardage, squaring: Yardage) -> String {
    let lacking: Vec<Half<'_>> = halves.each().filter(|half| half.amount() < cut + squaring).collect();
    let left = |half: &Half<'_>| {
        let rest = (half.amount() - cut).0;
        if rest.is_positive() { format!("only {}", half.down(rest)) } else { "nothing".to_string() }
    };
    let of_half = |half: &Half<'_>| format!("of {} {}", half.stated(), left(half));
    match lacking.as_slice() {
        [one] if !halves.are_two() => format!("{} is", left(one)),
        [one] => format!("{} is", of_half(one)),
        both => format!("{} is", both.iter().map(of_half).collect::<Vec<_>>().join(" and ")),
    }
}

/// The flange's strips take their fabric to the last thread.
fn of_flange(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.flange.stated()?;
    let plan = size.flange_plan(needs, context.settings)?;
    let (least, squaring) = (stated.value.least(), Yardage(needs.shop.squaring));
    if least < plan.fabric || least >= plan.fabric + squaring {
        return None;
    }
    let halves = Halves::new(needs.shop, &stated.value);
    let (rest, needed) = (left(halves, plan.fabric, squaring), halves.to_buy(plan.fabric));
    let message = format!(
        "{} stated for the flange; {needed} needed: {}, and {rest} left for squaring up the cut edge, which takes {}.",
        halves.stated(),
        flange_working(needs, &plan),
        halves.up(squaring.0),
    );
    let text = needs.shop.rewrite(&stated.value, plan.fabric);
    Some(
        Finding::new(Label::new(stated.at, format!("{rest} left for squaring up")), message)
            .for_size(&size.size.name)
            .about(Subject::number("flange fabric"))
            .see(needs.stated.flange.at(), "how wide each strip is cut")
            .help(format!("Buy {needed}."))
            .numbers(halves.stated(), needed)
            .corrected(Some(Correction::new(stated.at, text))),
    )
}

/// The square for continuous bias, or the bias strips, take the fabric to the last thread.
fn of_bias(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let squaring = needs.shop.squaring;
    let halves = Halves::new(needs.shop, &stated.value);
    if let Some(square) = size.stated.square.stated() {
        let along = size.sides().and_then(|sides| size.along(sides));
        let (cut, wide) = (Yardage(along.unwrap_or_default()), along.is_some());
        let least = stated.value.least();
        if !wide || least < cut || least >= cut + Yardage(squaring) {
            return None;
        }
        let is_square = square.value.0.length == square.value.1.length;
        let working = format!("the {} takes {}", if is_square { "square" } else { "rectangle" }, needs.up(cut.0));
        let rest = left(halves, cut, Yardage(squaring));
        let (needed, correction) = (halves.to_buy(cut), square_correction(needs, cut.0, stated));
        return Some(finding(needs, size, stated, &format!("{working}, and {rest} left"), (needed, correction)));
    }
    // Each half must be enough, and the smaller one is the first that is not.
    let least = Half::least(&stated.value);
    if !size.is_enough(least.amount()) || size.is_enough_squared(least.amount(), squaring) {
        return None;
    }
    let needed = buy_for_strips(needs, size, &stated.value)?;
    let correction = strips_correction(needs, size, stated);
    let strips = format!("the bias strips take {} to the last thread, and nothing is left", least.pronoun());
    Some(finding(needs, size, stated, &strips, (needed, correction)))
}

fn finding(
    needs: &BindingNeeds<'_>,
    size: &BiasNeeds<'_>,
    fabric: &Spanned<Amount>,
    working: &str,
    (needed, correction): (String, Option<Correction>),
) -> Finding {
    let halves = Halves::new(needs.shop, &fabric.value);
    let stated = halves.stated();
    let message = format!(
        "{stated} stated; {needed} needed: {working} for squaring up the cut edge, which takes {}.",
        halves.up(needs.shop.squaring)
    );
    Finding::new(Label::new(fabric.at, "too little is left for squaring up"), message)
        .for_size(&size.size.name)
        .about(Subject::number("binding fabric"))
        .see(size.stated.square.at(), "the square that is cut from it")
        .see(size.stated.strips.at(), "the strips that are cut from it")
        .help(format!("Buy {needed}."))
        .numbers(stated, needed)
        .corrected(correction)
}
