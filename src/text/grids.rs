//! Blocks that are counted across and down: `5 rows of 4 blocks`, `6 across and 8 down`, `3 x 4`.

use super::context::ReadPassage;
use super::elements::{Element, Form};
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Cue, Noun};
use super::tokens::Token;

/// Which of the two an element counts: what stands across, as [`Noun::Column`], or how many rows.
pub(super) fn counted(here: &ReadPassage<'_>, element: usize) -> Option<Noun> {
    let own = &here.elements[element];
    let run = |other: &&Element| own.in_run.is_some() && other.in_run.map(|run| run.0) == own.in_run.map(|run| run.0);
    let start = here.elements.iter().find(run).map_or(own.tokens.start, |first| first.tokens.start);
    let mut end = here.elements.iter().rfind(run).map_or(own.tokens.end, |last| last.tokens.end);
    let list = &here.tokens.list;
    if list.get(end).is_some_and(|token| token.is_sign(')') || token.is_sign(']') || token.is_sign('}')) {
        end += 1;
    }
    let after = |ahead: usize| list.get(end + ahead).map_or("", |token| token.stem.as_str());
    let before = |back: usize| start.checked_sub(back).and_then(|at| list.get(at)).map_or("", |token| &token.stem);
    let is_number = |ahead: usize| list.get(end + ahead).is_some_and(|token| token.number().is_some());
    if matches!(before(1), "of" | "with") && before(2) == "row" {
        return Some(Noun::Column);
    }
    // `8 rows, each of 4 blocks`, and `Rows: 5 of 4`.
    let sign = |back: usize, sign: char| {
        start.checked_sub(back).and_then(|at| list.get(at)).is_some_and(|token| token.is_sign(sign))
    };
    let is_before = |back: usize| start.checked_sub(back).is_some_and(|at| list[at].number().is_some());
    let of_each =
        before(1) == "of" && before(2) == "each" && (before(3) == "row" || sign(3, ',') && before(4) == "row");
    if of_each || before(1) == "of" && is_before(2) && sign(3, ':') && before(4) == "row" {
        return Some(Noun::Column);
    }
    if after(0) == "of" && is_number(1) && sign(1, ':') && before(2) == "row" {
        return Some(Noun::Row);
    }
    if after(0) == "row" && matches!(after(1), "of" | "with") && (2..5).any(is_number) {
        return Some(Noun::Row);
    }
    // `6 blocks wide and 7 tall`.
    let counts_across = start.checked_sub(2).and_then(|at| list.get(at)).is_some_and(|token| {
        matches!(token.stem.as_str(), "wide" | "across") && start.checked_sub(3).is_some_and(|at| list[at].is_word())
    });
    // A word may stand between: `6 blocks across`.
    (0..3).find_map(|ahead| {
        let (word, next) = (after(ahead), after(ahead + 1));
        let is_there = (0..ahead).all(|at| matches!(after(at), "block" | "unit" | "star" | "square"));
        match word {
            _ if !is_there => None,
            "across" | "column" if !matches!(next, "the") => Some(Noun::Column),
            "wide" if ahead > 0 => Some(Noun::Column),
            "long" | "tall" | "high" | "deep" if ahead > 0 || before(1) == "and" && counts_across => Some(Noun::Row),
            "down" => Some(Noun::Row),
            "per" if next == "row" => Some(Noun::Column),
            "in" | "to" if matches!(next, "each" | "every" | "a") && after(ahead + 2) == "row" => Some(Noun::Column),
            _ => None,
        }
    })
}

/// The block that has the rows of `three rows of three` where no layout has them: the parts of a block are sewn so too.
pub(super) fn block_in_rows(keys: &Keys<'_>, here: &ReadPassage<'_>, element: usize) -> Option<Cue> {
    let list = &here.tokens.list;
    let own = &here.elements[element].tokens;
    let count = |at: usize| list.get(at).and_then(Token::number).and_then(|number| here.tokens.numbers[number].count());
    let is_phrase = |at: usize| {
        let word = |ahead: usize| list.get(at + ahead).map_or("", |token| token.stem.as_str());
        word(1) == "row" && matches!(word(2), "of" | "with")
    };
    let first = [Some(own.start), own.start.checked_sub(3)].into_iter().flatten().find(|at| is_phrase(*at));
    let (rows, in_row) = first.and_then(|at| count(at).zip(count(at + 3)))?;
    let has = |what: What, of: Option<Cue>, noun: Noun, count: u64| {
        let is = move |key: &&Key| {
            let is_of = of.is_none_or(|of| key.of.first() == Some(&of));
            key.what == what && is_of && key.nouns & noun.bit() != 0 && key.value == KeyValue::Count(count)
        };
        keys.list.iter().filter(is)
    };
    let is_laid = || {
        has(What::Laid, None, Noun::Row, rows)
            .filter(|row| row.is_stated())
            .any(|row| has(What::Laid, None, Noun::Column, in_row).any(|column| column.size == row.size))
    };
    let sewn = has(What::FromEach, None, Noun::Row, rows).filter_map(|key| key.of.first().copied());
    let mut blocks = sewn.filter(|of| matches!(of, Cue::Block(_)));
    let block = blocks.find(|of| has(What::FromEach, Some(*of), Noun::Unit, in_row).next().is_some())?;
    (!is_laid()).then_some(block)
}

/// The keys of both counts where an element is `across x down` of a size that it is for.
pub(super) fn across_and_down(keys: &Keys<'_>, own: &Element, here: &ReadPassage<'_>, sizes: &[usize]) -> Vec<usize> {
    let count = |at: usize| {
        let number = own.numbers.get(at).map(|number| &here.tokens.numbers[*number])?;
        number.count().filter(|_| number.unit.is_none())
    };
    let (Form::Sides, Some(first), Some(second)) = (own.form, count(0), count(1)) else { return Vec::new() };
    let laid = |noun: Noun, count: u64| {
        (0..keys.list.len()).filter(move |key| {
            let key = &keys.list[*key];
            let is = key.what == What::Laid && key.nouns & noun.bit() != 0 && key.value == KeyValue::Count(count);
            is && key.is_for(sizes)
        })
    };
    let pair = |across: u64, down: u64| {
        laid(Noun::Column, across).find_map(|one| {
            let other = laid(Noun::Row, down).find(|other| keys.list[*other].size == keys.list[one].size)?;
            Some(vec![one, other])
        })
    };
    pair(first, second).or_else(|| pair(second, first)).unwrap_or_default()
}
