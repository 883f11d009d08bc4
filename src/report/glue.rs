//! Quantities that stay whole at the end of a line.

/// Stands for a space at which a line is not broken.
const GLUE: char = '\u{a0}';

/// The text with its quantities glued, so that no line ends between `2` and `1/2` or before `in`.
pub(super) fn glued(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before = ' ';
    for (index, c) in text.char_indices() {
        let after = text[index..].strip_prefix(' ').map(|rest| rest.split([' ', '.', ',', ':', ';', ')']).next());
        let quantity = after.flatten().is_some_and(|word| {
            matches!(word, "in" | "yd" | "cm" | "mm" | "m")
                || (word.contains('/') && word.starts_with(|c: char| c.is_ascii_digit()))
        });
        out.push(if quantity && before.is_ascii_digit() { GLUE } else { c });
        before = c;
    }
    out
}

/// The text with its plain spaces again.
pub(super) fn unglued(text: &str) -> String {
    text.replace(GLUE, " ")
}
