//! The greatest common divisor, which puts fractions in lowest terms.

/// The greatest common divisor of two numbers that are not less than nothing, by Euclid's algorithm; nought for two
/// noughts.
pub(crate) fn common_divisor(a: i128, b: i128) -> i128 {
    // Nearly all numbers have 64 bits, which divide much quicker.
    if let (Ok(mut a), Ok(mut b)) = (u64::try_from(a), u64::try_from(b)) {
        while b != 0 {
            (a, b) = (b, a % b);
        }
        return i128::from(a);
    }
    if b == 0 { a } else { common_divisor(b, a % b) }
}
