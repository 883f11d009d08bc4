//! Single changes of a text, each a slip that a printed page has had: a step up or down, digits swapped, another size's
//! value, a slip of the unit.

use std::fmt;

use serde_yaml::Value;

use super::super::readers::document::Part;
use super::fill::{Truth, entry, said, written};
use super::value::Exact;
use super::{Number, Text, contents};

/// A kind of slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Slip {
    Step,
    DigitsSwapped,
    OtherSize,
    Unit,
}

impl fmt::Display for Slip {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Slip::Step => "a step",
            Slip::DigitsSwapped => "digits swapped",
            Slip::OtherSize => "another size",
            Slip::Unit => "the unit",
        })
    }
}

/// A text with one number changed.
pub(crate) struct Change {
    pub(crate) slip: Slip,
    /// The number, where it stands after the change.
    pub(crate) number: Number,
    pub(crate) parts: Vec<Part>,
    /// What was changed, for a reader of the test.
    pub(crate) says: String,
}

/// All changes of the numbers that the manuscript states.
pub(crate) fn changes(text: &Text) -> Vec<Change> {
    let manuscript: Value = serde_yaml::from_str(&contents(&text.manuscript)).unwrap();
    let mut changes = Vec::new();
    for number in &text.numbers {
        let Truth::Direct { path, size, styles } = &number.truth else { continue };
        let own = passage(&text.parts, number.passage);
        let says = own[number.at.clone()].to_owned();
        let mut others: Vec<(Slip, String)> = Vec::new();
        let mut add = |slip: Slip, other: String| {
            if other != says && !others.iter().any(|(_, known)| *known == other) {
                others.push((slip, other));
            }
        };
        if let Some(value) = value(&manuscript, path, styles) {
            let is_metric = manuscript["measure"].as_str() == Some("cm");
            steps(value, path, is_metric).for_each(|value| add(Slip::Step, written(value, styles)));
        }
        if let Some(other) = swapped(&says) {
            add(Slip::DigitsSwapped, other);
        }
        for other in other_sizes(&manuscript, path, size.as_deref(), styles) {
            add(Slip::OtherSize, other);
        }
        for (slip, other) in others {
            let mut after = own.clone();
            after.replace_range(number.at.clone(), &other);
            let at = number.at.start..number.at.start + other.len();
            changes.push(Change {
                slip,
                number: Number { at, ..number.clone() },
                parts: with_passage(&text.parts, number.passage, &after),
                says: format!("{path}: {says} -> {other} in {after:?}"),
            });
        }
        changes.extend(unit_slip(text, number, &own, path));
    }
    changes
}

fn value(manuscript: &Value, path: &str, styles: &[String]) -> Option<Exact> {
    let plain: Vec<String> = styles.iter().filter(|style| ["1", "2", "n"].contains(&style.as_str())).cloned().collect();
    Exact::parse(&said(manuscript, path, &plain, path).0)
}

/// One up and one down; a length that is not whole, by an eighth, or by a half where it is metric.
fn steps(value: Exact, path: &str, is_metric: bool) -> impl Iterator<Item = Exact> + use<> {
    let counts = ["strips", "pieces", "panels", "makes", "across", "down", "pieces_from_each"];
    let is_count = path.split('.').any(|step| counts.contains(&step));
    let by = match (value.is_whole() || is_count, is_metric) {
        (true, _) => [(1, 1), (-1, 1)],
        (false, true) => [(1, 2), (-1, 2)],
        (false, false) => [(1, 8), (-1, 8)],
    };
    by.into_iter().map(move |(over, under)| value.plus(over, under)).filter(|value| value.is_positive())
}

/// The first two digits of a whole number, or of one before a fraction, the other way round.
fn swapped(says: &str) -> Option<String> {
    let mut digits: Vec<char> = says.chars().collect();
    let whole = digits.iter().take_while(|digit| digit.is_ascii_digit()).count();
    let is_fraction = digits.get(whole).is_some_and(|next| matches!(next, '/' | '\u{2044}'));
    if whole < 2 || is_fraction || digits[1] == '0' {
        return None;
    }
    digits.swap(0, 1);
    Some(digits.into_iter().collect())
}

/// What the same entry says for other sizes.
fn other_sizes(manuscript: &Value, path: &str, size: Option<&str>, styles: &[String]) -> Vec<String> {
    let Some(size) = size else { return Vec::new() };
    let sizes = manuscript["sizes"].as_mapping().unwrap();
    let names = sizes.iter().filter_map(|(name, _)| name.as_str()).filter(|name| *name != size);
    let paths = names.map(|name| {
        let steps: Vec<&str> = path.split('.').map(|step| if step == size { name } else { step }).collect();
        steps.join(".")
    });
    paths
        .filter(|path| entry(manuscript, path).is_some())
        .map(|path| said(manuscript, &path, styles, &path).0)
        .collect()
}

/// Another unit than is meant, where one follows the number.
fn unit_slip(text: &Text, number: &Number, own: &str, path: &str) -> Option<Change> {
    let after = &own[number.at.end..];
    let ends = |rest: &str| !rest.starts_with(|c: char| c.is_alphanumeric());
    let (unit, other) =
        [(" yd", " in"), (" cm", " in"), (" m", " cm"), (" inches", " cm"), (" in", " cm"), ("\"", " cm")]
            .into_iter()
            .find(|(unit, _)| after.strip_prefix(unit).is_some_and(|rest| *unit == "\"" || ends(rest)))?;
    let mut changed = own.to_owned();
    changed.replace_range(number.at.end..number.at.end + unit.len(), other);
    Some(Change {
        slip: Slip::Unit,
        number: number.clone(),
        says: format!("{path}:{unit} ->{other} in {changed:?}"),
        parts: with_passage(&text.parts, number.passage, &changed),
    })
}

/// The text of each passage: of cells, those that hold something.
fn passage(parts: &[Part], index: usize) -> String {
    let mut found = None;
    walk(parts, &mut |at, text| {
        if at == index {
            found = Some(text.to_owned());
        }
        text.to_owned()
    });
    found.unwrap()
}

fn with_passage(parts: &[Part], index: usize, says: &str) -> Vec<Part> {
    walk(parts, &mut |at, text| if at == index { says.to_owned() } else { text.to_owned() })
}

fn walk(parts: &[Part], change: &mut dyn FnMut(usize, &str) -> String) -> Vec<Part> {
    let mut at = 0;
    let mut next = |text: &String| {
        if text.is_empty() {
            return String::new();
        }
        at += 1;
        change(at - 1, text)
    };
    parts
        .iter()
        .map(|part| match part {
            Part::Heading(level, text) => Part::Heading(*level, next(text)),
            Part::Paragraph(text) => Part::Paragraph(next(text)),
            Part::List(numbered, items) => {
                Part::List(*numbered, items.iter().map(|(depth, text)| (*depth, next(text))).collect())
            }
            Part::Table(rows) => Part::Table(rows.iter().map(|row| row.iter().map(&mut next).collect()).collect()),
        })
        .collect()
}
