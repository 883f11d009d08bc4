//! Enough fabric for the strips, and nothing for squaring up the cut edge.

use super::fabric_words::Purchase;
use super::half_words::Half;
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::quantity::{Round, Yardage};

pub(super) const RULE: Rule =
    Rule { name: "no-squaring-room", page: include_str!("../../rules/no-squaring-room.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if let Some(needs) = context.binding {
        let purchases = needs.sizes.iter().filter_map(|size| Purchase::of_binding(needs, size));
        findings.extend(purchases.filter_map(|purchase| finding(&purchase)));
    }
    let purchases =
        context.fabrics.each().filter_map(|(fabric, size)| Purchase::of_fabric(context.fabrics, fabric, size));
    findings.extend(purchases.filter_map(|purchase| finding(&purchase)));
}

fn finding(purchase: &Purchase<'_>) -> Option<Finding> {
    let half = Half::least(&purchase.stated.value);
    let amount = half.amount();
    let squaring = Yardage(purchase.shop.squaring);
    // Where nothing is bought, nothing is squared up.
    if !amount.0.is_positive() || amount < purchase.cut || amount >= purchase.cut + squaring {
        return None;
    }
    let left = (amount - purchase.cut).0;
    let rest = if left.is_positive() {
        format!("only {} is", left.show(half.measure(), Round::Down))
    } else {
        "nothing is".to_string()
    };
    let (stated, needed) = (half.stated(), half.show(half.to_buy(&purchase.shop, purchase.cut), Round::Up));
    let told = purchase.words();
    let message = format!(
        "{stated}{} stated; {needed} needed: {}, and {rest} left for squaring up the cut edge, which takes {}.",
        told.of,
        told.working,
        half.up(squaring.0),
    );
    let finding = Finding::new(Label::new(purchase.stated.at, format!("{rest} left for squaring up")), message);
    Some(purchase.explain(told, finding.numbers(stated, needed)))
}
