//! A value of the rule book: a length, a count, a width and a length, or words.

use crate::quantity::{Count, Length, Measure, Round};
use crate::quilt_math::rectangle::Rectangle;

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

    /// Adds those of a house.
    pub(super) fn extend(&mut self, more: WordList) {
        self.house.extend(more.house);
    }

    /// All of them.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.book.iter().copied().chain(self.house.iter().map(String::as_str))
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
