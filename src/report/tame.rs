//! Text from a file, made fit for a terminal.
//!
//! Control characters could move the cursor or change the colours, and marks that turn the direction of writing
//! could make a line read as something else. Each is replaced by a character that takes as many bytes, so that
//! places in the text stay true.

use std::borrow::Cow;

/// The text without control characters, line ends and tabs excepted. A carriage return alone, which ends a line
/// as well, becomes a line feed.
pub fn tame(text: &str) -> Cow<'_, str> {
    let mut letters = text.chars().peekable();
    if letters.clone().all(|c| c == '\n' || c == '\t' || !is_wild(c)) {
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

/// The text on one line, without control characters.
pub fn tame_line(text: &str) -> String {
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

/// Writes the control characters that JSON would let through as escapes, so that none reaches a terminal. They can
/// stand only inside strings, where an escape means the same.
pub(super) fn escape_json(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        if c != '\n' && is_wild(c) {
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

/// Control characters, and marks that are invisible or turn the direction of writing.
pub(super) fn is_wild(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{061c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

const fn stand_in(bytes: usize) -> char {
    match bytes {
        1 => '?',
        2 => '¿',
        _ => '\u{fffd}',
    }
}
