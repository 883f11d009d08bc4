//! The two halves of a dual amount do not say the same.

use std::ops::Range;

use super::{Context, Rule, backing_words, binding_words};
use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::model::Size;
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Measure, Round, Written, Yardage};
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::fabric::Shop;

pub(super) const RULE: Rule =
    Rule { name: "pair-disagrees", page: include_str!("../../rules/pair-disagrees.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let text = &context.source.text;
    if let Some(needs) = context.binding {
        let fabrics = needs.sizes.iter().filter_map(|size| of_binding(needs, size));
        findings.extend(fabrics.filter_map(|fabric| finding(text, fabric)));
    }
    if let Some(needs) = context.backing {
        let fabrics = needs.sizes.iter().filter_map(|size| of_backing(needs, size));
        findings.extend(fabrics.filter_map(|fabric| finding(text, fabric)));
    }
}

/// A stated amount of fabric, and what is cut from it.
struct Fabric<'m> {
    size: &'m Size,
    stated: &'m Spanned<Amount>,
    shop: &'m Shop,
    /// What is cut from it.
    cut: Yardage,
    /// The same in words: `9 strips x 2 1/2 in = 22 1/2 in`.
    cutting: String,
    /// What to buy for it, in words.
    working: String,
    correction: Option<Correction>,
}

fn of_binding<'m>(needs: &'m BindingNeeds<'m>, size: &'m SizeNeeds<'m>) -> Option<Fabric<'m>> {
    let (stated, plan) = (size.stated.fabric.stated()?, size.cut?);
    let cutting = binding_words::cut_working(needs, &plan);
    let working = format!("{cutting}; {}.", binding_words::buying(needs, plan.fabric));
    let correction = binding_words::fabric_correction(needs, size);
    Some(Fabric { size: size.size, stated, shop: &needs.shop, cut: plan.fabric, cutting, working, correction })
}

fn of_backing<'m>(needs: &'m BackingNeeds<'m>, size: &'m SizeBacking<'m>) -> Option<Fabric<'m>> {
    let (stated, panels) = (size.stated.fabric.stated()?, &size.panels);
    let cutting = backing_words::fabric_working(needs, panels);
    let working = format!("{cutting}; buy {}.", backing_words::buy(needs, panels));
    let correction = backing_words::fabric_correction(needs, size);
    Some(Fabric { size: size.size, stated, shop: &needs.shop, cut: panels.fabric, cutting, working, correction })
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

fn finding(source: &str, fabric: Fabric<'_>) -> Option<Finding> {
    let (first, second) = halves(source, fabric.stated)?;
    let (cut, cutting) = (fabric.cut, &fabric.cutting);
    let enough = |half: &Half| half.amount >= cut;
    let (less, more) = if second.amount <= first.amount { (second, first) } else { (first, second) };
    let finding = match (enough(&less), enough(&more)) {
        (false, true) => {
            let message = format!(
                "{} stated beside {}: {cutting}, so {} is enough, and {} is {} short. Each half of a pair must be enough on its own.",
                less.words,
                more.words,
                more.words,
                less.words,
                (cut - less.amount).0.show(less.measure, Round::Up),
            );
            Finding::new(Label::new(less.at, "not enough"), message).see(Some(more.at), "enough")
        }
        (true, true) if differ(&fabric, &less, &more) => {
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
    let needed = fabric.shop.to_buy(cut, less.measure.bare_unit()).show(less.measure, Round::Up);
    Some(
        finding
            .for_size(&fabric.size.name)
            .help(fabric.working)
            .numbers(less.words, needed)
            .corrected(fabric.correction),
    )
}

/// Whether the halves are farther apart than the larger of the two steps in which they are sold.
fn differ(fabric: &Fabric<'_>, less: &Half, more: &Half) -> bool {
    let step = fabric.stated.value.halves().map(|half| fabric.shop.sold_by(half.unit)).max();
    step.is_some_and(|step| more.amount - less.amount > step)
}
