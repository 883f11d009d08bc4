//! Numbers that belong together: the sides of a size, a run over the sizes, both measures, a word with its figure.

use std::collections::BTreeSet;
use std::ops::Range;

use super::lexicon::PlacedCue;
use super::numbers::TextNumber;
use super::tokens::{Token, TokenKind, Tokens};
use crate::quantity::Unit;

/// One or two numbers that say one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Element {
    /// Its numbers, by their places among those of the passage.
    pub numbers: Vec<usize>,
    /// What they make.
    pub form: Form,
    /// Its tokens.
    pub tokens: Range<usize>,
    /// How it stands to another element.
    pub role: Role,
    /// The place in a run over the sizes: which run, and the size.
    pub in_run: Option<(usize, usize)>,
    /// The unit that stands after the last number of its run, for all of it.
    pub run_unit: Option<Unit>,
    /// Whether it may be a count and a size as well: `4 x 2.5" squares`.
    pub may_be_count_and_size: bool,
}

/// What the numbers of an element make.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Form {
    /// One number.
    Scalar,
    /// A width and a length.
    Sides,
    /// A width across the fabric: `2 1/2" x WOF`.
    Strip,
}

/// How an element stands to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// By itself.
    Plain,
    /// It says the same as an element before it, in the other measure.
    PairOf(usize),
    /// It is the word for the figure that is this element.
    WordOf(usize),
    /// It is an end of a range.
    Range,
}

/// Whether a text says a number in words and once more in a figure: `eight (8)`.
pub(super) fn repeats_words(tokens: &Tokens) -> bool {
    tokens.list.windows(4).any(|list| {
        let [word, open, figure, close] = list else { return false };
        let (Some(word), Some(figure)) = (word.number(), figure.number()) else { return false };
        let (word, figure) = (&tokens.numbers[word], &tokens.numbers[figure]);
        let is_repeated = word.in_words && !figure.in_words && word.first() == figure.first();
        is_repeated && open.is_sign('(') && close.is_sign(')')
    })
}

