//! The numbers that a manuscript states, found in its text alone: where each stands, and under which words.

use std::ops::Range;

/// A number that is stated.
#[derive(Clone, Debug)]
pub(crate) struct Number {
    /// Where it stands, in bytes.
    pub(crate) at: Range<usize>,
    /// The words that it stands under, and what it is among the numbers there: `sizes/wall/finished/0`.
    pub(crate) path: String,
}

/// Every number of a manuscript, comments and prose left out.
pub(crate) fn numbers(text: &str) -> Vec<Number> {
    let mut found: Vec<Number> = Vec::new();
    let mut above: Vec<(usize, String)> = Vec::new();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let stated = line.find('#').map_or(line, |comment| &line[..comment]);
        let indent = stated.find(|c: char| c != ' ' && c != '-').unwrap_or(stated.len());
        if let Some((key, value)) = stated[indent..].split_once(':') {
            above.retain(|(column, _)| *column < indent);
            if key.starts_with('{') {
                in_value(&mut found, &above, start + indent, &stated[indent..]);
            } else {
                above.push((indent, key.trim().to_string()));
                in_value(&mut found, &above, start + indent + key.len() + 1, value);
            }
        }
        start += line.len();
    }
    found
}

/// The numbers of a value, which may be a short list in `{ }`.
fn in_value(found: &mut Vec<Number>, above: &[(usize, String)], start: usize, value: &str) {
    let mut inner: Vec<String> = Vec::new();
    let mut word = 0;
    let mut among = 0;
    let mut at = 0;
    while let Some(c) = value[at..].chars().next() {
        match c {
            '{' => inner.push(String::new()),
            '}' => drop(inner.pop()),
            ':' => {
                if let Some(last) = inner.last_mut() {
                    *last = value[word..at].trim().to_string();
                }
                among = 0;
            }
            _ => {}
        }
        if "{,:".contains(c) {
            word = at + 1;
        }
        let length =
            if value[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') { 0 } else { number(&value[at..]) };
        if length > 0 {
            let outer = above.iter().map(|(_, key)| key.as_str());
            let keys: Vec<&str> = outer.chain(inner.iter().map(String::as_str)).collect();
            let path = format!("{}/{among}", keys.join("/"));
            found.push(Number { at: start + at..start + at + length, path });
            among += 1;
        }
        at += length.max(c.len_utf8());
    }
}

/// How long the number at the start of a text is: `40`, `2 1/2`, `5/8`, `0.8`.
fn number(text: &str) -> usize {
    let digits = |text: &str| text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let fraction = |text: &str| {
        let top = digits(text);
        let below = text[top..].strip_prefix('/').map_or(0, digits);
        if top > 0 && below > 0 { top + 1 + below } else { 0 }
    };
    let whole = digits(text);
    if whole == 0 || fraction(text) > 0 {
        return fraction(text);
    }
    let rest = &text[whole..];
    match (rest.strip_prefix(' ').map_or(0, fraction), rest.strip_prefix('.').map_or(0, digits)) {
        (0, 0) => whole,
        (after, 0) => whole + 1 + after,
        (_, decimals) => whole + 1 + decimals,
    }
}

/// A number in sixty-fourths, or in hundredths where it is a decimal.
fn read(text: &str) -> (i64, i64) {
    if let Some((whole, decimals)) = text.split_once('.') {
        let tens = if decimals.len() == 1 { 10 } else { 1 };
        return (parse(whole) * 100 + parse(decimals) * tens, 100);
    }
    let fraction = |text: &str| text.split_once('/').map(|(top, below)| parse(top) * 64 / parse(below));
    let value = match text.split_once(' ') {
        Some((whole, rest)) => parse(whole) * 64 + fraction(rest).expect("a fraction"),
        None => fraction(text).unwrap_or_else(|| parse(text) * 64),
    };
    (value, 64)
}

fn parse(text: &str) -> i64 {
    text.parse().unwrap_or_else(|_| panic!("{text} is no number"))
}

/// A number changed by so many sixty-fourths; in hundredths of what is written with decimals or in metres.
pub(crate) fn changed(text: &str, by: i64) -> Option<String> {
    let (value, parts) = read(text);
    let value = value + by;
    if value < 0 {
        return None;
    }
    if parts == 100 {
        return Some(format!("{}.{:02}", value / 100, value % 100));
    }
    let (whole, mut top, mut below) = (value / 64, value % 64, 64);
    while top > 0 && top % 2 == 0 {
        (top, below) = (top / 2, below / 2);
    }
    Some(match (whole, top) {
        (whole, 0) => whole.to_string(),
        (0, top) => format!("{top}/{below}"),
        (whole, top) => format!("{whole} {top}/{below}"),
    })
}
