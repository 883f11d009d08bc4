//! The pages of the rule book, one YAML file a rule, read once.
//!
//! They are the tool's own files and pass through serde; nothing that a stranger wrote comes this way.

use std::sync::OnceLock;

use serde::Deserialize;

use super::values::Value;
use crate::finding::Level;
use crate::manuscript::Span;
use crate::quantity::{Measure, read_count, read_dimensions, read_length};
use crate::rules::RULES;
use crate::trade::rectangle::Rectangle;

/// What a person reads about a rule.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Page {
    /// The rule's name.
    pub name: String,
    /// How grave its findings are.
    #[serde(deserialize_with = "level")]
    pub level: Level,
    /// The rule in one sentence.
    pub headline: String,
    /// Why it matters.
    pub why: String,
    /// The working, in words.
    pub working: String,
    /// The values it goes by.
    #[serde(default)]
    pub values: Vec<PageValue>,
    /// A manuscript that breaks the rule, the place marked.
    pub fails: Example,
    /// A manuscript that keeps it.
    pub passes: Example,
    /// What was signed, for a rule about sign-offs: both are compared with it.
    #[serde(default)]
    pub signed: Option<Example>,
}

/// A value of the rule book.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PageValue {
    /// Its name, which house rules use too.
    pub name: String,
    /// The value: a length with its unit, a width and a length with theirs, or a plain count.
    pub value: String,
    /// What it is.
    pub meaning: String,
    /// Where it is from: a published source, "common practice", or "from memory".
    pub source: String,
}

/// A short manuscript. The place that a rule points at stands between « and ».
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub struct Example(String);

impl Example {
    /// The manuscript without the marks.
    pub fn text(&self) -> String {
        self.0.replace(['«', '»'], "")
    }

    /// The marked places, in the text without marks.
    pub fn marked(&self) -> Vec<Span> {
        let (mut places, mut length, mut start) = (Vec::new(), 0, 0);
        for c in self.0.chars() {
            match c {
                '«' => start = length,
                '»' => places.push(Span::new(start, length)),
                c => length += c.len_utf8(),
            }
        }
        places
    }
}

impl PageValue {
    /// The value as a length, a count, or a width and a length.
    ///
    /// # Panics
    /// Where the rule book's own text is none of these; a test reads every page.
    #[allow(clippy::expect_used)] // The book is part of the program: a bad page is a bug, and a test catches it.
    pub fn read(&self) -> Value {
        if self.value.bytes().all(|byte| byte.is_ascii_digit()) {
            Value::Count(read_count(&self.value).expect("a count in the rule book"))
        } else if self.value.contains(" x ") {
            let (width, length) = read_dimensions(&self.value, Measure::Inch).expect("two lengths in the rule book");
            Value::Dimensions(Rectangle::new(width.length, length.length))
        } else {
            Value::Length(read_length(&self.value, Measure::Inch).expect("a length in the rule book").length)
        }
    }
}

/// All pages, in the order of the rules.
///
/// # Panics
/// Where a page of the rule book is not as it should be; a test reads every page.
#[allow(clippy::expect_used)] // The book is part of the program: a bad page is a bug, and a test catches it.
pub fn book() -> &'static [Page] {
    static BOOK: OnceLock<Vec<Page>> = OnceLock::new();
    BOOK.get_or_init(|| {
        RULES.iter().map(|rule| serde_yaml::from_str(rule.page).expect("a page of the rule book")).collect()
    })
}

/// The page of a rule.
pub fn page(name: &str) -> Option<&'static Page> {
    book().iter().find(|page| page.name == name)
}

fn level<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Level, D::Error> {
    let word = String::deserialize(deserializer)?;
    [Level::Error, Level::Query, Level::Note]
        .into_iter()
        .find(|level| level.word() == word)
        .ok_or_else(|| serde::de::Error::custom("a level is error, query or note"))
}
