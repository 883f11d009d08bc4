//! Quantities as a printer sets them: `2½`, `1 3⁄16`, `×`.

/// Fractions that have a character of their own (Unicode, Latin-1 Supplement and Number Forms).
const FRACTIONS: [(&str, char); 9] = [
    ("1/2", '\u{bd}'),
    ("1/3", '\u{2153}'),
    ("2/3", '\u{2154}'),
    ("1/4", '\u{bc}'),
    ("3/4", '\u{be}'),
    ("1/8", '\u{215b}'),
    ("3/8", '\u{215c}'),
    ("5/8", '\u{215d}'),
    ("7/8", '\u{215e}'),
];

/// U+2044, which fonts set a fraction with.
const FRACTION_SLASH: char = '\u{2044}';

/// A quantity with real fractions, and with the sign for times between its sides.
pub(super) fn typographic(quantity: &str) -> String {
    let mut out = String::with_capacity(quantity.len());
    let mut rest = quantity;
    while let Some(c) = rest.chars().next() {
        if let Some((fraction, length)) = fraction(rest) {
            // 2 1/2 and 2-1/2 are one number.
            let number = |out: &str| out.trim_end_matches([' ', '-']).ends_with(|c: char| c.is_ascii_digit());
            if number(&out) {
                out.truncate(out.trim_end_matches([' ', '-']).len());
                if fraction.chars().count() > 1 {
                    out.push(' ');
                }
            }
            out.push_str(&fraction);
            rest = &rest[length..];
        } else {
            out.push(if matches!(c, 'x' | 'X') { '\u{d7}' } else { c });
            // The rest of a number is not the start of a fraction.
            let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
            let length = c.len_utf8().max(digits);
            out.push_str(&rest[c.len_utf8()..length]);
            rest = &rest[length..];
        }
    }
    out
}

/// The fraction that a text begins with, and how long it is there.
fn fraction(text: &str) -> Option<(String, usize)> {
    let digits = |text: &str| text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let top = digits(text);
    let under = text[top..].strip_prefix('/')?;
    let length = top + 1 + digits(under);
    let (over, under) = (&text[..top], &text[top + 1..length]);
    if over.is_empty() || under.is_empty() {
        return None;
    }
    let known = FRACTIONS.iter().find(|(plain, _)| *plain == &text[..length]);
    let set = known.map_or_else(|| format!("{over}{FRACTION_SLASH}{under}"), |(_, sign)| sign.to_string());
    Some((set, length))
}

#[cfg(test)]
mod tests {
    use super::typographic;

    #[test]
    fn quantities_as_a_printer_sets_them() {
        for (plain, set) in [
            ("2 1/2", "2½"),
            ("2-3/8", "2⅜"),
            ("5/8 yd", "⅝ yd"),
            ("1 3/16 in", "1 3⁄16 in"),
            ("11/64", "11⁄64"),
            ("12 1/2 x 4", "12½ × 4"),
            ("12.6 x 12.6 cm", "12.6 × 12.6 cm"),
            ("9¾x.5", "9¾×.5"),
            ("packaged", "packaged"),
        ] {
            assert_eq!(typographic(plain), set);
        }
    }
}
