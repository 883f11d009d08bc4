//! The line of the manuscript that a finding points at, in three parts: before the place, the place, and after it.

use serde::Serialize;

use crate::manuscript::Source;
use crate::manuscript::Span;
use crate::report::sanitize_line;

/// A line of the file with a place marked on it.
#[derive(Serialize)]
pub(super) struct Excerpt {
    before: String,
    marked: String,
    after: String,
}

/// How much is shown before the place and after it; a line of a megabyte does not fill the page.
const NEIGHBOURHOOD: usize = 160;

impl Excerpt {
    /// The line on which the place starts.
    pub(super) fn of(source: &Source, at: Span) -> Excerpt {
        let line = source.place(at.start).line;
        let (start, end) = (source.line_start(line), source.line_start(line + 1));
        let end = start + source.text[start..end].trim_end().len();
        let from = at.start.min(end);
        let to = at.end.clamp(from, end);
        let inside = |byte: usize| boundary(&source.text, byte);
        let first = inside(start.max(from.saturating_sub(NEIGHBOURHOOD)));
        let marked = inside(to.min(from + NEIGHBOURHOOD));
        let last = inside(end.min(marked + NEIGHBOURHOOD));
        let part = |from: usize, to: usize| sanitize_line(&source.text[from..to.max(from)]);
        let mut excerpt = Excerpt { before: part(first, from), marked: part(from, marked), after: part(marked, last) };
        if first == start {
            excerpt.before = excerpt.before.trim_start().to_string();
        } else {
            excerpt.before.insert_str(0, "... ");
        }
        if last < end {
            excerpt.after.push_str(" ...");
        }
        excerpt
    }
}

/// The start of the character that a byte is in.
fn boundary(text: &str, byte: usize) -> usize {
    (0..=byte).rev().find(|byte| text.is_char_boundary(*byte)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::Excerpt;
    use crate::manuscript::{Source, Span};

    fn shown(text: &str, start: usize, end: usize) -> String {
        let excerpt = Excerpt::of(&Source::from_text("x.pattern.yaml", text), Span::new(start, end));
        format!("{}[{}]{}", excerpt.before, excerpt.marked, excerpt.after)
    }

    #[test]
    fn the_place_is_marked_on_its_line() {
        assert_eq!(shown("a: 1\n  b: 22 # c\nd: 3\n", 10, 12), "b: [22] # c");
        assert_eq!(shown("a: 1\n", 3, 4), "a: [1]");
        assert_eq!(shown("", 0, 0), "[]");
        assert_eq!(shown("a: [1,\n  2]\n", 3, 11), "a: [[1,]", "no further than its first line");
    }

    #[test]
    fn of_a_long_line_the_neighbourhood_is_shown() {
        let text = format!("{}9{}\n", "ä".repeat(500), "ö".repeat(500));
        let ninth = 1000;
        let line = shown(&text, ninth, ninth + 1);
        assert_eq!(line, format!("... {}[9]{} ...", "ä".repeat(80), "ö".repeat(80)));
    }
}
