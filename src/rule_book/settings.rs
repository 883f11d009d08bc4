//! The levels and values that a check goes by.
//!
//! A packaged batting and a mattress are values with two measures ([`Value::Dimensions`]), so that a house can set its
//! own, as it can a length or a count. What a manuscript assumes is what its check asked the settings for: a house that
//! sets a value which a manuscript does not go by leaves its sign-off standing.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::book::book;
use super::named::{CountValue, DimensionsValue, LengthValue, WordsValue};
use super::pages::VALUES;
use super::value::{Value, WordList};
use crate::finding::Level;
use crate::plain_words::PlainWords;
use crate::quantity::{Count, Length};
use crate::quilt_math::rectangle::Rectangle;

/// What the names of packaged battings begin with.
pub const PACKAGED: &str = "packaged_";

/// What the names of the words begin with that a house adds to those by which printed texts are read.
pub(super) const TEXT_WORDS: &str = "text_";

/// The levels and values in force for a manuscript.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// The level of each rule, in the order of the rules; `None` where a house does without the rule.
    levels: Vec<Option<Level>>,
    /// By name, in the places that [`LengthValue`] and its like stand for; after these the packaged battings of a house.
    values: Vec<(Cow<'static, str>, Value)>,
    /// The lists of words as they compare with names, by the places of the values.
    plain: Arc<BTreeMap<usize, PlainWords>>,
    asked: Asked,
}

/// Whether each value was asked for, where somebody wants to know. Two settings are the same whoever asked.
#[derive(Clone, Debug, Default)]
struct Asked(Option<Arc<[AtomicBool]>>);

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
        let words = VALUES.iter().enumerate().filter_map(|(place, (_, value))| match value {
            Value::Words(list) => Some((place, PlainWords::new(list.words()))),
            Value::Length(_) | Value::Count(_) | Value::Dimensions(_) => None,
        });
        let plain = Arc::new(words.collect());
        let values = VALUES.iter().map(|(name, value)| (Cow::Borrowed(*name), value.clone())).collect();
        Settings { levels, values, plain, asked: Asked::default() }
    }
}

impl Settings {
    /// The level of the rule at an index of the rule book; `None` where the house does without it.
    pub fn level(&self, rule: usize) -> Option<Level> {
        self.levels.get(rule).copied().flatten()
    }

    /// Whether the house does without a rule.
    pub fn does_without(&self, rule: &str) -> bool {
        book().iter().position(|known| known.name == rule).is_some_and(|index| self.level(index).is_none())
    }

    /// Sets the level of a rule. Whether there is such a rule.
    pub fn set_level(&mut self, rule: &str, level: Option<Level>) -> bool {
        let Some(index) = book().iter().position(|known| known.name == rule) else { return false };
        self.levels[index] = level;
        true
    }

    /// The names of all values with what they are now.
    pub fn values(&self) -> &[(Cow<'static, str>, Value)] {
        &self.values
    }

    /// Sets a value; words are added to those that are there. Whether there is such a value of that kind.
    pub fn set_value(&mut self, name: &str, value: Value) -> bool {
        let found = self.values.iter_mut().enumerate().find(|(_, (known, _))| *known == name);
        let Some((place, (_, slot))) = found else { return false };
        match (slot, value) {
            (Value::Words(known), Value::Words(more)) => {
                known.extend(more);
                Arc::make_mut(&mut self.plain).insert(place, PlainWords::new(known.words()));
            }
            (slot, value) if std::mem::discriminant(slot) == std::mem::discriminant(&value) => *slot = value,
            _ => return false,
        }
        true
    }

    /// Adds a packaged batting of a house, or sets one that it has, by the name that stands after `packaged_`.
    pub fn set_package(&mut self, name: &str, sheet: Rectangle) {
        let name = format!("{PACKAGED}{name}");
        if !self.set_value(&name, Value::Dimensions(sheet)) {
            self.values.push((name.into(), Value::Dimensions(sheet)));
        }
    }

    /// The packaged battings that a house adds to those of the rule book, by the names that stand after `packaged_`.
    pub fn packages_of_house(&self) -> impl Iterator<Item = (&str, Rectangle)> {
        self.values.iter().enumerate().skip(VALUES.len()).filter_map(|(place, (name, value))| match value {
            Value::Dimensions(sheet) => {
                self.note(place);
                Some((name.strip_prefix(PACKAGED)?, *sheet))
            }
            Value::Length(_) | Value::Count(_) | Value::Words(_) => None,
        })
    }

    /// Adds words of a house by which printed texts are read, by the name that stands after `text_`.
    pub fn set_text_words(&mut self, meaning: &str, words: Vec<String>) {
        self.values.push((format!("{TEXT_WORDS}{meaning}").into(), Value::Words(WordList::of_house(words))));
    }

    /// The words of a house by which printed texts are read, each with the name that stands after `text_`.
    pub fn text_words(&self) -> impl Iterator<Item = (&str, &str)> {
        self.values.iter().skip(VALUES.len()).flat_map(|(name, value)| {
            let words = match value {
                Value::Words(words) => Some(words.words()),
                Value::Length(_) | Value::Count(_) | Value::Dimensions(_) => None,
            };
            let meaning = name.strip_prefix(TEXT_WORDS);
            meaning.zip(words).into_iter().flat_map(|(meaning, words)| words.map(move |word| (meaning, word)))
        })
    }

    /// What is made with these settings, and the names of the values that it asked them for.
    pub fn with_what_is_asked<T>(&self, make: impl FnOnce(&Settings) -> T) -> (T, BTreeSet<Cow<'static, str>>) {
        let asked: Arc<[AtomicBool]> = self.values.iter().map(|_| AtomicBool::new(false)).collect();
        let result = make(&Settings { asked: Asked(Some(Arc::clone(&asked))), ..self.clone() });
        let was_asked = |(_, asked): &(&(Cow<'static, str>, Value), &AtomicBool)| asked.load(Ordering::Relaxed);
        let names = self.values.iter().zip(asked.iter()).filter(was_asked).map(|((name, _), _)| name.clone()).collect();
        (result, names)
    }

    /// The same settings, which keep nothing of what is asked for.
    #[must_use]
    pub fn keeping_nothing(&self) -> Cow<'_, Settings> {
        match self.asked.0 {
            Some(_) => Cow::Owned(Settings { asked: Asked::default(), ..self.clone() }),
            None => Cow::Borrowed(self),
        }
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
        self.unrecorded_count(value)
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

    /// A count of the rule book that no number goes by.
    ///
    /// # Panics
    /// Never: a value stays of its kind.
    pub fn unrecorded_count(&self, value: CountValue) -> Count {
        match &self.values[value.0].1 {
            Value::Count(count) => *count,
            other => unreachable!("{other:?} is no count"),
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

    /// Words of the rule book, by which no number goes, as they compare with names.
    ///
    /// # Panics
    /// Never: a value stays of its kind.
    pub fn unrecorded_words(&self, value: WordsValue) -> &PlainWords {
        &self.plain[&value.0]
    }

    /// Keeps that a value was asked for, where somebody keeps that.
    fn note(&self, place: usize) {
        if let Some(asked) = &self.asked.0 {
            asked[place].store(true, Ordering::Relaxed);
        }
    }
}
