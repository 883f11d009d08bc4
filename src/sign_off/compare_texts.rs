//! What a manuscript's printed texts say otherwise than when it was signed.

use std::collections::BTreeSet;

use super::compare::{Change, ChangeKind, InText, Now};
use super::compare_numbers::{NumberChange, changed_numbers};
use super::places::{is_text, text_path};
use super::record::Record;
use super::renamed::Renamed;
use super::stated::{evened, in_words, size_names};
use super::texts::{SignedText, file_hash, paths};
use crate::manuscript::Span;
use crate::text::{ReadExtent, TextOutcome};

/// How a text stands, in words.
const NAMED: &str = "named";
const NOT_NAMED: &str = "not named";
const READABLE: &str = "readable";
const NOT_READABLE: &str = "not readable";

/// A text that was read, with its place among those that were.
type Read<'t> = (usize, &'t TextOutcome);

impl Now<'_> {
    /// What is otherwise in the printed texts; where these were not read, which of them are named. A thing that has another name is the same.
    pub(super) fn text_changes(&self, record: &Record, renamed: &[Renamed]) -> Vec<Change> {
        let was: BTreeSet<&String> =
            record.stated.iter().filter(|(path, _)| is_text(path)).map(|(_, name)| name).collect();
        let names = self.places.texts();
        let now: BTreeSet<&String> = names.iter().collect();
        if was.is_empty() && now.is_empty() {
            return Vec::new();
        }
        let Some(texts) = self.texts else { return self.names_changed(&was, &now) };
        let read = |name: &str| {
            let found = texts.iter().enumerate().find(|(_, text)| evened(&text.name) == name);
            found.filter(|(_, text)| text.file.extent() != ReadExtent::Nothing)
        };
        let signed = |name: &str| Some(with_names_of_now(record.texts.as_ref()?.of.get(name)?, renamed));
        let mut gone: Vec<&String> = was.difference(&now).copied().collect();
        let mut changes = Vec::new();
        for name in now {
            if was.contains(name) {
                changes.extend(signed(name).into_iter().flat_map(|signed| self.of_text(name, &signed, read(name))));
                continue;
            }
            // In another format, or under another name, it is the same text as long as it says mostly the same.
            let before = read(name).and_then(|text| {
                gone.iter().enumerate().find_map(|(place, before)| {
                    let signed = signed(before).filter(|signed| signed.read != ReadExtent::Nothing)?;
                    let of_text = self.of_text(name, &signed, Some(text));
                    (of_text.len() * 2 <= signed.numbers.len()).then_some((place, of_text))
                })
            });
            let change = |kind, what: &str, was: &str, is: &str| self.of_name(name, kind, what, (was, is));
            match before {
                Some((place, of_text)) => {
                    let before = gone.remove(place);
                    changes.push(change(ChangeKind::Value, "name of a text", before, name));
                    changes.extend(of_text);
                }
                None => changes.push(change(ChangeKind::Text, name, NOT_NAMED, NAMED)),
            }
        }
        changes.extend(gone.iter().map(|name| self.of_name(name, ChangeKind::Text, name, (NAMED, NOT_NAMED))));
        changes
    }

    /// Which texts are named and were not, and the other way round, where nobody read them.
    fn names_changed(&self, was: &BTreeSet<&String>, now: &BTreeSet<&String>) -> Vec<Change> {
        let came = now.difference(was).map(|name| (name, (NOT_NAMED, NAMED)));
        let gone = was.difference(now).map(|name| (name, (NAMED, NOT_NAMED)));
        came.chain(gone).map(|(name, how)| self.of_name(name, ChangeKind::Text, name, how)).collect()
    }

    /// What is otherwise in a text that is named still.
    fn of_text(&self, name: &str, signed: &SignedText, now: Option<Read<'_>>) -> Vec<Change> {
        match (signed.read, now) {
            (ReadExtent::Nothing, None) => Vec::new(),
            (ReadExtent::Nothing, Some(_)) => {
                vec![self.of_name(name, ChangeKind::Text, name, (NOT_READABLE, READABLE))]
            }
            (_, None) => vec![self.of_name(name, ChangeKind::Text, name, (READABLE, NOT_READABLE))],
            (_, Some((_, text))) if signed.file.as_ref() == Some(&file_hash(text)) => Vec::new(),
            (_, Some((index, text))) => {
                let paths = |said: &_| paths(said, &|at| self.places.path(at));
                let changed = changed_numbers(signed, text, &paths);
                changed.into_iter().map(|change| self.of_number(name, index, change)).collect()
            }
        }
    }

    /// A change that is told at the name of a text.
    fn of_name(&self, name: &str, kind: ChangeKind, what: &str, (was, is): (&str, &str)) -> Change {
        let (was, is) = (Some(was.to_string()), Some(is.to_string()));
        Change { at: self.name_at(name), kind, what: what.to_string(), size: None, was, is, text: None }
    }

    /// Another number in a text: told where it stands, or at the name of the text where it stands no longer.
    fn of_number(&self, name: &str, text: usize, change: NumberChange<'_>) -> Change {
        let NumberChange { path, was, within, is } = change;
        let quote = is.map(|said| said.quote.clone());
        let (what, size) = match &path {
            Some(path) => {
                let (what, size) = in_words(path, &size_names(self.places.values.keys()));
                (format!("{what} in {name}"), size)
            }
            None => {
                let words = quote.as_ref().or(within.as_ref()).map_or("", String::as_str);
                (format!("number in {name}, in \"{words}\""), None)
            }
        };
        Change {
            at: is.map_or_else(|| self.name_at(name), |said| said.at),
            kind: ChangeKind::TextNumber,
            what,
            size,
            was,
            is: is.map(|said| said.says.clone()),
            text: is.map(|said| InText { index: text, quote: said.quote.clone() }),
        }
    }

    /// Where a text is named; where it is no longer, where texts are.
    pub(super) fn name_at(&self, name: &str) -> Span {
        let named = self.places.values.iter().find(|(path, stated)| is_text(path) && stated.text == name);
        named.map_or_else(|| self.places_of(&[&text_path(name)])[0], |(_, stated)| stated.at)
    }
}

/// What was signed of a text, with the names that things have now.
fn with_names_of_now(signed: &SignedText, renamed: &[Renamed]) -> SignedText {
    let mut signed = signed.clone();
    for path in signed.numbers.iter_mut().flat_map(|number| &mut number.of) {
        *path = renamed.iter().fold(path.clone(), |path, renamed| renamed.path(&path));
    }
    signed
}
