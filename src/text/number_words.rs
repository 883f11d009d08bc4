//! Numbers in words: `twelve`, `twenty-four`, `half a yard`, `two and a half yards`, `three quarters of a yard`.

use std::ops::Range;

use super::numbers::{Ratio, TextNumber, unit_at};
use super::tokens::{Token, TokenKind, Tokens};
use crate::quantity::Unit;

const SMALL: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];

const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// The number that a word is.
fn value(word: &str) -> Option<i64> {
    let place = |list: &[&str]| list.iter().position(|known| *known == word).and_then(|at| i64::try_from(at).ok());
    place(&SMALL).or_else(|| Some((place(&TENS)? + 2) * 10))
}

/// Whether a word is a number: `twelve`, `half`.
pub(super) fn is_number_word(word: &str) -> bool {
    let word = word.to_ascii_lowercase();
    value(&word).is_some() || part(&word).is_some()
}

/// What a word makes of one.
fn part(stem: &str) -> Option<i64> {
    match stem {
        "half" | "halve" => Some(2),
        "third" => Some(3),
        "quarter" | "fourth" => Some(4),
        "eighth" => Some(8),
        _ => None,
    }
}

/// Puts numbers in the place of the words that spell them.
pub(super) fn number_of_words(text: &str, tokens: &mut Tokens) {
    let is_said =
        |token: &Token| token.is_word() && (value(&word(text, token)).is_some() || part(&token.stem).is_some());
    if !tokens.list.iter().any(is_said) {
        return;
    }
    let list = std::mem::take(&mut tokens.list);
    let mut at = 0;
    while at < list.len() {
        match spelled(text, &list, at) {
            Some((length, number)) => {
                let kind = TokenKind::Number(tokens.numbers.len());
                tokens.list.push(Token { kind, at: number.with_unit.clone(), stem: String::new() });
                let end = number.with_unit.end;
                tokens.numbers.push(number);
                at += length;
                while list.get(at).is_some_and(|token| token.at.start < end) {
                    at += 1;
                }
            }
            None => {
                tokens.list.push(list[at].clone());
                at += 1;
            }
        }
    }
    // Numbers stand in the order of the text.
    let mut order: Vec<usize> = (0..tokens.numbers.len()).collect();
    order.sort_by_key(|number| tokens.numbers[*number].at.start);
    tokens.numbers = order.iter().map(|number| tokens.numbers[*number].clone()).collect();
    let starts: Vec<usize> = tokens.numbers.iter().map(|number| number.with_unit.start).collect();
    for token in &mut tokens.list {
        if let TokenKind::Number(number) = &mut token.kind {
            *number = starts.partition_point(|start| *start < token.at.start);
        }
    }
}

fn word(text: &str, token: &Token) -> String {
    text[token.at.clone()].to_lowercase()
}

/// Reads words one after another.
struct Words<'t> {
    text: &'t str,
    list: &'t [Token],
    at: usize,
}

impl Words<'_> {
    fn peek(&self, ahead: usize) -> String {
        let token = self.list.get(self.at + ahead).filter(|token| token.is_word());
        token.map_or(String::new(), |token| word(self.text, token))
    }

    fn is_hyphen(&self, ahead: usize) -> bool {
        self.list.get(self.at + ahead).is_some_and(|token| token.is_sign('-'))
    }

    /// A word after a hyphen, where one stands here, or after nothing.
    fn next(&self) -> (usize, String) {
        let skip = usize::from(self.is_hyphen(0));
        (skip, self.peek(skip))
    }

    /// A whole number: `twenty-four`, `one hundred and twelve`.
    fn whole(&mut self) -> Option<i64> {
        let mut number = value(&self.peek(0))?;
        self.at += 1;
        let (skip, next) = self.next();
        // Of twenty four-patches there are twenty.
        let is_own = |token: &Token| !is_compound(self.text, token.at.end);
        if number >= 20
            && let Some(ones) = value(&next).filter(|ones| (1..10).contains(ones))
            && self.list.get(self.at + skip).is_some_and(is_own)
        {
            number += ones;
            self.at += skip + 1;
        }
        let (skip, next) = self.next();
        if next == "hundred" && number < 10 {
            number *= 100;
            self.at += skip + 1;
            let and = usize::from(self.peek(0) == "and");
            let before = self.at;
            self.at += and;
            match self.whole() {
                Some(rest) if rest < 100 => number += rest,
                _ => self.at = before,
            }
        }
        Some(number)
    }

    /// The parts that stand here: the `half` of `two and a half`, the `quarters` of `three quarters`.
    fn part(&mut self) -> Option<i64> {
        let (skip, next) = self.next();
        let part = part(&super::tokens::stem(&next))?;
        // A half-square triangle and a quarter turn are no amounts.
        self.at += skip + 1;
        Some(part)
    }
}

/// The number that is spelled here, and how many tokens it takes.
fn spelled(text: &str, list: &[Token], start: usize) -> Option<(usize, TextNumber)> {
    let mut words = Words { text, list, at: start };
    if !list[start].is_word() {
        return None;
    }
    let whole = words.whole();
    let mut ratio = whole.map(Ratio::whole);
    let before = words.at;
    let is_and = words.peek(0) == "and" || words.is_hyphen(0) && words.peek(1) == "and";
    if let Some(number) = whole.filter(|_| is_and) {
        words.at += 1 + usize::from(words.is_hyphen(0));
        while matches!(words.peek(0).as_str(), "a" | "one") || words.is_hyphen(0) {
            words.at += 1;
        }
        ratio = words.part().map(|over| Ratio { top: number * over + 1, over }).or(ratio);
        if ratio == Some(Ratio::whole(number)) {
            words.at = before;
        }
    } else {
        let part = words.part();
        ratio = part.map(|over| Ratio { top: whole.unwrap_or(1), over }).or(ratio);
    }
    let ratio = ratio?;
    let end = list[words.at - 1].at.end;
    let of = ["of", "a"].iter().fold(words.at, |at, word| {
        let is = list.get(at).is_some_and(|token| token.stem == *word);
        at + usize::from(is)
    });
    let unit_after = if ratio.over == 1 { end } else { list.get(of.max(1) - 1).map_or(end, |token| token.at.end) };
    let unit = unit_at(text, unit_after).filter(|(_, _, doubtful)| !doubtful);
    // A fraction in words without a unit is a way of speaking: half of the squares, six half hexagons.
    if ratio.over != 1 && !matches!(unit, Some((Unit::Yard | Unit::Inch | Unit::Metre, ..))) {
        let number = whole?;
        let end = list[before - 1].at.end;
        let at = list[start].at.start..end;
        return Some((before - start, in_words(at.clone(), at, Ratio::whole(number), None)));
    }
    if unit.is_none() && is_compound(text, end) {
        return None;
    }
    let at = list[start].at.start..end;
    let with_unit = at.start..unit.map_or(end, |(_, end, _)| end);
    let unit = unit.map(|(unit, ..)| unit);
    Some((words.at - start, in_words(at, with_unit, ratio, unit)))
}

fn in_words(at: Range<usize>, with_unit: Range<usize>, ratio: Ratio, unit: Option<Unit>) -> TextNumber {
    TextNumber { at, with_unit, readings: vec![ratio], unit, unit_is_doubtful: false, in_words: true, is_other: false }
}

/// Whether a number is part of a word: `four-patch`, `two-color`.
fn is_compound(text: &str, end: usize) -> bool {
    let rest = &text[end..];
    rest.strip_prefix(['-', '\u{2010}', '\u{2011}']).is_some_and(|rest| rest.starts_with(char::is_alphabetic))
}