/// The elements of a passage; each of `orders` is an order of sizes in runs, those that hold first. `repeats` is whether
/// the text says numbers in words and once more in figures.
pub(crate) fn elements(tokens: &Tokens, orders: [&[usize]; 2], repeats: bool) -> Vec<Element> {
    let mut elements = Vec::new();
    let mut at = 0;
    while at < tokens.list.len() {
        match tokens.list[at].kind {
            TokenKind::Number(number) => at = sides_from(tokens, at, number, &mut elements),
            TokenKind::Word | TokenKind::Sign(_) => at += 1,
        }
    }
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

fn is_times(token: &Token) -> bool {
    token.is_sign('×') || matches!(token.stem.as_str(), "x" | "by")
}

/// Whether the width of the fabric is named here, and how many tokens that takes.
fn width_of_fabric(list: &[Token], at: usize) -> Option<usize> {
    let stem = |ahead: usize| list.get(at + ahead).map_or("", |token| token.stem.as_str());
    match stem(0) {
        "wof" | "lof" | "selvage" | "selvedge" => Some(1),
        "width" if stem(1) == "of" => Some(if stem(2) == "the" { 4 } else { 3 }),
        "the" if stem(1) == "width" && stem(2) == "of" => Some(if stem(3) == "the" { 5 } else { 4 }),
        _ => None,
    }
}

/// How many tokens say at a place that a measure is a width or a length: `wide`, `in length`.
fn said_of_side(list: &[Token], at: usize) -> usize {
    let stem = |ahead: usize| list.get(at + ahead).map_or("", |token| token.stem.as_str());
    match stem(0) {
        "wide" | "across" | "long" | "high" | "tall" | "deep" | "down" => 1,
        "in" if matches!(stem(1), "width" | "length" | "height") => 2,
        _ => 0,
    }
}

/// Where the second side begins, in tokens, where the first ends here: `2 x 4`, `12" wide by 44" long`, `12 inches wide
/// and 44 inches long`.
fn joint_of_sides(tokens: &Tokens, first: usize, at: usize) -> Option<usize> {
    let list = &tokens.list;
    // `5 blocks by 7`
    let is_block = list.get(at).is_some_and(|token| token.stem == "block")
        && list.get(at + 1).is_some_and(|token| token.stem == "by");
    let side = said_of_side(list, at) + usize::from(is_block);
    let joint = at + side;
    // `4 1/2 wide ×4` is to be cut four times.
    let multiplies = || {
        let next = list.get(joint + 1);
        let is_joined = next.is_some_and(|next| next.at.start == list[joint].at.end && next.number().is_some());
        side > 0 && is_joined && said_of_side(list, joint + 2) == 0
    };
    if list.get(joint).is_some_and(is_times) && !multiplies() {
        return Some(joint + 1);
    }
    let comma = usize::from(list.get(joint).is_some_and(|token| token.is_sign(',')));
    let and = usize::from(list.get(joint + comma).is_some_and(|token| token.stem == "and"));
    let second = joint + comma + and;
    let number = list.get(second).and_then(Token::number)?;
    let has_unit = [first, number].into_iter().any(|number| tokens.numbers[number].unit.is_some());
    let is_other = |one: usize, other: usize| list[one].stem != list[other].stem || list[one].stem == "in";
    let both = side > 0 && said_of_side(list, second + 1) > 0 && is_other(at, second + 1);
    (comma + and > 0 && has_unit && both).then_some(second)
}

/// Reads the element that begins with a number, and says where it ends.
fn sides_from(tokens: &Tokens, start: usize, first: usize, elements: &mut Vec<Element>) -> usize {
    let list = &tokens.list;
    let mut numbers = vec![first];
    let mut at = start + 1;
    let mut form = Form::Scalar;
    while let Some(joint) = joint_of_sides(tokens, first, at).filter(|_| numbers.len() < 3) {
        if let Some(length) = width_of_fabric(list, joint) {
            form = Form::Strip;
            at = joint + length;
            break;
        }
        let Some(next) = list.get(joint).and_then(Token::number) else { break };
        // `30/42/54 in. by 30/54/66 in.` are widths of the sizes, and their lengths.
        let is_side = |at: usize| list.get(at).is_some_and(is_times);
        let of_runs = start > 0 && list[start - 1].is_sign('/') && !start.checked_sub(3).is_some_and(is_side);
        if of_runs && list.get(joint + 1).is_some_and(|token| token.is_sign('/')) {
            break;
        }
        numbers.push(next);
        at = joint + 1;
    }
    let element = |numbers: Vec<usize>, form, tokens: Range<usize>| Element {
        numbers,
        form,
        tokens,
        role: Role::Plain,
        in_run: None,
        run_unit: None,
        may_be_count_and_size: false,
    };
    let bare = |number: usize| tokens.numbers[number].unit.is_none() && tokens.numbers[number].count().is_some();
    if numbers.len() == 3 || numbers.len() == 2 && form == Form::Strip {
        // A count, and then a size.
        elements.push(element(vec![first], Form::Scalar, start..start + 1));
        let form = if form == Form::Strip { Form::Strip } else { Form::Sides };
        elements.push(element(numbers[1..].to_vec(), form, start + 2..at));
        return at;
    }
    if numbers.len() == 2 {
        let mut sides = element(numbers.clone(), Form::Sides, start..at);
        let noun = list.get(at).map_or("", |token| token.stem.as_str());
        let whole = |number: usize| tokens.numbers[number].first().over == 1;
        sides.may_be_count_and_size =
            bare(first) && (matches!(noun, "square") || !whole(numbers[1]) && noun == "strip");
        elements.push(sides);
        return at;
    }
    elements.push(element(numbers, form, start..at));
    at
}

/// What stands between two elements.
fn gap<'t>(tokens: &'t Tokens, one: &Element, other: &Element) -> &'t [Token] {
    tokens.list.get(one.tokens.end..other.tokens.start).unwrap_or(&[])
}

