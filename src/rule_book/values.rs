//! The levels and values that a check goes by.
//!
//! A packaged batting and a mattress are values with two measures ([`Value::Dimensions`]), so that a house can set its
//! own, as it can a length or a count. What a manuscript assumes is what its check asked the settings for: a house that
//! sets a value which a manuscript does not go by leaves its sign-off standing.

use std::collections::BTreeSet;
use std::sync::{Arc, Mutex};

use super::page::book;
use super::pages::VALUES;
use crate::finding::Level;
use crate::quantity::{Count, Length, Measure, Round};
use crate::quilt_math::rectangle::Rectangle;
use crate::rules::RULES;

/// A value of the rule book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// A length.
    Length(Length),
    /// A number of things.
    Count(Count),
    /// A width and a length.
    Dimensions(Rectangle),
    /// Words, such as those by which something is known. A house adds its own to those of the book.
    Words(WordList),
}

/// Words of the rule book, and those that a house adds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WordList {
    book: &'static [&'static str],
    house: Vec<String>,
}

impl WordList {
    /// Those of the book.
    pub(crate) const fn of_book(book: &'static [&'static str]) -> WordList {
        WordList { book, house: Vec::new() }
    }

    /// Those of a house.
    pub(crate) const fn of_house(house: Vec<String>) -> WordList {
        WordList { book: &[], house }
    }

    /// All of them.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.book.iter().copied().chain(self.house.iter().map(String::as_str))
    }
}

