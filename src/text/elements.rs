//! Numbers that belong together: the sides of a size, a run over the sizes, both measures, a word with its figure.

use std::ops::Range;

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

/// The numbers of a passage, those that are sides of one thing together.
pub(super) fn numbers_with_sides(tokens: &Tokens) -> Vec<Element> {
    let mut elements = Vec::new();
    let mut at = 0;
    while at < tokens.list.len() {
        match tokens.list[at].kind {
            TokenKind::Number(number) => at = sides_from(tokens, at, number, &mut elements),
            TokenKind::Word | TokenKind::Sign(_) => at += 1,
        }
    }
    elements
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
pub(super) fn gap<'t>(tokens: &'t Tokens, one: &Element, other: &Element) -> &'t [Token] {
    tokens.list.get(one.tokens.end..other.tokens.start).unwrap_or(&[])
}

fn signs(gap: &[Token]) -> Option<Vec<char>> {
    gap.iter().map(|token| if let TokenKind::Sign(sign) = token.kind { Some(sign) } else { None }).collect()
}

pub(super) const fn is_open(sign: char) -> bool {
    matches!(sign, '(' | '[' | '{' | '<' | '⟨' | '«' | '‹')
}

/// Whether a token closes a bracket.
pub(super) fn closes(token: &Token) -> bool {
    matches!(token.kind, TokenKind::Sign(sign) if is_close(sign))
}

pub(super) const fn is_close(sign: char) -> bool {
    matches!(sign, ')' | ']' | '}' | '>' | '⟩' | '»' | '›')
}

/// Pairs of both measures, words with their figures, and ranges. A word and another figure may be of two sizes:
/// `eighteen (39) blocks`; with one more figure they are of three.
pub(super) fn relate(tokens: &Tokens, elements: &mut [Element], may_be_of_two_sizes: bool) {
    for index in 1..elements.len() {
        let (one, other) = (&elements[index - 1], &elements[index]);
        let between = gap(tokens, one, other);
        let after = tokens.list.get(other.tokens.end);
        let closed = after.is_some_and(closes);
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

/// The unit that stands at an element, the first where there are two.
pub(super) fn unit_at(tokens: &Tokens, element: &Element) -> Option<Unit> {
    element.numbers.iter().find_map(|number| tokens.numbers[*number].unit)
}

/// Whether a unit stands at an element.
pub(super) fn has_unit(tokens: &Tokens, element: &Element) -> bool {
    unit_at(tokens, element).is_some()
}
