//! What changed in a manuscript since it was signed.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::conditions::{ConditionChange, Conditions};
use super::meaning::{meaning, measure};
use super::places::{Places, is_text};
use super::record::Record;
use super::renamed::renamed;
use super::stated::{BETWEEN, in_words, size_names, stated};
use crate::manuscript::tree::{Kind, Node};
use crate::manuscript::{Source, Span, with_tree};
use crate::rule_book::{Settings, shown};
use crate::text::TextOutcome;

/// Something that is not as it was when the manuscript was signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Where it is stated; where it is stated no longer, the word that it stood under.
    pub at: Span,
    /// What kind of thing it is.
    pub kind: ChangeKind,
    /// What it is.
    pub what: String,
    /// The size it is for.
    pub size: Option<String>,
    /// What it was, where it was stated.
    pub was: Option<String>,
    /// What it is now, where it is stated.
    pub is: Option<String>,
    /// The printed text that it stands in, where it stands in one.
    pub text: Option<InText>,
}

/// A place in a printed text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InText {
    /// Which of the texts that were read.
    pub index: usize,
    /// The words round it.
    pub quote: String,
}

/// What kind of thing changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChangeKind {
    /// A value that the manuscript states.
    Value,
    /// A value that the rule book gives.
    Assumed,
    /// The level of a rule.
    Level,
    /// A query that stood, or one that did not.
    Query,
    /// An option of the check.
    Option,
    /// A printed text that is named or can be read, or no longer.
    Text,
    /// A number that a printed text says.
    TextNumber,
}

impl Change {
    /// Its place among others: those in the manuscript first, then those in its texts.
    pub(super) fn place(&self) -> (Option<usize>, Span) {
        (self.text.as_ref().map(|text| text.index), self.at)
    }

    /// What changed, in a sentence without its full stop.
    pub fn sentence(&self) -> String {
        let nothing = if self.kind == ChangeKind::TextNumber { "not said" } else { "not stated" };
        let or_nothing = |value: &Option<String>| match value.as_deref() {
            None => nothing.to_string(),
            Some("") => "empty".to_string(),
            Some(value) => value.to_string(),
        };
        let (what, was, is) = (&self.what, or_nothing(&self.was), or_nothing(&self.is));
        match self.kind {
            ChangeKind::Value | ChangeKind::TextNumber => format!("{what}: signed as {was}, now {is}"),
            // A value of the rule book stands nowhere in the manuscript, and must not be taken for the one it is told at.
            ChangeKind::Assumed => format!("the rule book's {what}: signed as {was}, now {is}"),
            ChangeKind::Level => format!("the level of {what}: signed as {was}, now {is}"),
            ChangeKind::Query if self.was.is_some() => {
                format!("the query {what} stood when it was signed, and is gone")
            }
            ChangeKind::Query => format!("the query {what} did not stand when it was signed"),
            ChangeKind::Option => format!("signed without {what}, while {was}"),
            ChangeKind::Text => format!("the text {what} was {was} when the manuscript was signed, and is {is} now"),
        }
    }
}

/// A manuscript as it is now.
pub(super) struct Now<'s> {
    source: &'s Source,
    pub(super) places: Places,
    /// The printed texts that were read; nothing where nobody looked at them.
    pub(super) texts: Option<&'s [TextOutcome]>,
}

