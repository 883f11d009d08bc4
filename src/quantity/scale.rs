//! The unit and the step in which lengths are shown together, so that a sum of them adds up as it is shown.
//!
//! A length is shown in the first unit in which it is exact, the manuscript's own first, and the lengths of one working
//! in the first in which all are: rounding each by itself gave sums that did not add up. Only roots, circles and odd
//! fractions are rounded. A test (`tests/independent/sums.rs`) computes every sum that is shown.

use super::count::push_digits;
use super::divisor::divided;
use super::{Length, Measure, Round, Unit, common_divisor};

/// A unit, and the parts of it in which lengths are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    unit: Unit,
    parts: Parts,
}

/// The parts of a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Parts {
    /// Fractions in lowest terms, of halves, quarters and so on down to this.
    Binary(i128),
    /// Fractions in lowest terms of any kind, down to this.
    Fraction(i128),
    /// So many decimals at most.
    Decimal(u32),
    /// Six decimals, and this many of what six do not show.
    Fine(u32),
}

/// What a length is shown in where it is exact in it, the usual first.
const INCHES: [Scale; 6] = [
    Scale::new(Unit::Inch, Parts::Binary(64)),
    // What is whole in metric was written so.
    Scale::new(Unit::Cm, Parts::Decimal(1)),
    Scale::new(Unit::Mm, Parts::Decimal(1)),
    Scale::new(Unit::Inch, Parts::Decimal(4)),
    Scale::new(Unit::Inch, Parts::Fraction(256)),
    Scale::new(Unit::Mm, Parts::Decimal(4)),
];
const CENTIMETRES: [Scale; 3] = [
    Scale::new(Unit::Cm, Parts::Decimal(1)),
    Scale::new(Unit::Mm, Parts::Decimal(1)),
    Scale::new(Unit::Mm, Parts::Decimal(4)),
];
/// Every binary fraction of an inch down to 1/256, and every metric number, is whole in this.
const FINEST: Scale = Scale::new(Unit::Mm, Parts::Decimal(8));

impl Scale {
    const fn new(unit: Unit, parts: Parts) -> Scale {
        Scale { unit, parts }
    }

    /// What lengths of one working are shown in: the first scale in which all are exact. Roots and thirds, which are
    /// exact in none, are rounded to a step of it.
    pub fn of(measure: Measure, lengths: &[Length]) -> Scale {
        let known: &[Scale] = match measure {
            Measure::Inch => &INCHES,
            Measure::Cm => &CENTIMETRES,
        };
        let exact = |lengths: &[Length]| {
            known.iter().chain([&FINEST]).copied().find(|scale| lengths.iter().all(|length| scale.is_exact(*length)))
        };
        if let [only] = lengths {
            let scale = known.iter().copied().find(|scale| scale.is_exact(*only));
            return scale.unwrap_or_else(|| Scale::to_round(measure, &[], &[*only]));
        }
        if let Some(scale) = exact(lengths) {
            return scale;
        }
        let (whole, loose): (Vec<Length>, Vec<Length>) =
            lengths.iter().partition(|length| known.iter().chain([&FINEST]).any(|scale| scale.is_exact(**length)));
        match exact(&whole) {
            None | Some(Scale { parts: Parts::Binary(_), .. }) => Scale::to_round(measure, &whole, &loose),
            Some(scale) => scale,
        }
    }

    /// Whether a length is a binary fraction of an inch or a metric number, and no root or third.
    pub(super) fn is_written(length: Length) -> bool {
        FINEST.is_exact(length)
    }

    /// What one length is shown in in a measure's own units, rounded where it is not exact in them.
    pub fn own(measure: Measure, length: Length) -> Scale {
        let usual = match measure {
            Measure::Inch => INCHES[0],
            Measure::Cm => CENTIMETRES[0],
        };
        if usual.is_exact(length) { usual } else { Scale::to_round(measure, &[], &[length]) }
    }

    /// What lengths with roots among them are shown in: roots to a thousandth of an inch or a tenth of a millimetre.
    pub const fn fine(measure: Measure) -> Scale {
        match measure {
            Measure::Inch => Scale::new(Unit::Inch, Parts::Fine(3)),
            Measure::Cm => Scale::new(Unit::Cm, Parts::Fine(2)),
        }
    }