fn signs(gap: &[Token]) -> Option<Vec<char>> {
    gap.iter().map(|token| if let TokenKind::Sign(sign) = token.kind { Some(sign) } else { None }).collect()
}

pub(super) const fn is_open(sign: char) -> bool {
    matches!(sign, '(' | '[' | '{' | '<' | '⟨' | '«' | '‹')
}

pub(super) const fn is_close(sign: char) -> bool {
    matches!(sign, ')' | ']' | '}' | '>' | '⟩' | '»' | '›')
}

/// Pairs of both measures, words with their figures, and ranges. A word and another figure may be of two sizes:
/// `eighteen (39) blocks`; with one more figure they are of three.
fn relate(tokens: &Tokens, elements: &mut [Element], may_be_of_two_sizes: bool) {
    for index in 1..elements.len() {
        let (one, other) = (&elements[index - 1], &elements[index]);
        let between = gap(tokens, one, other);
        let after = tokens.list.get(other.tokens.end);
        let closed = after.is_some_and(|token| matches!(token.kind, TokenKind::Sign(sign) if is_close(sign)));
        let signs = signs(between);
        let signs = signs.as_deref();
        let unit = |element: &Element| unit_at(tokens, element);
        // `46 x 46 (117 x 117 cm)`: the first is in inches, as the head of its table says.
        if unit(one).is_none()
            && closed
            && matches!(signs, Some(['(' | '[']))
            && one.form == other.form
            && are_measures_of_one(tokens, one, other)
        {
            elements[index].role = Role::PairOf(index - 1);
            continue;
        }
        if let (Some(own), Some(second)) = (unit(one), unit(other))
            && own.is_metric() != second.is_metric()
            && one.form == other.form
            && (closed && matches!(signs, Some(['(' | '[']))
                || matches!(signs, Some(['/' | '–' | '—' | ',' | '|'] | [])) && are_near(tokens, one, other)
                || matches!(between, [word] if word.stem == "or"))
        {
            elements[index].role = Role::PairOf(index - 1);
            continue;
        }
        let (word, figure) = (&tokens.numbers[one.numbers[0]], &tokens.numbers[other.numbers[0]]);
        let says_one = other.form == Form::Scalar && word.unit.is_none() && figure.unit.is_none();
        let opens = tokens.list.get(other.tokens.end + 1);
        let goes_on = opens.is_some_and(|token| matches!(token.kind, TokenKind::Sign(sign) if is_open(sign)));
        let of_sizes = word.first() != figure.first() && (may_be_of_two_sizes || goes_on);
        let is_repeated = word.in_words && !figure.in_words && says_one && closed && !of_sizes;
        if is_repeated && matches!(signs, Some(['('])) {
            elements[index - 1].role = Role::WordOf(index);
            continue;
        }
        let may_be_range =
            one.form == Form::Scalar && other.form == Form::Scalar && !is_of_chain(tokens, elements, index);
        if may_be_range && is_range(tokens, one, other, between) {
            elements[index - 1].role = Role::Range;
            elements[index].role = Role::Range;
        }
    }
}

/// Whether an element and the one before it are of three with dashes between, which are no range: `2–4–6 strips`.
fn is_of_chain(tokens: &Tokens, elements: &[Element], index: usize) -> bool {
    let is_dash = |token: &Token| token.is_sign('–') || token.is_sign('-');
    let is_joined = |at: usize| {
        let pair = at.checked_sub(1).and_then(|before| elements.get(before..=at));
        pair.is_some_and(|pair| matches!(gap(tokens, &pair[0], &pair[1]), [dash] if is_dash(dash)))
    };
    is_joined(index) && (is_joined(index - 1) || is_joined(index + 1))
}

