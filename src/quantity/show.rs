//! Lengths and fabric amounts as a pattern prints them.

use super::{Length, Measure, Unit, Written, Yardage, common_divisor};

/// Which way a length goes that has no exact fraction to print: what is needed goes up, what is there goes down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Round {
    /// To the next step above.
    Up,
    /// To the next step below.
    Down,
}

impl Round {
    fn to(self, length: Length, step: Length) -> Length {
        match self {
            Round::Up => length.up_to(step),
            Round::Down => length.down_to(step),
        }
    }
}

impl Length {
    /// The length in a manuscript's measure: `2 1/2 in`, `6.4 cm`.
    pub fn show(self, measure: Measure, round: Round) -> String {
        match measure {
            Measure::Inch => format!("{} in", self.show_inches(round)),
            Measure::Cm => format!("{} cm", self.show_decimal(Unit::Cm, 1, round)),
        }
    }

    /// The length that [`Length::show`] tells, so that what is worked from told lengths agrees with them.
    #[must_use]
    pub fn as_shown(self, measure: Measure, round: Round) -> Length {
        match measure {
            Measure::Inch if mixed_number(self.ticks(), Length::TICKS_PER_INCH).is_some() => self,
            Measure::Inch => {
                // An eighth is what a ruler shows; below an inch an eighth would be a wild guess.
                let step = if self.abs() >= Length::inches(1) { 8 } else { 64 };
                round.to(self, Length::inch_fraction(1, step))
            }
            Measure::Cm => round.to(self, Length::millimetres(1)),
        }
    }

    /// A length that is no fraction, to a thousandth of an inch or a tenth of a millimetre: `3.854 in`, `9.79 cm`.
    pub fn show_fine(self, measure: Measure, round: Round) -> String {
        let (unit, places) = match measure {
            Measure::Inch => (Unit::Inch, 3),
            Measure::Cm => (Unit::Cm, 2),
        };
        match (measure, mixed_number(self.ticks(), Length::TICKS_PER_INCH)) {
            (Measure::Inch, Some(exact)) => format!("{exact} in"),
            _ => format!("{} {}", self.show_decimal(unit, places, round), unit.mark()),
        }
    }

    /// The number of inches alone: exact where a fraction to 1/64 is, otherwise rounded.
    fn show_inches(self, round: Round) -> String {
        mixed_number(self.as_shown(Measure::Inch, round).ticks(), Length::TICKS_PER_INCH).unwrap_or_default()
    }

    /// The number of `unit` with at most `places` decimals, without needless zeros.
    fn show_decimal(self, unit: Unit, places: u32, round: Round) -> String {
        let per_unit = 10_i128.pow(places);
        let step = Length::from_ticks(unit.one().ticks() / per_unit);
        let steps = round.to(self, step).ticks() / step.ticks();
        let (whole, rest) = (steps.abs() / per_unit, steps.abs() % per_unit);
        let sign = if steps < 0 { "-" } else { "" };
        let decimals = format!("{rest:0width$}", width = places as usize);
        match decimals.trim_end_matches('0') {
            "" => format!("{sign}{whole}"),
            decimals => format!("{sign}{whole}.{decimals}"),
        }
    }
}

impl Yardage {
    /// The amount as a shop sells it: `5/8 yd`, `60 cm`, `1.25 m`.
    ///
    /// An inch manuscript's amount that is no fraction of a yard that a shop would measure is shown in inches.
    pub fn show(self, measure: Measure, round: Round) -> String {
        match measure {
            Measure::Inch => match yards(self.0) {
                Some(yards) => format!("{yards} yd"),
                None => self.0.show(measure, round),
            },
            Measure::Cm if self.0 < Unit::Metre.one() => self.0.show(measure, round),
            Measure::Cm => format!("{} m", self.0.show_decimal(Unit::Metre, 3, round)),
        }
    }

    /// The amount with its length in inches beside it, for the working: `3/4 yd (27 in)`.
    pub fn show_both(self, measure: Measure, round: Round) -> String {
        match measure {
            Measure::Inch if yards(self.0).is_some() => {
                format!("{} ({})", self.show(measure, round), self.0.show(measure, round))
            }
            _ => self.show(measure, round),
        }
    }
}

/// Yards in eighths or thirds, the steps that shops sell.
fn yards(length: Length) -> Option<String> {
    let yard = Unit::Yard.one();
    let sold = [8, 6, 16].iter().any(|over| length.is_multiple_of(Length::inch_fraction(36, *over)));
    if sold { mixed_number(length.ticks(), yard.ticks()) } else { None }
}

impl Written {
    /// Another length, written in the unit that this one was written in, rounded up if it must be.
    pub fn rewrite(&self, length: Length) -> String {
        let number = match self.unit {
            Unit::Inch => length.show_inches(Round::Up),
            Unit::Yard => mixed_number(length.ticks(), self.unit.one().ticks())
                .unwrap_or_else(|| length.show_decimal(self.unit, 4, Round::Up)),
            Unit::Mm | Unit::Cm => length.show_decimal(self.unit, 1, Round::Up),
            Unit::Metre => length.show_decimal(self.unit, 3, Round::Up),
        };
        if self.bare { number } else { format!("{number} {}", self.unit.mark()) }
    }
}

/// A whole number and a fraction in lowest terms, where the fraction is no finer than 1/64.
fn mixed_number(ticks: i128, per_unit: i128) -> Option<String> {
    let (whole, rest) = (ticks.abs() / per_unit, ticks.abs() % per_unit);
    let sign = if ticks < 0 { "-" } else { "" };
    if rest == 0 {
        return Some(format!("{sign}{whole}"));
    }
    let divisor = common_divisor(rest, per_unit);
    let (top, over) = (rest / divisor, per_unit / divisor);
    match (over <= 64, whole) {
        (false, _) => None,
        (true, 0) => Some(format!("{sign}{top}/{over}")),
        (true, whole) => Some(format!("{sign}{whole} {top}/{over}")),
    }
}
