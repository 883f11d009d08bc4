//! Quantities that stay whole at the end of a line.

/// Stands for a space at which a line is not broken.
const NO_BREAK_SPACE: char = '\u{a0}';

/// The text with its quantities glued, so that no line ends between `2` and `1/2`, before `in`, or within `48 x 60`.
pub(super) fn nonbreaking(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + text.len() / 8);
    // What is written up to here is in `out`.
    let mut written = 0;
    let spaces = text.bytes().enumerate().filter(|(_, byte)| *byte == b' ').map(|(at, _)| at);
    for at in spaces.filter(|at| is_in_quantity(text, *at)) {
        out.push_str(&text[written..at]);
        out.push(NO_BREAK_SPACE);
        written = at + 1;
    }
    out.push_str(&text[written..]);
    out
}

/// Whether the space at a byte of a text stands within a quantity.
pub(super) fn is_in_quantity(text: &str, space: usize) -> bool {
    // A number, a unit or an x: most words begin otherwise.
    if !matches!(text.as_bytes().get(space + 1), Some(b'0'..=b'9' | b'i' | b'y' | b'c' | b'm' | b'x')) {
        return false;
    }
    let (mut before, mut after) = (text[..space].rsplit(' '), text[space + 1..].split(' '));
    let (last, before_last) = (before.next().unwrap_or_default(), before.next().unwrap_or_default());
    holds_together((before_last, last), after.next().unwrap_or_default(), after.next())
}

/// Whether a word belongs to the quantity that the words before it end with.
fn holds_together((before_last, last): (&str, &str), word: &str, next: Option<&str>) -> bool {
    if ends_with_number(last) {
        let bare = word.split(['.', ',', ':', ';', ')']).next().unwrap_or_default();
        if is_unit(bare) || starts_with_number(bare) && bare.contains('/') {
            return true;
        }
    }
    let measured = |before: &str, word: &str| ends_with_number(word) || is_unit(word) && ends_with_number(before);
    match (last, word) {
        (_, "x") => measured(before_last, last) && next.is_some_and(starts_with_number),
        ("x", _) => starts_with_number(word) && (ends_with_number(before_last) || is_unit(before_last)),
        _ => false,
    }
}

fn is_unit(word: &str) -> bool {
    matches!(word, "in" | "yd" | "cm" | "mm" | "m")
}

fn starts_with_number(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit())
}

fn ends_with_number(word: &str) -> bool {
    word.ends_with(|c: char| c.is_ascii_digit())
}

/// The text with its plain spaces again.
pub(super) fn breaking(text: &str) -> String {
    text.replace(NO_BREAK_SPACE, " ")
}

#[cfg(test)]
mod tests {
    use super::{breaking, nonbreaking};

    /// The text with `_` for each space at which a line is not broken.
    fn shown(text: &str) -> String {
        nonbreaking(text).replace('\u{a0}', "_")
    }

    #[test]
    fn quantities_are_glued_and_words_are_not() {
        assert_eq!(shown("2 1/2 in stated; 3 yd, 60 cm."), "2_1/2_in stated; 3_yd, 60_cm.");
        assert_eq!(shown("A square of 48 x 48 in, or 54 x 72 cm"), "A square of 48_x_48_in, or 54_x_72_cm");
        assert_eq!(shown("is 41 in x 42 1/2 in, and"), "is 41_in_x_42_1/2_in, and");
        assert_eq!(shown("9 strips x 2 1/2 in = 22 1/2 in"), "9 strips x 2_1/2_in = 22_1/2_in");
        assert_eq!(shown("2 x (54 in + 72 in)"), "2 x (54_in + 72_in)");
        assert_eq!(shown(" x 3 in a row x"), " x 3_in a row x");
        assert_eq!(breaking(&nonbreaking(" 48 x 48 in ")), " 48 x 48 in ");
    }
}
