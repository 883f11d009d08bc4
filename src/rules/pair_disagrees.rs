//! The two halves of a dual amount, or of a length in both measures, do not say the same.

use std::ops::Range;

use super::Context;
use super::wording::fabric::Purchase;
use super::wording::pair::{Half, Halves};
use super::wording::pair_of_lengths;
use crate::finding::{Finding, Label, Level};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Length, first_half};
use crate::requirement::binding::SizeNeeds;
use crate::requirement::fabrics::FabricSize;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if let Some(needs) = context.needs.binding.as_ref() {
        // Where the smaller half gives no spare strip, `spare-strip` says so.
        let is_pair =
            |size: &&SizeNeeds<'_>| size.stated.fabric.stated().is_some_and(|fabric| fabric.value.second.is_some());
        let whole = needs.sizes.iter().filter(is_pair).filter(|size| size.lacks_spare().is_none());
        let purchases = whole.filter_map(|size| Purchase::of_binding(needs, size));
        findings.extend(purchases.filter_map(|purchase| finding(context, &purchase)));
    }
    if let Some(needs) = context.needs.backing.as_ref() {
        let purchases = needs.sizes.iter().filter_map(|size| Purchase::of_backing(needs, size));
        findings.extend(purchases.filter_map(|purchase| finding(context, &purchase)));
    }
    let fabrics = &context.needs.fabrics;
    let is_pair = |size: &FabricSize<'_>| size.from_bolt().is_some_and(|bolt| bolt.stated.value.second.is_some());
    let pairs = fabrics.each().filter(|(_, size)| is_pair(size));
    let purchases = pairs.filter_map(|(fabric, size)| Purchase::of_fabric(fabrics, fabric, size));
    findings.extend(purchases.filter_map(|purchase| finding(context, &purchase)));
    findings.extend(
        context
            .manuscript
            .pairs
            .iter()
            .filter_map(|pair| pair_of_lengths::finding(context.settings, &context.source.text, pair)),
    );
}

/// One half of a pair and where it stands.
struct PlacedHalf<'a> {
    at: Span,
    half: Half<'a>,
}

fn halves<'a>(source: &str, stated: &'a Spanned<Amount>) -> Option<(PlacedHalf<'a>, PlacedHalf<'a>)> {
    let (_, range) = stated.value.second.as_ref()?;
    // A pair that does not stand in the file to the letter is pointed at whole.
    let (first_at, second_at) = places(source, stated.at, range).unwrap_or((stated.at, stated.at));
    let mut each = Half::each(&stated.value);
    Some((PlacedHalf { at: first_at, half: each.next()? }, PlacedHalf { at: second_at, half: each.next()? }))
}

/// Where the two halves stand, given where in the value's own text the second does. The value may be quoted.
fn places(source: &str, pair: Span, second: &Range<usize>) -> Option<(Span, Span)> {
    let text = pair.text(source);
    let quote = usize::from(text.starts_with(['"', '\'']));
    let (start, end) = (quote + second.start, quote + second.end);
    text.get(start..end)?;
    let first = first_half(text.get(quote..)?, second)?;
    let at = |start, end| Span::new(pair.start + start, pair.start + end);
    (!first.is_empty()).then(|| (at(quote, quote + first.len()), at(start, end)))
}

fn finding(context: &Context<'_>, purchase: &Purchase<'_>) -> Option<Finding> {
    let (first, second) = halves(&context.source.text, purchase.stated)?;
    let enough = |placed: &PlacedHalf<'_>| placed.half.amount() >= purchase.cut;
    let (less, more) = if second.half.amount() <= first.half.amount() { (second, first) } else { (first, second) };
    if !enough(&more) || (enough(&less) && is_explained(purchase, less.half, more.half)) {
        return None;
    }
    let told = purchase.words();
    let halves = Halves::new(purchase.shop, &purchase.stated.value);
    let (both, needed) = (halves.stated(), purchase.needed());
    let more_words = more.half.stated();
    let finding = if enough(&less) {
        let message = format!(
            "{both} stated: both are enough, but they differ by {}, and no usual rounding explains that.",
            halves.up((more.half.amount() - less.half.amount()).0),
        );
        Finding::new(Label::new(less.at, "less than its other half"), message)
            .see(Some(more.at), "more than its other half")
            .at_most(Level::Query)
    } else {
        let message = format!(
            "{both}{} stated: {}, so {more_words} is enough, and {}. Each half of a pair must be enough on its own.{}",
            told.of,
            told.working,
            halves.short_of(purchase.cut),
            purchase.missing(),
        );
        Finding::new(Label::new(less.at, "not enough"), message).see(Some(more.at), "enough")
    };
    Some(purchase.explain(told, finding.numbers(both, needed)))
}

/// Whether the halves say the same as far as they are printed, or each is what to buy for the fabric that is cut.
fn is_explained(purchase: &Purchase<'_>, less: Half<'_>, more: Half<'_>) -> bool {
    let shop = &purchase.shop;
    let as_sold = |half: Half<'_>| {
        let (amount, unit) = (half.amount(), half.unit());
        amount >= shop.to_buy(purchase.cut, unit) && amount < shop.generous_from(purchase.cut, unit)
    };
    if as_sold(less) && as_sold(more) {
        return true;
    }
    let step = |half: Half<'_>| shop.sold_by(half.unit()).0;
    match (less.unit().is_metric(), more.unit().is_metric()) {
        (true, false) => is_rounded((less.amount().0, step(less)), (more.amount().0, step(more))),
        (false, true) => is_rounded((more.amount().0, step(more)), (less.amount().0, step(less))),
        // Two of one kind are not rounded from one another.
        _ => more.amount().0 - less.amount().0 <= step(less).max(step(more)),
    }
}

/// Whether one half of a pair is the other rounded: to the nearest step that it is printed in, or up to what is sold. Each
/// half has the step in which it is sold beside it.
fn is_rounded((metric, metric_by): (Length, Length), (yards, yards_by): (Length, Length)) -> bool {
    let apart = (metric - yards).abs();
    let nearest = |rounded: Length, step: Length| rounded.is_multiple_of(step) && apart * 2 <= step;
    let up =
        |rounded: Length, from: Length, step: Length| rounded >= from && rounded.is_multiple_of(step) && apart < step;
    // Eighths of a yard are printed whatever a shop sells by.
    let eighth = Length::inch_fraction(36, 8);
    apart == Length::ZERO
        || NEAREST_METRIC.iter().any(|step| nearest(metric, Length::millimetres(*step)))
        || UP_METRIC.iter().any(|step| up(metric, yards, Length::millimetres(*step)))
        || up(metric, yards, metric_by)
        || [yards_by, eighth].into_iter().any(|step| nearest(yards, step) || up(yards, metric, step))
}

/// The steps in mm to which metric amounts are rounded, common practice: a tenth of a metre down to the last digit that
/// anybody prints.
const NEAREST_METRIC: [i64; 4] = [100, 50, 10, 1];

/// The steps in mm up to which metric amounts are rounded, common practice: quarters and tenths of a metre, and 5 cm.
const UP_METRIC: [i64; 3] = [250, 100, 50];
