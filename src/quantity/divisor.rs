//! The greatest common divisor, which puts fractions in lowest terms.

/// The greatest common divisor of two numbers that are not less than nothing, by Euclid's algorithm; nought for two
/// noughts.
pub(crate) fn common_divisor(a: i128, b: i128) -> i128 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}
