//! Whether a text that takes the place of another lowers a number in it.
//!
//! Exact: each number is a fraction of whole numbers, and a length is compared as one, so that 24 in may become 3/4 yd.

use std::ops::Range;

/// A number in a text, and how long its unit is, where it has one: in hundredths of a millimetre.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Number {
    /// Where it stands, with its unit.
    at: Range<usize>,
    above: u128,
    below: u128,
    unit: Option<u128>,
}

/// Beyond so many digits nothing is compared: such a number is out of the format's range.
const MOST_DIGITS: usize = 9;

/// The units of length, as the format spells them, in hundredths of a millimetre (1 in = 25.4 mm).
const UNITS: &[(&str, u128)] = &[
    ("\"", 2540),
    ("in", 2540),
    ("inch", 2540),
    ("inches", 2540),
    ("ft", 30_480),
    ("feet", 30_480),
    ("yd", 91_440),
    ("yds", 91_440),
    ("yard", 91_440),
    ("yards", 91_440),
    ("mm", 100),
    ("cm", 1000),
    ("m", 100_000),
    ("metre", 100_000),
    ("metres", 100_000),
    ("meter", 100_000),
    ("meters", 100_000),
];

/// The fractions that Unicode has a sign for.
const SIGNS: &[(char, u128, u128)] = &[
    ('¼', 1, 4),
    ('½', 1, 2),
    ('¾', 3, 4),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
    ('⅕', 1, 5),
    ('⅖', 2, 5),
    ('⅗', 3, 5),
    ('⅘', 4, 5),
    ('⅙', 1, 6),
    ('⅚', 5, 6),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
];

/// Whether a number of the new text is lower than the one that stood in its place, or has none in its place. What cannot
/// be told counts as lower.
pub(super) fn lowers(old: &str, new: &str) -> bool {
    let (Some(old), Some(new)) = (numbers(old), numbers(new)) else { return true };
    new.len() < old.len() || old.iter().zip(&new).any(|(old, new)| is_lower(new, old))
}

/// Whether a number of the new text is more than so many times the one that stood in its place; times is a fraction.
pub(super) fn grows_beyond(old: &str, new: &str, (times, over): (u128, u128)) -> bool {
    let (Some(old), Some(new)) = (numbers(old), numbers(new)) else { return true };
    let most = |old: &Number| Number { above: old.above * times, below: old.below * over, ..old.clone() };
    old.iter().zip(&new).any(|(old, new)| old.above > 0 && is_lower(&most(old), new))
}

/// The new text with each number that it would lower as it was. `None` where nothing would be raised, or where the texts
/// differ in more than their numbers.
pub(super) fn raised(old: &str, new: &str) -> Option<String> {
    let (old_numbers, new_numbers) = (numbers(old)?, numbers(new)?);
    if old_numbers.len() != new_numbers.len() || between(old, &old_numbers) != between(new, &new_numbers) {
        return None;
    }
    let mut text = new.to_string();
    for (before, after) in old_numbers.iter().zip(&new_numbers).rev().filter(|(before, after)| is_lower(after, before))
    {
        text.replace_range(after.at.clone(), &old[before.at.clone()]);
    }
    (text != old).then_some(text)
}

/// What stands between the numbers of a text.
fn between<'t>(text: &'t str, numbers: &[Number]) -> Vec<&'t str> {
    let starts = std::iter::once(0).chain(numbers.iter().map(|number| number.at.end));
    let ends = numbers.iter().map(|number| number.at.start).chain([text.len()]);
    starts.zip(ends).map(|(start, end)| &text[start..end]).collect()
}

fn is_lower(one: &Number, other: &Number) -> bool {
    let (unit, other_unit) = match (one.unit, other.unit) {
        (Some(unit), Some(other_unit)) => (unit, other_unit),
        _ => (1, 1),
    };
    one.above * other.below * unit < other.above * one.below * other_unit
}

/// The numbers of a text in order: `2 1/2 yd`, `2.5`, `3½`. `None` where one is too long to be compared.
fn numbers(text: &str) -> Option<Vec<Number>> {
    if text.split(|c: char| !c.is_ascii_digit()).any(|digits| digits.len() > MOST_DIGITS) {
        return None;
    }
    let mut numbers = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit() || sign(c).is_some()) {
        let (above, below, after) = value(&rest[at..]);
        let (unit, after) = unit(after);
        let start = text.len() - rest.len() + at;
        numbers.push(Number { at: start..text.len() - after.len(), above, below: below.max(1), unit });
        rest = after;
    }
    Some(numbers)
}

