//! Counts for two sizes with a slash between them, which look like a fraction: `4/10 strips`.

use super::numbers::{Ratio, TextNumber};
use super::tokens::{Token, TokenKind, Tokens};

/// What is counted in whole numbers.
const COUNTED: [&str; 18] = [
    "strip",
    "square",
    "rectangle",
    "triangle",
    "piece",
    "patch",
    "unit",
    "block",
    "panel",
    "row",
    "column",
    "length",
    "pair",
    "set",
    "sash",
    "cornerstone",
    "across",
    "down",
];

/// Words between a number and what is counted after which it is a part of that, or a measure.
const BETWEEN: [&str; 14] =
    ["of", "the", "a", "an", "in", "inch", "yard", "x", "by", "from", "at", "as", "wide", "finished"];

/// How many pairs a text has that are no fractions for sure before others are taken for pairs too: `1/2 strips`.
pub(super) const SURE_PAIRS: usize = 2;

/// How many numbers of a text are two counts for sure.
pub(super) fn sure_pairs(text: &str, tokens: &Tokens) -> usize {
    (0..tokens.list.len()).filter(|at| is_pair(text, tokens, *at, false)).count()
}

/// Parts numbers without a unit that look like fractions, and stand before what is counted in whole numbers, into two.
pub(super) fn part_pairs(text: &str, tokens: &mut Tokens, has_pairs: bool) {
    let pairs: Vec<usize> = (0..tokens.list.len()).filter(|at| is_pair(text, tokens, *at, has_pairs)).collect();
    for at in pairs.into_iter().rev() {
        part(text, tokens, at);
    }
}

/// The digits before and after the slash of a number that is nothing else.
fn digits(says: &str) -> Option<(i64, i64)> {
    let (one, other) = says.split_once('/')?;
    let whole = |digits: &str| digits.parse().ok().filter(|_| digits.bytes().all(|byte| byte.is_ascii_digit()));
    Some((whole(one)?, whole(other)?))
}

fn is_pair(text: &str, tokens: &Tokens, at: usize, has_pairs: bool) -> bool {
    let TokenKind::Number(number) = tokens.list[at].kind else { return false };
    let number = &tokens.numbers[number];
    let Some((one, other)) = digits(&text[number.at.clone()]) else { return false };
    // `1/2 square triangles` have a half; no ruler has tenths, nor 2/4.
    let on_rulers = matches!(other, 2 | 3 | 4 | 8 | 16) && number.readings.first().is_some_and(|is| is.over == other);
    let is_lowest = one % 2 != 0 || other % 2 != 0;
    let is_fraction = on_rulers && is_lowest;
    if number.unit.is_some() || one <= 0 {
        return false;
    }
    // `Make 6/10.`
    let before = at.checked_sub(1).map_or("", |at| tokens.list[at].stem.as_str());
    let ends = tokens.list.get(at + 1).is_none_or(Token::ends_clause);
    if ends && matches!(before, "make" | "need" | "sew" | "cut") {
        return !is_fraction;
    }
    // `9/10 binding strips` are counted, and `3/4 of the strip` is a part of it.
    let is_name = |token: &&Token| token.is_word() && !BETWEEN.contains(&token.stem.as_str());
    let mut next = tokens.list[at + 1..].iter().take(3).take_while(is_name);
    let Some(next) = next.find(|token| COUNTED.contains(&token.stem.as_str())) else { return false };
    let is_plural = text[next.at.clone()].ends_with('s') && next.stem.len() < next.at.len();
    is_plural && (one > 1 || has_pairs) || !is_fraction
}

/// Parts a number at its slash.
fn part(text: &str, tokens: &mut Tokens, at: usize) {
    let TokenKind::Number(first) = tokens.list[at].kind else { return };
    let whole = tokens.numbers[first].clone();
    let slash = whole.at.start + text[whole.at.clone()].find('/').unwrap_or(0);
    let Some((one, other)) = digits(&text[whole.at.clone()]) else { return };
    let number = |value: i64, at: std::ops::Range<usize>| TextNumber {
        at: at.clone(),
        with_unit: at,
        readings: vec![Ratio::whole(value)],
        ..whole.clone()
    };
    let (before, after) = (number(one, whole.at.start..slash), number(other, slash + 1..whole.at.end));
    for token in &mut tokens.list {
        if let TokenKind::Number(number) = &mut token.kind {
            *number += usize::from(*number > first);
        }
    }
    let token = |kind, at: &std::ops::Range<usize>| Token { kind, at: at.clone(), stem: String::new() };
    let parts = [
        token(TokenKind::Number(first), &before.at),
        token(TokenKind::Sign('/'), &(slash..slash + 1)),
        token(TokenKind::Number(first + 1), &after.at),
    ];
    tokens.list.splice(at..=at, parts);
    tokens.numbers.splice(first..=first, [before, after]);
}

/// Puts slashes in the place of dots, and of colons with room about them, between as many numbers as there are sizes:
/// `5 · 10 · 18`, `5 : 7`.
pub(super) fn join_dots(tokens: &mut Tokens, sizes: usize) {
    let list = &tokens.list;
    let is_spaced = |at: usize| {
        list.get(at - 1..=at + 1)
            .is_some_and(|near| near[0].at.end < near[1].at.start && near[1].at.end < near[2].at.start)
    };
    let dots: Vec<bool> =
        (0..list.len()).map(|at| list[at].is_sign('•') || list[at].is_sign(':') && at > 0 && is_spaced(at)).collect();
    let mut at = 0;
    while sizes > 1 && at < tokens.list.len() {
        let numbers = (0..).take_while(|index| {
            let number = tokens.list.get(at + index * 2).is_some_and(|token| token.number().is_some());
            number && (*index == 0 || dots[at + index * 2 - 1])
        });
        let numbers = numbers.count();
        if numbers == sizes {
            for dot in 1..numbers {
                tokens.list[at + dot * 2 - 1].kind = TokenKind::Sign('/');
            }
        }
        at += (numbers * 2).max(1);
    }
}
