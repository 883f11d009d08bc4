//! Runs of numbers over the sizes, each for another: `6 (8, 12)`, `50/60/70 cm`, `2–4–6 strips`.

use std::collections::BTreeSet;
use std::ops::Range;

use super::elements::{
    Element, Form, Role, closes, gap, has_unit, is_close, is_open, numbers_with_sides, relate, unit_at,
};
use super::lexicon::PlacedCue;
use super::tokens::{THINGS, Token, TokenKind, Tokens};
use crate::quantity::Unit;

/// The elements of a passage; each of `orders` is an order of sizes in runs, those that hold first. `repeats` is whether
/// the text says numbers in words and once more in figures.
pub(crate) fn elements(tokens: &Tokens, orders: [&[usize]; 2], repeats: bool) -> Vec<Element> {
    let mut elements = numbers_with_sides(tokens);
    for order in orders {
        share_widths(tokens, &mut elements, order.len());
    }
    relate(tokens, &mut elements, orders[0].len() == 2 && !repeats);
    let known = runs(tokens, &mut elements, orders[0], 0);
    if orders[1].len() != orders[0].len() {
        runs(tokens, &mut elements, orders[1], known);
    }
    complete_runs(tokens, &mut elements);
    elements
}

/// Joins runs of widths and of lengths, and gives runs the unit that stands after their last number.
fn complete_runs(tokens: &Tokens, elements: &mut Vec<Element>) {
    widths_and_lengths(tokens, elements);
    let units: Vec<Option<Unit>> = elements.iter().map(|own| unit_of_run(tokens, elements, own)).collect();
    elements.iter_mut().zip(units).for_each(|(own, unit)| own.run_unit = unit);
}

/// Gives the lengths of a run the width that stands before the first of them: `15" by 39 (63)"` are 15 x 39 and 15 x 63.
fn share_widths(tokens: &Tokens, elements: &mut [Element], sizes: usize) {
    if sizes < 2 {
        return;
    }
    let heads: Vec<usize> = (0..sizes).collect();
    for first in 0..(elements.len() + 1).saturating_sub(sizes) {
        let unit = unit_at(tokens, &elements[first]);
        let is_length = |own: &Element| {
            own.form == Form::Scalar && unit_at(tokens, own).is_none_or(|own| unit.is_none_or(|unit| unit == own))
        };
        let are_lengths = elements[first + 1..first + sizes].iter().all(is_length);
        let (Form::Sides, [width, length]) = (elements[first].form, &elements[first].numbers[..]) else { continue };
        let (width, length) = (*width, *length);
        let lengths = || -> Vec<Element> {
            let mut lengths = elements[first..first + sizes].to_vec();
            lengths[0].form = Form::Scalar;
            lengths[0].numbers = vec![length];
            lengths
        };
        let sign = separator(tokens, &elements[first], &elements[first + 1]).first().copied();
        let is_parted = sign.is_some_and(|sign| is_open(sign) || sign == '/');
        if are_lengths && is_parted && is_run(tokens, &lengths(), &heads) {
            for own in &mut elements[first + 1..first + sizes] {
                own.numbers.insert(0, width);
                own.form = Form::Sides;
            }
        }
    }
}

/// The unit that stands after the last number of a run, for all of it.
fn unit_of_run(tokens: &Tokens, elements: &[Element], own: &Element) -> Option<Unit> {
    let (run, _) = own.in_run?;
    let of_run = elements.iter().filter(|element| element.in_run.is_some_and(|(other, _)| other == run));
    let after =
        of_run.filter(|element| element.tokens.start >= own.tokens.start && !matches!(element.role, Role::PairOf(_)));
    let own = after.clone().flat_map(|element| &element.numbers).find_map(|number| tokens.numbers[*number].unit);
    // Behind the bracket of the run: `1 (1 7/8) yards`.
    own.or_else(|| {
        let end = after.map(|element| element.tokens.end).max()?;
        let after = tokens.list.get(end..)?;
        if let [close, mark, ..] = after
            && close.is_sign(')')
            && mark.is_sign('"')
        {
            return Some(Unit::Inch);
        }
        let word = after.iter().take(3).find(|token| token.is_word())?;
        let closed = tokens.list[end].is_sign(')') || tokens.list[end].is_sign(']') || tokens.list[end].is_sign('}');
        (closed && word.stem != "in").then(|| Unit::from_word(&word.stem)).flatten()
    })
    .or_else(|| {
        let first = elements.iter().find(|element| element.in_run.is_some_and(|(other, _)| other == run))?;
        unit_at(tokens, first).filter(|unit| matches!(unit, Unit::Yard | Unit::Metre))
    })
}

