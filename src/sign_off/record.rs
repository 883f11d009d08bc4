//! One sign-off: who signed which numbers, when, and with what.
//!
//! It is one line, so that version control, which merges by lines, never runs two into one another: over many lines,
//! most lines of two sign-offs are alike. It holds every value, so that a later check names each that changed; the
//! fingerprint over them shows that somebody edited the record.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::conditions::Conditions;
use super::meaning::{meaning, meaning_before, measure};
use super::places::Places;
use super::stated::stated;
use super::texts::SignedTexts;
use crate::acceptance::AcceptedFinding;
use crate::manuscript::{Source, read};
use crate::quantity::Measure;
use crate::rule_book::{Settings, book, shown};
use crate::text::TextOutcome;

/// A sign-off as it is recorded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// The manuscript's file name, in the folder of the record.
    pub manuscript: String,
    /// The pattern's name.
    pub pattern: String,
    /// Its edition, where it has one.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub edition: Option<String>,
    /// Who signed.
    pub by: String,
    /// What she noted.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub note: Option<String>,
    /// When, in UTC, as RFC 3339 writes it.
    pub when: Timestamp,
    /// The version of the program.
    pub sparestrip: String,
    /// The fingerprint of the rule book's pages.
    pub rule_book: String,
    /// The fingerprint of the levels and values in force, where house rules change any.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub house_rules: Option<String>,
    /// The fingerprint of all stated and assumed values.
    pub fingerprint: String,
    /// The revocations of the same numbers that whoever signed had seen.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub despite: Vec<String>,
    /// Under which conditions it was checked; nothing in records of earlier versions.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub conditions: Option<Conditions>,
    /// The findings that were accepted.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub accepted: Vec<AcceptedRecord>,
    /// What the printed texts said; nothing where it named none, and in records of earlier versions.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub texts: Option<SignedTexts>,
    /// What the manuscript stated.
    pub stated: BTreeMap<String, String>,
    /// What the rule book gave for what it did not state.
    pub assumed: BTreeMap<String, String>,
}

/// A finding that was accepted when the manuscript was signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AcceptedRecord {
    /// The rule that found it.
    pub rule: String,
    /// The size it is about, where it is about one.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub size: Option<String>,
    /// What it is about besides, by its words.
    #[serde(skip_serializing_if = "BTreeMap::is_empty", default)]
    pub subject: BTreeMap<String, String>,
    /// The printed text that it stands in, where it stands in one.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub text: Option<String>,
    /// What was found.
    pub message: String,
    /// Why it was accepted.
    pub because: String,
}

/// Who signs, and what she has to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signer {
    /// Her name.
    pub by: String,
    /// Her note.
    pub note: Option<String>,
}

