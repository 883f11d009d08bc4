//! Reading a table word by word: what is asked for is known, what is left over is not.

use std::collections::BTreeSet;
use std::fmt;

use super::declared_names::DeclaredNames;
use super::reader::Reader;
use super::section::{LeftOut, Row, Section, ValueKind};
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, nearest, quoted};
use crate::keywords::is_word;

/// What a table is, to the writer.
pub const WORDS_WITH_VALUES: &str = "words with values";

/// A word that must be there and is not, and an entry as an example.
#[derive(Clone, Debug)]
enum Missing {
    /// A word of a section.
    Row(&'static Row),
    /// A word that another table gives, with an entry as an example.
    Named(&'static str, String),
}

impl Missing {
    fn word(&self) -> &'static str {
        match self {
            Missing::Row(row) => row.word,
            Missing::Named(word, _) => word,
        }
    }

    fn entry(&self) -> String {
        match self {
            Missing::Row(row) => row.entry(),
            Missing::Named(_, example) => example.clone(),
        }
    }
}

/// How messages name a table, by one word or several: `binding`, `the file`, `size crib`. They are joined only where
/// there is something to report.
#[derive(Clone, Copy, Debug)]
pub struct TableName<'n> {
    /// The words, of which the last ones may be empty.
    words: [&'n str; 3],
}

impl<'n> TableName<'n> {
    /// The name with a word after it, for what stands in the table.
    pub(super) const fn and(self, word: &'n str) -> TableName<'n> {
        let [first, second, third] = self.words;
        if second.is_empty() {
            TableName { words: [first, word, third] }
        } else {
            TableName { words: [first, second, word] }
        }
    }
}

impl<'n> From<&'n str> for TableName<'n> {
    fn from(word: &'n str) -> Self {
        TableName { words: [word, "", ""] }
    }
}

impl<'n> From<[&'n str; 2]> for TableName<'n> {
    fn from([first, second]: [&'n str; 2]) -> Self {
        TableName { words: [first, second, ""] }
    }
}

impl<'n> From<[&'n str; 3]> for TableName<'n> {
    fn from(words: [&'n str; 3]) -> Self {
        TableName { words }
    }
}

impl fmt::Display for TableName<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut words = self.words.iter().filter(|word| !word.is_empty());
        f.write_str(words.next().map_or("", |first| first))?;
        words.try_for_each(|word| write!(f, " {word}"))
    }
}

/// A table that is being read.
pub struct Table<'n, 't> {
    /// How messages name the table.
    pub name: TableName<'n>,
    /// The word that the table belongs to.
    pub at: Span,
    entries: &'n [Entry<'t>],
    /// How the entries begin, a bit each: most words that are asked for are not there.
    beginnings: u64,
    /// The words that were asked for.
    asked: Vec<&'static str>,
    /// Which of the first 64 entries were asked for, a bit each.
    found: u64,
    /// Which of those after them were: few tables are so long.
    found_beyond: Vec<usize>,
    /// The place after that of the last entry that was found: most stand in the order in which they are asked for.
    next: usize,
    missing: Vec<Missing>,
    /// Whether part of it could not be read.
    torn: bool,
}

/// The bit of the two letters that a word begins with: its spellings have the same, and few other words.
pub(super) const fn beginning(word: &str) -> u64 {
    match word.as_bytes() {
        [first, second, ..] => 1 << ((first.wrapping_mul(7) ^ *second) % 64),
        [only] => 1 << (only.wrapping_mul(7) % 64),
        [] => 0,
    }
}

