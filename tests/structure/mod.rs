//! How a manuscript is written down: every mistake is told in one run, each at its very character, and none of them
//! brings another with it.

use crate::support;

mod eight;
mod names_in_corrections;
mod shapes;
mod slips;
mod torn_layout;

use serde_json::Value;
use sparestrip::check::check;
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

/// A text with the places that findings are expected at between « and ».
struct Marked {
    text: String,
    /// The places, in bytes.
    places: Vec<(usize, usize)>,
}

fn marked(text: &str) -> Marked {
    let (mut plain, mut places, mut open) = (String::new(), Vec::new(), None);
    for c in text.chars() {
        match c {
            '«' => open = Some(plain.len()),
            '»' => places.push((open.take().expect("a place is opened"), plain.len())),
            c => plain.push(c),
        }
    }
    Marked { text: plain, places }
}

fn found(text: &str) -> Vec<Finding> {
    check(&Source::from_text("x.pattern.yaml", text), &Settings::default()).findings
}

/// The findings as rule and place.
fn outline(text: &str) -> Vec<(&'static str, usize, usize)> {
    found(text).iter().map(|found| (found.rule, found.at.at.start, found.at.at.end)).collect()
}

/// Asserts that these rules find something at the marked places, in order, and nothing else is found.
fn gives(text: &str, rules: &[&'static str]) {
    let Marked { text, places } = marked(text);
    let expected: Vec<_> = rules.iter().copied().zip(places).map(|(rule, (start, end))| (rule, start, end)).collect();
    assert_eq!(expected.len(), rules.len(), "a place for each");
    assert_eq!(outline(&text), expected, "{:#?}\nin\n{text}", found(&text));
}

/// Line and column of a byte, counted apart from the program: lines end at LF, CR LF or CR, columns are characters.
fn line_and_column(text: &str, byte: usize) -> (u64, u64) {
    let (mut line, mut column) = (1, 1);
    for (at, c) in text.char_indices().take_while(|(at, _)| *at < byte) {
        let ends = c == '\n' || (c == '\r' && !text[at + 1..].starts_with('\n'));
        if ends {
            (line, column) = (line + 1, 1);
        } else if (at, c) != (0, '\u{feff}') {
            column += 1;
        }
    }
    (line, column)
}

fn number(value: &Value) -> usize {
    usize::try_from(value.as_u64().expect("a number")).expect("a small number")
}
