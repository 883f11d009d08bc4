//! Positions as editors count them: lines from 0, and in a line the units of an encoding; and back to bytes.
//!
//! Which encoding it is, an editor and its service agree on (Language Server Protocol 3.17, "Position"). A line ends at
//! LF, CR LF or a CR alone there too, so that the lines are those of [`Source`].

use super::Source;
use super::source::line_starts;

/// What a position counts in a line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PositionEncoding {
    /// Bytes of UTF-8.
    Utf8,
    /// Units of UTF-16, two for a character beyond U+FFFF.
    #[default]
    Utf16,
}

/// A position between two characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// The line, the first being 0.
    pub line: u32,
    /// How many units of the encoding stand before it in the line.
    pub character: u32,
}

impl PositionEncoding {
    /// How many units a text takes.
    fn units(self, text: &str) -> usize {
        match self {
            PositionEncoding::Utf8 => text.len(),
            PositionEncoding::Utf16 => text.chars().map(char::len_utf16).sum(),
        }
    }

    /// How many bytes of a text its first units take. Units that end inside a character end before it.
    fn bytes(self, text: &str, units: usize) -> usize {
        let mut left = units;
        let fits = |c: &char| {
            let width = match self {
                PositionEncoding::Utf8 => c.len_utf8(),
                PositionEncoding::Utf16 => c.len_utf16(),
            };
            let fits = width <= left;
            left = left.saturating_sub(width);
            fits
        };
        text.chars().take_while(fits).map(char::len_utf8).sum()
    }
}

impl Source {
    /// The position of a byte offset. An offset beyond the end is taken as the end.
    pub fn position(&self, byte: usize, encoding: PositionEncoding) -> Position {
        let byte = byte.min(self.text.len());
        let line = self.place(byte).line;
        let before = self.text.get(self.line_start(line)..byte).unwrap_or_default();
        Position { line: number(line - 1), character: number(encoding.units(before)) }
    }
}

/// The byte offset of a position in a text. A position beyond the end of its line is taken as that end, before what ends
/// the line, and a line beyond the last as the end of the text.
pub fn byte_at(text: &str, position: Position, encoding: PositionEncoding) -> usize {
    let line = usize::try_from(position.line).unwrap_or(usize::MAX);
    let Some(start) = line_starts(text).nth(line) else { return text.len() };
    let rest = &text[start..];
    let line = &rest[..rest.find(['\n', '\r']).unwrap_or(rest.len())];
    start + encoding.bytes(line, usize::try_from(position.character).unwrap_or(usize::MAX))
}

/// Texts are at most a few megabytes long.
fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::{Position, PositionEncoding, byte_at};
    use crate::manuscript::Source;

    const TEXT: &str = "a\u{1f9f5}b\r\n\u{e9}\u{1f9f5}\rc\n";

    #[test]
    fn each_character_has_a_position_that_leads_back_to_it() {
        let source = Source::from_text("a.pattern.yaml", TEXT);
        for encoding in [PositionEncoding::Utf8, PositionEncoding::Utf16] {
            for (byte, c) in TEXT.char_indices().filter(|(byte, _)| !TEXT[..*byte].ends_with('\r')) {
                let position = source.position(byte, encoding);
                assert_eq!(byte_at(TEXT, position, encoding), byte, "{c:?} in {encoding:?}");
            }
        }
    }

    #[test]
    fn the_units_are_those_of_the_encoding() {
        let source = Source::from_text("a.pattern.yaml", TEXT);
        let end_of_second_line = TEXT.find("\rc").unwrap_or_default();
        let at = |encoding| source.position(end_of_second_line, encoding);
        assert_eq!(at(PositionEncoding::Utf8), Position { line: 1, character: 6 });
        assert_eq!(at(PositionEncoding::Utf16), Position { line: 1, character: 3 });
    }

    #[test]
    fn what_is_no_position_is_taken_as_the_one_before_it() {
        let at = |line, character| byte_at(TEXT, Position { line, character }, PositionEncoding::Utf16);
        assert_eq!(at(0, 2), 1, "between the two halves of a character");
        assert_eq!(at(0, 99), TEXT.find("\r\n").unwrap_or_default());
        assert_eq!((at(3, 0), at(99, 0)), (TEXT.len(), TEXT.len()));
    }
}
