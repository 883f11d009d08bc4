//! Where in a manuscript somebody is typing, though the text is no manuscript at that moment.
//!
//! A mark is put in the place of what is being typed, with what YAML needs round it, and the text is read: where the mark
//! is among the entries says what may stand there.

use crate::manuscript::Span;

/// What stands in the place of what is being typed: a character that no manuscript has, and letters.
pub(super) const MARK: &str = "\u{e000}here";

/// A text with a place in it for what is being typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Place {
    /// What was typed so far, to be replaced.
    pub(super) at: Span,
    /// Whether it is taken for what stands before a colon, and not for a value.
    pub(super) is_key: bool,
    /// Whether a colon follows already.
    pub(super) has_colon: bool,
    before: String,
    after: String,
}

impl Place {
    /// The text with something in the place, and where that stands.
    pub(super) fn with(&self, typed: &str) -> (String, Span) {
        let start = self.before.len();
        (format!("{}{typed}{}", self.before, self.after), Span::new(start, start + typed.len()))
    }
}

/// The places that a byte may be, the likeliest first. None in a comment or in quotation marks.
pub(super) fn places(text: &str, byte: usize) -> Vec<Place> {
    let start = text[..byte].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let Some(typed) = Typed::in_line(&text[start..byte]) else { return Vec::new() };
    let line_end = byte + text[byte..].find(['\n', '\r']).unwrap_or(text.len() - byte);
    let rest = &text[byte..line_end];
    let more = rest.find([',', '}', ']', ':', '#']).unwrap_or(rest.len());
    let at = Span::new(start + typed.start, byte + rest[..more].trim_end().len());
    let rest = &text[at.end..line_end];
    let has_colon = rest.trim_start().starts_with(':');
    let (rest, comment) = rest.split_at(rest.find(" #").unwrap_or(rest.len()));
    let closing = typed.unclosed_after(rest);
    let mut places = Vec::new();
    for is_key in typed.likely_keys() {
        for closing in [None, Some(&closing)] {
            let colon = if is_key && !has_colon { ": x" } else { "" };
            let closing = closing.map_or("", String::as_str);
            let after = format!("{colon}{rest}{closing}{comment}{}", &text[line_end..]);
            places.push(Place { at, is_key, has_colon, before: text[..at.start].to_string(), after });
        }
    }
    places
}

/// What stands before a place in its line.
#[derive(Debug)]
struct Typed {
    /// Where what is being typed starts.
    start: usize,
    /// What stands before that: a bracket, a comma, a colon or a dash; nothing at the start of the line.
    after: Option<char>,
    /// The brackets that are open.
    open: Vec<char>,
}

impl Typed {
    fn in_line(line: &str) -> Option<Typed> {
        let mut typed = Typed { start: 0, after: None, open: Vec::new() };
        let mut quote = None;
        let mut before = ' ';
        for (at, c) in line.char_indices() {
            let is_start = line[typed.start..at].trim().is_empty();
            let next = line[at + c.len_utf8()..].chars().next();
            match (quote, c) {
                (Some(mark), _) => quote = Some(mark).filter(|mark| *mark != c),
                (None, '"' | '\'') if is_start => quote = Some(c),
                (None, '#') if before.is_whitespace() => return None,
                (None, '{' | '[') if is_start => typed.open(at, c),
                (None, '}' | ']') => _ = typed.open.pop(),
                (None, ',') => typed.begin(at, c),
                (None, ':') if next.is_none_or(char::is_whitespace) => typed.begin(at, c),
                (None, '-') if is_start && next.is_some_and(char::is_whitespace) => typed.begin(at, c),
                _ => {}
            }
            before = c;
        }
        let typed_so_far = &line[typed.start..];
        typed.start += typed_so_far.len() - typed_so_far.trim_start().len();
        typed.start += count_before(&line[typed.start..]);
        let in_quotes = quote.is_some() || line[typed.start..].starts_with(['"', '\'']);
        (!in_quotes).then_some(typed)
    }

    fn begin(&mut self, at: usize, c: char) {
        (self.start, self.after) = (at + c.len_utf8(), Some(c));
    }

    fn open(&mut self, at: usize, c: char) {
        self.open.push(c);
        self.begin(at, c);
    }

    /// Whether it is taken for what stands before a colon, the likelier answer first.
    fn likely_keys(&self) -> Vec<bool> {
        match (self.after, self.open.last()) {
            (Some(':'), _) => vec![false],
            (Some('{'), _) | (Some(','), Some('{')) => vec![true],
            (Some('['), _) | (Some(','), Some('[')) => vec![false, true],
            _ => vec![true, false],
        }
    }

    /// The brackets that would have to be closed at the end of the line.
    fn unclosed_after(&self, rest: &str) -> String {
        let mut open = self.open.clone();
        for c in rest.chars() {
            match c {
                '{' | '[' => open.push(c),
                '}' | ']' => _ = open.pop(),
                _ => {}
            }
        }
        open.iter().rev().map(|c| if *c == '{' { '}' } else { ']' }).collect()
    }
}

/// How long the count is before a block in a row: `6 star`.
fn count_before(typed: &str) -> usize {
    let digits = typed.len() - typed.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let spaces = typed[digits..].len() - typed[digits..].trim_start().len();
    if digits > 0 && spaces > 0 { digits + spaces } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::places;

    /// The texts with `X` typed where the cursor, `|`, is.
    fn typed(text: &str) -> Vec<String> {
        let byte = text.find('|').unwrap_or_default();
        places(&text.replace('|', ""), byte).iter().map(|place| place.with("X").0).collect()
    }

    #[test]
    fn what_is_typed_is_replaced_with_what_yaml_needs() {
        assert_eq!(typed("a:\n  st|\nb: 1\n")[0], "a:\n  X: x\nb: 1\n");
        assert_eq!(typed("a: st|ri # why\n")[0], "a: X # why\n");
        assert_eq!(typed("a: { b: 1, c|")[1], "a: { b: 1, X: x}");
        assert_eq!(typed("a: { b: 1, c|  # why\n")[1], "a: { b: 1, X: x } # why\n");
        assert_eq!(typed("a: [b, |]\n")[0], "a: [b, X]\n");
        assert_eq!(typed("rows: [[6 st|")[1], "rows: [[6 X]]");
        assert_eq!(typed("  - |\n")[0], "  - X: x\n");
        assert_eq!(typed("  th|row: 5\n")[0], "  X: 5\n");
    }

    #[test]
    fn nothing_is_typed_in_comments_and_quotation_marks() {
        for text in ["a: 5 # st|", "# |", "a: \"st|ri\"", "a: 'b|"] {
            assert_eq!(typed(text), Vec::<String>::new(), "{text}");
        }
    }
}
