//! A length, exactly.
//!
//! It is a whole number of ticks, 731,520,000 to the inch, instead of a general fraction. Sixty-fourths, thirds and
//! fifths of an inch, ten-thousandths of an inch and tenths of a micrometer are all whole, and so are halves and
//! quarters of these. Sums and comparisons are exact integer arithmetic, nothing below 10^38 overflows, and it is fast.
//! A number that would not be whole is refused when it is read.

use std::iter::Sum;
use std::ops::{Add, Mul, Neg, Sub};

use super::{Count, common_divisor};

/// A length, held as a whole number of ticks of 1/731,520,000 inch.
///
/// 731,520,000 is 2^10 x 3^2 x 5^4 x 127. Every number that the grammar accepts is whole in ticks: inches and
/// yards in fractions to 1/64, thirds, fifths, and decimals to four places; millimetres, since 1 in is 25.4 mm
/// exactly (International Yard and Pound, 1 July 1959) and so 1 mm is 5/127 in. Halves and quarters of all of
/// these are whole too. What would not be whole is refused when it is read, so nothing is ever rounded.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length {
    ticks: i128,
}

impl Length {
    /// Ticks in one inch.
    pub const TICKS_PER_INCH: i128 = 731_520_000;
    /// No length at all.
    pub const ZERO: Length = Length { ticks: 0 };
    /// The longest length that a manuscript may state: 2000 in.
    pub const LONGEST: Length = Length::inches(2000);

    /// So many ticks.
    pub const fn from_ticks(ticks: i128) -> Length {
        Length { ticks }
    }

    /// So many whole inches.
    pub const fn inches(inches: i64) -> Length {
        Length { ticks: inches as i128 * Self::TICKS_PER_INCH }
    }

    /// A fraction of an inch, `over` being one of 1 to 64 whose ticks are whole: 2, 4, 8, 16, 32, 64, 3, 5.
    pub const fn inch_fraction(top: i64, over: i64) -> Length {
        Length { ticks: top as i128 * Self::TICKS_PER_INCH / over as i128 }
    }

    /// So many whole millimetres.
    pub const fn millimetres(mm: i64) -> Length {
        Length { ticks: mm as i128 * Self::TICKS_PER_INCH * 5 / 127 }
    }

    /// The length in ticks.
    pub const fn ticks(self) -> i128 {
        self.ticks
    }

    /// Half of the length.
    #[must_use]
    pub const fn half(self) -> Length {
        Length { ticks: self.ticks / 2 }
    }

    /// So many inches, as a fraction in lowest terms: what stands above its line, and what stands below.
    pub fn in_inches(self) -> (i128, i128) {
        let divisor = common_divisor(self.ticks.abs(), Self::TICKS_PER_INCH);
        (self.ticks / divisor, Self::TICKS_PER_INCH / divisor)
    }

    /// Less than nothing.
    pub const fn is_negative(self) -> bool {
        self.ticks < 0
    }

    /// More than nothing.
    pub const fn is_positive(self) -> bool {
        self.ticks > 0
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Length {
        Length { ticks: self.ticks.abs() }
    }

    /// How many whole pieces of length `piece` come out of this length; none where `piece` is not positive.
    pub fn pieces_of(self, piece: Length) -> Count {
        if !piece.is_positive() || self.is_negative() {
            return Count(0);
        }
        let whole = match self.in_64_bits(piece) {
            Some((ticks, piece)) => i128::from(ticks / piece),
            None => self.ticks / piece.ticks,
        };
        Count(u64::try_from(whole).unwrap_or(u64::MAX))
    }

    /// How many of `piece` it takes to cover this length; `None` where `piece` is not positive.
    pub fn covered_by(self, piece: Length) -> Option<Count> {
        if !piece.is_positive() {
            return None;
        }
        if !self.is_positive() {
            return Some(Count(0));
        }
        let whole = match self.in_64_bits(piece) {
            Some((ticks, piece)) => i128::from(ticks.div_ceil(piece)),
            None => (self.ticks + piece.ticks - 1) / piece.ticks,
        };
        Some(Count(u64::try_from(whole).unwrap_or(u64::MAX)))
    }

    /// The next multiple of `step` at or above this length; the length itself where `step` is not positive.
    #[must_use]
    pub fn up_to(self, step: Length) -> Length {
        if !step.is_positive() {
            return self;
        }
        match self.in_64_bits(step) {
            Some((ticks, step)) if ticks % step == 0 => self,
            Some((ticks, step)) => Length { ticks: self.ticks + i128::from(step - ticks % step) },
            None => Length { ticks: self.ticks + (-self.ticks).rem_euclid(step.ticks) },
        }
    }

    /// The next multiple of `step` at or below this length; the length itself where `step` is not positive.
    #[must_use]
    pub fn down_to(self, step: Length) -> Length {
        if !step.is_positive() {
            return self;
        }
        let rest = match self.in_64_bits(step) {
            Some((ticks, step)) => i128::from(ticks % step),
            None => self.ticks.rem_euclid(step.ticks),
        };
        Length { ticks: self.ticks - rest }
    }

    /// This length and another that is more than nothing, where neither takes more than 64 bits, as nearly none does:
    /// these divide much quicker.
    fn in_64_bits(self, other: Length) -> Option<(u64, u64)> {
        u64::try_from(self.ticks).ok().zip(u64::try_from(other.ticks).ok())
    }

    /// So many times the length.
    fn times(self, count: i128) -> Length {
        match (i64::try_from(self.ticks), i64::try_from(count)) {
            // The product of two numbers of 64 bits is none too large, so that nothing is checked.
            (Ok(ticks), Ok(count)) => Length { ticks: i128::from(ticks) * i128::from(count) },
            _ => Length { ticks: self.ticks * count },
        }
    }

    /// Whether the length is a whole number of `step`.
    pub fn is_multiple_of(self, step: Length) -> bool {
        self.down_to(step) == self
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length { ticks: self.ticks + other.ticks }
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length { ticks: self.ticks - other.ticks }
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length { ticks: -self.ticks }
    }
}

impl Mul<Count> for Length {
    type Output = Length;
    fn mul(self, count: Count) -> Length {
        self.times(i128::from(count.0))
    }
}

impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, times: i64) -> Length {
        self.times(i128::from(times))
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(lengths: I) -> Length {
        lengths.fold(Length::ZERO, Add::add)
    }
}
