//! Enough fabric for the strips, and nothing for squaring up the cut edge.

use super::binding_words::{buying, cut_working, fabric_correction};
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::quantity::{Round, Yardage};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) const RULE: Rule =
    Rule { name: "no-squaring-room", page: include_str!("../../rules/no-squaring-room.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.binding else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(needs, size)));
}

fn finding(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let plan = size.cut?;
    let amount = stated.value.least();
    let squaring = Yardage(needs.shop.squaring);
    if amount < plan.fabric || amount >= plan.fabric + squaring {
        return None;
    }
    let left = (amount - plan.fabric).0;
    let rest = if left.is_positive() { format!("only {} is", needs.down(left)) } else { "nothing is".to_string() };
    let buy = needs.shop.to_buy(plan.fabric, needs.measure.bare_unit());
    let show = |yardage: Yardage, round| yardage.show_both(needs.measure, round);
    let message = format!(
        "{} stated; {} needed: {}, and {rest} left for squaring up the cut edge, which takes {}.",
        show(amount, Round::Down),
        show(buy, Round::Up),
        cut_working(needs, &plan),
        needs.up(squaring.0),
    );
    Some(
        Finding::new(Label::new(stated.at, format!("{rest} left for squaring up")), message)
            .for_size(&size.size.name)
            .see(size.stated.strips.at(), format!("{} to cut", plan.strips.of("strip")))
            .see(needs.stated.strip_width.at(), "how wide each is cut")
            .help(format!("{}; {}.", cut_working(needs, &plan), buying(needs, plan.fabric)))
            .numbers(show(amount, Round::Down), show(buy, Round::Up))
            .corrected(fabric_correction(needs, size)),
    )
}
