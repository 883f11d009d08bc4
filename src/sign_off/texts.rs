//! What the printed texts of a manuscript said when it was signed.
//!
//! A number that was matched is recorded under the words that lead to it in the manuscript, once however often the text
//! says it, so that neither words nor layout nor order matter. One that was matched to nothing may be a requirement all the
//! same, so it is recorded as it stands, with the words round it. A number that is no requirement (a page, a date, a time, a
//! needle) is not: it changes with every edition, and nobody signed it.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::record::{digest_in_hex, in_hex};
use super::stated::evened;
use crate::manuscript::Span;
use crate::text::{ReadExtent, SaidNumber, TextOutcome};

/// The texts that a manuscript named when it was signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignedTexts {
    /// Each by its name.
    pub of: BTreeMap<String, SignedText>,
    /// The fingerprint of all this. That of the record is of the numbers alone, which stay the same in another format.
    pub fingerprint: String,
}

/// A text as it was when its manuscript was signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignedText {
    /// How much of it was read, and so signed.
    pub read: ReadExtent,
    /// The fingerprint of its file: in the very same file nothing changed, though a later version of the program may match
    /// more of its numbers. Nothing where it was not read.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub file: Option<String>,
    /// Its numbers.
    pub numbers: Vec<SignedNumber>,
}

/// A number of a text.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignedNumber {
    /// The words that lead to it in the manuscript, of each place that it was matched to; empty where it was to none.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub of: Vec<String>,
    /// What the text says.
    pub says: String,
    /// The words round it, where it was matched to nothing.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub within: Option<String>,
}

impl SignedTexts {
    /// The texts with these names, of which those are at hand that could be opened. `path_of` gives the words that lead to
    /// a place in the manuscript.
    pub(super) fn new(
        names: &[String],
        texts: &[TextOutcome],
        path_of: &dyn Fn(Span) -> Option<String>,
    ) -> Option<SignedTexts> {
        if names.is_empty() {
            return None;
        }
        let signed = |name: &String| {
            let text = texts
                .iter()
                .find(|text| evened(&text.name) == *name)
                .filter(|text| text.file.extent() != ReadExtent::Nothing);
            (name.clone(), text.map_or_else(SignedText::not_read, |text| SignedText::new(text, path_of)))
        };
        let mut signed = SignedTexts { of: names.iter().map(signed).collect(), fingerprint: String::new() };
        signed.fingerprint = signed.hash();
        Some(signed)
    }

    /// Whether it is still what was recorded.
    pub(super) fn is_whole(&self) -> bool {
        self.fingerprint == self.hash()
    }

    fn hash(&self) -> String {
        let mut hash = Sha256::new();
        for (name, text) in &self.of {
            add(&mut hash, name);
            add(&mut hash, text.read.word());
            text.file.iter().for_each(|file| add(&mut hash, file));
            for number in &text.numbers {
                number.add_to(&mut hash, true);
            }
            hash.update([0xfe]);
        }
        in_hex(hash)
    }

    /// Adds the numbers to the fingerprint of a record: whatever the words round them, in whatever order.
    pub(super) fn add_numbers(&self, hash: &mut Sha256) {
        for (name, text) in &self.of {
            add(hash, name);
            let mut numbers: Vec<(&[String], &str, &SignedNumber)> =
                text.numbers.iter().map(|number| (number.of.as_slice(), number.says.as_str(), number)).collect();
            numbers.sort_by_key(|(of, says, _)| (*of, *says));
            for (_, _, number) in numbers {
                number.add_to(hash, false);
            }
            hash.update([0xfe]);
        }
    }
}

impl SignedText {
    fn not_read() -> SignedText {
        SignedText { read: ReadExtent::Nothing, file: None, numbers: Vec::new() }
    }

    fn new(text: &TextOutcome, path_of: &dyn Fn(Span) -> Option<String>) -> SignedText {
        let (mut matched, mut others) = (BTreeSet::new(), Vec::new());
        for said in text.said().iter().filter(|said| said.is_required) {
            let of = paths(said, path_of);
            if of.is_empty() {
                others.push(SignedNumber { of, says: said.says.clone(), within: Some(said.quote.clone()) });
            } else {
                matched.insert(SignedNumber { of, says: said.says.clone(), within: None });
            }
        }
        let numbers = matched.into_iter().chain(others).collect();
        SignedText { read: text.file.extent(), file: Some(file_hash(text)), numbers }
    }
}

impl SignedNumber {
    fn add_to(&self, hash: &mut Sha256, with_words: bool) {
        self.of.iter().for_each(|path| add(hash, path));
        hash.update([0xfd]);
        add(hash, &self.says);
        self.within.iter().filter(|_| with_words).for_each(|within| add(hash, within));
    }
}

/// The words that lead to what a number was matched to.
pub(super) fn paths(said: &SaidNumber, path_of: &dyn Fn(Span) -> Option<String>) -> Vec<String> {
    let paths: BTreeSet<String> = said.of.iter().filter_map(|at| path_of(*at)).collect();
    paths.into_iter().collect()
}

/// The fingerprint of a text's file, as a record has it.
pub(super) fn file_hash(text: &TextOutcome) -> String {
    digest_in_hex(&text.file.sha256())
}

/// Adds a part that ends with a byte that no text has.
fn add(hash: &mut Sha256, part: &str) {
    hash.update(part.as_bytes());
    hash.update([0xff]);
}
