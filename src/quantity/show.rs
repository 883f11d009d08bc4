//! Lengths and fabric amounts as a pattern prints them.

use super::divisor::divided;
use super::scale::push_whole;
use super::{Length, Measure, Scale, Unit, Written, Yardage, common_divisor, has_times};

/// Which way a length goes that has no exact fraction to print: what is needed goes up, what is there goes down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Round {
    /// To the next step above.
    Up,
    /// To the next step below.
    Down,
}

impl Round {
    pub(super) fn to(self, length: Length, step: Length) -> Length {
        match self {
            Round::Up => length.up_to(step),
            Round::Down => length.down_to(step),
        }
    }
}

impl Length {
    /// The length in a manuscript's measure where that is exact, otherwise in its own: `2 1/2 in`, `6.5 cm`, `63.5 mm`.
    pub fn show(self, measure: Measure, round: Round) -> String {
        Scale::of(measure, &[self]).show(self, round)
    }

    /// The length in the units of a measure, whatever it was written in: 60 cm as `23 1/2 in`.
    pub fn show_as(self, measure: Measure, round: Round) -> String {
        Scale::own(measure, self).show(self, round)
    }

    /// The length that [`Length::show`] tells, so that what is worked from told lengths agrees with them.
    #[must_use]
    pub fn as_shown(self, measure: Measure, round: Round) -> Length {
        Scale::of(measure, &[self]).rounded(self, round)
    }

    /// A length that may be a root, to a thousandth of an inch or a tenth of a millimetre: `3.854 in`, `9.79 cm`.
    pub fn show_fine(self, measure: Measure, round: Round) -> String {
        match measure {
            Measure::Inch if mixed_number(self.ticks(), Length::TICKS_PER_INCH).is_some() => self.show(measure, round),
            _ => Scale::fine(measure).show(self, round),
        }
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
                Some(yards) => yards + " yd",
                None => self.0.show(measure, round),
            },
            Measure::Cm if self.0 < Unit::Metre.one() => self.0.show(measure, round),
            Measure::Cm => {
                let places = if self.0.is_multiple_of(Length::from_ticks(Unit::Mm.one().ticks() / 10)) { 4 } else { 3 };
                format!("{} m", self.0.show_decimal(Unit::Metre, places, round))
            }
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
    /// Another length, written in the unit that this one was written in where that says it exactly. What no unit says
    /// exactly is rounded up, and a root to the step in which it is shown. Where this one was written in both measures, so
    /// is the other.
    pub fn rewrite(&self, length: Length) -> String {
        match self.other {
            Some(other) => other.beside(&Written { bare: false, ..*self }.rewrite_alone(length), &[length]),
            None => self.rewrite_alone(length),
        }
    }

    /// The same in the one measure alone.
    fn rewrite_alone(&self, length: Length) -> String {
        let measure = if self.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        let is_root = !Scale::is_written(length) && mixed_number(length.ticks(), self.unit.one().ticks()).is_none();
        let length = if is_root { length.as_shown(measure, Round::Up) } else { length };
        let one = self.unit.one().ticks();
        let exactly = |most: u32| (1..=most).find(|places| length.ticks() * 10_i128.pow(*places) % one == 0);
        let decimals =
            |places, otherwise| length.show_decimal(self.unit, exactly(places).unwrap_or(otherwise), Round::Up);
        let number = match self.unit {
            Unit::Inch | Unit::Foot | Unit::Yard => match mixed_number(length.ticks(), one) {
                Some(number) => number,
                // An eighth of an inch is 3.175 mm: what is no decimal of an inch is metric, or both together.
                None if self.unit == Unit::Inch && exactly(4).is_none() => {
                    let mm = Written { unit: Unit::Mm, bare: false, ..*self };
                    return mm.rewrite_alone(length);
                }
                None => decimals(4, 4),
            },
            Unit::Mm => decimals(4, 4),
            Unit::Cm => decimals(4, 1),
            Unit::Metre => decimals(4, 3),
        };
        if self.bare { number } else { format!("{number} {}", self.unit.mark()) }
    }
}

/// Other lengths for the two sides of a size, written as these were. Where one of them must have another unit, both
/// have a mark, since the mark of one would count for the other.
pub(crate) fn rewrite_sides((width, length): (&Written, &Written), to: (Length, Length)) -> String {
    if let Some(other) = width.other {
        let alone = |side: &Written| Written { bare: false, other: None, ..*side };
        return other.beside(&rewrite_sides((&alone(width), &alone(length)), to), &[to.0, to.1]);
    }
    let texts = |width: &Written, length: &Written| (width.rewrite_alone(to.0), length.rewrite_alone(to.1));
    let is_marked = |text: &str| text.ends_with(char::is_alphabetic);
    let (first, second) = texts(width, length);
    let (first, second) = if is_marked(&first) == width.bare || is_marked(&second) == length.bare {
        texts(&Written { bare: false, ..*width }, &Written { bare: false, ..*length })
    } else {
        (first, second)
    };
    format!("{first} x {second}")
}

/// A whole number and a fraction in lowest terms, where the fraction is no finer than 1/64.
fn mixed_number(ticks: i128, per_unit: i128) -> Option<String> {
    let (whole, rest) = divided(ticks.abs(), per_unit);
    let mut text = String::with_capacity(16);
    text.push_str(if ticks < 0 { "-" } else { "" });
    if rest == 0 {
        push_whole(&mut text, whole);
        return Some(text);
    }
    let divisor = common_divisor(rest, per_unit);
    let (top, over) = (divided(rest, divisor).0, divided(per_unit, divisor).0);
    if over > 64 {
        return None;
    }
    if whole > 0 {
        push_whole(&mut text, whole);
        text.push(' ');
    }
    push_whole(&mut text, top);
    text.push('/');
    push_whole(&mut text, over);
    Some(text)
}

/// The same where one length may stand for a square, as it does in `text`: it stays one while the sides stay alike.
pub(crate) fn rewrite_square_or_sides(text: &str, sides: (&Written, &Written), to: (Length, Length)) -> String {
    if !has_times(text) && to.0 == to.1 { sides.0.rewrite(to.0) } else { rewrite_sides(sides, to) }
}