/// Runs over the sizes: `6 (8, 12)`, `6 [8] {12}`, `6/8/12`, `6, 8 and 12`; how many there are, with those known before.
fn runs(tokens: &Tokens, elements: &mut [Element], order: &[usize], known: usize) -> usize {
    let sizes = order.len();
    let mut run = known;
    if sizes < 2 {
        return run;
    }
    let mut start = 0;
    while start < elements.len() {
        match free_heads(elements, start, sizes).filter(|heads| is_run(tokens, elements, heads)) {
            Some(heads) => {
                set_run(elements, &heads, run, order);
                run += 1;
                start = heads[sizes - 1] + 1;
            }
            None => start += 1,
        }
    }
    run
}

/// So many elements from one on that are in no run yet, without other measures and words for figures.
fn free_heads(elements: &[Element], start: usize, count: usize) -> Option<Vec<usize>> {
    let heads: Vec<usize> = (start..elements.len())
        .filter(|index| !matches!(elements[*index].role, Role::PairOf(_) | Role::WordOf(_)))
        .take(count)
        .collect();
    let are_free = heads.iter().all(|head| elements[*head].in_run.is_none());
    (heads.len() == count && heads[0] == start && are_free).then_some(heads)
}

/// Makes elements a run over sizes in an order.
fn set_run(elements: &mut [Element], heads: &[usize], run: usize, order: &[usize]) {
    for (index, size) in heads.iter().zip(order) {
        elements[*index].in_run = Some((run, *size));
        elements[*index].role = Role::Plain;
    }
    for index in heads[0]..=heads[heads.len() - 1] {
        if let Role::PairOf(of) = elements[index].role {
            elements[index].in_run = elements[of].in_run;
        }
    }
}

/// Numbers that look like a run over sizes, whichever these are.
#[derive(Clone, Debug)]
pub(super) struct OpenRun {
    /// Their elements.
    pub(super) heads: Vec<usize>,
    /// The sign after the first.
    pub(super) sign: char,
    /// Whether words stand before it: `2 m of linen (1 m)`.
    pub(super) has_words: bool,
}

/// The most words in a run of two: `2 m of the darkest linen (1 m)`.
const WORDS_IN_RUN: usize = 7;

/// What looks like runs over at most so many sizes, and is none yet.
pub(super) fn open_runs(tokens: &Tokens, elements: &[Element], sizes: usize) -> Vec<OpenRun> {
    let mut open = Vec::new();
    let mut start = 0;
    while start < elements.len() {
        let found = (2..=sizes).rev().find_map(|count| {
            let heads = free_heads(elements, start, count)?;
            let first = separator(tokens, &elements[heads[0]], &elements[heads[1]]);
            let sign = first.first().copied().filter(|sign| is_open(*sign) || matches!(sign, '/' | ','));
            let is_run = |_: &char| is_run(tokens, elements, &heads) || are_amounts_in_turn(tokens, elements, &heads);
            let sign = sign.filter(is_run);
            let bracket = || {
                let [one, other] = heads[..] else { return None };
                bracket_after_words(tokens, &elements[one], &elements[other])
            };
            let (sign, has_words) = sign.map(|sign| (sign, false)).or_else(|| Some((bracket()?, true)))?;
            Some(OpenRun { heads, sign, has_words })
        });
        start = found.as_ref().map_or(start, |run| run.heads[run.heads.len() - 1]) + 1;
        open.extend(found);
    }
    open
}

/// Whether two measures with units stand side by side: `40 cm, 90 cm`.
fn are_amounts_in_turn(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let [one, other] = heads else { return false };
    let (one, other) = (&elements[*one], &elements[*other]);
    let is_scalar = |element: &Element| element.form == Form::Scalar && has_unit(tokens, element);
    is_scalar(one) && is_scalar(other) && matches!(gap(tokens, one, other), [comma] if comma.is_sign(','))
}

