//! Text from a file, made fit for a terminal, and JSON for every reader.
//!
//! Control characters could move the cursor or change the colours, and marks that turn the direction of writing
//! could make a line read as something else. Each is replaced by a character that takes as many bytes, so that
//! places in the text stay true.

use std::borrow::Cow;

/// The text without control characters, line ends and tabs excepted. A carriage return alone, which ends a line
/// as well, becomes a line feed.
pub fn sanitize(text: &str) -> Cow<'_, str> {
    let mut letters = text.chars().peekable();
    if is_plain(text.as_bytes()) || letters.clone().all(|c| c == '\n' || c == '\t' || !is_wild(c)) {
        return Cow::Borrowed(text);
    }
    let mut tamed = String::with_capacity(text.len());
    while let Some(c) = letters.next() {
        let ends_line = c == '\r' && letters.peek() == Some(&'\n');
        tamed.push(match c {
            '\n' | '\t' => c,
            '\r' if ends_line => c,
            '\r' => '\n',
            c if is_wild(c) => stand_in(c.len_utf8()),
            c => c,
        });
    }
    Cow::Owned(tamed)
}

/// Whether all of a text is characters of ASCII that are seen, and spaces: nearly every text is.
pub(crate) fn is_plain(text: &[u8]) -> bool {
    text.iter().all(|byte| matches!(byte, b' '..=b'~'))
}

/// The text on one line, without control characters.
pub fn sanitize_line(text: &str) -> String {
    if is_plain(text.as_bytes()) {
        return text.to_string();
    }
    text.chars()
        .map(|c| {
            if c == '\n' || c == '\t' {
                ' '
            } else if is_wild(c) {
                stand_in(c.len_utf8())
            } else {
                c
            }
        })
        .collect()
}

/// Control characters, and characters that are not seen or turn the direction of writing. The two marks that choose
/// between an emoji and a plain sign (U+FE0E, U+FE0F) are left: they steer nothing, and people type them.
pub(crate) const fn is_wild(c: char) -> bool {
    // Most are of ASCII, or what lines and arrows are drawn with.
    if matches!(c, ' '..='~' | '\u{2190}'..='\u{2fff}') {
        return false;
    }
    matches!(c,
        '\0'..='\u{1f}'
        | '\u{7f}'..='\u{9f}'
        | '\u{ad}'
        | '\u{34f}'
        | '\u{61c}'
        | '\u{115f}'..='\u{1160}'
        | '\u{17b4}'..='\u{17b5}'
        | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{3164}'
        | '\u{fe00}'..='\u{fe0d}'
        | '\u{feff}'
        | '\u{ffa0}'
        | '\u{fff0}'..='\u{fffb}'
        | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}')
}

/// What stands for a character that is not printed: as many bytes, as far as there is a sign of that length.
pub(crate) const fn stand_in(bytes: usize) -> char {
    match bytes {
        1 => '?',
        2 => '¿',
        3 => '\u{fffd}',
        _ => '\u{1fbc4}',
    }
}

/// A line without what the log of a continuous integration takes for a command: `::` where the line begins, and `##`
/// with a word and a bracket behind it anywhere. A space is put between the two signs.
pub(crate) fn defused(line: &str) -> String {
    let before = line.len() - line.trim_start().len();
    let (blank, rest) = line.split_at(before);
    let mut out = String::with_capacity(line.len());
    out.push_str(blank);
    let mut rest = match rest.strip_prefix("::") {
        Some(rest) => {
            out.push_str(": :");
            rest
        }
        None => rest,
    };
    while let Some(at) = rest.find("##") {
        let word =
            rest[at + 2..].trim_start_matches(|c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '_' | '-'));
        out.push_str(&rest[..=at]);
        if word.starts_with('[') {
            out.push(' ');
        }
        rest = &rest[at + 1..];
    }
    out + rest
}

/// Writes the characters that JSON would let through and a terminal or a log must not see as escapes, so that none is
/// taken for the end of a line by a reader of YAML. They can stand only inside strings, where an escape means the same.
pub(crate) fn escape_json(json: &str) -> String {
    let is_seen = json.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\n'));
    if is_seen && !json.contains("##") {
        return json.to_string();
    }
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        // Two of the sign # begin a command in some logs.
        let command = c == '#' && out.ends_with('#');
        if command || (c != '\n' && is_wild(c)) {
            let mut units = [0; 2];
            for unit in c.encode_utf16(&mut units) {
                out.push_str(&format!("\\u{unit:04x}"));
            }
        } else {
            out.push(c);
        }
    }
    out
}
/// How long the code at the beginning of a text is, where it is one that sets colours: `ESC [ 1 ; 31 m`.
pub(crate) fn colour_code(text: &str) -> Option<usize> {
    let numbers = text.strip_prefix("\u{1b}[")?;
    let end = numbers.find(|c: char| !c.is_ascii_digit() && c != ';')?;
    numbers[end..].starts_with('m').then_some(2 + end + 1)
}
