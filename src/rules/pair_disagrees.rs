//! The two halves of a dual amount do not say the same.

use std::ops::Range;

use super::binding_words::{buying, cut_working, fabric_correction};
use super::{Context, Rule};
use crate::finding::{Finding, Label, Level};
use crate::manuscript::Span;
use crate::quantity::{Measure, Round, Written, Yardage};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) const RULE: Rule =
    Rule { name: "pair-disagrees", page: include_str!("../../rules/pair-disagrees.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.binding else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
}

/// One half of a pair as it is shown, in its own units.
struct Half {
    at: Span,
    amount: Yardage,
    measure: Measure,
    words: String,
}

fn halves(source: &str, size: &SizeNeeds<'_>) -> Option<(Half, Half)> {
    let stated = size.stated.fabric.stated()?;
    let (second, range) = stated.value.second.as_ref()?;
    let half = |written: &Written, at| {
        let measure = if written.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        let amount = Yardage(written.length);
        Half { at, amount, measure, words: amount.show(measure, Round::Down) }
    };
    // A pair that does not stand in the file to the letter is pointed at whole.
    let (first_at, second_at) = places(source, stated.at, range).unwrap_or((stated.at, stated.at));
    Some((half(&stated.value.first, first_at), half(second, second_at)))
}

/// Where the two halves stand, given where in the value's own text the bracketed one does. The value may be quoted.
fn places(source: &str, pair: Span, bracketed: &Range<usize>) -> Option<(Span, Span)> {
    let text = pair.text(source);
    let quote = usize::from(text.starts_with(['"', '\'']));
    let (start, end) = (quote + bracketed.start, quote + bracketed.end);
    let first = text.get(quote..start)?.trim_end().strip_suffix('(')?.trim_end();
    let closed = text.get(end..)?.trim_start().starts_with(')');
    let at = |start, end| Span::new(pair.start + start, pair.start + end);
    closed.then(|| (at(quote, quote + first.len()), at(start, end)))
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let (first, second) = halves(&context.source.text, size)?;
    let plan = size.cut?;
    let enough = |half: &Half| half.amount >= plan.fabric;
    let (less, more) = if second.amount <= first.amount { (second, first) } else { (first, second) };
    let working = format!("{}; {}.", cut_working(needs, &plan), buying(needs, plan.fabric));
    let finding = match (enough(&less), enough(&more)) {
        (false, true) => {
            let message = format!(
                "{} stated beside {}: {}, so {} is enough, and {} is {} short. Each half of a pair must be enough on its own.",
                less.words,
                more.words,
                cut_working(needs, &plan),
                more.words,
                less.words,
                (plan.fabric - less.amount).0.show(less.measure, Round::Up),
            );
            Finding::new(Label::new(less.at, "not enough"), message).see(Some(more.at), "enough")
        }
        (true, true) if differ(needs, size, &less, &more) => {
            let message = format!(
                "{} stated beside {}: both are enough, but they differ by {}, more than the smallest step in which a shop sells.",
                less.words,
                more.words,
                (more.amount - less.amount).0.show(less.measure, Round::Up),
            );
            Finding::new(Label::new(less.at, "less than its other half"), message)
                .see(Some(more.at), "more than its other half")
                .at_most(Level::Query)
        }
        _ => return None,
    };
    let needed = needs.shop.to_buy(plan.fabric, less.measure.bare_unit()).show(less.measure, Round::Up);
    Some(
        finding
            .for_size(&size.size.name)
            .help(working)
            .numbers(less.words, needed)
            .corrected(fabric_correction(needs, size)),
    )
}

/// Whether the halves are farther apart than the larger of the two steps in which they are sold.
fn differ(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>, less: &Half, more: &Half) -> bool {
    let Some(stated) = size.stated.fabric.stated() else { return false };
    let step = stated.value.halves().map(|half| needs.shop.sold_by(half.unit)).max();
    step.is_some_and(|step| more.amount - less.amount > step)
}
