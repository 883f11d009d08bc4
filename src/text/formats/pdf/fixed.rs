//! Coordinates as whole numbers of 1/65536, so that no floating point decides what belongs together.

use super::object::Object;

/// How many of a coordinate's units are one.
pub(super) const ONE: i64 = 1 << 16;
/// Coordinates beyond this are none of a page.
const LARGEST: i64 = 1 << 47;
/// How many digits after the point say anything.
const DIGITS: usize = 6;

/// The number that digits, a point and a sign are, if they are one.
pub(super) fn parse(text: &[u8]) -> Option<i64> {
    let sign_length = text.iter().take_while(|byte| matches!(byte, b'+' | b'-')).count();
    let is_negative = text[..sign_length].last() == Some(&b'-');
    let digits = &text[sign_length..];
    let point = digits.iter().position(|byte| *byte == b'.').unwrap_or(digits.len());
    let (whole, part) = (&digits[..point], digits.get(point + 1..).unwrap_or_default());
    if whole.is_empty() && part.is_empty() || !whole.iter().chain(part).all(u8::is_ascii_digit) {
        return None;
    }
    let value = |digits: &[u8]| {
        digits.iter().fold(0_i64, |value, digit| (value * 10 + i64::from(digit - b'0')).min(LARGEST / ONE))
    };
    let part = &part[..part.len().min(DIGITS)];
    let ten = (0..part.len()).fold(1_i64, |power, _| power * 10);
    let size = (value(whole) * ONE + value(part) * ONE / ten).min(LARGEST);
    Some(if is_negative { -size } else { size })
}

/// The number that an object is.
pub(super) const fn number(object: &Object) -> Option<i64> {
    match object {
        Object::Number(number) => Some(*number),
        _ => None,
    }
}

/// The product of two.
pub(super) fn times(one: i64, other: i64) -> i64 {
    let product = (i128::from(one) * i128::from(other)) >> 16;
    i64::try_from(product).unwrap_or(if product < 0 { -LARGEST } else { LARGEST }).clamp(-LARGEST, LARGEST)
}

/// A part of a number, in hundredths.
pub(super) const fn percent(of: i64, percent: i64) -> i64 {
    of / 100 * percent + of % 100 * percent / 100
}

/// A way to transform points: `a b c d e f`, as in the files.
#[derive(Clone, Copy, Debug)]
pub(super) struct Matrix(pub(super) [i64; 6]);

impl Matrix {
    pub(super) const IDENTITY: Matrix = Matrix([ONE, 0, 0, ONE, 0, 0]);

    /// A matrix from six numbers of a file.
    pub(super) fn of(operands: &[Object]) -> Option<Matrix> {
        let mut numbers = [0; 6];
        for (at, place) in numbers.iter_mut().enumerate() {
            *place = number(operands.get(at)?)?;
        }
        Some(Matrix(numbers))
    }

    pub(super) const fn moved(x: i64, y: i64) -> Matrix {
        Matrix([ONE, 0, 0, ONE, x, y])
    }

    /// This one, and then the other.
    pub(super) fn then(&self, next: &Matrix) -> Matrix {
        let (own, next) = (self.0, next.0);
        let sum = |one: i64, other: i64| one.saturating_add(other).clamp(-LARGEST, LARGEST);
        let product =
            |row: usize, column: usize| sum(times(own[row], next[column]), times(own[row + 1], next[column + 2]));
        Matrix([
            product(0, 0),
            product(0, 1),
            product(2, 0),
            product(2, 1),
            sum(product(4, 0), next[4]),
            sum(product(4, 1), next[5]),
        ])
    }
}
