//! A page of the rule book as its file has it, and what can be wrong with it.

use std::collections::BTreeMap;
use std::fmt;

use serde::de::{self, Visitor};
use serde::{Deserialize, Deserializer};

use crate::quantity::{Count, Length, Measure, read_count, read_dimensions, read_length};

/// A page.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Page {
    /// The rule's name.
    pub(crate) name: String,
    /// How grave its findings are.
    pub(crate) level: Level,
    /// The rule in one sentence.
    pub(crate) headline: Text,
    /// Why it matters.
    pub(crate) why: Text,
    /// The working, in words.
    pub(crate) working: Text,
    /// The values it goes by.
    #[serde(default)]
    pub(crate) values: Vec<PageValue>,
    /// The house rules that both examples go by, for a rule that finds something only where a house asks for it.
    pub(crate) house: Option<String>,
    /// A manuscript that breaks the rule, the place marked.
    pub(crate) fails: Marked,
    /// A manuscript that keeps it.
    pub(crate) passes: Marked,
    /// What was signed, for a rule about sign-offs.
    pub(crate) signed: Option<Marked>,
    /// The printed text of the manuscript that breaks it, for a rule about texts.
    pub(crate) fails_text: Option<Marked>,
    /// That of the manuscript that keeps it.
    pub(crate) passes_text: Option<Marked>,
    /// The whole file.
    #[serde(skip)]
    pub(crate) text: String,
}

/// The level of a rule, by its word.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Level {
    Error,
    Query,
    Note,
}

/// A value of a page.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PageValue {
    /// Its name.
    pub(crate) name: String,
    /// What it is.
    pub(crate) value: Value,
    /// What it says.
    pub(crate) meaning: Text,
    /// Where it is from.
    pub(crate) source: Text,
}

/// A value as it is written, and what that is.
pub(crate) struct Value {
    pub(crate) text: String,
    pub(crate) exact: Exact,
}

/// What a value is.
pub(crate) enum Exact {
    Length(Length),
    Count(Count),
    Dimensions(Length, Length),
    Words(Vec<String>),
}

/// Words that are there.
pub(crate) struct Text(pub(crate) String);

/// A manuscript; a place that the rule points at stands between « and ».
pub(crate) struct Marked(pub(crate) String);

impl Page {
    /// The rule's name as Rust has it.
    pub(crate) fn identifier(&self) -> String {
        self.name.replace('-', "_")
    }
}

/// Reads the page in a file that has the name of its rule; else what is wrong, and where.
pub(crate) fn read(path: &str, name: &str, text: String) -> Result<Page, String> {
    let page: Page = serde_yaml::from_str(&text).map_err(|error| mistake(path, &error))?;
    if page.name != name {
        let line = line_of(&text, "name:");
        return Err(format!("{path}:{line}: the name of the rule is {}, and that of its file {name}", page.name));
    }
    Ok(Page { text, ..page })
}

/// A value's name must be its own: house rules set a value by it.
pub(crate) fn values_named_twice(folder: &str, pages: &[Page]) -> Vec<String> {
    let mut pages_by_value = BTreeMap::new();
    let mut mistakes = Vec::new();
    for page in pages {
        for value in &page.values {
            if let Some(other) = pages_by_value.insert(&value.name, &page.name) {
                let line = line_of(&page.text, &format!("- name: {}", value.name));
                let path = format!("{folder}/{}.yaml", page.name);
                mistakes.push(format!("{path}:{line}: {} is a value of {other} already", value.name));
            }
        }
    }
    mistakes
}

fn mistake(path: &str, error: &serde_yaml::Error) -> String {
    let said = error.to_string();
    // The place stands before it; another, such as where a quotation begins, stays in it.
    let (why, rest) = said.split_once(" at line ").unwrap_or((&said, ""));
    let other = rest.find(',').map_or("", |comma| &rest[comma..]);
    let (line, column) = error.location().map_or((1, 1), |place| (place.line(), place.column()));
    format!("{path}:{line}:{column}: {why}{other}")
}

/// The last line that begins so, without the spaces before it.
fn line_of(text: &str, start: &str) -> usize {
    let found = (1..).zip(text.lines()).filter(|(_, line)| line.trim_start().starts_with(start)).last();
    found.map_or(1, |(line, _)| line)
}

/// Reads a text by a function. What that finds wrong has the place of the text, as nothing said after it has.
struct Reading<T> {
    what: &'static str,
    read: fn(&str) -> Result<T, String>,
}

impl<T> Visitor<'_> for Reading<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.what)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        (self.read)(text).map_err(E::custom)
    }
}

impl<'de> Deserialize<'de> for Value {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_str(Reading { what: "a length, a count, a width and a length, or words", read: value })
    }
}

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Text, D::Error> {
        deserializer.deserialize_str(Reading { what: "words", read: words })
    }
}

impl<'de> Deserialize<'de> for Marked {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Marked, D::Error> {
        deserializer.deserialize_str(Reading { what: "a manuscript", read: marked })
    }
}

fn words(text: &str) -> Result<Text, String> {
    if text.trim().is_empty() { Err("nothing is said here".to_string()) } else { Ok(Text(text.to_string())) }
}

fn value(text: &str) -> Result<Value, String> {
    let exact = if text.bytes().all(|byte| byte.is_ascii_digit()) {
        read_count(text).map(Exact::Count)
    } else if text.contains(',') {
        Ok(Exact::Words(text.split(',').map(|word| word.trim().to_string()).collect()))
    } else if text.contains(" x ") {
        read_dimensions(text, Measure::Inch).map(|(width, length)| Exact::Dimensions(width.length, length.length))
    } else {
        read_length(text, Measure::Inch).map(|written| Exact::Length(written.length))
    };
    let exact = exact.map_err(|fault| format!("{text:?} cannot be read: {}", fault.why))?;
    Ok(Value { text: text.to_string(), exact })
}

fn marked(text: &str) -> Result<Marked, String> {
    let mut open = false;
    for mark in text.chars().filter(|c| matches!(c, '«' | '»')) {
        if open == (mark == '«') {
            return Err(format!("a mark {mark} without its other half"));
        }
        open = !open;
    }
    if open { Err("a mark « without its other half".to_string()) } else { Ok(Marked(text.to_string())) }
}
