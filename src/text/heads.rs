//! What a text says once for all that follows: the unit of amounts (`Buy, in yards`), letters for sizes (`Tw = twin`).

use std::collections::BTreeSet;

use super::elements::{is_close, is_open};
use super::lexicon::{Act, Cue, Noun, PlacedCue};
use super::passage::Passage;
use super::tokens::{Token, TokenKind, Tokens};
use crate::quantity::Unit;

/// A short word for a size, as it is spelled.
#[derive(Debug)]
pub(super) struct SizeAlias {
    word: String,
    size: usize,
}

/// The longest word that stands for the name of a size.
const LONGEST: usize = 4;

/// The words that a passage gives sizes: `Tw = twin`, `twin (Tw)`, `Tw (twin)`, and of several `La lap, Tw twin`.
pub(super) fn size_aliases(
    passage: &Passage,
    tokens: &Tokens,
    cues: &[PlacedCue],
    letters: &[String],
) -> Vec<SizeAlias> {
    let list = &tokens.list;
    let is = |at: Option<usize>, sign: char| at.and_then(|at| list.get(at)).is_some_and(|token| token.is_sign(sign));
    let word = |at: Option<usize>| {
        let token = at.and_then(|at| list.get(at)).filter(|token| token.is_word())?;
        let says = &passage.text[token.at.clone()];
        let is_name = letters.iter().any(|letter| letter == says);
        let is_short = says.chars().count() <= LONGEST;
        (is_short && !is_name).then(|| says.to_string())
    };
    let is_capital = |word: &String| word.starts_with(char::is_uppercase);
    let begins_alike = |word: &String, start: usize| {
        let first = |says: &str| says.chars().next().map(|c| c.to_ascii_lowercase());
        let size = &passage.text[list[start].at.clone()];
        first(word) == first(size) && word.chars().count() < size.chars().count()
    };
    let found = cues.iter().filter_map(|cue| {
        let size = cue.cue.size()?;
        let (start, end) = (cue.tokens.start, cue.tokens.end);
        let is_alias = |word: &String| is_capital(word) || begins_alike(word, start);
        let equals = is(start.checked_sub(1), '=') || is(start.checked_sub(1), '(') && is(Some(end), ')');
        let before = equals.then(|| word(start.checked_sub(2))).flatten().filter(is_alias);
        let after = || {
            let equals = is(Some(end), '=').then(|| word(Some(end + 1))).flatten();
            let brackets = is(Some(end), '(') && is(Some(end + 2), ')');
            equals.or_else(|| brackets.then(|| word(Some(end + 1))).flatten()).filter(is_alias)
        };
        before.or_else(after).map(|word| SizeAlias { word, size })
    });
    let beside = cues.iter().filter_map(|cue| {
        let size = cue.cue.size()?;
        let start = cue.tokens.start;
        let word = word(start.checked_sub(1)).filter(|word| is_capital(word) && begins_alike(word, start))?;
        Some(SizeAlias { word, size })
    });
    let beside: Vec<SizeAlias> = beside.collect();
    found.chain(if are_of_several(&beside) { beside } else { Vec::new() }).collect()
}

/// The places where sizes are named by these words.
pub(super) fn named_by(
    aliases: &[SizeAlias],
    passage: &Passage,
    tokens: &Tokens,
    cues: &[PlacedCue],
) -> Vec<PlacedCue> {
    let is_free = |at: usize| !cues.iter().any(|cue| cue.tokens.contains(&at) && matches!(cue.cue, Cue::Size(_)));
    let found = tokens.list.iter().enumerate().filter(|(at, token)| token.is_word() && is_free(*at));
    let found = found.filter_map(|(at, token)| {
        let says = &passage.text[token.at.clone()];
        let alias = aliases.iter().find(|alias| alias.word == says)?;
        Some(PlacedCue { cue: Cue::Size(alias.size), tokens: at..at + 1, weak: false })
    });
    found.collect()
}

/// Whether several sizes have such a word.
pub(super) fn are_of_several(aliases: &[SizeAlias]) -> bool {
    aliases.iter().map(|alias| alias.size).collect::<BTreeSet<_>>().len() > 1
}

