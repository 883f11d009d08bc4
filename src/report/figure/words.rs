//! Words on a figure: how much room they take, and names from a file made fit for it.
//!
//! Text is taken to be as wide as a wide typeface makes it.

use unicode_width::UnicodeWidthChar;

use super::grid::LETTER;
use crate::drawing::ShownLength;
use crate::report::sanitize_line;

/// How wide a text is at most, in a plain typeface.
pub(super) fn wide(text: &str) -> i64 {
    text.chars().map(letter).sum::<i64>() * LETTER / 1000
}

/// How wide a letter is at most, in thousandths of its height.
fn letter(c: char) -> i64 {
    match c {
        ' ' | '.' | ',' | ':' | ';' | '\'' | 'i' | 'j' | 'l' => 360,
        'f' | 'r' | 't' | '/' | '(' | ')' | '-' => 450,
        'm' | 'w' | 'M' | 'W' => 1000,
        'a'..='z' | '0'..='9' => 640,
        c if c.width().unwrap_or(2) > 1 => 1100,
        _ => 800,
    }
}

/// A name from a file, no longer than a figure has room for.
pub(super) fn name(name: &str) -> String {
    const MAX: usize = 24;
    let clean_name = clean(name);
    if clean_name.chars().count() <= MAX {
        return clean_name;
    }
    let mut short: String = clean_name.chars().take(MAX - 1).collect();
    short.truncate(short.trim_end().len());
    format!("{short}…")
}

/// Text on one line, of letters that may stand in XML.
pub(super) fn clean(text: &str) -> String {
    let odd = |c: char| matches!(u32::from(c) & 0xfffe, 0xfffe) || (0xfdd0..=0xfdef).contains(&u32::from(c));
    sanitize_line(text).chars().map(|c| if odd(c) { '\u{fffd}' } else { c }).collect()
}

/// A text in lines that are no wider than the room; a word that is wider alone is cut.
pub(super) fn wrapped(text: &str, room: i64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in nonbreaking(text) {
        let fits = |line: &String| wide(line) + wide(" ") + wide(&word) <= room;
        match lines.last_mut() {
            Some(line) if fits(line) => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => {
                let mut word = word;
                while wide(&word) > room && word.pop().is_some() {}
                lines.push(word);
            }
        }
    }
    lines
}

/// The words of a text; a quantity is one word.
fn nonbreaking(text: &str) -> Vec<String> {
    crate::report::nonbreaking::nonbreaking(text).split(' ').map(crate::report::nonbreaking::breaking).collect()
}

/// A width and a length: `54 x 72 in`.
pub(super) fn by(width: &ShownLength, length: &ShownLength) -> String {
    by_words(&width.shown, &length.shown)
}

/// The same of two lengths as they are shown.
pub(super) fn by_words(width: &str, length: &str) -> String {
    let number = width.rsplit_once(' ').map_or(width, |(number, _)| number);
    format!("{number} x {length}")
}

/// `1 strip`, `9 strips`.
pub(super) fn of(count: u64, word: &str) -> String {
    crate::quantity::Count(count).of(word)
}