/// Whether a unit stands at each of a run, at none, or at the last for all.
fn share_unit(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let units: Vec<bool> = heads.iter().map(|head| has_unit(tokens, &elements[*head])).collect();
    units[..units.len() - 1].iter().all(|unit| *unit == units[0]) && (!units[0] || units[units.len() - 1])
}

/// Whether only the first of three amounts and more has a unit, for all: `7/8 yd (2 1/8, 3 7/8)`.
fn is_first_of_amounts(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let unit = |head: &usize| unit_at(tokens, &elements[*head]);
    let is_amount = matches!(unit(&heads[0]), Some(Unit::Yard | Unit::Metre));
    heads.len() > 2 && is_amount && heads[1..].iter().all(|head| unit(head).is_none())
}

/// The bracket of a number that stands alone in it, after words that follow the number before.
fn bracket_after_words(tokens: &Tokens, one: &Element, other: &Element) -> Option<char> {
    let (open, words) = gap(tokens, one, other).split_last()?;
    let TokenKind::Sign(sign) = open.kind else { return None };
    let TokenKind::Sign(close) = tokens.list.get(other.tokens.end)?.kind else { return None };
    let are_words = words.len() <= WORDS_IN_RUN && !words.is_empty() && words.iter().all(Token::is_word);
    let alike = one.form == other.form && has_unit(tokens, one) == has_unit(tokens, other);
    (is_open(sign) && is_close(close) && are_words && alike).then_some(sign)
}

/// Numbers that are a run over sizes in an order.
#[derive(Debug)]
pub(super) struct OrderedRun {
    /// Their elements.
    pub(super) heads: Vec<usize>,
    /// The size of each.
    pub(super) order: Vec<usize>,
}

/// Makes these runs over sizes in an order.
pub(super) fn order_runs(tokens: &Tokens, elements: &mut Vec<Element>, runs: &[OrderedRun]) {
    let known = elements.iter().filter_map(|own| own.in_run).map(|(run, _)| run + 1).max().unwrap_or(0);
    for (place, run) in runs.iter().enumerate() {
        set_run(elements, &run.heads, known + place, &run.order);
    }
    complete_runs(tokens, elements);
}

/// Takes apart lists of several things for one size, as many as there are sizes: `for the throw 120 cm, 90 cm and 70 cm`.
pub(super) fn part_lists_of_one_size(tokens: &Tokens, cues: &[PlacedCue], elements: &mut [Element]) {
    let list = &tokens.list;
    let sizes_in = |range: Range<usize>| {
        let here = cues.iter().filter(|cue| cue.tokens.start >= range.start && cue.tokens.end <= range.end);
        here.filter_map(|cue| cue.cue.size()).collect::<BTreeSet<usize>>().len()
    };
    let mut first = 0;
    while first < elements.len() {
        let run = elements[first].in_run.map(|(run, _)| run);
        let of_run = |own: &&Element| run.is_some() && own.in_run.map(|(run, _)| run) == run;
        let count = elements[first..].iter().take_while(of_run).count();
        let next = first + count.max(1);
        if count > 1 {
            let (start, end) = (elements[first].tokens.start, elements[next - 1].tokens.end);
            let is_joint = |token: &Token| token.is_sign(',') || token.number().is_some() || token.is_word();
            let from = (0..start).rev().find(|at| list[*at].ends_clause() || list[*at].number().is_some());
            let to = (end..list.len()).find(|at| list[*at].ends_clause()).unwrap_or(list.len());
            let is_listed = list[start..end].iter().all(is_joint) && !says_respectively(tokens, &elements[first]);
            if is_listed && sizes_in(from.map_or(0, |at| at + 1)..start) == 1 && sizes_in(start..to) == 0 {
                for own in &mut elements[first..next] {
                    own.in_run = None;
                }
            }
        }
        first = next;
    }
}