impl<'n, 't> Table<'n, 't> {
    /// The table that a value is; a mistake where it is something else.
    pub fn new(
        reader: &mut Reader,
        name: impl Into<TableName<'n>>,
        at: Span,
        node: &'n Node<'t>,
        example: &'static str,
    ) -> Option<Self> {
        let name = name.into();
        let entries = match node.kind {
            Kind::Table(entries) => entries,
            Kind::Empty => &[],
            Kind::Unread => return None,
            Kind::Scalar { .. } | Kind::List(_) => {
                let what = MistakeKind::WrongShape { word: name.to_string(), expected: WORDS_WITH_VALUES, example };
                if at.start < at.end && at.end <= node.at.start {
                    reader.report_with(node.at, what, at, "its values are not read");
                } else {
                    reader.report(node.at, what);
                }
                return None;
            }
        };
        Some(Table {
            name,
            at,
            entries,
            beginnings: entries.iter().fold(0, |all, entry| all | beginning(entry.key)),
            asked: Vec::new(),
            found: 0,
            found_beyond: Vec::new(),
            next: 0,
            missing: Vec::new(),
            torn: reader.is_torn(node),
        })
    }

    /// Makes room for the words that are asked for; a table whose words are names needs none.
    pub(crate) fn make_room(&mut self, reader: &mut Reader) {
        if self.asked.capacity() == 0 {
            self.asked = reader.room();
        }
    }

    /// The entry of a word, if it is there.
    pub fn entry(&mut self, row: &'static Row) -> Option<&'n Entry<'t>> {
        self.find(row.word, row.begins)
    }

    /// The entry of a word that a table of its own gives, not a section: a rule, a part of a unit.
    pub fn named(&mut self, word: &'static str) -> Option<&'n Entry<'t>> {
        self.find(word, beginning(word))
    }

    fn find(&mut self, word: &'static str, begins: u64) -> Option<&'n Entry<'t>> {
        self.asked.push(word);
        if self.beginnings & begins == 0 {
            return None;
        }
        let place = self.place_of(word, begins)?;
        self.next = place + 1;
        self.keep_found(place);
        Some(&self.entries[place])
    }

    fn keep_found(&mut self, place: usize) {
        if place < 64 {
            self.found |= 1 << place;
        } else if !self.found_beyond.contains(&place) {
            self.found_beyond.push(place);
        }
    }

