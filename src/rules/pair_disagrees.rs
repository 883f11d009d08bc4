//! The two halves of a dual amount do not say the same.

use std::ops::Range;

use super::fabric_words::Purchase;
use super::{Context, Rule};
use crate::finding::{Finding, Label, Level};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Measure, Round, Written, Yardage};

pub(super) const RULE: Rule =
    Rule { name: "pair-disagrees", page: include_str!("../../rules/pair-disagrees.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if let Some(needs) = context.binding {
        let purchases = needs.sizes.iter().filter_map(|size| Purchase::of_binding(needs, size));
        findings.extend(purchases.filter_map(|purchase| finding(context, &purchase)));
    }
    if let Some(needs) = context.backing {
        let purchases = needs.sizes.iter().filter_map(|size| Purchase::of_backing(needs, size));
        findings.extend(purchases.filter_map(|purchase| finding(context, &purchase)));
    }
    let purchases =
        context.fabrics.each().filter_map(|(fabric, size)| Purchase::of_fabric(context.fabrics, fabric, size));
    findings.extend(purchases.filter_map(|purchase| finding(context, &purchase)));
}

/// One half of a pair as it is shown, in its own units.
struct Half {
    at: Span,
    amount: Yardage,
    measure: Measure,
    words: String,
}

fn halves(source: &str, stated: &Spanned<Amount>) -> Option<(Half, Half)> {
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

fn finding(context: &Context<'_>, purchase: &Purchase<'_>) -> Option<Finding> {
    let (first, second) = halves(&context.source.text, purchase.stated)?;
    let enough = |half: &Half| half.amount >= purchase.cut;
    let (less, more) = if second.amount <= first.amount { (second, first) } else { (first, second) };
    let finding = match (enough(&less), enough(&more)) {
        (false, true) => {
            let message = format!(
                "{} stated beside {}: {}, so {} is enough, and {} is {} short. Each half of a pair must be enough on its own.",
                less.words,
                more.words,
                purchase.working,
                more.words,
                less.words,
                (purchase.cut - less.amount).0.show(less.measure, Round::Up),
            );
            Finding::new(Label::new(less.at, "not enough"), message).see(Some(more.at), "enough")
        }
        (true, true) if differ(purchase, &less, &more) => {
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
    let needed = purchase.shop.to_buy(purchase.cut, less.measure.bare_unit()).show(less.measure, Round::Up);
    Some(purchase.explain(finding.numbers(less.words, needed)))
}

/// Whether the halves are farther apart than the larger of the two steps in which they are sold.
fn differ(purchase: &Purchase<'_>, less: &Half, more: &Half) -> bool {
    let step = purchase.stated.value.halves().map(|half| purchase.shop.sold_by(half.unit)).max();
    step.is_some_and(|step| more.amount - less.amount > step)
}
