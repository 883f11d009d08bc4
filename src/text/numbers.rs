//! Numbers as printed texts spell them: `2 1/2`, `2-1/2"`, `2½`, `2.5`, `31/2"` for want of a space, `1,200`.
//!
//! Wider than `src/quantity/`, which reads what a writer typed for this program: here each number has every reading
//! that its spelling allows, the likeliest first.

use std::ops::Range;

use crate::quantity::{Length, Unit};

/// A number that is a fraction, exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Ratio {
    /// What stands above its line.
    pub top: i64,
    /// What stands below it.
    pub over: i64,
}

impl Ratio {
    /// A whole number.
    pub(crate) const fn whole(top: i64) -> Ratio {
        Ratio { top, over: 1 }
    }

    /// A whole number and a fraction.
    const fn mixed(whole: i64, top: i64, over: i64) -> Ratio {
        Ratio { top: whole * over + top, over }
    }

    /// The number, where it is whole.
    pub(crate) fn count(self) -> Option<u64> {
        (self.over == 1).then(|| u64::try_from(self.top).ok()).flatten()
    }

    /// The length that it is in a unit, to the tick.
    pub(crate) fn of(self, unit: Unit) -> Length {
        Length::from_ticks(unit.one().ticks() * i128::from(self.top) / i128::from(self.over))
    }
}

/// A number in the text of a passage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct TextNumber {
    /// Its bytes in the passage, without a unit.
    pub at: Range<usize>,
    /// The same with its unit.
    pub with_unit: Range<usize>,
    /// What it can be, the likeliest first; never empty.
    pub readings: Vec<Ratio>,
    /// The unit that stands at it.
    pub unit: Option<Unit>,
    /// Whether its unit may as well be the word `in`.
    pub unit_is_doubtful: bool,
    /// Whether it is written as words.
    pub in_words: bool,
    /// A sign or a word at it that makes it no requirement: a degree, a percent.
    pub is_other: bool,
}

impl TextNumber {
    /// What it most likely is.
    pub(crate) fn first(&self) -> Ratio {
        self.readings[0]
    }

    /// Whether it can be a number of things.
    pub(crate) fn count(&self) -> Option<u64> {
        if self.unit.is_some() && !self.unit_is_doubtful { None } else { self.first().count() }
    }
}

/// The number that begins at a byte, and where it ends.
pub(super) fn number_at(text: &str, start: usize) -> Option<(usize, Vec<Ratio>)> {
    let (whole, end) = digits(text, start);
    let Some(whole) = whole else {
        if let Some((top, over, end)) = small_fraction(text, start) {
            return Some((end, vec![Ratio { top, over }]));
        }
        let after = text[start..].strip_prefix('.')?;
        return decimal(0, text, text.len() - after.len());
    };
    let rest = &text[end..];
    if rest.starts_with('.') && starts_with_digit(&rest[1..]) {
        return decimal(whole, text, end + 1);
    }
    if let Some(found) = grouped(text, start, whole, end).or_else(|| decimal_comma(text, whole, end)) {
        return Some(found);
    }
    // 3/5/8 is a number for each of three sizes.
    let goes_on = text[..start].ends_with('/') && text[..start - 1].ends_with(char::is_numeric);
    if let Some(found) = sloped(text, whole, end).filter(|_| !goes_on) {
        return Some(found);
    }
    if let Some((top, over, end)) = after_joint(rest).and_then(|joint| fraction(text, end + joint)) {
        return Some((end, vec![Ratio::mixed(whole, top, over)]));
    }
    Some((end, vec![Ratio::whole(whole)]))
}

/// The whole number of the digits at a byte, of nine digits at most, and where they end.
fn digits(text: &str, start: usize) -> (Option<i64>, usize) {
    let count = text.as_bytes()[start..].iter().take_while(|byte| byte.is_ascii_digit()).count();
    let end = start + count;
    (if count > 9 { None } else { text[start..end].parse().ok() }, end)
}

fn starts_with_digit(text: &str) -> bool {
    text.as_bytes().first().is_some_and(u8::is_ascii_digit)
}

/// A decimal whose digits after the point begin here.
fn decimal(whole: i64, text: &str, start: usize) -> Option<(usize, Vec<Ratio>)> {
    let (part, end) = digits(text, start);
    let places = u32::try_from(end - start).ok().filter(|places| *places <= 4)?;
    // 1.2.3 is no number.
    if text[end..].starts_with('.') && starts_with_digit(&text[end + 1..]) {
        return None;
    }
    let over = 10_i64.pow(places);
    Some((end, vec![lowest(Ratio::mixed(whole, part?, over))]))
}

/// A fraction in lowest terms.
fn lowest(ratio: Ratio) -> Ratio {
    let divisor = divisor(ratio.top, ratio.over).max(1);
    Ratio { top: ratio.top / divisor, over: ratio.over / divisor }
}

fn divisor(one: i64, other: i64) -> i64 {
    if other == 0 { one } else { divisor(other, one % other) }
}

