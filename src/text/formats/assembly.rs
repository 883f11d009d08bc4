//! What a passage is made of once it is written: single spaces, cells parted by tabs, typed marks, and places.

use super::builder::Char;
use super::lines::list_mark;
use crate::text::passage::{Passage, PassageKind, PlacedRun, TextPlace};

/// The longest paragraph that is a heading by being bold, in characters.
const LONGEST_BOLD_HEADING: usize = 60;

/// How many characters the mark of a list is that was typed rather than set, with the space after it.
pub(super) fn typed_mark(chars: &[Char]) -> Option<usize> {
    let start: String = chars.iter().take(8).map(|char| char.ch).collect();
    let bytes = list_mark(&start)?;
    Some(start.get(..bytes)?.chars().count() + 1)
}

/// The rows of a paragraph whose lines hold tabs between words, with their cells.
pub(super) fn tabbed_rows(chars: &[Char]) -> Option<Vec<Vec<Vec<Char>>>> {
    if !chars.iter().any(|char| char.ch == '\t') {
        return None;
    }
    let is_blank = |char: &Char| char.ch.is_whitespace();
    let lines = chars.split(|char| char.ch == '\n').filter(|line| !line.iter().all(is_blank));
    let rows: Vec<Vec<Vec<Char>>> =
        lines.map(|line| line.split(|char| char.ch == '\t').map(<[Char]>::to_vec).collect()).collect();
    let has_cells = |row: &Vec<Vec<Char>>| row.iter().filter(|cell| !cell.iter().all(is_blank)).count() >= 2;
    let starts_with_mark = rows.iter().any(|row| {
        let first: String = row[0].iter().map(|char| char.ch).collect();
        list_mark(&format!("{} x", first.trim())).is_some()
    });
    (rows.iter().all(has_cells) && !starts_with_mark).then_some(rows)
}

/// Whether a bold paragraph reads as a heading: one short line that begins with a letter and is no sentence.
pub(super) fn is_titled(text: &str) -> bool {
    text.chars().count() <= LONGEST_BOLD_HEADING
        && text.starts_with(char::is_alphabetic)
        && !text.ends_with(['.', '!', '?', ';', ',', '"', '\u{201d}', '\u{2033}'])
        && !text.contains('\n')
}

/// Whether a passage can introduce the list or table after it: the last item of another list only says so itself.
pub(super) fn introduces(passage: &Passage) -> bool {
    match passage.kind {
        PassageKind::Paragraph => true,
        PassageKind::ListItem { .. } => passage.text.ends_with(':'),
        PassageKind::Heading(_) | PassageKind::Cell { .. } => false,
    }
}

/// Single spaces, no signs without width, and nothing blank at the ends.
pub(super) fn tidied(chars: &[Char]) -> Vec<Char> {
    let mut tidy: Vec<Char> = Vec::with_capacity(chars.len());
    for char in chars {
        let ch = match char.ch {
            '\n' => '\n',
            ch if ch.is_whitespace() => ' ',
            ch if is_left_out(ch) => continue,
            ch => ch,
        };
        match (tidy.last().map(|last| last.ch), ch) {
            (None | Some('\n'), ' ' | '\n') | (Some(' '), ' ') => {}
            (Some(' '), '\n') => {
                tidy.pop();
                tidy.push(Char { ch, ..*char });
            }
            _ => tidy.push(Char { ch, ..*char }),
        }
    }
    while tidy.last().is_some_and(|last| matches!(last.ch, ' ' | '\n')) {
        tidy.pop();
    }
    tidy
}

/// Signs that nobody sees.
pub(super) fn is_left_out(ch: char) -> bool {
    ch.is_control()
        || matches!(ch, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// The text of characters, and where its bytes stand.
pub(super) fn placed(chars: &[Char]) -> (String, Vec<PlacedRun>) {
    let mut text = String::new();
    let mut places: Vec<PlacedRun> = Vec::new();
    for char in chars {
        let start = text.len();
        text.push(char.ch);
        let verbatim = match char.place {
            TextPlace::Span(span) => span.len() == char.ch.len_utf8(),
            _ => false,
        };
        match places.last_mut() {
            Some(run) if joins(run, char.place, verbatim) => run.bytes.end = text.len(),
            _ => places.push(PlacedRun { bytes: start..text.len(), place: char.place, verbatim }),
        }
        if let (Some(PlacedRun { place: TextPlace::Span(whole), .. }), TextPlace::Span(span)) =
            (places.last_mut(), char.place)
        {
            whole.end = whole.end.max(span.end);
        }
    }
    (text, places)
}

pub(super) fn joins(run: &PlacedRun, place: TextPlace, verbatim: bool) -> bool {
    match (run.place, place) {
        (TextPlace::Span(before), TextPlace::Span(span)) if run.verbatim && verbatim => before.end == span.start,
        (before, place) => before == place && !run.verbatim && !verbatim,
    }
}
