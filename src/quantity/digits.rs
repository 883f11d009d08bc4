//! The characters that numbers are written with.

/// The value of a digit: plain, full-width, raised or lowered.
pub(super) const fn digit(c: char) -> Option<u64> {
    let value = match c {
        '0'..='9' => c as u32 - '0' as u32,
        '０'..='９' => c as u32 - '０' as u32,
        '₀'..='₉' => c as u32 - '₀' as u32,
        '⁰' | '⁴'..='⁹' => c as u32 - '⁰' as u32,
        '¹' => 1,
        '²' => 2,
        '³' => 3,
        _ => return None,
    };
    Some(value as u64)
}

/// A digit on the line.
pub(super) const fn is_plain(c: char) -> bool {
    matches!(c, '0'..='9' | '０'..='９')
}

/// A digit above the line.
pub(super) const fn is_raised(c: char) -> bool {
    matches!(c, '⁰' | '¹' | '²' | '³' | '⁴'..='⁹')
}

/// A digit below the line.
pub(super) const fn is_lowered(c: char) -> bool {
    matches!(c, '₀'..='₉')
}

/// The bar of a fraction.
pub(super) const fn is_slash(c: char) -> bool {
    matches!(c, '/' | '⁄' | '∕' | '／')
}

/// Digits as a number below 10^9: enough for every bound, and no product of two can overflow.
pub(super) fn whole_number(digits: &str) -> Option<u64> {
    digits.chars().try_fold(0, |number, c| Some(number * 10 + digit(c)?).filter(|number| *number < 1_000_000_000))
}