/// Thousands set apart by a comma: `1,200`.
fn grouped(text: &str, start: usize, whole: i64, end: usize) -> Option<(usize, Vec<Ratio>)> {
    if end - start > 3 || !text[end..].starts_with(',') {
        return None;
    }
    let (part, after) = digits(text, end + 1);
    let part = part.filter(|_| after == end + 4 && !text[after..].starts_with(','))?;
    Some((after, vec![Ratio::whole(whole * 1000 + part)]))
}

/// A comma before decimals, where a metric unit follows: `2,5 cm`.
fn decimal_comma(text: &str, whole: i64, end: usize) -> Option<(usize, Vec<Ratio>)> {
    if !text[end..].starts_with(',') {
        return None;
    }
    let (_, after) = digits(text, end + 1);
    let metric = unit_at(text, after).is_some_and(|(unit, ..)| unit.is_metric());
    (after > end + 1 && metric).then(|| decimal(whole, text, end + 1)).flatten()
}

const fn is_slash(c: char) -> bool {
    matches!(c, '/' | '\u{2044}' | '\u{2215}' | '\u{ff0f}')
}

/// Denominators that rulers and yardage have.
const fn is_denominator(over: i64) -> bool {
    matches!(over, 2..=6 | 8 | 10 | 12 | 16 | 32 | 64)
}

/// Whether what looks like a denominator is the number of another size: `6/8/12`, `2/3.1`, `2/2¾`.
fn goes_on(text: &str, after: usize) -> bool {
    let mut rest = text[after..].chars();
    let next = rest.next();
    next.is_some_and(|c| is_slash(c) || vulgar(c).is_some())
        || next == Some('.') && rest.next().is_some_and(|c| c.is_ascii_digit())
}

/// A fraction that begins with these digits: `3/8`, or `31/8` for 3 1/8, or 31/8.
fn sloped(text: &str, top: i64, end: usize) -> Option<(usize, Vec<Ratio>)> {
    let slash = text[end..].chars().next().filter(|c| is_slash(*c))?;
    let (over, after) = low_digits(text, end + slash.len_utf8());
    let over = over.filter(|over| is_denominator(*over))?;
    if goes_on(text, after) {
        return None;
    }
    if top < over {
        return Some((after, vec![Ratio { top, over }]));
    }
    let split = |ten: &i64| {
        let (whole, part) = (top / ten, top % ten);
        let fits = whole > 0 && part >= ten / 10 && part < over && divisor(part, over) == 1;
        fits.then(|| Ratio::mixed(whole, part, over))
    };
    let mut readings: Vec<Ratio> = [100, 10].iter().filter_map(split).collect();
    if readings.is_empty() && top > 4 * over {
        return None;
    }
    readings.push(Ratio { top, over });
    Some((after, readings))
}

/// How much space or which dash stands between a whole number and its fraction.
fn after_joint(rest: &str) -> Option<usize> {
    let mut joint = 0;
    let mut dashes = 0;
    for c in rest.chars() {
        match c {
            ' ' | '\n' | '\u{a0}' | '\u{2009}' | '\u{202f}' | '\u{2005}' | '\u{2006}' | '\u{200a}' => {}
            '-' | '\u{2010}' | '\u{2011}' | '\u{2013}' => dashes += 1,
            _ => break,
        }
        joint += c.len_utf8();
    }
    // `8 - 1/2` is no mixed number, nor is `8--1/2`.
    (joint == 0 || dashes == 0 && joint <= 3 || dashes == 1 && joint <= 3 && !rest.starts_with(' ')).then_some(joint)
}

/// A fraction below one at a byte.
fn fraction(text: &str, start: usize) -> Option<(i64, i64, usize)> {
    small_fraction(text, start).or_else(|| {
        let (top, end) = digits(text, start);
        let slash = text[end..].chars().next().filter(|c| is_slash(*c))?;
        let (over, after) = low_digits(text, end + slash.len_utf8());
        let (top, over) = (top?, over.filter(|over| is_denominator(*over))?);
        (top > 0 && top < over && !goes_on(text, after)).then_some((top, over, after))
    })
}

/// Digits, on the line or below it.
fn low_digits(text: &str, start: usize) -> (Option<i64>, usize) {
    let lowered = |c: char| u32::from(c).checked_sub(0x2080).filter(|digit| *digit < 10);
    scripted(text, start, lowered).unwrap_or_else(|| digits(text, start))
}

fn scripted(text: &str, start: usize, digit: impl Fn(char) -> Option<u32>) -> Option<(Option<i64>, usize)> {
    let (mut value, mut end) = (0_i64, start);
    for c in text[start..].chars().take(3) {
        let Some(digit) = digit(c) else { break };
        value = value * 10 + i64::from(digit);
        end += c.len_utf8();
    }
    (end > start).then_some((Some(value), end))
}