impl<'s> Now<'s> {
    pub(super) fn new(source: &'s Source, texts: Option<&'s [TextOutcome]>) -> Now<'s> {
        Now { source, places: Places::new(stated(source)), texts }
    }

    /// The pattern's name, or the start of the file.
    pub(super) fn start(&self) -> Span {
        let start = Span::new(0, self.source.text.chars().next().map_or(0, char::len_utf8));
        self.places.values.get("pattern").map_or(start, |name| name.at)
    }

    /// Whether what it states is what a record has, however it is written.
    pub(super) fn is_as_signed(&self, record: &Record) -> bool {
        let means = self.means(record);
        self.places.values.len() == record.stated.len()
            && record
                .stated
                .iter()
                .all(|(key, was)| self.places.values.get(key).is_some_and(|is| means(key, was, &is.text)))
    }

    /// Whether the rule book gives what it gave when a record was made.
    fn is_assumed_as_signed(&self, settings: &Settings, record: &Record) -> bool {
        self.changed_assumptions(settings, record).is_empty()
    }

    /// Whether its numbers, stated, assumed and printed, are those of a record.
    pub(super) fn has_numbers_of(&self, settings: &Settings, record: &Record) -> bool {
        self.is_as_signed(record)
            && self.is_assumed_as_signed(settings, record)
            && self.text_changes(record, &[]).is_empty()
    }

    /// Whether a value of a record says under these words what a value says now.
    fn means(&self, record: &Record) -> impl Fn(&str, &str, &str) -> bool + use<> {
        let signed_in = measure(record.stated.get("measure").map(String::as_str));
        let written_in = measure(self.places.values.get("measure").map(|stated| stated.text.as_str()));
        move |key, was, is| was == is || meaning(key, was, signed_in) == meaning(key, is, written_in)
    }

    /// The values that are not as they were, by place. A thing that has another name is one change.
    pub(super) fn changes(&self, settings: &Settings, record: &Record) -> Vec<Change> {
        let means = self.means(record);
        let now: BTreeMap<String, String> =
            self.places.values.iter().map(|(key, stated)| (key.clone(), stated.text.clone())).collect();
        let (signed, renamed) = renamed(&record.stated, &now, &means);
        let keys = || signed.keys().chain(self.places.values.keys());
        let sizes: BTreeSet<&str> = size_names(keys());
        let differs = |key: &String| match (signed.get(key), now.get(key)) {
            (Some(was), Some(is)) => !means(key, was, is),
            _ => true,
        };
        let changed: Vec<&String> =
            keys().collect::<BTreeSet<_>>().into_iter().filter(|key| !is_text(key) && differs(key)).collect();
        let mut all = Vec::new();
        for (key, place) in changed.iter().zip(self.places_of(&changed)) {
            let (what, size) = in_words(key, &sizes);
            let (was, is) = (signed.get(*key).cloned(), now.get(*key).cloned());
            all.push(Change { at: place, kind: ChangeKind::Value, what, size, was, is, text: None });
        }
        let places = self.places_of(&renamed.iter().map(|renamed| &renamed.key).collect::<Vec<_>>());
        all.extend(renamed.iter().zip(places).map(|(renamed, at)| Change {
            at,
            kind: ChangeKind::Value,
            what: renamed.what.to_string(),
            size: renamed.size.clone(),
            was: Some(renamed.was.clone()),
            is: Some(renamed.is.clone()),
            text: None,
        }));
        all.extend(self.changed_assumptions(settings, record));
        all.extend(self.text_changes(record, &renamed));
        all.sort_by_key(Change::place);
        all
    }

    /// The values of the rule book that the signed numbers went by, where they are others now. A value that the record
    /// does not know of came with a later version of the program, and nobody could sign it.
    fn changed_assumptions(&self, settings: &Settings, record: &Record) -> Vec<Change> {
        let at = self.measure_at();
        let changed = settings.values().iter().filter_map(|(name, value)| {
            let was = record.assumed.get(&**name)?;
            let is = shown(value);
            (*was != is).then(|| Change {
                at,
                kind: ChangeKind::Assumed,
                what: (*name).to_string(),
                size: None,
                was: Some(was.clone()),
                is: Some(is),
                text: None,
            })
        });
        changed.collect()
    }

    /// The conditions that are others than those that a record was signed under.
    pub(super) fn changed_conditions(&self, record: &Record, now: &Conditions, same_numbers: bool) -> Vec<Change> {
        let Some(signed) = &record.conditions else { return Vec::new() };
        let (here, measure) = (self.start(), self.measure_at());
        let change = |at, kind, what: String| Change { at, kind, what, size: None, was: None, is: None, text: None };
        let changes = signed.changes(now, same_numbers).into_iter().map(|changed| match changed {
            ConditionChange::Level { rule, was, is } => {
                Change { was: Some(was), is: Some(is), ..change(measure, ChangeKind::Level, rule) }
            }
            ConditionChange::QueryGone(query) => {
                Change { was: Some(query.message.clone()), ..change(here, ChangeKind::Query, query.title()) }
            }
            ConditionChange::QueryNew(query) => {
                let at = query.at.or(query.text.as_ref().map(|text| self.name_at(text))).unwrap_or(here);
                Change { is: Some(query.message.clone()), ..change(at, ChangeKind::Query, query.title()) }
            }
            ConditionChange::Option { option, stood } => {
                Change { was: Some(stood), ..change(here, ChangeKind::Option, option.to_string()) }
            }
        });
        changes.collect()
    }

    /// Where to tell of what stands nowhere in the manuscript.
    fn measure_at(&self) -> Span {
        self.places.values.get("measure").map_or_else(|| self.start(), |measure| measure.at)
    }

    /// Where each value stands; where one is there no longer, the nearest word that is still there of those that led
    /// to it.
    pub(super) fn places_of(&self, keys: &[&String]) -> Vec<Span> {
        let start = self.start();
        with_tree(self.source, |_, tree, _| {
            let mut words = HashMap::new();
            if let Some(tree) = tree {
                words_of(tree, "", &mut words);
            }
            let nearest = |key: &str| nearest_word(&words, key).unwrap_or(start);
            keys.iter()
                .map(|key| self.places.values.get(*key).map_or_else(|| nearest(key), |stated| stated.at))
                .collect()
        })
    }
}

/// Where each row of words in a tree stands that may lead to a value.
fn words_of(node: &Node<'_>, before: &str, places: &mut HashMap<String, Span>) {
    let Kind::Table(entries) = node.kind else { return };
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