/// Declares a value of one kind, by its place among all values. The place is looked up when the program is compiled,
/// which fails where the rule book has no value of that name and kind: no check looks for a name.
macro_rules! value_by_name {
    ($(#[$doc:meta])* $name:ident, $kind:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug)]
        pub struct $name(usize);

        impl $name {
            /// The value of a name, for a constant.
            ///
            /// # Panics
            /// Where the rule book has no such value.
            pub const fn named(name: &str) -> $name {
                let place = place_of(name);
                assert!(matches!(VALUES[place].1, Value::$kind(_)), "the value is of another kind");
                $name(place)
            }
        }
    };
}

value_by_name!(
    /// A length in the rule book.
    LengthValue, Length
);
value_by_name!(
    /// A count in the rule book.
    CountValue, Count
);
value_by_name!(
    /// A width and a length in the rule book.
    DimensionsValue, Dimensions
);
value_by_name!(
    /// A list of words in the rule book.
    WordsValue, Words
);

/// Where a value stands among all values.
const fn place_of(name: &str) -> usize {
    let mut place = 0;
    while place < VALUES.len() {
        if is_same(VALUES[place].0.as_bytes(), name.as_bytes()) {
            return place;
        }
        place += 1;
    }
    panic!("the rule book has no value of this name")
}

/// Whether two names are the same; constants cannot compare them otherwise.
const fn is_same(one: &[u8], other: &[u8]) -> bool {
    let mut place = 0;
    while place < one.len() && place < other.len() && one[place] == other[place] {
        place += 1;
    }
    place == one.len() && place == other.len()
}

/// The levels and values in force for a manuscript.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// The level of each rule, in the order of the rules; `None` where a house does without the rule.
    levels: Vec<Option<Level>>,
    /// By name, in the places that [`LengthValue`] and its like stand for.
    values: Vec<(&'static str, Value)>,
    asked: Asked,
}

/// The names of the values that were asked for, where somebody keeps them. Two settings are the same whoever asked.
#[derive(Clone, Debug, Default)]
struct Asked(Option<Arc<Mutex<BTreeSet<&'static str>>>>);

impl PartialEq for Asked {
    fn eq(&self, _: &Asked) -> bool {
        true
    }
}

impl Eq for Asked {}

impl Default for Settings {
    /// The rule book as it is printed.
    fn default() -> Settings {
        let levels = book().iter().map(|page| Some(page.level)).collect();
        Settings { levels, values: VALUES.to_vec(), asked: Asked::default() }
    }
}

impl Settings {
    /// The level of the rule at an index of [`RULES`]; `None` where the house does without it.
    pub fn level(&self, rule: usize) -> Option<Level> {
        self.levels.get(rule).copied().flatten()
    }

    /// Whether the house does without a rule.
    pub fn does_without(&self, rule: &str) -> bool {
        RULES.iter().position(|known| known.name == rule).is_some_and(|index| self.level(index).is_none())
    }

    /// Sets the level of a rule. Whether there is such a rule.
    pub fn set_level(&mut self, rule: &str, level: Option<Level>) -> bool {
        let Some(index) = RULES.iter().position(|known| known.name == rule) else { return false };
        self.levels[index] = level;
        true
    }

    /// The names of all values with what they are now.
    pub fn values(&self) -> &[(&'static str, Value)] {
        &self.values
    }

    /// Sets a value; words are added to those that are there. Whether there is such a value of that kind.
    pub fn set_value(&mut self, name: &str, value: Value) -> bool {
        let found = self.values.iter_mut().find(|(known, _)| *known == name);
        let Some((_, slot)) = found else { return false };
        match (slot, value) {
            (Value::Words(known), Value::Words(more)) => known.house.extend(more.house),
            (slot, value) if std::mem::discriminant(slot) == std::mem::discriminant(&value) => *slot = value,
            _ => return false,
        }
        true
    }

    /// The same settings, which keep from here on which of their values are asked for.
    #[must_use]
    pub fn keeping_what_is_asked(&self) -> Settings {
        Settings { asked: Asked(Some(Arc::default())), ..self.clone() }
    }

    /// The same settings, which keep nothing of what is asked for.
    #[must_use]
    pub fn keeping_nothing(&self) -> Settings {
        Settings { asked: Asked::default(), ..self.clone() }
    }

    /// The names of the values that were asked for since that was kept.
    pub fn asked(&self) -> BTreeSet<&'static str> {
        let asked = self.asked.0.as_ref().and_then(|asked| asked.lock().ok());
        asked.map(|asked| asked.clone()).unwrap_or_default()
    }

    /// A length of the rule book.
    pub fn length(&self, value: LengthValue) -> Length {
        self.note(value.0);
        self.unrecorded_length(value)
    }

    /// A count of the rule book.
    ///
    /// # Panics
    /// Never: a value stays of its kind.
    pub fn count(&self, value: CountValue) -> Count {
        self.note(value.0);
        match &self.values[value.0].1 {
            Value::Count(count) => *count,
            other => unreachable!("{other:?} is no count"),
        }
    }

    /// A width and a length of the rule book.
    pub fn dimensions(&self, value: DimensionsValue) -> Rectangle {
        self.note(value.0);
        self.unrecorded_dimensions(value)
    }

    /// A length of the rule book that no number goes by, so that a sign-off does not hold it.
    ///
    /// # Panics
    /// Never: a value stays of its kind.
    pub fn unrecorded_length(&self, value: LengthValue) -> Length {
        match &self.values[value.0].1 {
            Value::Length(length) => *length,
            other => unreachable!("{other:?} is no length"),
        }
    }

    /// A width and a length of the rule book that no number goes by.
    ///
    /// # Panics
    /// Never: a value stays of its kind.
    pub fn unrecorded_dimensions(&self, value: DimensionsValue) -> Rectangle {
        match &self.values[value.0].1 {
            Value::Dimensions(dimensions) => *dimensions,
            other => unreachable!("{other:?} is no width and length"),
        }
    }

    /// Words of the rule book, by which no number goes.
    ///
    /// # Panics
    /// Never: a value stays of its kind.
    pub fn unrecorded_words(&self, value: WordsValue) -> &WordList {
        match &self.values[value.0].1 {
            Value::Words(words) => words,
            other => unreachable!("{other:?} are no words"),
        }
    }

    /// Keeps that a value was asked for, where somebody keeps that.
    fn note(&self, place: usize) {
        if let Some(asked) = &self.asked.0
            && let Ok(mut asked) = asked.lock()
        {
            asked.insert(self.values[place].0);
        }
    }
}

/// A value as people write it, exactly: two values that are shown alike are the same.
pub fn shown(value: &Value) -> String {
    match value {
        Value::Length(length) => exactly(*length),
        Value::Count(count) => count.to_string(),
        Value::Dimensions(both) => format!("{} x {}", exactly(both.width), exactly(both.length)),
        Value::Words(words) => words.words().collect::<Vec<_>>().join(", "),
    }
}

/// In inches or centimetres where that is exact; nobody sets a length that is neither.
fn exactly(length: Length) -> String {
    let mut measures = [Measure::Inch, Measure::Cm].into_iter();
    let exact = measures.find(|measure| length.as_shown(*measure, Round::Up) == length);
    exact.map_or_else(
        || format!("{} / {} in", length.ticks(), Length::inches(1).ticks()),
        |measure| length.show(measure, Round::Up),
    )
}
