//! The texts of a manuscript, read and matched, for the rules to look at.

use std::cell::LazyCell;
use std::path::Path;
use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize};

use super::files::{Load, TextFile};
use super::keys::Key;
use super::reading::{ReadNumber, Reading, Reference, Share};
use super::said::{SaidNumber, said_numbers};
use crate::acceptance::AcceptedFinding;
use crate::finding::Finding;
use crate::manuscript::{Manuscript, Source, Spanned};
use crate::requirement::Needs;
use crate::rule_book::Settings;

/// A text that a manuscript names, with what came of reading it.
#[derive(Debug)]
pub struct NamedText<'m> {
    /// The name, where it stands.
    pub named: &'m Spanned<String>,
    /// The text with its numbers, or why its file was not read.
    pub read: Result<(Arc<TextFile>, Reading<'m>), String>,
}

/// What was found in a text.
#[derive(Clone, Debug)]
pub struct TextOutcome {
    /// The name by which the manuscript has it.
    pub name: String,
    /// The text.
    pub file: Arc<TextFile>,
    /// The findings in it, by place.
    pub findings: Vec<Finding>,
    /// Those that the editor has accepted.
    pub accepted: Vec<AcceptedFinding>,
    /// How many of its numbers were matched.
    pub share: Share,
    /// Its numbers.
    pub(crate) numbers: Vec<ReadNumber>,
    /// The manuscript's, which they were matched to.
    pub(crate) keys: Arc<Vec<Key>>,
    /// What it says in numbers, once somebody asked for it.
    said: OnceLock<Vec<SaidNumber>>,
}

impl TextOutcome {
    /// A text with its numbers, in which nothing is found yet.
    pub(crate) fn new(name: &str, file: Arc<TextFile>, reading: Reading<'_>) -> TextOutcome {
        TextOutcome {
            name: name.to_string(),
            file,
            findings: Vec::new(),
            accepted: Vec::new(),
            share: reading.share(),
            numbers: reading.numbers,
            keys: Arc::clone(&reading.keys.list),
            said: OnceLock::new(),
        }
    }

    /// Its path.
    pub fn path(&self) -> &Path {
        &self.file.path
    }

    /// What is shown of it.
    pub fn source(&self) -> &Source {
        &self.file.source
    }

    /// What it says in numbers, in the order of reading.
    pub fn said(&self) -> &[SaidNumber] {
        self.said.get_or_init(|| said_numbers(&self.file, &self.keys, &self.numbers))
    }
}

/// How much of a text could be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ReadExtent {
    /// All of it.
    Whole,
    /// Some of it: what else it says is not known.
    Part,
    /// Nothing.
    Nothing,
}

impl ReadExtent {
    /// The word for it, as sign-offs record it.
    pub const fn word(self) -> &'static str {
        match self {
            ReadExtent::Whole => "whole",
            ReadExtent::Part => "part",
            ReadExtent::Nothing => "nothing",
        }
    }
}

impl PartialEq for TextOutcome {
    fn eq(&self, other: &TextOutcome) -> bool {
        let parts = |of: &TextOutcome| (of.path().to_path_buf(), of.findings.clone(), of.accepted.clone(), of.share);
        parts(self) == parts(other)
    }
}

impl Eq for TextOutcome {}

/// Reads the texts that a manuscript names.
pub fn named_texts<'m>(
    manuscript: &'m Manuscript,
    needs: &Needs<'m>,
    settings: &Settings,
    load: &Load<'_>,
) -> Vec<NamedText<'m>> {
    let reference = LazyCell::new(|| Reference::new(manuscript, needs, settings));
    let read = |named: &'m Spanned<String>| {
        let read = load(&named.value).map(|file| {
            let file = TextFile::comparable(file, reference.stated());
            let reading = Reading::new(&file.printed, &reference);
            (file, reading)
        });
        NamedText { named, read }
    };
    manuscript.texts.iter().map(read).collect()
}
