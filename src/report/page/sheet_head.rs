//! The pattern's name at the foot of each printed sheet, with the fingerprint of what was checked.
//!
//! It stands in a style, where the template engine does not escape for us: all but letters, digits and spaces is
//! written as numbers.

/// The rule that prints it. A name could hold anything, and in a style nothing is escaped for us: each character but
/// plain letters, digits and spaces is written as its number, which the space after it ends.
pub(super) fn name_on_each_sheet(place: Option<usize>, title: &str, fingerprint: &str) -> String {
    let of_name = in_style(title, LONGEST);
    let fingerprint = if fingerprint.is_empty() { String::new() } else { format!("   {fingerprint}") };
    let sheet = place.map_or_else(String::new, |place| format!("sheet{place} "));
    format!("@page {sheet}{{ @bottom-left {{ content: \"{of_name}{}\"; }} }}\n", in_style(&fingerprint, LONGEST))
}

/// The longest name that fits beside the number of the sheet.
const LONGEST: usize = 60;

fn in_style(text: &str, longest: usize) -> String {
    let shortened = text.chars().count() > longest;
    let mut out: String = text.chars().take(longest).map(in_style_char).collect();
    if shortened {
        out.push_str("...");
    }
    out
}

fn in_style_char(c: char) -> String {
    if c.is_ascii_alphanumeric() || c == ' ' { c.to_string() } else { format!("\\{:06x} ", u32::from(c)) }
}

#[cfg(test)]
mod tests {
    use super::name_on_each_sheet;

    #[test]
    fn a_name_cannot_end_the_style() {
        let rule = name_on_each_sheet(Some(2), "Tide & Co\"; } </style>", "1a2b 3c4d 5e6f");
        assert_eq!(
            rule,
            "@page sheet2 { @bottom-left { content: \"Tide \\000026  Co\\000022 \\00003b  \\00007d  \\00003c \\00002f style\\00003e    1a2b 3c4d 5e6f\"; } }\n"
        );
    }

    #[test]
    fn a_long_name_is_cut_short() {
        assert!(name_on_each_sheet(None, &"x".repeat(61), "").contains(&format!("\"{}...\"", "x".repeat(60))));
        assert!(name_on_each_sheet(None, &"x".repeat(60), "").contains(&format!("\"{}\"", "x".repeat(60))));
    }
}
