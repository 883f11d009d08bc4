//! Changing an input: as a manuscript that is edited badly, and as bytes that are damaged.

use crate::dictionary::{Dictionary, NUMBERS, ODD};
use crate::rng::Rng;
use crate::targets::Kind;

mod bytes;
mod lines;
mod tokens;

/// The longest input, in bytes: what matters fits in it, and longer ones take long.
pub const MAX_LENGTH: usize = 6000;

/// An input made from one of the pool and another beside it.
pub fn mutate(rng: &mut Rng, dictionary: &Dictionary, kind: Kind, input: &[u8], other: &[u8]) -> Vec<u8> {
    let is_archive = kind == Kind::Text && matches!(input.first(), Some(b'W' | b'O' | b'P'));
    if kind == Kind::Numbers || is_archive {
        return bytes::damaged(rng, input, other);
    }
    let mut text = String::from_utf8_lossy(input).into_owned();
    let other = String::from_utf8_lossy(other);
    // Most inputs are a change or two away from one that is understood; some are far from it.
    let changes = if rng.one_in(8) { rng.between(4, 20) } else { rng.between(1, 3) };
    for _ in 0..changes {
        change(rng, dictionary, kind, &mut text, &other);
    }
    cut(&mut text);
    let bytes = text.into_bytes();
    if rng.one_in(24) { bytes::damaged(rng, &bytes, other.as_bytes()) } else { bytes }
}

/// Cuts what is too long at a character.
fn cut(text: &mut String) {
    let mut end = text.len().min(MAX_LENGTH);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    text.truncate(end);
}

/// Makes one change.
fn change(rng: &mut Rng, dictionary: &Dictionary, kind: Kind, text: &mut String, other: &str) {
    if kind == Kind::Quantity || (kind == Kind::Text && rng.one_in(2)) {
        return of_characters(rng, text, other);
    }
    if kind == Kind::Text && rng.one_in(2) {
        return tokens::move_tag(rng, text, other);
    }
    match rng.below(32) {
        0..=6 => tokens::change_number(rng, text, other),
        7..=9 => tokens::change_word(rng, dictionary, text, other),
        10 => tokens::misspell(rng, text),
        11 | 12 => tokens::change_value(rng, dictionary, text),
        13 => tokens::swap(rng, text),
        14 => tokens::add_in_braces(rng, dictionary, text),
        15 => of_characters(rng, text, other),
        16 => tokens::line_ends(rng, text),
        17 | 18 => lines::delete(rng, text),
        19 => lines::double(rng, text),
        20 => lines::swap(rng, text),
        21 => lines::delete_block(rng, text),
        22 => lines::double_block(rng, text),
        23..=26 => lines::splice(rng, text, other),
        27 | 28 => lines::add_entry(rng, dictionary, text),
        29 => lines::indent(rng, text),
        30 => lines::end_early(rng, text),
        _ => lines::alias(rng, text),
    }
}

/// Changes that any text can have: a few characters go, come twice, or are others.
fn of_characters(rng: &mut Rng, text: &mut String, other: &str) {
    let start = place(rng, text);
    match rng.below(6) {
        0 => {
            let end = after(text, start, rng.between(1, 6));
            text.replace_range(start..end, "");
        }
        1 => {
            let end = after(text, start, rng.between(1, 12));
            let part = text[start..end].to_string();
            text.insert_str(start, &part);
        }
        2 => text.insert_str(start, rng.word(NUMBERS)),
        3 => text.insert_str(start, rng.word(ODD)),
        4 => {
            let end = after(text, start, 1);
            text.replace_range(start..end, rng.word(&[" ", "-", "/", ".", ",", "(", ")", "x", "\"", "'", "0", "9"]));
        }
        _ => {
            let from = place(rng, other);
            let part = &other[from..after(other, from, rng.between(1, 40))];
            text.insert_str(start, part);
        }
    }
}

/// A place between two characters.
fn place(rng: &mut Rng, text: &str) -> usize {
    let mut at = rng.below(text.len() + 1);
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The place so many characters further on.
fn after(text: &str, start: usize, characters: usize) -> usize {
    text[start..].char_indices().nth(characters).map_or(text.len(), |(at, _)| start + at)
}
