//! Changes of whole lines, and of a line with all that stands under it.

use std::ops::Range;

use crate::dictionary::Dictionary;
use crate::rng::Rng;

/// Where each line starts and ends, with what ends it.
fn lines(text: &str) -> Vec<Range<usize>> {
    let mut start = 0;
    let line = |line: &str| {
        start += line.len();
        start - line.len()..start
    };
    text.split_inclusive('\n').map(line).collect()
}

fn indent_of(line: &str) -> usize {
    line.len() - line.trim_start_matches([' ', '-']).len()
}

/// The word before the colon of a line.
fn key_of(line: &str) -> Option<&str> {
    let (key, _) = line.trim_start_matches([' ', '-']).split_once(':')?;
    (!key.is_empty() && !key.starts_with('#')).then_some(key)
}

/// A line with all lines after it that stand further in.
fn block(text: &str, all: &[Range<usize>], first: usize) -> Range<usize> {
    let own = indent_of(&text[all[first].clone()]);
    let under = |line: &&Range<usize>| {
        let line = &text[(**line).clone()];
        line.trim().is_empty() || indent_of(line) > own
    };
    let end = all[first + 1..].iter().take_while(under).last().map_or(all[first].end, |line| line.end);
    all[first].start..end
}

fn pick(rng: &mut Rng, text: &str) -> Option<(Vec<Range<usize>>, usize)> {
    let all = lines(text);
    if all.is_empty() {
        return None;
    }
    let chosen = rng.below(all.len());
    Some((all, chosen))
}

pub(super) fn delete(rng: &mut Rng, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    text.replace_range(all[chosen].clone(), "");
}

pub(super) fn double(rng: &mut Rng, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    let line = text[all[chosen].clone()].to_string();
    let to = rng.below(all.len());
    text.insert_str(all[to].start, &line);
}

pub(super) fn swap(rng: &mut Rng, text: &mut String) {
    let Some((all, one)) = pick(rng, text) else { return };
    let other = rng.below(all.len());
    let (one, other) = (one.min(other), one.max(other));
    if one == other {
        return;
    }
    let (first, second) = (text[all[one].clone()].to_string(), text[all[other].clone()].to_string());
    text.replace_range(all[other].clone(), &first);
    text.replace_range(all[one].clone(), &second);
}

pub(super) fn delete_block(rng: &mut Rng, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    text.replace_range(block(text, &all, chosen), "");
}

pub(super) fn double_block(rng: &mut Rng, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    let place = block(text, &all, chosen);
    let part = text[place.clone()].to_string();
    text.insert_str(if rng.one_in(2) { place.end } else { place.start }, &part);
}

/// Puts a block of another manuscript in the place of the one under the same word, or after any line.
pub(super) fn splice(rng: &mut Rng, text: &mut String, other: &str) {
    let Some((theirs, chosen)) = pick(rng, other) else { return };
    let part = &other[block(other, &theirs, chosen)];
    let Some((own, any)) = pick(rng, text) else { return };
    let key = key_of(part);
    let same = (0..own.len()).find(|line| key.is_some() && key_of(&text[own[*line].clone()]) == key);
    let (place, at) = match same {
        Some(line) if !rng.one_in(4) => (block(text, &own, line), line),
        _ => (own[any].end..own[any].end, any),
    };
    let moved = moved(part, indent_of(&text[own[at].clone()]));
    text.replace_range(place, &moved);
}

/// Lines as they stand with the first of them so far in.
fn moved(part: &str, to: usize) -> String {
    let from = part.lines().next().map(indent_of).unwrap_or_default();
    let line = |line: &str| {
        let own = line.len() - line.trim_start_matches(' ').len();
        format!("{}{}", " ".repeat((own + to).saturating_sub(from)), line.trim_start_matches(' '))
    };
    part.split_inclusive('\n').map(line).collect()
}

/// An entry of the format on a line of its own.
pub(super) fn add_entry(rng: &mut Rng, dictionary: &Dictionary, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    let line = &text[all[chosen].clone()];
    let further = if line.trim_end().ends_with(':') { 2 } else { 0 };
    let entry = format!("{}{}\n", " ".repeat(indent_of(line) + further), rng.pick(&dictionary.entries));
    text.insert_str(all[chosen].end, &entry);
}

pub(super) fn indent(rng: &mut Rng, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    let start = all[chosen].start;
    if rng.one_in(2) && text[start..].starts_with(' ') {
        text.replace_range(start..=start, "");
    } else {
        text.insert_str(start, rng.word(&[" ", "  ", "\t", "- "]));
    }
}

pub(super) fn end_early(rng: &mut Rng, text: &mut String) {
    let Some((all, chosen)) = pick(rng, text) else { return };
    let mut end = rng.between(all[chosen].start, all[chosen].end);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    text.truncate(end);
}

/// A value by a name that YAML gives it, and the name where another value stood.
pub(super) fn alias(rng: &mut Rng, text: &mut String) {
    let Some((all, one)) = pick(rng, text) else { return };
    let other = rng.below(all.len());
    if one == other {
        return;
    }
    for (line, what) in [(one.max(other), "*a"), (one.min(other), "&a ")] {
        let place = all[line].clone();
        let Some(colon) = text[place.clone()].find(": ") else { continue };
        let at = place.start + colon + 2;
        if what == "*a" {
            let end = at + text[at..place.end].find(['\n', '\r', ',', '}']).unwrap_or(place.end - at);
            text.replace_range(at..end, what);
        } else {
            text.insert_str(at, what);
        }
    }
}
