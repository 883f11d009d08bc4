//! A quantity together with the unit it was written in, so that a correction can be written the same way.

use std::ops::Range;

use super::digits::is_slash;
use super::{Length, Unit, Yardage};

/// A length as somebody wrote it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Written {
    /// The length itself.
    pub length: Length,
    /// The unit it was written in, or the measure's own where it bore no mark.
    pub unit: Unit,
    /// Whether the number bore no mark.
    pub bare: bool,
    /// The same length in the other measure, where it was written in both.
    pub other: Option<OtherHalf>,
}

/// The half of a length in both measures that is not computed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherHalf {
    /// The length in ticks, which no length that may be stated is too long for: as bytes, so that a length takes no more
    /// room for what few have.
    ticks: [u8; 8],
    /// The unit it was written in.
    pub unit: Unit,
    /// Whether it stands before the half that is computed with.
    pub stands_first: bool,
    /// Where in the text the half that stands second does, in bytes (without the brackets).
    second_at: (u16, u16),
}

impl OtherHalf {
    /// The other half of a length, with where the half that stands second does in the text.
    pub(super) fn new(other: Written, stands_first: bool, second_at: &Range<usize>) -> OtherHalf {
        let place = |at: usize| u16::try_from(at).unwrap_or(u16::MAX);
        OtherHalf {
            ticks: i64::try_from(other.length.ticks()).unwrap_or(i64::MAX).to_ne_bytes(),
            unit: other.unit,
            stands_first,
            second_at: (place(second_at.start), place(second_at.end)),
        }
    }

    /// The length itself.
    pub fn length(self) -> Length {
        Length::from_ticks(i128::from(i64::from_ne_bytes(self.ticks)))
    }

    /// Where in the text the half that stands second does, in bytes (without the brackets).
    pub fn second_at(self) -> Range<usize> {
        usize::from(self.second_at.0)..usize::from(self.second_at.1)
    }

    /// The steps to which a length is rounded where it is printed in a second measure, common practice: whole
    /// millimetres below 10 cm, half centimetres from there, and eighths of an inch.
    fn rounded(self, length: Length) -> String {
        let step = match self.unit {
            Unit::Inch | Unit::Foot | Unit::Yard => Length::inch_fraction(1, 8),
            _ if length < Length::millimetres(100) => Length::millimetres(1),
            _ => Length::millimetres(5),
        };
        let nearest = (length + step.half()).down_to(step);
        Written { length: nearest, unit: self.unit, bare: false, other: None }.rewrite(nearest)
    }

    /// What is written for a length in both measures, of which one is in words.
    pub(super) fn beside(self, own: &str, lengths: &[Length]) -> String {
        let each: Vec<String> = lengths.iter().map(|length| self.rounded(*length)).collect();
        let other = each.join(" x ");
        let (first, second) = if self.stands_first { (other.as_str(), own) } else { (own, other.as_str()) };
        format!("{first} ({second})")
    }
}

/// A fabric amount as somebody wrote it, with the second half of a pair such as `5/8 yd (60 cm)`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    /// The amount.
    pub first: Written,
    /// The amount in brackets, and where in the text it stands (without the brackets).
    pub second: Option<(Written, Range<usize>)>,
}

/// The first half of a pair, given where in its text the second stands.
pub(crate) fn first_half<'t>(pair: &'t str, second: &Range<usize>) -> Option<&'t str> {
    let is_between = |c| is_slash(c) || matches!(c, '(' | '（' | ',');
    Some(pair.get(..second.start)?.trim_end().trim_end_matches(is_between).trim_end())
}

impl Amount {
    /// The one amount, or both halves of a pair.
    pub fn halves(&self) -> impl Iterator<Item = &Written> {
        std::iter::once(&self.first).chain(self.second.iter().map(|(written, _)| written))
    }

    /// The amount that stands first.
    pub fn yardage(&self) -> Yardage {
        Yardage(self.first.length)
    }

    /// The amount in brackets.
    pub fn pair(&self) -> Option<Yardage> {
        self.second.as_ref().map(|(written, _)| Yardage(written.length))
    }

    /// The smaller of the two halves of a pair, or the only one.
    pub fn least(&self) -> Yardage {
        self.pair().map_or(self.yardage(), |pair| pair.min(self.yardage()))
    }

    /// The larger of the two halves of a pair, or the only one.
    pub fn most(&self) -> Yardage {
        self.pair().map_or(self.yardage(), |pair| pair.max(self.yardage()))
    }
}