/// The unit in which fabric is counted from a token on: `Buy (yards)`, not `2 yards` or `Kestrel Yard`.
pub(super) fn unit_said(text: &str, list: &[Token]) -> Option<(usize, Unit)> {
    let is_name = |at: usize| {
        let [before, own] = &list[at - 1..=at] else { return false };
        let is_capital = |token: &Token| text[token.at.clone()].starts_with(char::is_uppercase);
        let is_one = matches!(own.stem.as_str(), "yard" | "meter") && !text[own.at.clone()].ends_with('s');
        is_one && before.is_word() && is_capital(before) && is_capital(own)
    };
    let is_unit = |at: usize| at == 0 || list[at - 1].number().is_none() && !is_name(at);
    let mut found =
        list.iter().enumerate().filter(|(at, _)| is_unit(*at)).filter_map(|(at, token)| match token.stem.as_str() {
            "yard" | "yardage" | "yd" | "ydg" => Some((at, Unit::Yard)),
            "meter" => Some((at, Unit::Metre)),
            _ => None,
        });
    found.next()
}

/// Whether a cue names what is bought by the amount: a fabric, the binding, the backing.
fn is_bought(cue: &PlacedCue) -> bool {
    matches!(cue.cue, Cue::Fabric(_) | Cue::Section(_))
}

/// The numbers after a token of a passage that are amounts by what stands beside them, though they have no unit.
pub(super) fn bare_amounts(tokens: &Tokens, cues: &[PlacedCue], from: usize) -> Vec<usize> {
    let list = &tokens.list;
    let line = |at: usize| {
        let ends = |at: &usize| list[*at].is_sign('.') || list[*at].is_sign('\n') || list[*at].is_sign(';');
        let start = (from..at).rev().find(ends).map_or(from, |at| at + 1);
        let end = (at..list.len()).find(ends).unwrap_or(list.len());
        start..end
    };
    let is_amount = |(at, number): (usize, usize)| {
        let own = &tokens.numbers[number];
        let line = line(at);
        let here = cues.iter().filter(|cue| cue.tokens.start >= line.start && cue.tokens.end <= line.end);
        // `Backing yards: crib 3. Lap 4.`
        let names_size = |cue: &PlacedCue| matches!(cue.cue, Cue::Size(_)) && cue.tokens.end == at;
        let is_said = || cues.iter().any(|cue| cue.tokens.end <= from && is_bought(cue));
        let of = here.clone().any(is_bought) || here.clone().any(names_size) && is_said();
        let counts = here.clone().any(|cue| match cue.cue {
            Cue::Noun(noun) => !matches!(noun, Noun::Fabric | Noun::Usable | Noun::Width | Noun::Edge | Noun::Side),
            Cue::Act(act) => matches!(act, Act::Cut | Act::Sew | Act::Measured | Act::Trimmed),
            _ => false,
        });
        let is_times = |at: Option<usize>| {
            let by = |token: &Token| matches!(token.stem.as_str(), "x" | "by") || token.is_sign('×');
            at.and_then(|at| list.get(at)).is_some_and(by)
        };
        let is_side = is_times(at.checked_sub(1)) || is_times(Some(at + 1));
        let is_open = own.unit.is_none() && !own.in_words && !own.is_other;
        is_open && of && !counts && !is_side && !is_in_run_with_unit(tokens, at)
    };
    let numbers = (from..list.len()).filter_map(|at| Some((at, list[at].number()?)));
    numbers.filter(|number| is_amount(*number)).map(|(_, number)| number).collect()
}

/// Whether a number is of a run that has its own unit at its end: `2 / 3 3/8 / 5 yd`, `18 [26]" square`.
fn is_in_run_with_unit(tokens: &Tokens, at: usize) -> bool {
    let list = &tokens.list;
    let is_joint = |token: &&Token| match token.kind {
        TokenKind::Number(_) => true,
        TokenKind::Sign(sign) => is_open(sign) || is_close(sign) || matches!(sign, '/' | ',' | ';' | ':' | '|' | '•'),
        TokenKind::Word => false,
    };
    let end = at + list[at..].iter().take_while(is_joint).count();
    let mut numbers = list[at..end].iter().filter_map(Token::number);
    numbers.any(|number| tokens.numbers[number].unit.is_some())
        || list[end - 1].number().is_none() && list.get(end).is_some_and(|token| token.is_sign('"'))
}

