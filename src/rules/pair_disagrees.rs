//! The two halves of a dual amount do not say the same.

use std::ops::Range;

use super::fabric_words::Purchase;
use super::half_words::{Half, Halves};
use super::{Context, Rule};
use crate::finding::{Finding, Label, Level};
use crate::manuscript::{Span, Spanned};
use crate::quantity::Amount;

pub(super) const RULE: Rule =
    Rule { name: "pair-disagrees", page: include_str!("../../rules/pair-disagrees.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if let Some(needs) = context.binding {
        // Where the smaller half gives no spare strip, `spare-strip` says so.
        let whole = needs.sizes.iter().filter(|size| size.lacks_spare(needs).is_none());
        let purchases = whole.filter_map(|size| Purchase::of_binding(needs, size));
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

/// One half of a pair and where it stands.
struct Placed<'a> {
    at: Span,
    half: Half<'a>,
}

fn halves<'a>(source: &str, stated: &'a Spanned<Amount>) -> Option<(Placed<'a>, Placed<'a>)> {
    let (_, range) = stated.value.second.as_ref()?;
    // A pair that does not stand in the file to the letter is pointed at whole.
    let (first_at, second_at) = places(source, stated.at, range).unwrap_or((stated.at, stated.at));
    let mut each = Half::each(&stated.value);
    Some((Placed { at: first_at, half: each.next()? }, Placed { at: second_at, half: each.next()? }))
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
    let enough = |placed: &Placed<'_>| placed.half.amount() >= purchase.cut;
    let (less, more) = if second.half.amount() <= first.half.amount() { (second, first) } else { (first, second) };
    if !enough(&more) || (enough(&less) && !differ(purchase, less.half, more.half)) {
        return None;
    }
    let told = purchase.words();
    let halves = Halves::new(purchase.shop, &purchase.stated.value);
    let (both, needed) = (halves.stated(), halves.to_buy(purchase.cut));
    let more_words = more.half.stated();
    let finding = if enough(&less) {
        let message = format!(
            "{both} stated: both are enough, but they differ by {}, more than the smallest step in which a shop sells.",
            halves.up((more.half.amount() - less.half.amount()).0),
        );
        Finding::new(Label::new(less.at, "less than its other half"), message)
            .see(Some(more.at), "more than its other half")
            .at_most(Level::Query)
    } else {
        let message = format!(
            "{both}{} stated: {}, so {more_words} is enough, and {}. Each half of a pair must be enough on its own.",
            told.of,
            told.working,
            halves.short_of(purchase.cut),
        );
        Finding::new(Label::new(less.at, "not enough"), message).see(Some(more.at), "enough")
    };
    Some(purchase.explain(told, finding.numbers(both, needed)))
}

/// Whether the halves are farther apart than the larger of the two steps in which they are sold.
fn differ(purchase: &Purchase<'_>, less: Half<'_>, more: Half<'_>) -> bool {
    let step = purchase.stated.value.halves().map(|half| purchase.shop.sold_by(half.unit)).max();
    step.is_some_and(|step| more.amount() - less.amount() > step)
}