fn is_run(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let alike = heads.iter().all(|index| elements[*index].form == elements[heads[0]].form);
    let separators: Vec<Vec<char>> =
        heads.windows(2).map(|pair| separator(tokens, &elements[pair[0]], &elements[pair[1]])).collect();
    let first = separators.first().map_or(&[][..], Vec::as_slice);
    let rest = separators.get(1..).unwrap_or(&[]);
    let bracketed = matches!(first, [open] if is_open(*open))
        && !are_counts_of_measure(tokens, elements, heads)
        && rest.iter().all(|signs| {
            matches!(signs.as_slice(), [',' | '/' | ';' | ':' | '|'] | [',', '&'])
                || matches!(signs.as_slice(), [close, ',', open] if is_close(*close) && is_open(*open))
                || are_brackets_between(signs)
        });
    let plain = |sign: char| {
        separators
            .iter()
            .all(|signs| matches!(signs[..], [one] | [one, _] if one == sign) && signs.iter().all(|one| *one == sign))
    };
    let ends_with_and = separators.last().is_some_and(|signs| signs.contains(&'&'));
    let listed = (separators.len() > 1 || ends_with_and)
        && separators.iter().enumerate().all(|(index, signs)| match signs.as_slice() {
            [','] => true,
            ['&'] | [',', '&'] => index + 1 == separators.len(),
            _ => false,
        });
    let listed = listed
        && !are_of_several_things(tokens, elements, heads)
        && (heads.len() > 2
            || says_respectively(tokens, &elements[heads[0]])
            || are_of_either(tokens, elements, heads));
    let dashed = heads.len() > 2 && (plain('–') || plain('-'));
    alike
        && (share_unit(tokens, elements, heads) || bracketed && is_first_of_amounts(tokens, elements, heads))
        && (bracketed && closed_after(tokens, elements, heads) || plain('/') || plain('|') || listed || dashed)
}

/// Whether signs close a bracket and open another, or two within each other: `1 {2} {{3}}`.
fn are_brackets_between(signs: &[char]) -> bool {
    let closes = signs.iter().take_while(|sign| is_close(**sign)).count();
    (1..=2).contains(&closes)
        && (1..=2).contains(&(signs.len() - closes))
        && signs[closes..].iter().all(|sign| is_open(*sign))
}

/// Whether numbers that are listed count several things: `two strips, twelve squares`.
fn are_of_several_things(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let after = heads.iter().filter_map(|head| tokens.list.get(elements[*head].tokens.end));
    let counted: BTreeSet<&str> = after.map(|token| token.stem.as_str()).filter(|word| THINGS.contains(word)).collect();
    counted.len() > 1
}

/// Joins a run of widths and a run of lengths to sizes: `Width 32 1/2 [48 1/2], length 32 1/2 [64 1/2]`,
/// `40 [56] inches wide and 40 [72] inches long`, `48 [64] inches by 48 [80] inches`.
fn widths_and_lengths(tokens: &Tokens, elements: &mut Vec<Element>) {
    let mut at = 0;
    while let Some((run, _)) = elements.get(at).map(|element| element.in_run).map(|run| run.unwrap_or((usize::MAX, 0)))
    {
        let is_of = |element: &Element, run: usize| element.in_run.is_some_and(|(own, _)| own == run);
        let count = elements[at..].iter().take_while(|element| is_of(element, run)).count();
        let next = at + count.max(1);
        let second = elements.get(next).and_then(|element| element.in_run).map(|(run, _)| run);
        let others = second.map_or(0, |second| elements[next..].iter().take_while(|one| is_of(one, second)).count());
        let plain = |from: usize, count: usize| {
            elements[from..from + count].iter().all(|one| one.form == Form::Scalar && one.role == Role::Plain)
        };
        if count > 1
            && count == others
            && plain(at, count)
            && plain(next, count)
            && is_width_and_length(tokens, elements, at, next, count)
        {
            let lengths: Vec<Element> = elements.drain(next..next + count).collect();
            for (width, length) in elements[at..next].iter_mut().zip(lengths) {
                width.numbers.extend(length.numbers);
                width.form = Form::Sides;
            }
        }
        at = next;
    }
}

/// Whether words say that a run is of widths and the next of lengths.
fn is_width_and_length(tokens: &Tokens, elements: &[Element], first: usize, second: usize, count: usize) -> bool {
    let list = &tokens.list;
    let (first_start, end) = (elements[first].tokens.start, elements[first + count - 1].tokens.end);
    let (start, stop) = (elements[second].tokens.start, elements[second + count - 1].tokens.end);
    let between = list.get(end..start).unwrap_or(&[]);
    let says = |range: &[Token], words: &[&str]| range.iter().any(|token| words.contains(&token.stem.as_str()));
    let before = &list[first_start.saturating_sub(2)..first_start];
    let after = list.get(stop..(stop + 4).min(list.len())).unwrap_or(&[]);
    let is_by = says(between, &["by", "x"]) || between.iter().any(|token| token.is_sign('×'));
    between.len() <= 7
        && (is_by
            || says(before, &["width", "wide"]) && says(between, &["length", "long"])
            || says(between, &["wide"]) && says(after, &["long", "high", "tall"]))
}