/// The numbers without a unit that go on with amounts whose unit a sentence has said: `2 5/8 yards of green, 3 1/2 of
/// white and 1 3/4 of copper`.
pub(super) fn amounts_that_follow(tokens: &Tokens, cues: &[PlacedCue]) -> Vec<(usize, Unit)> {
    let mut said = None;
    let mut found = Vec::new();
    for (at, token) in tokens.list.iter().enumerate() {
        match token.kind {
            TokenKind::Sign(_) if token.ends_sentence() => said = None,
            TokenKind::Number(number) => match (tokens.numbers[number].unit, said) {
                (Some(unit), _) => said = Some(unit).filter(|unit| matches!(unit, Unit::Yard | Unit::Metre)),
                (None, Some(unit)) if is_item_of_amounts(tokens, cues, at, number) => found.push((number, unit)),
                _ => {}
            },
            TokenKind::Word | TokenKind::Sign(_) => {}
        }
    }
    found
}

/// The numbers without a unit of sizes before one that says it for all of them: `W 1/2, L 1, T 1 5/8 yd`.
pub(super) fn amounts_before(tokens: &Tokens, cues: &[PlacedCue]) -> Vec<(usize, Unit)> {
    let list = &tokens.list;
    let of_size = |at: usize| {
        let before = if at > 0 && list[at - 1].is_sign(':') { at - 1 } else { at };
        cues.iter().any(|cue| matches!(cue.cue, Cue::Size(_)) && cue.tokens.end == before)
    };
    let goes_on = |at: usize| {
        let next = list.get(at + 1);
        next.is_some_and(|next| [',', '/', ';', '|', '•'].iter().any(|sign| next.is_sign(*sign)) || next.stem == "and")
    };
    let (mut open, mut found) = (Vec::new(), Vec::new());
    for (at, token) in list.iter().enumerate() {
        let Some(number) = token.number() else { continue };
        match tokens.numbers[number].unit {
            Some(unit) if of_size(at) => found.extend(open.drain(..).map(|open| (open, unit))),
            None if of_size(at) && goes_on(at) => open.push(number),
            _ => open.clear(),
        }
    }
    found
}

/// Whether a number without a unit stands as an item of a list of amounts.
fn is_item_of_amounts(tokens: &Tokens, cues: &[PlacedCue], at: usize, number: usize) -> bool {
    let own = &tokens.numbers[number];
    let is_size = |cue: &PlacedCue| matches!(cue.cue, Cue::Size(_));
    let ends = |is: &dyn Fn(&PlacedCue) -> bool| cues.iter().any(|cue| cue.tokens.end == at && is(cue));
    let starts = |from: usize, is: &dyn Fn(&PlacedCue) -> bool| {
        (from..from + 2).any(|start| cues.iter().any(|cue| cue.tokens.start == start && is(cue)))
    };
    let before = at.checked_sub(1).map(|before| &tokens.list[before]);
    let is_item = before.is_some_and(|before| {
        [',', '(', '/', ';'].iter().any(|sign| before.is_sign(*sign))
            || matches!(before.stem.as_str(), "and" | "or" | "then")
    });
    let next = tokens.list.get(at + 1);
    let is_of = next.is_some_and(|next| next.stem == "of");
    let closes = next.is_none_or(|next| {
        [',', '.', ';', ')', '/', '('].iter().any(|sign| next.is_sign(*sign))
            || matches!(next.stem.as_str(), "and" | "or" | "for")
    });
    if own.in_words || own.is_other {
        return false;
    }
    if own.first().over == 1 {
        return is_of && starts(at + 2, &is_bought) || ends(&is_bought) && closes;
    }
    let is_named = ends(&is_bought) || ends(&is_size);
    is_named && closes || is_item && (closes || is_of || starts(at + 1, &is_bought))
}
