//! A length with the words that tell it.

use serde::Serialize;

use crate::quantity::{Amount, Length, Measure, Round, Scale, Yardage};

/// A length of a drawing: as it is shown, and exactly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ShownLength {
    /// As a reader is told it: `117 1/2 in`.
    pub shown: String,
    /// So many inches, as a fraction in lowest terms: `235/2`.
    pub inches: String,
    /// The length itself.
    #[serde(skip)]
    pub length: Length,
}

impl ShownLength {
    /// What is needed, or a place: told rounded up where it is no fraction.
    pub fn up(length: Length, measure: Measure) -> ShownLength {
        ShownLength { shown: signed(length, Round::Up, |length, round| length.show(measure, round)), ..exactly(length) }
    }

    /// What is there, or is left: told rounded down where it is no fraction.
    pub fn down(length: Length, measure: Measure) -> ShownLength {
        ShownLength {
            shown: signed(length, Round::Down, |length, round| length.show(measure, round)),
            ..exactly(length)
        }
    }

    /// What is over of one length beside what is needed: the difference of both as they are shown, so that a reader who
    /// takes the one from the other comes to the same.
    pub fn over(there: Length, needed: Length, measure: Measure) -> ShownLength {
        let over = there.as_shown(measure, Round::Down) - needed.as_shown(measure, Round::Up);
        let over = over.max(Length::ZERO);
        // A sixty-fourth beside a metric length is in no usual unit.
        let scale = Scale::of(measure, &[over, Length::ZERO]);
        ShownLength { shown: scale.down(over), ..exactly(there - needed) }
    }

    /// What the pattern tells to buy: the smaller half of a pair in its own unit, with the manuscript's beside yards. Both
    /// are exact, since what is left of it is told too.
    pub fn stated(amount: &Amount, measure: Measure) -> ShownLength {
        let least = amount.least();
        let metric = amount.halves().find(|half| half.length == least.0).is_some_and(|half| half.unit.is_metric());
        let own = if metric { Measure::Cm } else { Measure::Inch };
        let shown = match (own == measure, own) {
            (true, _) => return ShownLength::amount(least, measure),
            (false, Measure::Inch) => {
                format!("{} ({})", least.show(own, Round::Down), least.0.show(measure, Round::Down))
            }
            // Metric amounts are no fractions of an inch.
            (false, Measure::Cm) => least.show(own, Round::Down),
        };
        ShownLength { shown, ..exactly(least.0) }
    }

    /// An amount of fabric that is needed, as a shop tells it, rounded up.
    pub fn amount_needed(amount: Yardage, measure: Measure) -> ShownLength {
        ShownLength { shown: amount.show_both(measure, Round::Up), ..exactly(amount.0) }
    }

    /// An amount of fabric that is there, as a shop tells it: `3/4 yd (27 in)`.
    pub fn amount(amount: Yardage, measure: Measure) -> ShownLength {
        ShownLength { shown: amount.show_both(measure, Round::Down), ..exactly(amount.0) }
    }
}

/// Less than nothing is told as that much with a sign before it, so that it reads like any other length.
fn signed(length: Length, round: Round, show: impl Fn(Length, Round) -> String) -> String {
    if !length.is_negative() {
        return show(length, round);
    }
    let turned = if round == Round::Up { Round::Down } else { Round::Up };
    format!("-{}", show(-length, turned))
}

fn exactly(length: Length) -> ShownLength {
    let (top, over) = length.in_inches();
    let inches = if over == 1 { top.to_string() } else { format!("{top}/{over}") };
    ShownLength { shown: String::new(), inches, length }
}
