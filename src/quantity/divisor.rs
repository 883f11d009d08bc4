//! The greatest common divisor, which puts fractions in lowest terms, and division of numbers that nearly all have 64 bits.

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

/// How often a divisor goes into a number, and what is left; neither is less than nothing.
pub(crate) fn divided(number: i128, by: i128) -> (i128, i128) {
    match (u64::try_from(number), u64::try_from(by)) {
        (Ok(number), Ok(by)) => (i128::from(number / by), i128::from(number % by)),
        _ => (number / by, number % by),
    }
}
