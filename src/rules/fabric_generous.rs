//! More fabric than is cut from it, by a whole step of what the shop sells.

use super::Context;
use super::wording::fabric::{Purchase, share_words};
use super::wording::pair::Halves;
use super::wording::plan::plan_words;
use super::wording::subject::fabric as of_fabric;
use crate::finding::{Correction, Finding, Label};
use crate::quantity::Yardage;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

const ACCEPT: &str = "If the extra is meant, accept this finding with the reason.";

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.fabrics;
    for (fabric, size) in needs.each() {
        if let Some(purchase) = Purchase::of_printed_fabric(needs, fabric, size)
            && let Some(finding) = amount(&purchase)
        {
            findings.push(finding);
        }
        if size.small().is_some() {
            findings.extend(small(needs, fabric, size));
        }
    }
}

fn amount(purchase: &Purchase<'_>) -> Option<Finding> {
    if !purchase.to_print.0.is_positive() {
        return nothing_is_cut(purchase);
    }
    // Strips that must still be added take fabric too.
    let from = |unit| purchase.shop.generous_from(purchase.to_print, unit);
    if !purchase.stated.value.halves().all(|half| Yardage(half.length) >= from(half.unit)) {
        return None;
    }
    let halves = Halves::new(purchase.shop, &purchase.stated.value);
    let (stated, needed) = (halves.stated(), halves.to_buy(purchase.to_print));
    let told = purchase.words();
    let message = format!(
        "{stated}{} stated; {needed} is enough. The reader buys {} more than is needed.",
        told.of,
        halves.more_than(purchase.to_print),
    );
    let finding = Finding::new(Label::new(purchase.stated.at, "more than is needed"), message);
    Some(purchase.explain(told, finding.numbers(stated, needed)).help(ACCEPT))
}

/// Fabric for a size that takes none of it.
fn nothing_is_cut(purchase: &Purchase<'_>) -> Option<Finding> {
    if !purchase.stated.value.most().0.is_positive() {
        return None;
    }
    let stated = Halves::new(purchase.shop, &purchase.stated.value).stated();
    let message = format!("{stated}{} stated, and nothing is cut from it for {}.", purchase.words().of, purchase.size);
    Some(
        Finding::new(Label::new(purchase.stated.at, "more than is needed"), message)
            .for_size(purchase.size)
            .about(purchase.subject())
            .help("State 0 for a size that takes none of it.")
            .help(ACCEPT)
            .numbers(stated, "nothing"),
    )
}

fn small(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let (small, taken) = (size.small()?, size.printed()?);
    if small.stated.value <= small.sold(small.to_print) {
        return None;
    }
    let word = fabric.sold_as_words();
    let (stated, needed) = (small.words(small.stated.value, &word), small.words(small.to_print, &word));
    let message = format!(
        "{stated} of {} stated; {} needed for the pieces that are cut from them: {} more than that.",
        fabric.stated.name,
        small.to_print,
        small.stated.value.less(small.to_print)
    );
    Some(
        Finding::new(Label::new(small.stated.at, "more than is needed"), message)
            .for_size(&size.size.name)
            .about(of_fabric(fabric.stated))
            .help(fabric.small_words(needs))
            .help(share_words(fabric, size))
            .help(plan_words(needs, fabric, taken))
            .help(ACCEPT)
            .numbers(stated, needed)
            .corrected(Some(Correction::new(small.stated.at, small.written(small.to_print)))),
    )
}