/// Whether the numbers of two elements are about as long as each other: other numbers of a run with a slip of the unit
/// are not.
fn are_near(tokens: &Tokens, one: &Element, other: &Element) -> bool {
    one.numbers.iter().zip(&other.numbers).all(|(one, other)| {
        let (one, other) = (&tokens.numbers[*one], &tokens.numbers[*other]);
        let length = |number: &TextNumber| number.unit.map(|unit| number.first().of(unit));
        length(one).zip(length(other)).is_none_or(|(one, other)| (one - other).abs() * 4 <= one.max(other))
    })
}

/// Whether the numbers of an element without a unit are in inches what those of another are in centimeters.
fn are_measures_of_one(tokens: &Tokens, one: &Element, other: &Element) -> bool {
    unit_at(tokens, other) == Some(Unit::Cm)
        && one.numbers.len() == other.numbers.len()
        && one.numbers.iter().zip(&other.numbers).all(|(one, other)| {
            let (one, other) = (&tokens.numbers[*one], &tokens.numbers[*other]);
            let (own, second) = (one.first().of(Unit::Inch), other.first().of(Unit::Cm));
            (own - second).abs() <= Unit::Cm.one()
        })
}

fn is_range(tokens: &Tokens, one: &Element, other: &Element, between: &[Token]) -> bool {
    let (low, high) = (&tokens.numbers[one.numbers[0]], &tokens.numbers[other.numbers[0]]);
    // `Trim every one to 16.5 cm`.
    if low.in_words && !high.in_words {
        return false;
    }
    let rises = low.first().top * high.first().over < high.first().top * low.first().over;
    let both = (low.first().over == 1) == (high.first().over == 1);
    let unit = high.unit.is_some() || low.unit.is_some();
    // `Trim each one to 6 1/2"` is none.
    let alike = low.in_words == high.in_words && (low.unit.is_none() || unit);
    match between {
        [word] if word.stem == "to" => rises && alike,
        [sign] if sign.is_sign('–') || sign.is_sign('-') => rises && both && (low.unit.is_none() || unit),
        _ => false,
    }
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
    let last = &elements[heads[heads.len() - 1]];
    let ends = tokens.list.get(last.tokens.end);
    let closed = ends.is_some_and(|token| matches!(token.kind, TokenKind::Sign(sign) if is_close(sign)));
    alike
        && (share_unit(tokens, elements, heads) || bracketed && is_first_of_amounts(tokens, elements, heads))
        && (bracketed && closed_after(tokens, elements, heads, closed) || plain('/') || plain('|') || listed || dashed)
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
    const THINGS: [&str; 6] = ["strip", "square", "rectangle", "triangle", "piece", "block"];
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

/// The unit that stands at an element, the first where there are two.
pub(super) fn unit_at(tokens: &Tokens, element: &Element) -> Option<Unit> {
    element.numbers.iter().find_map(|number| tokens.numbers[*number].unit)
}

/// Whether a unit stands at an element.
pub(super) fn has_unit(tokens: &Tokens, element: &Element) -> bool {
    unit_at(tokens, element).is_some()
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
fn closed_after(tokens: &Tokens, elements: &[Element], heads: &[usize], closed: bool) -> bool {
    let last = heads[heads.len() - 1];
    let end = elements
        .get(last + 1)
        .filter(|next| next.role == Role::PairOf(last))
        .map_or(elements[last].tokens.end, |next| next.tokens.end);
    let next = tokens.list.get(end..).unwrap_or_default().iter().take(3).take_while(|token| token.number().is_none());
    // `4 strips (9 a strip)` says how many come from each.
    let is_each = |token: &Token| matches!(token.stem.as_str(), "per" | "each" | "every" | "a" | "from" | "apiece");
    let inside = next.take_while(|token| !matches!(token.kind, TokenKind::Sign(sign) if is_close(sign)));
    let is_of_each = inside.clone().any(is_each);
    let count = inside.count();
    let is_closed =
        tokens.list.get(end + count).is_some_and(|token| matches!(token.kind, TokenKind::Sign(sign) if is_close(sign)));
    closed || count < 3 && is_closed && !is_of_each
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
