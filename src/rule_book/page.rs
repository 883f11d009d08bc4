//! A page of the rule book. Its file is `rules/<name>.yaml`, read when the program is built.

use super::house::{HOUSE_RULES_FILE, read_house_rules};
use super::settings::Settings;
use super::value::Value;
use crate::finding::Level;
use crate::manuscript::{Source, Span};

/// What a person reads about a rule.
#[derive(Debug)]
pub struct Page {
    /// The rule's name.
    pub name: &'static str,
    /// The text of the page.
    pub text: &'static str,
    /// How grave its findings are.
    pub level: Level,
    /// The rule in one sentence.
    pub headline: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// The working, in words.
    pub working: &'static str,
    /// The values it goes by.
    pub values: &'static [PageValue],
    /// The house rules that both examples go by, for a rule that finds something only where a house asks for it.
    pub house: Option<&'static str>,
    /// A manuscript that breaks the rule, the place marked.
    pub fails: Example,
    /// A manuscript that keeps it.
    pub passes: Example,
    /// What was signed, for a rule about sign-offs: both are compared with it.
    pub signed: Option<Example>,
    /// The printed text of the manuscript that breaks it, for a rule about texts.
    pub fails_text: Option<Example>,
    /// That of the manuscript that keeps it.
    pub passes_text: Option<Example>,
}

impl Page {
    /// The settings that the examples go by.
    pub fn settings(&self) -> Settings {
        let house = |text: &str| read_house_rules(&Source::from_text(HOUSE_RULES_FILE, text)).settings;
        self.house.map(house).unwrap_or_default()
    }
}

/// A value of the rule book.
#[derive(Debug)]
pub struct PageValue {
    /// Its name, which house rules use too.
    pub name: &'static str,
    /// What it is.
    pub value: Value,
    /// The same as the page writes it: a length with its unit, a width and a length with theirs, a plain count, or
    /// words with commas between them.
    pub text: &'static str,
    /// What it says.
    pub meaning: &'static str,
    /// Where it is from: a published source, "common practice", or "from memory".
    pub source: &'static str,
}

/// A short manuscript. The place that a rule points at stands between « and ».
#[derive(Debug)]
pub struct Example(pub(super) &'static str);

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