/// A fraction of one character, or of raised digits over lowered ones.
fn small_fraction(text: &str, start: usize) -> Option<(i64, i64, usize)> {
    let c = text[start..].chars().next()?;
    if let Some((top, over)) = vulgar(c) {
        return Some((top, over, start + c.len_utf8()));
    }
    let (top, end) = scripted(text, start, raised)?;
    let slash = text[end..].chars().next().filter(|c| is_slash(*c))?;
    let (over, after) = low_digits(text, end + slash.len_utf8());
    let (top, over) = (top?, over.filter(|over| is_denominator(*over))?);
    (top < over).then_some((top, over, after))
}

fn raised(c: char) -> Option<u32> {
    match c {
        '⁰' => Some(0),
        '¹' => Some(1),
        '²' => Some(2),
        '³' => Some(3),
        _ => u32::from(c).checked_sub(0x2070).filter(|digit| (4..10).contains(digit)),
    }
}

/// A fraction of one character.
pub(super) const fn vulgar(c: char) -> Option<(i64, i64)> {
    Some(match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

/// Whether a number may begin with a character.
pub(super) fn begins_number(c: char) -> bool {
    c.is_ascii_digit() || vulgar(c).is_some()
}

/// Words after the preposition: `2 in each corner`.
const NOT_INCHES: [&str; 43] = [
    "each", "all", "total", "a", "an", "the", "this", "that", "every", "pairs", "sets", "order", "one", "two", "both",
    "your", "place", "half", "either", "any", "rows", "groups", "three", "four", "five", "six", "eight", "several",
    "baby", "crib", "cot", "lap", "throw", "twin", "single", "double", "full", "queen", "king", "small", "medium",
    "large", "extra",
];

/// The unit that stands after a number: what it is, where it ends, and whether it may as well be the word `in`.
pub(super) fn unit_at(text: &str, end: usize) -> Option<(Unit, usize, bool)> {
    let rest = &text[end..];
    for (mark, unit) in [("''", Unit::Inch), ("’’", Unit::Inch), ("′′", Unit::Inch), ("\u{2033}", Unit::Inch)] {
        if rest.starts_with(mark) {
            return Some((unit, end + mark.len(), false));
        }
    }
    if let Some(c) = rest.chars().next().filter(|c| matches!(c, '"' | '”' | '“' | '＂')) {
        return Some((Unit::Inch, end + c.len_utf8(), false));
    }
    // `3/4 of a yard`
    let part = rest.strip_prefix(" of a ").and_then(|word| word.split(|c: char| !c.is_ascii_alphabetic()).next());
    if let Some(unit @ (Unit::Yard | Unit::Metre)) = part.and_then(Unit::from_word) {
        return Some((unit, end + " of a ".len() + part.map_or(0, str::len), false));
    }
    let gap = rest.chars().next().filter(|c| c.is_whitespace() || matches!(c, '-' | '\u{2010}' | '\u{2011}'));
    let start = end + gap.map_or(0, char::len_utf8);
    let word: &str = &text[start..start + text[start..].bytes().take_while(u8::is_ascii_alphabetic).count()];
    if word.is_empty() {
        let mark = gap.filter(|c| c.is_whitespace()).and_then(|_| text[start..].chars().next());
        return mark.filter(|c| matches!(c, '"' | '”' | '″')).map(|c| (Unit::Inch, start + c.len_utf8(), false));
    }
    let after = start + word.len();
    // `9 M` are nine pieces that are called M.
    if matches!(word, "y" | "M") || text[after..].starts_with(|c: char| c.is_alphanumeric()) {
        return None;
    }
    let unit = Unit::from_word(word)?;
    let dot = usize::from(matches!(word, "in" | "yd" | "yds" | "ins" | "cm" | "mm") && text[after..].starts_with('.'));
    if word != "in" || gap == Some('-') || gap.is_none() {
        return Some((unit, after + dot, false));
    }
    let next: String = text[after..].trim_start().chars().take_while(|c| c.is_alphabetic()).collect();
    if NOT_INCHES.contains(&next.to_lowercase().as_str()) {
        return None;
    }
    Some((unit, after + dot, dot == 0 && !next.is_empty() && !is_said_of_inches(&next)))
}

/// Words that follow inches and no preposition: `6 in square`, `6 in x 3`.
fn is_said_of_inches(word: &str) -> bool {
    let stem = word.to_lowercase();
    let stem = stem.trim_end_matches('s');
    matches!(
        stem,
        "x" | "by"
            | "square"
            | "strip"
            | "wide"
            | "long"
            | "piece"
            | "block"
            | "and"
            | "or"
            | "finished"
            | "unfinished"
            | "deep"
            | "high"
            | "tall"
            | "from"
            | "at"
            | "for"
            | "border"
            | "binding"
            | "rectangle"
            | "seam"
            | "to"
            | "on"
            | "beyond"
            | "larger"
            | "longer"
            | "wider"
            | "more"
            | "overhang"
            | "tail"
            | "extra"
            | "apart"
            | "away"
            | "when"
            | "once"
            | "after"
            | "before"
            | "loose"
            | "unsewn"
            | "open"
            | "is"
            | "are"
            | "of"
    )
}
