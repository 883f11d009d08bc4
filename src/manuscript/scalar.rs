//! Writing a name into a YAML text, so that whoever reads it reads that name.
//!
//! One piece of code writes all names: plain where that is safe in every place and for every reader of YAML, otherwise
//! in double quotes; quotes that stood there stay.

use crate::sanitize::is_wild;

/// Words that readers of YAML take for something else than a name.
const RESERVED: [&str; 9] = ["null", "true", "false", "yes", "no", "on", "off", "y", "n"];

/// A name as it is written in place of another value or word: plain where that is safe in every place, otherwise in
/// double quotes. Quotes that stood there stay, for `{"lap":5}` without them is no entry.
pub(crate) fn name_in_place(name: &str, replaced: &str) -> String {
    if is_quoted(replaced) || !is_plain(name) { in_quotes(name) } else { name.to_string() }
}

/// A word of the format as it is written in place of another: plain, or in the quotes that stood there.
pub(crate) fn word_in_place(word: &str, replaced: &str) -> String {
    if is_quoted(replaced) { in_quotes(word) } else { word.to_string() }
}

fn is_quoted(replaced: &str) -> bool {
    replaced.starts_with(['"', '\''])
}

/// Whether a name is read as itself without quotes, in lines, in brackets and before a colon.
pub(crate) fn is_plain(name: &str) -> bool {
    let is_safe = |c: char| c.is_alphanumeric() || matches!(c, '_' | '-' | '.' | '/' | ' ');
    name.starts_with(char::is_alphabetic)
        && !name.ends_with(' ')
        && name.chars().all(is_safe)
        && !RESERVED.iter().any(|word| name.eq_ignore_ascii_case(word))
}

fn in_quotes(name: &str) -> String {
    let mut quoted = String::from("\"");
    for c in name.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            // Invisible characters, and the two that no YAML text may hold.
            c if is_wild(c) || matches!(c, '\u{fffe}' | '\u{ffff}') => {
                quoted.push_str(&format!("\\U{:08x}", u32::from(c)));
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}
