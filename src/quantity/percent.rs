//! A percentage: how much fabric shrinks when it is washed.

use std::fmt;

use super::grammar::{Fault, FaultKind, read_length};
use super::{Length, Measure};

/// A percentage in hundredths, from nothing to half.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Percent {
    hundredths: i128,
}

/// All of it, in hundredths of a percent.
const WHOLE: i128 = 10_000;

/// The most that is read.
const MOST: i128 = WHOLE / 2;

impl Percent {
    /// What is left of a length when so much of it is gone, rounded down.
    #[must_use]
    pub fn left_of(self, length: Length) -> Length {
        if self.is_nothing() {
            return length;
        }
        Length::from_ticks((length.ticks() * (WHOLE - self.hundredths)).div_euclid(WHOLE))
    }

    /// The length of which so much is left when so much of it is gone, rounded up: the length / (1 - p), and not the length
    /// x (1 + p).
    #[must_use]
    pub fn before(self, left: Length) -> Length {
        if self.is_nothing() {
            return left;
        }
        let over = WHOLE - self.hundredths;
        Length::from_ticks((left.ticks() * WHOLE + over - 1).div_euclid(over))
    }

    /// Whether it is nothing.
    pub const fn is_nothing(self) -> bool {
        self.hundredths == 0
    }
}

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, rest) = (self.hundredths / 100, self.hundredths % 100);
        match rest {
            0 => write!(f, "{whole} %"),
            rest if rest % 10 == 0 => write!(f, "{whole}.{} %", rest / 10),
            rest => write!(f, "{whole}.{rest:02} %"),
        }
    }
}

/// Reads a percentage, such as `3 %`; the mark may be left out.
///
/// # Errors
/// Names the first character that does not belong, or a number beyond 50 or finer than a hundredth.
pub fn read_percent(text: &str) -> Result<Percent, Fault> {
    let trimmed = text.trim_end();
    let number = trimmed.strip_suffix('%').unwrap_or(trimmed);
    let out_of_range = |why: &str| Fault { at: 0..trimmed.len(), kind: FaultKind::OutOfRange, why: why.to_string() };
    // A number is read as lengths are, in whatever way it is written.
    let at_mark = |fault: Fault| {
        let is_there = fault.at.is_empty() && number.len() < trimmed.len();
        if is_there { Fault { at: number.len()..trimmed.len(), ..fault } } else { fault }
    };
    let read = read_length(number, Measure::Inch).map_err(at_mark)?;
    if !read.bare {
        let why = "a percentage is expected here, such as 3 %".to_string();
        return Err(Fault { at: 0..number.len(), kind: FaultKind::Unreadable, why });
    }
    let hundredths = read.length.ticks() * 100;
    if hundredths % Length::TICKS_PER_INCH != 0 {
        return Err(out_of_range("a percentage has two decimals at most"));
    }
    let hundredths = hundredths / Length::TICKS_PER_INCH;
    if hundredths > MOST {
        return Err(out_of_range("fabric shrinks by 50 % at most"));
    }
    Ok(Percent { hundredths })
}

#[cfg(test)]
mod tests {
    use super::read_percent;
    use crate::quantity::Length;

    #[test]
    fn a_percentage_is_read_as_numbers_are_written() {
        for (text, shown) in [("3 %", "3 %"), ("3%", "3 %"), ("2 1/2 %", "2.5 %"), ("0.25", "0.25 %"), ("0", "0 %")] {
            assert_eq!(read_percent(text).map(|percent| percent.to_string()), Ok(shown.to_string()), "{text}");
        }
        // Where a number is missing before the mark, the mark is the place.
        assert_eq!(read_percent(" %").map_err(|fault| fault.at), Err(1..2));
        for text in ["", "%", "51 %", "3 in", "3 % of it", "1/64 %"] {
            assert!(read_percent(text).is_err(), "{text}");
        }
    }

    /// 90 in that shrink by 10 % are made 100 in.
    #[test]
    fn what_is_left_is_divided_by_and_not_added() {
        let ten = read_percent("10 %").unwrap();
        assert_eq!(ten.before(Length::inches(90)), Length::inches(100));
        assert_eq!(ten.left_of(Length::inches(100)), Length::inches(90));
    }
}
