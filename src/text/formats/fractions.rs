//! Fractions that are set as a superscript over a subscript, and superscripts that are none.

use super::builder::{Char, Script};

/// The fraction bar that parts the two numbers of a fraction.
const FRACTION_SLASH: char = '\u{2044}';

/// Writes fractions with a fraction slash and a space before them, and other raised digits as superscript characters.
pub(super) fn write_fractions(chars: Vec<Char>) -> Vec<Char> {
    if chars.iter().all(|char| raised_digit(*char).is_none() && lowered_digit(*char).is_none()) {
        return chars;
    }
    let mut written: Vec<Char> = Vec::with_capacity(chars.len() + 8);
    let mut rest = chars.as_slice();
    while let Some(first) = rest.first() {
        if raised_digit(*first).is_some()
            && let Some((fraction, length)) = fraction_at(rest)
        {
            if written.last().is_some_and(|last| last.ch.is_ascii_digit()) {
                written.push(Char { ch: ' ', script: Script::Normal, place: first.place });
            }
            written.extend(fraction);
            rest = &rest[length..];
            continue;
        }
        written.push(unlike_digit(*first));
        rest = &rest[1..];
    }
    written
}

/// A fraction that begins here, and how many characters it was.
fn fraction_at(chars: &[Char]) -> Option<(Vec<Char>, usize)> {
    let above = chars.iter().take(3).take_while(|char| raised_digit(**char).is_some()).count();
    let bar = usize::from(chars.get(above).is_some_and(|char| matches!(char.ch, '/' | FRACTION_SLASH | '\u{2215}')));
    let tail = &chars[above + bar..];
    let mut below = tail.iter().take(4).take_while(|char| lowered_digit(**char).is_some()).count();
    if below == 0 && bar == 1 {
        below = tail.iter().take(4).take_while(|char| char.ch.is_ascii_digit() && char.script != Script::Super).count();
    }
    if above > 2 || below == 0 || below > 3 {
        return None;
    }
    let slash_place = if bar == 1 { chars[above].place } else { chars[above - 1].place };
    let digit = |char: &Char| Char { ch: raised_digit(*char).or(lowered_digit(*char)).unwrap_or(char.ch), ..*char };
    let mut fraction: Vec<Char> = chars[..above].iter().map(digit).collect();
    fraction.push(Char { ch: FRACTION_SLASH, script: Script::Normal, place: slash_place });
    fraction.extend(tail[..below].iter().map(digit));
    let fraction = fraction.into_iter().map(|char| Char { script: Script::Normal, ..char }).collect();
    Some((fraction, above + bar + below))
}

/// The digit that a raised character is.
fn raised_digit(char: Char) -> Option<char> {
    match char.ch {
        '\u{b9}' => Some('1'),
        '\u{b2}' => Some('2'),
        '\u{b3}' => Some('3'),
        ch @ ('\u{2070}' | '\u{2074}'..='\u{2079}') => char::from_digit(u32::from(ch) - 0x2070, 10),
        ch if char.script == Script::Super && ch.is_ascii_digit() => Some(ch),
        _ => None,
    }
}

/// The digit that a lowered character is.
fn lowered_digit(char: Char) -> Option<char> {
    match char.ch {
        ch @ '\u{2080}'..='\u{2089}' => char::from_digit(u32::from(ch) - 0x2080, 10),
        ch if char.script == Script::Sub && ch.is_ascii_digit() => Some(ch),
        _ => None,
    }
}

/// The character as it is written where it is no part of a fraction.
fn unlike_digit(char: Char) -> Char {
    let ch = match (char.script, char.ch) {
        (Script::Super, '1') => '\u{b9}',
        (Script::Super, '2') => '\u{b2}',
        (Script::Super, '3') => '\u{b3}',
        (Script::Super, ch) if ch.is_ascii_digit() => shifted(ch, 0x2070),
        (Script::Sub, ch) if ch.is_ascii_digit() => shifted(ch, 0x2080),
        (_, ch) => ch,
    };
    Char { ch, ..char }
}

fn shifted(digit: char, zero: u32) -> char {
    digit.to_digit(10).and_then(|value| char::from_u32(zero + value)).unwrap_or(digit)
}
