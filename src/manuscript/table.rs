//! Reading a table word by word: what is asked for is known, what is left over is not.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::reader::Reader;
use super::tree::{Entry, Kind, Node};
use super::{Field, Span, What, nearest, quoted};

/// What a table is, to the writer.
pub const WORDS_WITH_VALUES: &str = "words with values";

/// A table that is being read.
pub struct Table<'n, 't> {
    /// How messages name the table: `binding`, `the file`.
    pub name: Cow<'n, str>,
    /// The word that the table belongs to.
    pub at: Span,
    entries: &'n [Entry<'t>],
    asked: Vec<&'static str>,
    missing: Vec<&'static str>,
    seen: Vec<bool>,
    /// Whether part of it could not be read.
    torn: bool,
}

impl<'n, 't> Table<'n, 't> {
    /// The table that a value is; a mistake where it is something else.
    pub fn new(
        reader: &mut Reader,
        name: impl Into<Cow<'n, str>>,
        at: Span,
        node: &'n Node<'t>,
        example: &'static str,
    ) -> Option<Self> {
        let name = name.into();
        let entries = match &node.kind {
            Kind::Table(entries) => entries.as_slice(),
            Kind::Empty => &[],
            Kind::Unread => return None,
            Kind::Scalar { .. } | Kind::List(_) => {
                let what = What::WrongShape { word: name.into_owned(), expected: WORDS_WITH_VALUES, example };
                if at.start < at.end && at.end <= node.at.start {
                    reader.report_with(node.at, what, at, "its values are not read");
                } else {
                    reader.report(node.at, what);
                }
                return None;
            }
        };
        let seen = vec![false; entries.len()];
        Some(Table {
            name,
            at,
            entries,
            asked: Vec::with_capacity(16),
            missing: Vec::new(),
            seen,
            torn: reader.is_torn(node),
        })
    }

    /// The entry of a word, if it is there.
    pub fn entry(&mut self, word: &'static str) -> Option<&'n Entry<'t>> {
        self.asked.push(word);
        let index = self.entries.iter().position(|entry| entry.key == word)?;
        self.seen[index] = true;
        Some(&self.entries[index])
    }

    /// Reads the value of a word that may be left out.
    pub fn optional<T>(&mut self, word: &'static str, read: impl FnOnce(&'n Node<'t>) -> Field<T>) -> Field<T> {
        self.entry(word).map_or(Field::Absent, |entry| read(&entry.value))
    }

    /// Reads the value of a word that must be there.
    pub fn required<T>(&mut self, word: &'static str, read: impl FnOnce(&'n Node<'t>) -> Field<T>) -> Field<T> {
        match self.entry(word) {
            Some(entry) => read(&entry.value),
            None => {
                self.missing.push(word);
                Field::Absent
            }
        }
    }

    /// Notes that a word must be there, after it was found to be lacking.
    pub fn lacks(&mut self, word: &'static str) {
        self.missing.push(word);
    }

    /// Whether part of it could not be read, so that nothing can be said to lack.
    pub const fn is_torn(&self) -> bool {
        self.torn
    }

    /// All entries, for a table whose words are names that the writer chose.
    pub fn entries(&self) -> &'n [Entry<'t>] {
        self.entries
    }

    /// Reports the words that nobody asked for, and those that lack. A word that lacks and that an unknown one
    /// was probably meant to be is reported once, as the unknown one. `whole` is false where part of the table
    /// could not be read, so that nothing can be said to lack.
    pub fn finish(mut self, reader: &mut Reader, whole: bool) {
        if self.seen.contains(&false) {
            self.report_unknown(reader);
        }
        if whole && !self.torn {
            for word in &self.missing {
                reader.report(self.at, What::MissingEntry { word, place: self.name.to_string() });
            }
        }
    }

    fn report_unknown(&mut self, reader: &mut Reader) {
        let found: BTreeSet<&str> = self.entries.iter().map(|entry| &*entry.key).collect();
        let unused: Vec<&'static str> = self.asked.iter().copied().filter(|word| !found.contains(word)).collect();
        let unknown = self.entries.iter().zip(&self.seen).filter(|(_, seen)| !**seen).map(|(entry, _)| entry);
        for entry in unknown {
            let nearest = if reader.is_full() { None } else { nearest(&entry.key, unused.iter().copied()) };
            if let Some(meant) = nearest {
                self.missing.retain(|word| *word != meant);
            }
            let place = self.name.to_string();
            let known = self.asked.clone();
            let what = What::UnknownWord { word: quoted(&entry.key), place, known, nearest };
            reader.report(entry.key_at, what);
        }
    }
}
