//! A larger size that needs less than a smaller one, or one number for two sizes that need different ones.

use super::wording::pair::Halves;
use super::{Context, sentence};
use crate::finding::{Finding, Label, Level, Subject, SubjectKind};
use crate::manuscript::model::Size;
use crate::manuscript::{Span, SpanIndex};
use crate::quantity::{Measure, Round};
use crate::requirement::batting::{finished, show};
use crate::requirement::fabric::Shop;
use crate::requirement::series::{Series, SeriesNumber};

/// It runs after the rules of the sections: a number that one of them calls wrong, or asks about, is not compared, nor one
/// that hangs on strips of which one says that they are too few.
pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    // Of two numbers that are both as they should be printed, neither is less than it should be.
    if context.needs.series.are_right() {
        return;
    }
    let told = Told::of(findings);
    let mut found = Vec::new();
    let layers = context.needs.series.layers.iter().map(|series| (SubjectKind::Number, series));
    let fabrics = context.needs.series.fabrics.iter().map(|series| (SubjectKind::Fabric, series));
    for (kind, series) in layers.chain(fabrics) {
        let is_sound = |number: &&SeriesNumber<'_>| !number.is_for_too_few_strips && !told.is_wrong(number.at);
        let sound: Vec<&SeriesNumber<'_>> = series.numbers.iter().filter(is_sound).collect();
        let unlike: Vec<&SeriesNumber<'_>> = sound.iter().copied().filter(|number| !is_as_needed(number)).collect();
        for number in &sound {
            let others = if is_as_needed(number) { &unlike } else { &sound };
            let finding = finding(context.manuscript.measure, series, number, others, &told);
            found.extend(finding.map(|finding| finding.about(Subject::of(kind, series.what))));
        }
    }
    findings.extend(found);
}

/// The places of what other rules say.
struct Told {
    wrong: SpanIndex,
    any: SpanIndex,
}

impl Told {
    fn of(findings: &[Finding]) -> Told {
        let places = |least| findings.iter().filter(move |found| found.level >= least).map(|found| found.at.at);
        Told { wrong: SpanIndex::new(places(Level::Query)), any: SpanIndex::new(places(Level::Note)) }
    }

    fn is_wrong(&self, at: Span) -> bool {
        self.wrong.overlapping(at).next().is_some()
    }

    /// Whether something is said of it, and be it that it is generous.
    fn is_any(&self, at: Span) -> bool {
        self.any.overlapping(at).next().is_some()
    }
}

fn is_as_needed(number: &SeriesNumber<'_>) -> bool {
    number.stated == number.needed
}

fn finding(
    measure: Measure,
    series: &Series<'_>,
    number: &SeriesNumber<'_>,
    others: &[&SeriesNumber<'_>],
    told: &Told,
) -> Option<Finding> {
    let others = || others.iter().copied().filter(|other| other.at != number.at);
    let less = others().find(|smaller| shrinks(number, smaller));
    // Of what is bought in steps, two sizes may well take the same; not where it is more than one of them needs.
    let is_copied = |other: &SeriesNumber<'_>| number.bought.is_none() || told.is_any(other.at);
    let same = || others().find(|other| says_the_same(number, other) && is_copied(other));
    let same = less.is_none().then(same).flatten();
    if less.is_none() && same.is_none() {
        return None;
    }
    let words = |number: &SeriesNumber<'_>| words(measure, series.shop, number);
    let (what, (stated, needed)) = (sentence(series.what), words(number));
    let (message, other) = match (less, same) {
        (Some(other), _) => {
            let message = format!(
                "{what}: {stated} stated for {}, and {} for {}, which is smaller: a larger quilt does not take less.",
                named(measure, number.size),
                words(other).0,
                named(measure, other.size),
            );
            (message, other)
        }
        (None, Some(other)) => {
            let message = format!(
                "{what}: {stated} stated for {} and for {}, and they do not need the same: was a number copied?",
                named(measure, number.size),
                named(measure, other.size),
            );
            (message, other)
        }
        (None, None) => return None,
    };
    let other_needed = words(other).1;
    Some(
        Finding::new(Label::new(number.at, format!("{} needs {needed}", number.size.name)), message)
            .for_size(&number.size.name)
            .see(Some(other.at), format!("{} needs {other_needed}", other.size.name))
            .help(format!("Print {needed} for {}, and {other_needed} for {}.", number.size.name, other.size.name))
            .numbers(stated, needed),
    )
}

/// What is stated and what is needed, both halves of a pair.
fn words(measure: Measure, shop: Option<Shop>, number: &SeriesNumber<'_>) -> (String, String) {
    match number.bought.filter(|bought| bought.stated.second.is_some()).zip(shop) {
        Some((bought, shop)) => {
            let halves = Halves::new(shop, bought.stated);
            (halves.stated(), halves.to_buy(bought.cut))
        }
        None => (number.stated.show(measure), number.needed.show(measure)),
    }
}

/// A size with its measurements, as they are stated.
fn named(measure: Measure, size: &Size) -> String {
    let measurements = finished(size).map(|quilt| format!(" ({})", show(quilt, measure, Round::Down)));
    size.name.clone() + &measurements.unwrap_or_default()
}

/// The larger of two sizes states less, and does not need less.
fn shrinks(larger: &SeriesNumber<'_>, smaller: &SeriesNumber<'_>) -> bool {
    larger.stated.is_less_than(smaller.stated)
        && is_larger(larger.size, smaller.size)
        && !larger.needed.is_less_than(smaller.needed)
}

/// Two sizes state the same, and this one needs more.
fn says_the_same(more: &SeriesNumber<'_>, less: &SeriesNumber<'_>) -> bool {
    more.stated.is_same_as(less.stated) && less.needed.is_less_than(more.needed)
}

/// Larger one way at least, and smaller neither way.
fn is_larger(one: &Size, other: &Size) -> bool {
    let (Some(one), Some(other)) = (finished(one), finished(other)) else { return false };
    one.width >= other.width && one.length >= other.length && one != other
}
