//! The planner: every plan can be cut as it says, no plan is shorter than the bound, and nothing is both enough and short.

use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::planner::{Decision, Item, Remnant, Verdict, decide_small, most_from};

use super::{Fault, Kind, Target, hold};
use crate::pool::Seen;

#[path = "../../../planner/cut_again.rs"]
mod cut_again;

pub(super) const TARGET: Target = Target {
    name: "planner",
    about: "a list of pieces is planned; the plan is cut again piece by piece, and the bound is no longer than it",
    kind: Kind::Numbers,
    share: 3,
    run,
};

/// Numbers from bytes, until there are none left.
struct Numbers<'b>(std::slice::Iter<'b, u8>);

impl Numbers<'_> {
    fn next(&mut self) -> Option<u64> {
        self.0.next().copied().map(u64::from)
    }

    /// A length as pieces have them: eighths, now and then thirds, sixteenths or the longest and the shortest.
    fn length(&mut self) -> Option<Length> {
        let (kind, size) = (self.next()?, i64::try_from(self.next()?).ok()?);
        Some(match kind {
            0..=149 => Length::inch_fraction(4 + size / 2, 8),
            150..=199 => Length::inches(1 + size / 6),
            200..=219 => Length::inch_fraction(1 + size, 3),
            220..=239 => Length::inch_fraction(1 + size * 2, 16),
            240..=245 => Length::millimetres(1 + size * 4),
            246 => Length::LONGEST,
            247 => Length::from_ticks(1 + i128::from(size)),
            248 => Length::ZERO,
            249 => Length::inch_fraction(1 + size, 64),
            _ => Length::inches(size),
        })
    }

    fn count(&mut self) -> Option<Count> {
        let (kind, count) = (self.next()?, self.next()?);
        Some(Count(match kind {
            0..=199 => 1 + count % 24,
            200..=239 => count * 4,
            240 => u64::MAX,
            241 => 100_000,
            _ => count,
        }))
    }

    fn item(&mut self) -> Option<Item> {
        let (across, along, count) = (self.length()?, self.length()?, self.count()?);
        Some(Item { across, along, count, turns: self.next()? < 170 })
    }
}

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let mut numbers = Numbers(input.iter());
    let Some(kind) = numbers.next() else { return Ok(()) };
    let width = match kind {
        0..=199 => Length::inches(i64::try_from(36 + kind % 9).unwrap_or(40)),
        200..=239 => Length::inches(108),
        _ => numbers.length().unwrap_or(Length::ZERO),
    };
    let remnants: Vec<Remnant> = if kind.is_multiple_of(4) {
        numbers.item().map(|Item { across, along, count, .. }| Remnant { across, along, count }).into_iter().collect()
    } else {
        Vec::new()
    };
    let items: Vec<Item> = std::iter::from_fn(|| numbers.item()).take(12).collect();
    planned(&items, width, &remnants, seen)?;
    small(&items, seen)
}

fn planned(items: &[Item], width: Length, remnants: &[Remnant], seen: &mut Seen) -> Result<(), Fault> {
    let decision = Decision::new(items, width, remnants);
    let (least, reason) = decision.least();
    let reason = format!("{reason:?}");
    seen.note(&["reason", reason.split([' ', '(', '{']).next().unwrap_or_default()]);
    hold(decision.quick_least() <= least, "the quick bound is above the other", || format!("{items:?}"))?;
    let plans = [decision.plain(), decision.clever()];
    for plan in plans.iter().flatten() {
        hold(least <= plan.length(), "a plan is shorter than the bound", || format!("{items:?}"))?;
        // With fabric that is there anyway not every piece is in the strips.
        if remnants.is_empty() && !plan.strips.is_empty() {
            cut_again::cut_again(items, width, plan);
        }
    }
    seen.note(&[
        "plans",
        if plans[0].is_some() { "plain" } else { "" },
        if plans[1].is_some() { "clever" } else { "" },
    ]);
    if let Some(best) = decision.best() {
        let verdict = decision.verdict(best.length());
        let enough = matches!(verdict, Verdict::Enough | Verdict::OnlyClever);
        hold(enough, "a plan's own length is not enough", || format!("{verdict:?} for {items:?}"))?;
    }
    if least.is_positive() {
        let verdict = decision.verdict(least - Length::from_ticks(1));
        hold(verdict == Verdict::Short, "less than the bound is not short", || format!("{verdict:?} for {items:?}"))?;
    }
    hold(decision.verdict(least) != Verdict::Short, "the bound itself is short", || format!("{items:?}"))
}

fn small(items: &[Item], seen: &mut Seen) -> Result<(), Fault> {
    let (across, along) = (Length::inches(20), Length::inches(18));
    if let Some(decided) = decide_small(items, across, along) {
        hold(decided.least <= decided.count, "fewer small fabrics are planned than are needed", || {
            format!("{items:?}")
        })?;
        seen.note(&["small", if decided.least == decided.count { "proved" } else { "open" }]);
    }
    if let [first, ..] = items {
        let _ = most_from(first, across, along);
    }
    Ok(())
}
