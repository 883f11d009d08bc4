//! Places in a text, and values that know theirs.

use std::ops::Range;

use crate::quantity::{Length, Written};

/// A stretch of a source text, in bytes from its start. Both ends lie on character boundaries.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The first byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// The place from `start` up to `end`.
    pub const fn new(start: usize, end: usize) -> Span {
        Span { start, end }
    }

    /// The stretch that holds both.
    #[must_use]
    pub fn to(self, other: Span) -> Span {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// Whether the two share any of the text, or one that holds nothing stands within the other.
    pub const fn overlaps(self, other: Span) -> bool {
        self.start < other.end && other.start < self.end
    }

    /// How many bytes it holds.
    pub const fn len(self) -> usize {
        self.end - self.start
    }

    /// Whether it holds nothing.
    pub const fn is_empty(self) -> bool {
        self.end == self.start
    }

    /// Where it is once the text at another place is replaced by so many bytes.
    #[must_use]
    pub const fn after_replacing(self, old: Span, new: usize) -> Span {
        Span { start: byte_after(self.start, old, new), end: byte_after(self.end, old, new) }
    }

    /// The place with both ends moved back to where a character of the text begins.
    #[must_use]
    pub fn between_characters_of(self, text: &str) -> Span {
        let back = |byte: usize| (0..=byte).rev().find(|byte| text.is_char_boundary(*byte)).unwrap_or_default();
        Span { start: back(self.start), end: back(self.end) }
    }

    /// The text at this place.
    pub fn text(self, source: &str) -> &str {
        source.get(self.start..self.end).unwrap_or_default()
    }
}

const fn byte_after(byte: usize, old: Span, new: usize) -> usize {
    if byte < old.end { byte } else { byte - old.len() + new }
}

impl From<Range<usize>> for Span {
    fn from(range: Range<usize>) -> Span {
        Span { start: range.start, end: range.end }
    }
}

/// A value and where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub at: Span,
}

/// An entry of a manuscript that may be there, may be left out, or may be there and say nothing that can be read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Field<T> {
    /// It was read.
    Stated(Spanned<T>),
    /// It is left out.
    #[default]
    Absent,
    /// It is there and a mistake was reported for it, so nothing more is to be said about it.
    Unread,
}

impl<T> Field<T> {
    /// The value with its place, where it was read.
    pub const fn stated(&self) -> Option<&Spanned<T>> {
        match self {
            Field::Stated(spanned) => Some(spanned),
            Field::Absent | Field::Unread => None,
        }
    }

    /// The place, where it was read.
    pub fn at(&self) -> Option<Span> {
        self.stated().map(|spanned| spanned.at)
    }

    /// Whether it is left out.
    pub const fn is_absent(&self) -> bool {
        matches!(self, Field::Absent)
    }

    /// Whether it is there and could not be read.
    pub const fn is_unread(&self) -> bool {
        matches!(self, Field::Unread)
    }
}

impl<T> Field<T> {
    /// The same field with another value in it.
    pub fn map<U>(self, with: impl FnOnce(T) -> U) -> Field<U> {
        match self {
            Field::Stated(spanned) => Field::Stated(Spanned { value: with(spanned.value), at: spanned.at }),
            Field::Absent => Field::Absent,
            Field::Unread => Field::Unread,
        }
    }
}

impl<T: Copy> Field<T> {
    /// The value, where it was read.
    pub fn value(&self) -> Option<T> {
        self.stated().map(|spanned| spanned.value)
    }

    /// The value, or the default where it is left out; `None` where it could not be read.
    pub fn or(&self, default: T) -> Option<T> {
        match self {
            Field::Stated(spanned) => Some(spanned.value),
            Field::Absent => Some(default),
            Field::Unread => None,
        }
    }
}

impl Field<Written> {
    /// The length, where it was read.
    pub fn length(&self) -> Option<Length> {
        self.value().map(|written| written.length)
    }

    /// The length, or the default where it is left out; `None` where it could not be read. The default is asked for
    /// only where it is needed, so that the rule book knows which of its values a manuscript goes by.
    pub fn or_length(&self, default: impl FnOnce() -> Length) -> Option<Length> {
        if self.is_absent() { Some(default()) } else { self.length() }
    }
}
