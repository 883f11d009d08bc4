//! Places of findings as links to their files, for terminals that have links (OSC 8).
//!
//! A line is changed after it was made safe, and nothing but the place at its end: a path that names a file, a line and a
//! column.

use std::env;

use crate::sanitize::colour_code;
use crate::uri::reference;

const START: &str = "\u{1b}]8;;";
const END: &str = "\u{1b}\\";

/// Whether the terminal is one that is known to show links. `FORCE_HYPERLINK` decides where it is set; a multiplexer
/// between may pass them on or not, so none are sent to it.
pub fn terminal_has_links() -> bool {
    has_links(|name| env::var(name).ok())
}

fn has_links(value: impl Fn(&str) -> Option<String>) -> bool {
    let is_set = |name: &str| value(name).is_some_and(|value| !value.is_empty());
    if let Some(forced) = value("FORCE_HYPERLINK") {
        return !matches!(forced.as_str(), "" | "0");
    }
    if is_set("TMUX") || is_set("STY") {
        return false;
    }
    let program = value("TERM_PROGRAM").unwrap_or_default();
    let term = value("TERM").unwrap_or_default();
    let vte = value("VTE_VERSION").and_then(|version| version.parse::<u32>().ok());
    matches!(program.as_str(), "iTerm.app" | "WezTerm" | "vscode" | "ghostty")
        || ["kitty", "foot", "alacritty", "ghostty"].iter().any(|known| term.contains(known))
        || ["WT_SESSION", "KONSOLE_VERSION", "KITTY_WINDOW_ID"].iter().any(|name| is_set(name))
        || vte.is_some_and(|version| version >= 5000)
}

/// A line with the place that it ends with as a link: `error: fold-short at a/b.pattern.yaml:5:16`. `None` where it ends
/// with no place in a file.
pub(crate) fn with_link(line: &str) -> Option<String> {
    let (body, codes) = without_codes(line);
    let (before, place) = body.rsplit_once(" at ")?;
    let mut parts = place.rsplitn(3, ':');
    let (column, number, path) = (parts.next()?, parts.next()?, parts.next()?);
    let is_number = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    if !is_number(column) || !is_number(number) || place.contains('\u{1b}') {
        return None;
    }
    let file = std::path::absolute(path).ok().filter(|file| file.is_file())?;
    Some(format!("{before} at {START}{}{END}{place}{START}{END}{codes}", reference(&file).0))
}

/// A line without the codes for colors at its end, and these.
fn without_codes(line: &str) -> (&str, &str) {
    let mut end = line.len();
    while let Some(code) = line[..end].rfind('\u{1b}').filter(|code| colour_code(&line[*code..end]) == Some(end - code))
    {
        end = code;
    }
    line.split_at(end)
}

#[cfg(test)]
mod tests {
    use super::{has_links, with_link};

    #[test]
    fn a_place_in_a_file_is_a_link() {
        let here = std::path::absolute("Cargo.toml").expect("a path");
        let line = "\u{1b}[31merror: fold-short at Cargo.toml:5:16\u{1b}[0m";
        let url = format!("file://{}", here.display());
        let expected =
            format!("\u{1b}[31merror: fold-short at \u{1b}]8;;{url}\u{1b}\\Cargo.toml:5:16\u{1b}]8;;\u{1b}\\\u{1b}[0m");
        assert_eq!(with_link(line), Some(expected));
        for none in ["error: fold-short", "x at nowhere.yaml:5:16", "x at Cargo.toml:a:1", "x at Cargo.toml:5", ""] {
            assert_eq!(with_link(none), None, "{none}");
        }
    }

    #[test]
    fn links_are_for_terminals_that_have_them() {
        let with = |set: &[(&str, &str)]| {
            let set: Vec<(String, String)> =
                set.iter().map(|(name, value)| (name.to_string(), value.to_string())).collect();
            has_links(|name| set.iter().find(|(known, _)| known == name).map(|(_, value)| value.clone()))
        };
        assert!(
            with(&[("VTE_VERSION", "7200")]) && with(&[("TERM", "xterm-kitty")]) && with(&[("FORCE_HYPERLINK", "1")])
        );
        assert!(!with(&[]) && !with(&[("TERM", "xterm-256color")]) && !with(&[("VTE_VERSION", "4600")]));
        assert!(!with(&[("TERM", "foot"), ("TMUX", "/tmp/t")]) && !with(&[("TERM", "foot"), ("FORCE_HYPERLINK", "0")]));
    }
}