fn sign(c: char) -> Option<(u128, u128)> {
    SIGNS.iter().find(|(known, ..)| *known == c).map(|(_, above, below)| (*above, *below))
}

/// The value of the number that a text begins with, as a fraction, and what follows it.
fn value(text: &str) -> (u128, u128, &str) {
    if let Some(fraction) = fraction(text) {
        return fraction;
    }
    let (whole, rest) = digits(text);
    if let Some(after) = rest.strip_prefix('.').filter(|after| after.starts_with(|c: char| c.is_ascii_digit())) {
        let (part, after_part) = digits(after);
        let tens = (0..after.len() - after_part.len()).fold(1, |tens, _| tens * 10);
        return (whole * tens + part, tens, after_part);
    }
    match fraction(rest.trim_start_matches([' ', '-'])) {
        Some((above, below, after)) => (whole * below + above, below, after),
        None => (whole, 1, rest),
    }
}

/// `5/8` or `½`, and what follows it.
fn fraction(text: &str) -> Option<(u128, u128, &str)> {
    if let Some(c) = text.chars().next()
        && let Some((above, below)) = sign(c)
    {
        return Some((above, below, &text[c.len_utf8()..]));
    }
    let (above, rest) = digits(text);
    let below = rest.strip_prefix('/').filter(|below| below.starts_with(|c: char| c.is_ascii_digit()))?;
    let (below, after) = digits(below);
    Some((above, below, after)).filter(|_| rest.len() < text.len())
}

/// The whole number that a text begins with, nought where there is none, and what follows it.
fn digits(text: &str) -> (u128, &str) {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    (text[..end].parse().unwrap_or_default(), &text[end..])
}

/// The unit that a text begins with, where there is one, and what follows it.
fn unit(text: &str) -> (Option<u128>, &str) {
    let word = text.trim_start_matches(' ');
    let end = word.find(|c: char| !c.is_ascii_alphabetic() && c != '"').unwrap_or(word.len());
    match UNITS.iter().find(|(unit, _)| *unit == &word[..end]) {
        Some((_, length)) => (Some(*length), &word[end..]),
        None => (None, text),
    }
}

#[cfg(test)]
mod tests {
    use super::{lowers, raised};

    #[test]
    fn of_several_numbers_those_are_raised_that_are_too_low() {
        assert_eq!(raised("7, fabric: 3/4 yd", "8, fabric: 5/8 yd").as_deref(), Some("8, fabric: 3/4 yd"));
        assert_eq!(raised("54 x 72", "56 x 70").as_deref(), Some("56 x 72"));
        assert_eq!(raised("5/8 yd (70 cm)", "3/4 yd (65 cm)").as_deref(), Some("3/4 yd (70 cm)"));
        assert_eq!(raised("12", "10"), None);
        assert_eq!(raised("7", "8, fabric: 5/8 yd"), None);
        assert_eq!(raised("4 a", "5 b"), None);
    }

    #[test]
    fn more_or_as_much_is_not_lower() {
        let pairs = [
            ("5", "6, fabric: 1/2 yd"),
            ("4 yd", "4 1/2 yd"),
            ("7/8 yd", "1 yd"),
            ("24 in", "3/4 yd"),
            ("3½ in", "3 5/8 in"),
            ("2.5", "2.55"),
            ("5/8 yd (60 cm)", "3/4 yd (70 cm)"),
            ("54 x 72", "54 x 74"),
            ("1-1/4 yd", "1 3/8 yd"),
            ("joint", "join"),
            ("", "6"),
        ];
        for (old, new) in pairs {
            assert!(!lowers(old, new), "{old} to {new}");
        }
    }

    #[test]
    fn less_of_any_number_is_lower() {
        let pairs = [
            ("6", "5"),
            ("1 yd", "7/8 yd"),
            ("27 in", "3/4 m"),
            ("54 x 72", "56 x 70"),
            ("5/8 yd (60 cm)", "3/4 yd (50 cm)"),
            ("2 1/2", "2"),
            ("1 yd or 2 fat quarters", "2 yd"),
            ("1m", "99 cm"),
            ("12345678901", "12345678902"),
        ];
        for (old, new) in pairs {
            assert_eq!(lowers(old, new), (old, new) != ("27 in", "3/4 m"), "{old} to {new}");
        }
    }
}
