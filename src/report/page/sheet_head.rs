//! The pattern's name at the foot of each printed sheet.
//!
//! It stands in a style, where the template engine does not escape for us: all but letters, digits and spaces is
//! written as numbers.

/// The rule that prints it. A name could hold anything, and in a style nothing is escaped for us: each character but
/// plain letters, digits and spaces is written as its number, which the space after it ends.
pub(super) fn name_on_each_sheet(title: &str) -> String {
    format!("@page {{ @bottom-left {{ content: \"{}\"; }} }}", in_style(title))
}

/// The longest name that fits beside the number of the sheet.
const LONGEST: usize = 70;

fn in_style(text: &str) -> String {
    let shortened = text.chars().count() > LONGEST;
    let mut out: String = text.chars().take(LONGEST).map(in_style_char).collect();
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
        let rule = name_on_each_sheet("Tide & Co\"; } </style>");
        assert_eq!(
            rule,
            "@page { @bottom-left { content: \"Tide \\000026  Co\\000022 \\00003b  \\00007d  \\00003c \\00002f style\\00003e \"; } }"
        );
    }

    #[test]
    fn a_long_name_is_cut_short() {
        assert!(name_on_each_sheet(&"x".repeat(71)).contains(&format!("\"{}...\"", "x".repeat(70))));
        assert!(name_on_each_sheet(&"x".repeat(70)).contains(&format!("\"{}\"", "x".repeat(70))));
    }
}