    /// The entries that were not asked for and whose words begin with some letters: names that the writer chose.
    pub fn beginning_with(&mut self, letters: &'static str) -> Vec<&'n Entry<'t>> {
        let all = self.entries.iter().enumerate();
        let named = all.filter(|(place, entry)| {
            entry.key.len() > letters.len() && entry.key.starts_with(letters) && !self.was_asked_for(*place)
        });
        let named: Vec<(usize, &Entry<'t>)> = named.collect();
        for (place, _) in &named {
            self.asked.push(letters);
            self.keep_found(*place);
        }
        named.into_iter().map(|(_, entry)| entry).collect()
    }

    /// Whether the name of an entry begins with these letters.
    pub fn has_beginning_with(&self, letters: &str) -> bool {
        self.entries.iter().any(|entry| entry.key.starts_with(letters))
    }

    /// Where the entry of a word is among the entries: as the format writes it or, where it is not there so, in another
    /// spelling.
    fn place_of(&self, word: &str, begins: u64) -> Option<usize> {
        if self.entries.get(self.next).is_some_and(|entry| entry.key == word) {
            return Some(self.next);
        }
        let mut spelled_otherwise = None;
        for (index, entry) in self.entries.iter().enumerate().filter(|(_, entry)| beginning(entry.key) == begins) {
            if entry.key == word {
                return Some(index);
            }
            if spelled_otherwise.is_none() && is_word(entry.key, word) {
                spelled_otherwise = Some(index);
            }
        }
        spelled_otherwise
    }

    /// The entry of a word, which lacks where it must be there and is not.
    pub fn expected(&mut self, row: &'static Row) -> Option<&'n Entry<'t>> {
        let entry = self.entry(row);
        if entry.is_none() && matches!(row.left_out, LeftOut::Required) {
            self.lacks(row);
        }
        entry
    }

    /// Reads the value of a word by its kind; it lacks where it must be there and is not.
    pub(crate) fn read<K: ValueKind>(
        &mut self,
        reader: &mut Reader,
        known: &DeclaredNames<'_>,
        row: &'static Row,
    ) -> K::Field {
        self.expected(row).map_or_else(K::Field::default, |entry| K::read(reader, known, row, entry))
    }

    /// Reads the value of a word that a table of its own gives.
    pub fn optional<T>(&mut self, word: &'static str, read: impl FnOnce(&'n Node<'t>) -> Field<T>) -> Field<T> {
        self.named(word).map_or(Field::Absent, |entry| read(&entry.value))
    }

    /// Notes that a word must be there, after it was found to be lacking.
    pub fn lacks(&mut self, row: &'static Row) {
        self.missing.push(Missing::Row(row));
    }

    /// Takes back that a word must be there.
    pub fn does_not_lack(&mut self, row: &'static Row) {
        self.missing.retain(|missing| missing.word() != row.word);
    }

    /// Whether it may state more than was asked for: it has words that nobody knows, or part of it could not be read.
    pub fn may_state_more(&self) -> bool {
        self.torn || !self.were_all_asked_for()
    }

    /// Whether a word is there.
    pub fn states(&self, word: &str) -> bool {
        self.entries.iter().any(|entry| entry.key == word)
    }

    /// Notes that words lack which others of the section need, once each.
    pub fn lacks_what_others_need(&mut self, section: &'static Section) {
        for row in section.rows {
            let needs = row.needs.filter(|_| self.beginnings & row.begins != 0 && self.states(row.word));
            let Some(needed) = needs.and_then(|needed| section.row(needed)) else { continue };
            let told = self.missing.iter().any(|missing| missing.word() == needed.word);
            if !self.states(needed.word) && !told {
                self.lacks(needed);
            }
        }
    }

    /// Notes the same of a word that a table of its own gives, with an entry as an example.
    pub fn lacks_named(&mut self, word: &'static str, example: String) {
        self.missing.push(Missing::Named(word, example));
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
        if !self.were_all_asked_for() {
            self.report_unknown(reader);
        }
        if whole && !self.torn {
            for missing in &self.missing {
                let (word, example) = (missing.word(), missing.entry());
                reader.report(self.at, MistakeKind::MissingEntry { word, example, place: self.name.to_string() });
            }
        }
        reader.keep_room(self.asked);
    }

    fn were_all_asked_for(&self) -> bool {
        let many = self.entries.len();
        many == self.found.count_ones() as usize + self.found_beyond.len()
            || (0..many).all(|place| self.was_asked_for(place))
    }

    fn was_asked_for(&self, place: usize) -> bool {
        if place < 64 { self.found & 1 << place != 0 } else { self.found_beyond.contains(&place) }
    }

    fn report_unknown(&mut self, reader: &mut Reader) {
        let found: BTreeSet<&str> = self.entries.iter().map(|entry| entry.key).collect();
        let mut asked: Vec<&'static str> = Vec::new();
        for word in &self.asked {
            if !asked.contains(word) {
                asked.push(word);
            }
        }
        let unused: Vec<&'static str> = asked.iter().copied().filter(|word| !found.contains(word)).collect();
        let entries = self.entries.iter().enumerate();
        let unknown: Vec<&Entry<'_>> =
            entries.filter(|(place, _)| !self.was_asked_for(*place)).map(|(_, entry)| entry).collect();
        for entry in unknown {
            let nearest = if reader.is_full() { None } else { nearest(entry.key, unused.iter().copied()) };
            if let Some(meant) = nearest {
                self.missing.retain(|missing| missing.word() != meant);
            }
            let place = self.name.to_string();
            let known = asked.clone();
            let what = MistakeKind::UnknownWord { word: quoted(entry.key), place, known, nearest };
            reader.report(entry.key_at, what);
        }
    }
}
