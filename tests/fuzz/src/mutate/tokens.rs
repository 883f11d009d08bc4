//! Changes of numbers, words and values.

use std::ops::Range;

use super::place;
use crate::dictionary::{Dictionary, NUMBERS, ODD};
use crate::rng::Rng;

/// The first stretch of such characters at or after a random place, or the first of the text.
fn find(rng: &mut Rng, text: &str, is_part: fn(char) -> bool) -> Option<Range<usize>> {
    let from = place(rng, text);
    let start = text[from..].find(is_part).map(|at| from + at).or_else(|| text.find(is_part))?;
    let start =
        text[..start].rfind(|c| !is_part(c)).map_or(0, |at| at + text[at..].chars().next().map_or(1, char::len_utf8));
    let end = text[start..].find(|c| !is_part(c)).map_or(text.len(), |length| start + length);
    Some(start..end)
}

fn is_of_number(c: char) -> bool {
    c.is_ascii_digit()
}

fn is_of_word(c: char) -> bool {
    c.is_alphabetic() || c == '_'
}

pub(super) fn change_number(rng: &mut Rng, text: &mut String, other: &str) {
    let Some(at) = find(rng, text, is_of_number) else { return };
    let number = text[at.clone()].parse::<u64>().unwrap_or_default();
    let new = match rng.below(8) {
        0 | 1 => number.saturating_add(1).to_string(),
        2 | 3 => number.saturating_sub(1).to_string(),
        4 => number.saturating_mul(*rng.pick(&[2, 3, 10, 100])).to_string(),
        5 => find(rng, other, is_of_number).map_or_else(String::new, |at| other[at].to_string()),
        6 => find(rng, text, is_of_number).map_or_else(String::new, |at| text[at].to_string()),
        _ => (*rng.pick(NUMBERS)).to_string(),
    };
    text.replace_range(at, &new);
}

pub(super) fn change_word(rng: &mut Rng, dictionary: &Dictionary, text: &mut String, other: &str) {
    let Some(at) = find(rng, text, is_of_word) else { return };
    let new = match rng.below(3) {
        0 => find(rng, text, is_of_word).map_or_else(String::new, |at| text[at].to_string()),
        1 => find(rng, other, is_of_word).map_or_else(String::new, |at| other[at].to_string()),
        _ => rng.pick(&dictionary.words).clone(),
    };
    text.replace_range(at, &new);
}

/// A letter less, more, or two of them changed about.
pub(super) fn misspell(rng: &mut Rng, text: &mut String) {
    let Some(at) = find(rng, text, is_of_word) else { return };
    let mut letters: Vec<char> = text[at.clone()].chars().collect();
    let chosen = rng.below(letters.len());
    match rng.below(4) {
        0 => drop(letters.remove(chosen)),
        1 => letters.insert(chosen, letters[chosen]),
        2 => letters.swap(chosen, chosen.saturating_sub(1)),
        _ => letters[chosen] = letters[chosen].to_ascii_uppercase(),
    }
    text.replace_range(at, &letters.into_iter().collect::<String>());
}

/// Another value after a colon, or the same in quotes.
pub(super) fn change_value(rng: &mut Rng, dictionary: &Dictionary, text: &mut String) {
    let from = place(rng, text);
    let Some(colon) = text[from..].find(": ").map(|at| from + at).or_else(|| text.find(": ")) else { return };
    let start = colon + 2;
    let end = start + text[start..].find([',', '}', '\n', '\r']).unwrap_or(text.len() - start);
    let old = text[start..end].to_string();
    let new = match rng.below(6) {
        0 => (*rng.pick(NUMBERS)).to_string(),
        1 => (*rng.pick(ODD)).to_string(),
        2 => rng.pick(&dictionary.words).clone(),
        3 => format!("\"{old}\""),
        4 => format!("'{old}'"),
        _ => format!("{{ {} }}", rng.pick(&dictionary.entries)),
    };
    text.replace_range(start..end, &new);
}

/// Two values or words in each other's place.
pub(super) fn swap(rng: &mut Rng, text: &mut String) {
    let is_part = if rng.one_in(2) { is_of_number } else { is_of_word };
    let (Some(one), Some(other)) = (find(rng, text, is_part), find(rng, text, is_part)) else { return };
    let (one, other) = if one.start <= other.start { (one, other) } else { (other, one) };
    if one.end > other.start {
        return;
    }
    let (first, second) = (text[one.clone()].to_string(), text[other.clone()].to_string());
    text.replace_range(other, &first);
    text.replace_range(one, &second);
}

pub(super) fn add_in_braces(rng: &mut Rng, dictionary: &Dictionary, text: &mut String) {
    let from = place(rng, text);
    let Some(brace) = text[from..].find('{').map(|at| from + at).or_else(|| text.find('{')) else { return };
    text.insert_str(brace + 1, &format!(" {},", rng.pick(&dictionary.entries)));
}

/// Another way to end lines, or a mark of the order of bytes.
pub(super) fn line_ends(rng: &mut Rng, text: &mut String) {
    *text = match rng.below(5) {
        0 => text.replace('\n', "\r\n"),
        1 => text.replace('\n', "\r"),
        2 => text.replace("\r\n", "\n"),
        3 => text.replacen('\n', "\r\n", 1 + rng.below(3)),
        _ => format!("\u{feff}{text}"),
    };
}

/// A tag, or a line of such signs, that goes, comes twice, or comes from another text.
pub(super) fn move_tag(rng: &mut Rng, text: &mut String, other: &str) {
    let Some(at) = tag(rng, text) else { return };
    match rng.below(4) {
        0 => text.replace_range(at, ""),
        1 => {
            let part = text[at.clone()].to_string();
            let to = place(rng, text);
            text.insert_str(to, &part);
        }
        2 => {
            let part = text[at.clone()].to_string();
            text.insert_str(at.end, &part.repeat(1 + rng.below(4)));
        }
        _ => {
            let Some(theirs) = tag(rng, other) else { return };
            text.insert_str(at.start, &other[theirs]);
        }
    }
}

/// From one `<` to the `>` after it, or a line.
fn tag(rng: &mut Rng, text: &str) -> Option<Range<usize>> {
    let from = place(rng, text);
    let (open, close) = if text.contains('<') { ('<', '>') } else { ('\n', '\n') };
    let start = text[from..].find(open).map(|at| from + at).or_else(|| text.find(open))?;
    let end = text[start + 1..].find(close).map_or(text.len(), |at| start + 1 + at + 1);
    Some(start..end)
}