impl Record {
    /// The record of a manuscript that was checked under these settings, with the names of the values that the check
    /// asked them for, the findings that were accepted, and the printed texts that were read.
    pub fn new(
        source: &Source,
        (settings, asked): (&Settings, &BTreeSet<Cow<'static, str>>),
        (accepted, texts): (&[AcceptedFinding], &[TextOutcome]),
        signer: Signer,
        when: Timestamp,
    ) -> Record {
        let manuscript = read(source);
        let text = |field: &crate::manuscript::Field<String>| field.stated().map(|stated| stated.value.clone());
        let places = Places::new(stated(source));
        let texts_signed = SignedTexts::new(&places.texts(), texts, &|at| places.path(at));
        let stated: BTreeMap<String, String> =
            places.values.into_iter().map(|(key, value)| (key, value.text)).collect();
        let assumed: BTreeMap<String, String> = settings
            .values()
            .iter()
            .filter(|(name, _)| asked.contains(name))
            .map(|(name, value)| ((*name).to_string(), shown(value)))
            .collect();
        let in_texts = texts.iter().flat_map(|text| text.accepted.iter().map(|accepted| (&text.name, accepted)));
        let in_texts = in_texts
            .map(|(name, accepted)| AcceptedRecord { text: Some(name.clone()), ..AcceptedRecord::new(accepted) });
        let house = *settings != Settings::default();
        Record {
            manuscript: file_name(source),
            pattern: text(&manuscript.pattern).unwrap_or_default(),
            edition: text(&manuscript.edition),
            by: signer.by,
            note: signer.note,
            when,
            sparestrip: env!("CARGO_PKG_VERSION").to_string(),
            rule_book: rule_book().to_string(),
            house_rules: house.then(|| in_force(settings)),
            fingerprint: fingerprint((&stated, &assumed, texts_signed.as_ref()), meaning),
            despite: Vec::new(),
            conditions: None,
            accepted: accepted.iter().map(AcceptedRecord::new).chain(in_texts).collect(),
            texts: texts_signed,
            stated,
            assumed,
        }
    }

    /// The record with the conditions that the manuscript was checked under.
    #[must_use]
    pub fn under(self, conditions: Conditions) -> Record {
        Record { conditions: Some(conditions), ..self }
    }

    /// Whether its values are still those that were signed: a record that was edited by hand is worth nothing.
    pub fn is_whole(&self) -> bool {
        let is_of =
            |meaning| self.fingerprint == fingerprint((&self.stated, &self.assumed, self.texts.as_ref()), meaning);
        is_of(meaning as Meaning) || is_of(meaning_before)
    }

    /// Whether its conditions are still those that were recorded.
    pub(super) fn has_whole_conditions(&self) -> bool {
        self.conditions.as_ref().is_none_or(Conditions::is_whole)
    }

    /// Whether what its texts said is still what was recorded.
    pub(super) fn has_whole_texts(&self) -> bool {
        self.texts.as_ref().is_none_or(SignedTexts::is_whole)
    }

    /// The pattern's name and edition.
    pub fn title(&self) -> String {
        match &self.edition {
            Some(edition) => format!("{}, edition {edition}", self.pattern),
            None => self.pattern.clone(),
        }
    }

    /// The day on which it was signed, in UTC.
    pub fn day(&self) -> String {
        self.when.strftime("%Y-%m-%d").to_string()
    }
}

impl AcceptedRecord {
    fn new(accepted: &AcceptedFinding) -> AcceptedRecord {
        let finding = &accepted.finding;
        AcceptedRecord {
            rule: finding.rule.to_string(),
            size: finding.size.clone(),
            subject: finding.subject.words().map(|(word, name)| (word.to_string(), name.to_string())).collect(),
            text: None,
            message: finding.message.clone(),
            because: accepted.because.clone(),
        }
    }
}

/// The name by which a manuscript is recorded.
pub(super) fn file_name(source: &Source) -> String {
    source.path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

/// What a value says, by the words that lead to it, its text and the measure.
type Meaning = fn(&str, &str, Measure) -> String;

/// What a fingerprint is of: what was stated, what was assumed, what the printed texts said.
type Signed<'r> = (&'r BTreeMap<String, String>, &'r BTreeMap<String, String>, Option<&'r SignedTexts>);

/// SHA-256 (FIPS 180-4) of what each value says after the words that lead to it, in the order of these words, and then of
/// the numbers of the printed texts, with bytes between them that no text has.
fn fingerprint((stated, assumed, texts): Signed<'_>, meaning: Meaning) -> String {
    let measure = measure(stated.get("measure").map(String::as_str));
    let mut hash = Sha256::new();
    for values in [stated, assumed] {
        for (key, value) in values {
            for part in [key, &meaning(key, value, measure)] {
                hash.update(part.as_bytes());
                hash.update([0xff]);
            }
        }
        hash.update([0xfe]);
    }
    if let Some(texts) = texts {
        texts.add_numbers(&mut hash);
    }
    in_hex(hash)
}

fn rule_book() -> &'static str {
    static FINGERPRINT: OnceLock<String> = OnceLock::new();
    FINGERPRINT.get_or_init(|| {
        let mut hash = Sha256::new();
        for rule in book() {
            hash.update(rule.text.as_bytes());
        }
        in_hex(hash)
    })
}

fn in_force(settings: &Settings) -> String {
    let mut hash = Sha256::new();
    for (index, rule) in book().iter().enumerate() {
        let level = settings.level(index).map_or("off", crate::finding::Level::word);
        hash.update(format!("{} {level}\n", rule.name).as_bytes());
    }
    for (name, value) in settings.values() {
        hash.update(format!("{name} {}\n", shown(value)).as_bytes());
    }
    in_hex(hash)
}

pub(super) fn in_hex(hash: Sha256) -> String {
    digest_in_hex(&hash.finalize())
}

/// A digest that is computed, as records have it.
pub(super) fn digest_in_hex(digest: &[u8]) -> String {
    let digits: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
    format!("sha256:{digits}")
}