    /// The same beside lengths that must be exact in it.
    pub fn fine_beside(measure: Measure, lengths: &[Length]) -> Scale {
        let other = match measure {
            Measure::Inch => Measure::Cm,
            Measure::Cm => Measure::Inch,
        };
        let exact = |scale: &Scale| lengths.iter().all(|length| scale.is_exact(*length));
        [Scale::fine(measure), Scale::fine(other)].into_iter().find(exact).unwrap_or(Scale::fine(measure))
    }

    /// What lengths are rounded to that nothing shows exactly: an eighth is what a ruler shows; below an inch it would
    /// be a wild guess.
    fn to_round(measure: Measure, whole: &[Length], loose: &[Length]) -> Scale {
        if measure == Measure::Cm {
            return Scale::new(Unit::Cm, Parts::Decimal(1));
        }
        let eighths = Scale::new(Unit::Inch, Parts::Binary(8));
        let is_coarse = loose.iter().any(|length| length.abs() < Length::inches(1))
            || whole.iter().any(|length| !eighths.is_exact(*length));
        if is_coarse { Scale::new(Unit::Inch, Parts::Binary(64)) } else { eighths }
    }

    /// The step, where there is one.
    fn step(self) -> Option<Length> {
        let parts = match self.parts {
            Parts::Binary(parts) => parts,
            Parts::Fraction(_) => return None,
            // A ten-thousandth is whole in ticks.
            Parts::Decimal(places) | Parts::Fine(places) => 10_i128.pow(places.min(4)),
        };
        let one = self.unit.one().ticks();
        (one % parts == 0).then(|| Length::from_ticks(one / parts))
    }

    /// Whether a length is shown as it is.
    fn is_exact(self, length: Length) -> bool {
        let (ticks, one) = (length.ticks().abs(), self.unit.one().ticks());
        match self.parts {
            Parts::Binary(parts) => divided(ticks * parts, one).1 == 0,
            Parts::Decimal(places) => divided(ticks * 10_i128.pow(places), one).1 == 0,
            Parts::Fine(_) => divided(ticks * 1_000_000, one).1 == 0,
            Parts::Fraction(most) => {
                // What has a 127 below the line is metric.
                let over = one / common_divisor(ticks % one, one);
                over <= most && over % 127 != 0
            }
        }
    }

    /// The length that is shown.
    #[must_use]
    pub fn rounded(self, length: Length, round: Round) -> Length {
        if self.is_exact(length) {
            return length;
        }
        self.step().map_or(length, |step| round.to(length, step))
    }

    /// A length in words: `2 1/2 in`.
    pub fn show(self, length: Length, round: Round) -> String {
        let mut text = self.number(length, round);
        text.push(' ');
        text.push_str(self.unit.mark());
        text
    }

    /// What is needed, rounded up.
    pub fn up(self, length: Length) -> String {
        self.show(length, Round::Up)
    }

    /// What is there, rounded down.
    pub fn down(self, length: Length) -> String {
        self.show(length, Round::Down)
    }

    /// The number without its unit.
    pub fn number(self, length: Length, round: Round) -> String {
        let length = self.rounded(length, round);
        let (ticks, one) = (length.ticks().abs(), self.unit.one().ticks());
        let (whole, rest) = divided(ticks, one);
        let sign = if length.is_negative() { "-" } else { "" };
        let mut text = String::with_capacity(16);
        text.push_str(sign);
        if rest == 0 {
            push_whole(&mut text, whole);
            return text;
        }
        let places = match self.parts {
            Parts::Decimal(places) => Some(places),
            Parts::Fine(_) => Some(6),
            Parts::Binary(_) | Parts::Fraction(_) => None,
        };
        if let Some(places) = places {
            // Beyond the places there is nothing, but for lengths whose step is no whole number of ticks.
            let decimals = rest * 10_i128.pow(places) / one;
            let decimals = format!("{decimals:0width$}", width = places as usize);
            let decimals = decimals.trim_end_matches('0');
            let point = if decimals.is_empty() { "" } else { "." };
            return format!("{sign}{whole}{point}{decimals}");
        }
        let divisor = common_divisor(rest, one);
        if whole > 0 {
            push_whole(&mut text, whole);
            text.push(' ');
        }
        push_whole(&mut text, divided(rest, divisor).0);
        text.push('/');
        push_whole(&mut text, divided(one, divisor).0);
        text
    }
}

/// Adds a number that is not less than nothing to a text.
pub(super) fn push_whole(text: &mut String, number: i128) {
    match u64::try_from(number) {
        Ok(number) => push_digits(text, number),
        Err(_) => text.push_str(&number.to_string()),
    }
}
