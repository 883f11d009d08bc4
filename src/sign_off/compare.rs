//! What changed in a manuscript since it was signed.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::meaning::{meaning, measure};
use super::record::{Record, file_name};
use super::renamed::renamed;
use super::stated::{BETWEEN, Stated, in_words, size_names, stated};
use crate::manuscript::tree::{Kind, Node};
use crate::manuscript::{Source, Span, with_tree};
use crate::rule_book::{Settings, shown};

/// How a manuscript stands to the sign-offs beside it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum SignOff {
    /// Nobody asked.
    #[default]
    NotAsked,
    /// There is none.
    None {
        /// Where to say so.
        at: Span,
        /// Another manuscript that was signed with the very same values, which this one may have been.
        same_as: Option<String>,
    },
    /// There is one. Of several, the one counts whose values it has; failing that, the latest.
    Signed {
        /// Who signed.
        by: String,
        /// On which day.
        day: String,
        /// Which edition, where it had one.
        edition: Option<String>,
        /// What changed since.
        changes: Vec<Change>,
    },
}

/// A value that is not as it was when the manuscript was signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Where it is stated; where it is stated no longer, the word that it stood under.
    pub at: Span,
    /// What it is.
    pub what: String,
    /// The size it is for.
    pub size: Option<String>,
    /// What it was, where it was stated.
    pub was: Option<String>,
    /// What it is now, where it is stated.
    pub is: Option<String>,
    /// Whether the manuscript does not state it, and the rule book gives it.
    pub assumed: bool,
}

impl SignOff {
    /// How a manuscript stands to the records in its folder.
    pub fn of(source: &Source, settings: &Settings, records: &[Record]) -> SignOff {
        let name = file_name(source);
        let now = Now { source, values: stated(source) };
        let mut own: Vec<&Record> = records.iter().filter(|record| record.manuscript == name).collect();
        // Two branches of a history that were merged have their sign-offs in any order.
        own.sort_by_key(|record| record.when);
        let matching =
            own.iter().rev().find(|record| now.is_as_signed(record) && now.is_assumed_as_signed(settings, record));
        match matching.or(own.last()) {
            Some(record) => SignOff::Signed {
                by: record.by.clone(),
                day: record.day(),
                edition: record.edition.clone(),
                changes: now.changes(settings, record),
            },
            None => {
                let same = records.iter().filter(|record| now.is_as_signed(record)).max_by_key(|record| record.when);
                SignOff::None { at: now.start(), same_as: same.map(|record| record.manuscript.clone()) }
            }
        }
    }
}

/// A manuscript as it is now.
struct Now<'s> {
    source: &'s Source,
    values: BTreeMap<String, Stated>,
}

impl Now<'_> {
    /// The pattern's name, or the start of the file.
    fn start(&self) -> Span {
        let start = Span::new(0, self.source.text.chars().next().map_or(0, char::len_utf8));
        self.values.get("pattern").map_or(start, |name| name.at)
    }

    /// Whether what it states is what a record has, however it is written.
    fn is_as_signed(&self, record: &Record) -> bool {
        let means = self.means(record);
        self.values.len() == record.stated.len()
            && record.stated.iter().all(|(key, was)| self.values.get(key).is_some_and(|is| means(key, was, &is.text)))
    }

    /// Whether the rule book gives what it gave when a record was made.
    fn is_assumed_as_signed(&self, settings: &Settings, record: &Record) -> bool {
        self.changed_assumptions(settings, record).is_empty()
    }

    /// Whether a value of a record says under these words what a value says now.
    fn means(&self, record: &Record) -> impl Fn(&str, &str, &str) -> bool + use<> {
        let signed_in = measure(record.stated.get("measure").map(String::as_str));
        let written_in = measure(self.values.get("measure").map(|stated| stated.text.as_str()));
        move |key, was, is| was == is || meaning(key, was, signed_in) == meaning(key, is, written_in)
    }

    /// The values that are not as they were, by place. A thing that has another name is one change.
    fn changes(&self, settings: &Settings, record: &Record) -> Vec<Change> {
        let means = self.means(record);
        let now: BTreeMap<String, String> =
            self.values.iter().map(|(key, stated)| (key.clone(), stated.text.clone())).collect();
        let (signed, renamed) = renamed(&record.stated, &now, &means);
        let keys = || signed.keys().chain(self.values.keys());
        let sizes: BTreeSet<&str> = size_names(keys());
        let differs = |key: &String| match (signed.get(key), now.get(key)) {
            (Some(was), Some(is)) => !means(key, was, is),
            _ => true,
        };
        let changed: Vec<&String> = keys().collect::<BTreeSet<_>>().into_iter().filter(|key| differs(key)).collect();
        let mut all = Vec::new();
        for (key, place) in changed.iter().zip(self.places_of(&changed)) {
            let (what, size) = in_words(key, &sizes);
            let (was, is) = (signed.get(*key).cloned(), now.get(*key).cloned());
            all.push(Change { at: place, what, size, was, is, assumed: false });
        }
        let places = self.places_of(&renamed.iter().map(|renamed| &renamed.key).collect::<Vec<_>>());
        all.extend(renamed.iter().zip(places).map(|(renamed, at)| Change {
            at,
            what: renamed.what.to_string(),
            size: renamed.size.clone(),
            was: Some(renamed.was.clone()),
            is: Some(renamed.is.clone()),
            assumed: false,
        }));
        all.extend(self.changed_assumptions(settings, record));
        all.sort_by_key(|change| change.at);
        all
    }

    /// The values of the rule book that the signed numbers went by, where they are others now. A value that the record
    /// does not know of came with a later version of the program, and nobody could sign it.
    fn changed_assumptions(&self, settings: &Settings, record: &Record) -> Vec<Change> {
        let at = self.values.get("measure").map_or_else(|| self.start(), |measure| measure.at);
        let changed = settings.values().iter().filter_map(|(name, value)| {
            let was = record.assumed.get(&**name)?;
            let is = shown(value);
            (*was != is).then(|| Change {
                at,
                what: (*name).to_string(),
                size: None,
                was: Some(was.clone()),
                is: Some(is),
                assumed: true,
            })
        });
        changed.collect()
    }

    /// Where each value stands; where one is there no longer, the nearest word that is still there of those that led
    /// to it.
    fn places_of(&self, keys: &[&String]) -> Vec<Span> {
        let start = self.start();
        with_tree(self.source, |_, tree, _| {
            let mut words = HashMap::new();
            if let Some(tree) = tree {
                words_of(tree, "", &mut words);
            }
            let nearest = |key: &str| nearest_word(&words, key).unwrap_or(start);
            keys.iter().map(|key| self.values.get(*key).map_or_else(|| nearest(key), |stated| stated.at)).collect()
        })
    }
}

/// Where each row of words in a tree stands that may lead to a value.
fn words_of(node: &Node<'_>, before: &str, places: &mut HashMap<String, Span>) {
    let Kind::Table(entries) = &node.kind else { return };
    for entry in entries {
        let words = format!("{before}{}", entry.key);
        words_of(&entry.value, &format!("{words}{BETWEEN}"), places);
        places.entry(words).or_insert(entry.key_at);
    }
}

/// The last of the words leading to a value that is among the places.
fn nearest_word(places: &HashMap<String, Span>, key: &str) -> Option<Span> {
    let ends = key.match_indices(BETWEEN).map(|(end, _)| end).chain([key.len()]);
    ends.map_while(|end| places.get(&key[..end])).last().copied()
}
