//! Buying fabric: what the shop sells by, and how an amount is written again.

use crate::manuscript::Manuscript;
use crate::quantity::{Amount, Length, Measure, Unit, Written, Yardage};
use crate::rule_book::{LengthValue, Settings};

/// What shops sell by where yards are sold.
pub const SOLD_BY: LengthValue = LengthValue::named("sold_by");
/// What shops sell by where metres are sold.
pub const SOLD_BY_METRIC: LengthValue = LengthValue::named("sold_by_metric");
/// What is lost when the cut edge is squared up.
pub const SQUARING: LengthValue = LengthValue::named("squaring");
/// What the house allows beyond the need before it calls an amount generous.
pub const SLACK: LengthValue = LengthValue::named("slack");

/// How fabric is sold for one manuscript.
#[derive(Clone, Copy, Debug)]
pub struct Shop {
    /// The measure that amounts are printed in.
    pub measure: Measure,
    yards_by: Yardage,
    metres_by: Yardage,
    /// What is lost to squaring up.
    pub squaring: Length,
    /// What the house allows beyond the need.
    pub slack: Length,
    /// Whether how much all fabric shrinks is stated, and could not be read.
    pub is_shrinkage_unread: bool,
}

impl Shop {
    /// The steps and allowances in force: the pattern's `sold_by` for its own measure, the rule book's otherwise.
    pub fn new(manuscript: &Manuscript, settings: &Settings) -> Shop {
        let stated = manuscript.assumes.sold_by.value();
        let step = |metric: bool, name: LengthValue| {
            let halves = stated.into_iter().flat_map(|step| {
                std::iter::once((step.unit, step.length)).chain(step.other.map(|other| (other.unit, other.length())))
            });
            let stated = halves.into_iter().find(|(unit, _)| unit.is_metric() == metric);
            Yardage(stated.map_or_else(|| settings.length(name), |(_, length)| length))
        };
        Shop {
            measure: manuscript.measure,
            yards_by: step(false, SOLD_BY),
            metres_by: step(true, SOLD_BY_METRIC),
            squaring: settings.length(SQUARING),
            slack: settings.length(SLACK),
            is_shrinkage_unread: manuscript.assumes.shrinks.is_unread(),
        }
    }

    /// The same shop for fabric that is not squared up, since what is cut off it is counted already.
    #[must_use]
    pub fn without_squaring(self) -> Shop {
        Shop { squaring: Length::ZERO, ..self }
    }

    /// The step in which an amount written in a unit is sold.
    pub fn sold_by(&self, unit: Unit) -> Yardage {
        if unit.is_metric() { self.metres_by } else { self.yards_by }
    }

    /// The step in which the manuscript's own measure is sold.
    pub fn own_step(&self) -> Yardage {
        self.sold_by(self.measure.bare_unit())
    }

    /// What to print for fabric that is cut: with squaring up, rounded up to what the shop sells.
    pub fn to_buy(&self, cut: Yardage, unit: Unit) -> Yardage {
        (cut + Yardage(self.squaring)).up_to(self.sold_by(unit))
    }

    /// From where on an amount is generous: a whole step beyond what to buy and the house's slack.
    pub fn generous_from(&self, cut: Yardage, unit: Unit) -> Yardage {
        self.to_buy(cut, unit) + Yardage(self.slack) + self.sold_by(unit)
    }

    /// What to print for fabric that is cut, written the way an amount is written, both halves of a pair.
    pub fn rewrite(&self, amount: &Amount, cut: Yardage) -> String {
        let half = |written: &Written| written.rewrite(self.to_buy(cut, written.unit).0);
        match &amount.second {
            Some((second, _)) => format!("{} ({})", half(&amount.first), half(second)),
            None => half(&amount.first),
        }
    }
}
