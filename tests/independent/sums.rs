//! Every sum that is shown adds up: a small parser of its own finds the sums in messages, help and workings, and
//! computes them exactly.

use sparestrip::audit::account;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::{Settings, book};

use super::{generate, rng};

/// A number as a fraction; lengths in inches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Value {
    pub(crate) top: i128,
    pub(crate) over: i128,
}

impl Value {
    pub(crate) fn new(top: i128, over: i128) -> Value {
        let mut divisor = (top.abs(), over);
        while divisor.1 != 0 {
            divisor = (divisor.1, divisor.0 % divisor.1);
        }
        Value { top: top / divisor.0.max(1), over: over / divisor.0.max(1) }
    }

    pub(crate) fn plus(self, other: Value) -> Value {
        Value::new(self.top * other.over + other.top * self.over, self.over * other.over)
    }

    pub(crate) fn times(self, other: Value) -> Value {
        Value::new(self.top * other.top, self.over * other.over)
    }

    pub(crate) fn negative(self) -> Value {
        Value::new(-self.top, self.over)
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Token {
    Number(Value),
    Sign(char),
}

/// The numbers and signs of a text. Words are left out, but for `and` between numbers, which adds.
fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let words: Vec<&str> = text.split([' ', '\u{a0}', '\u{202f}']).filter(|word| !word.is_empty()).collect();
    let mut index = 0;
    while index < words.len() {
        let word = words[index];
        index += 1;
        let (open, word) = (word.starts_with('('), word.trim_start_matches('('));
        let (close, word) = (word.contains(')'), word.trim_end_matches([')', ',', ';', '.', ':']));
        if open {
            tokens.push(Token::Sign('('));
        }
        match (word, number(word)) {
            ("x" | "/" | "+" | "-", _) => tokens.push(Token::Sign(word.chars().next().unwrap())),
            ("and", _) => tokens.push(Token::Sign('+')),
            (_, Some(mut value)) => {
                if let Some(part) = words.get(index).filter(|next| next.contains('/')).and_then(|next| number(next)) {
                    value = value.plus(part);
                    index += 1;
                }
                let unit = words.get(index).map(|unit| unit.trim_end_matches([',', ';', '.', ':']));
                let closes = unit.is_some_and(|unit| unit.ends_with(')'));
                let one = match unit.map(|unit| unit.trim_end_matches(')')) {
                    Some("in") => Some(Value::new(1, 1)),
                    Some("yd") => Some(Value::new(36, 1)),
                    Some("mm") => Some(Value::new(10, 254)),
                    Some("cm") => Some(Value::new(100, 254)),
                    Some("m") => Some(Value::new(10_000, 254)),
                    _ => None,
                };
                if let Some(one) = one {
                    value = value.times(one);
                    index += 1;
                }
                tokens.push(Token::Number(value));
                if closes && one.is_some() {
                    tokens.push(Token::Sign(')'));
                }
            }
            _ => {}
        }
        if close {
            tokens.push(Token::Sign(')'));
        }
    }
    tokens
}

/// `5`, `2.5`, `1/2`.
pub(crate) fn number(word: &str) -> Option<Value> {
    let word = word.trim_end_matches([',', ';', '.', ':', ')']);
    if !word.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    if let Some((top, over)) = word.split_once('/') {
        return Some(Value::new(top.parse().ok()?, over.parse().ok()?));
    }
    let (whole, decimals) = word.split_once('.').unwrap_or((word, ""));
    let over = 10_i128.pow(u32::try_from(decimals.len()).ok()?);
    Some(Value::new(format!("{whole}{decimals}").parse().ok()?, over))
}

/// A sum of products.
fn sum(tokens: &mut &[Token]) -> Option<Value> {
    let mut total = product(tokens)?;
    while let Some(Token::Sign(sign @ ('+' | '-'))) = tokens.first().copied() {
        *tokens = &tokens[1..];
        let next = product(tokens)?;
        total = total.plus(if sign == '-' { next.negative() } else { next });
    }
    Some(total)
}

fn product(tokens: &mut &[Token]) -> Option<Value> {
    let mut value = factor(tokens)?;
    while let Some(Token::Sign(sign @ ('x' | '/'))) = tokens.first().copied() {
        *tokens = &tokens[1..];
        let next = factor(tokens)?;
        value = value.times(if sign == '/' { Value::new(next.over, next.top) } else { next });
    }
    Some(value)
}

fn factor(tokens: &mut &[Token]) -> Option<Value> {
    let (first, rest) = tokens.split_first()?;
    *tokens = rest;
    match first {
        Token::Number(value) => Some(*value),
        Token::Sign('(') => {
            let inner = sum(tokens)?;
            *tokens = tokens.strip_prefix(&[Token::Sign(')')])?;
            Some(inner)
        }
        Token::Sign(_) => None,
    }
}

fn numbers(text: &str) -> Vec<Value> {
    let number = |token| if let Token::Number(value) = token { Some(value) } else { None };
    tokens(text).into_iter().filter_map(number).collect()
}

/// What a text says that two things are: each sum beside what it is said to come to.
fn claims(text: &str) -> Vec<(String, Option<Value>, Value)> {
    let text = text.replace(", and with the borders ", " + ").replace(", and with the border ", " + ");
    let text = spares(&text).replace(" in the gaps", "").replace("On point, ", "").replace(" down, and ", " down + ");
    let mut claims = Vec::new();
    for sentence in text.split(". ") {
        let parts: Vec<&str> = sentence.split(" = ").collect();
        for pair in parts.windows(2) {
            let Some(result) = numbers(pair[1]).first().copied() else { continue };
            let clause = pair[0].rsplit([':', ';']).next().unwrap();
            if clause.contains("at each side") {
                claims.extend(at_each_side(clause, pair[1]));
            } else if clause.contains("each") {
                let all = numbers(clause.rsplit(", so ").next().unwrap());
                let product = all.into_iter().reduce(Value::times);
                claims.push((format!("{clause} = {}", pair[1]), product, result));
            } else {
                let clause = clause.rsplit(", ").next().unwrap();
                let all = tokens(clause);
                let mut left = &all[..];
                let total = sum(&mut left).filter(|_| left.is_empty());
                claims.push((format!("{clause} = {}", pair[1]), total, result));
            }
        }
    }
    claims.extend(fold(&text));
    claims
}

/// A text without what a number of strips is made of: `7 strips (6 to go around and 1 to spare)`.
fn spares(text: &str) -> String {
    let parts = text.split(" (").enumerate().map(|(index, part)| match part.split_once(" to spare)") {
        Some((_, rest)) if index > 0 => rest.to_string(),
        _ if index > 0 => format!(" ({part}"),
        _ => part.to_string(),
    });
    parts.collect()
}

/// `36 x 48 in and 4 in more at each side = 44 x 56 in`, and the same of a seam.
fn at_each_side(clause: &str, result: &str) -> Vec<(String, Option<Value>, Value)> {
    // The unit of a size stands at its end.
    let with_units = |text: &str| {
        let mut words: Vec<String> = text.split(' ').map(str::to_string).collect();
        let unit = words.iter().find(|word| ["in", "cm", "mm"].contains(&word.trim_end_matches(['.', ','])));
        let unit = unit.map(|unit| unit.trim_end_matches(['.', ',']).to_string()).unwrap_or_default();
        if let Some(x) = words.iter().position(|word| word == "x").filter(|x| number(&words[x - 1]).is_some()) {
            words.insert(x, unit);
        }
        numbers(&words.join(" "))
    };
    let (before, after) = (with_units(clause), with_units(result));
    let (by, sides) = before.split_last().unwrap();
    let grown = |side: &Value| side.plus(*by).plus(*by);
    sides.iter().zip(after).map(|(side, to)| (format!("{clause} = {result}"), Some(grown(side)), to)).collect()
}

/// `2 1/2 in / 2 = 1 1/4 in folded; less 3 x 1/4 in seam and 1/16 in loft: 7/16 in past the stitching`.
fn fold(text: &str) -> Option<(String, Option<Value>, Value)> {
    let (before, rest) = text.split_once("; less ")?;
    let (less, end) = rest.split_once(": ")?;
    let folded = numbers(before.rsplit(" = ").next()?).first().copied()?;
    let all = tokens(less);
    let less = sum(&mut &all[..])?;
    let end_value = numbers(end).first().copied()?;
    let end_value = if end.contains("short of") { end_value.negative() } else { end_value };
    Some((text.to_string(), Some(folded.plus(less.negative())), end_value))
}

/// Asserts that every sum that is shown about a text holds, and counts them.
#[track_caller]
pub(crate) fn hold(text: &str) -> usize {
    let (source, settings) = (Source::from_text("sums.pattern.yaml", text), Settings::default());
    let mut shown: Vec<String> = account(&source, &settings).lines.into_iter().map(|line| line.working).collect();
    for finding in check(&source, &settings).findings {
        shown.extend([finding.message, finding.help]);
    }
    let mut count = 0;
    for working in shown.iter().flat_map(|shown| shown.lines()) {
        for (claim, total, result) in claims(working) {
            assert!(total.is_some(), "not understood: {claim:?} of {working:?}");
            assert_eq!(total, Some(result), "{claim:?} of {working:?} in\n{text}");
            count += 1;
        }
    }
    count
}

#[test]
fn the_parser_finds_a_sum_that_is_wrong() {
    let wrong = |text: &str| claims(text).into_iter().filter(|(_, total, result)| *total != Some(*result)).count();
    for right in [
        "Length: perimeter 2 x (54 in + 72 in) = 252 in + 2 in at the corners + 10 in and 8 in tails - 12 in opening = 260 in.",
        "Strips: 8 x 40 in - 7 diagonal joins x 2 1/2 in = 302 1/2 in.",
        "65 mm / 2 = 32.5 mm folded; less 3 x 7 mm seam and 1.6 mm loft: 9.9 mm past the stitching.",
        "Batting: 36 x 48 in and 4 in more at each side = 44 x 56 in.",
        "2 panels along the length, each 80 in long = 160 in.",
    ] {
        assert!(!claims(right).is_empty() && wrong(right) == 0, "{right}: {:?}", claims(right));
    }
    for right in [
        "Length: perimeter 2 x (54 in + 72 in) = 251 in + 2 in at the corners = 253 in.",
        "6.5 cm / 2 = 3.3 cm folded; less 3 x 0.7 cm seam and 0.2 cm loft: 1 cm past the stitching.",
        "Batting: 36 x 48 in and 4 in more at each side = 44 x 55 in.",
        "2 panels along the length, each 80 in long = 161 in.",
        "9 strips x 2 1/2 in = 22 in",
    ] {
        assert!(wrong(right) > 0, "{right}");
    }
}

#[test]
fn every_sum_of_the_examples_and_of_the_rule_pages_holds() {
    let mut count = 0;
    for file in crate::support::examples() {
        count += hold(&Source::open(&file).unwrap().text);
    }
    for page in book() {
        for text in [&page.fails, &page.passes] {
            let text = text.text();
            count += hold(&text);
            // The same in centimetres, where inches are what is rounded.
            hold(&text.replace("measure: inch", "measure: cm"));
            hold(&text.replace("measure: cm", "measure: inch"));
        }
    }
    assert!(count > 300, "only {count} sums");
}

#[test]
fn every_sum_of_random_manuscripts_holds() {
    let mut count = 0;
    for index in 0..600 {
        let manuscript = generate::anything(&mut rng(9, index));
        count += hold(&manuscript.text().0);
    }
    assert!(count > 3000, "only {count} sums");
}