/// Whether a sentence says that its numbers are for the sizes in their order.
fn says_respectively(tokens: &Tokens, element: &Element) -> bool {
    let ends = |token: &Token| token.is_sign('.') || token.is_sign('\n');
    let (before, after) = (&tokens.list[..element.tokens.start], &tokens.list[element.tokens.end..]);
    let says = |token: &Token| token.stem == "respectively";
    after.iter().take_while(|token| !ends(token)).any(says)
        || before.iter().rev().take_while(|token| !ends(token)).any(says)
}

/// Whether the brackets of a run are closed, perhaps after the other measure of its last number or a word.
fn closed_after(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let last = heads[heads.len() - 1];
    let end = elements
        .get(last + 1)
        .filter(|next| next.role == Role::PairOf(last))
        .map_or(elements[last].tokens.end, |next| next.tokens.end);
    let inside = tokens.list.get(end..).unwrap_or_default().iter().take_while(|token| !closes(token)).take(2);
    // `4 strips (9 a strip)` says how many come from each.
    let is_each = |token: &Token| matches!(token.stem.as_str(), "per" | "each" | "every" | "a" | "from" | "apiece");
    let is_of_run = inside.clone().all(|token| token.number().is_none() && !is_each(token));
    is_of_run && tokens.list.get(end + inside.count()).is_some_and(closes)
}

/// Whether a measure is followed by how many are cut of it: `9.5 cm strips (5, 11, 18)`.
fn are_counts_of_measure(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let has_unit = |head: &usize| has_unit(tokens, &elements[*head]);
    let between = gap(tokens, &elements[heads[0]], &elements[heads[1]]);
    has_unit(&heads[0]) && !heads[1..].iter().any(has_unit) && between.iter().any(Token::is_word)
}

/// Whether two numbers are given for two sizes to choose from, and are no more or less exact count: `40 or 96`, not
/// `3 or 4`.
fn are_of_either(tokens: &Tokens, elements: &[Element], heads: &[usize]) -> bool {
    let [one, other] = heads else { return false };
    let says_or = matches!(gap(tokens, &elements[*one], &elements[*other]), [word] if word.stem == "or");
    // `60 cm or 1.2 m`
    let units = unit_at(tokens, &elements[*one]).zip(unit_at(tokens, &elements[*other]));
    if let Some((first, second)) = units.filter(|(first, second)| first != second) {
        let length = |head: &usize, unit| tokens.numbers[elements[*head].numbers[0]].first().of(unit);
        return says_or && length(other, second) > length(one, first);
    }
    let value = |head: &usize| tokens.numbers[elements[*head].numbers[0]].first();
    // `7/8 or 1 3/4 yards`
    let is_amount = matches!(unit_at(tokens, &elements[*other]), Some(Unit::Yard | Unit::Metre));
    let (one, other) = (value(one), value(other));
    let least = if is_amount { one.top } else { one.top + one.over };
    says_or && other.top * one.over > least * other.over
}

/// The signs between two numbers of a run, `&` for `and` and `or`; a word that repeats what is counted is left out.
fn separator(tokens: &Tokens, one: &Element, other: &Element) -> Vec<char> {
    let between = gap(tokens, one, other);
    let mut signs = Vec::new();
    let mut words = 0;
    for token in between {
        match token.kind {
            TokenKind::Sign(sign) => signs.push(sign),
            TokenKind::Word if matches!(token.stem.as_str(), "and" | "or") => signs.push('&'),
            TokenKind::Word if matches!(token.stem.as_str(), "strip" | "square" | "yd" | "piece" | "block") => {
                words += 1;
            }
            // The other measure of the number before.
            TokenKind::Number(_) => {
                while signs.last().is_some_and(|sign| is_open(*sign)) {
                    signs.pop();
                }
                words += 1;
            }
            TokenKind::Word => return vec!['?'],
        }
    }
    if words > 1 { vec!['?'] } else { signs }
}
