//! The texts of a manuscript, read and matched, for the rules to look at.

use serde::{Deserialize, Serialize};

use super::files::{Load, TextFile, path_of};
use super::reading::{Reading, Share};
use super::said::SaidNumber;
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
    pub read: Result<(TextFile, Reading<'m>), String>,
}

/// What was found in a text.
#[derive(Clone, Debug)]
pub struct TextOutcome {
    /// The name by which the manuscript has it.
    pub name: String,
    /// Its path.
    pub path: std::path::PathBuf,
    /// How much of it could be read.
    pub extent: ReadExtent,
    /// The SHA-256 (FIPS 180-4) of its file.
    pub sha256: [u8; 32],
    /// What it says in numbers, in the order of reading.
    pub said: Vec<SaidNumber>,
    /// What is shown of it.
    pub source: Source,
    /// The findings in it, by place.
    pub findings: Vec<Finding>,
    /// Those that the editor has accepted.
    pub accepted: Vec<AcceptedFinding>,
    /// How many of its numbers were matched.
    pub share: Share,
    /// The page or the paragraph of each place that is told, where its file is no text.
    pub places: Vec<(crate::manuscript::Span, super::TextPlace)>,
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
        let parts = |of: &TextOutcome| (of.path.clone(), of.findings.clone(), of.accepted.clone(), of.share);
        parts(self) == parts(other)
    }
}

impl Eq for TextOutcome {}

/// Reads the texts that a manuscript names.
pub fn named_texts<'m>(
    source: &Source,
    manuscript: &'m Manuscript,
    needs: &Needs<'m>,
    settings: &Settings,
    load: &Load<'_>,
) -> Vec<NamedText<'m>> {
    let read = |named: &'m Spanned<String>| {
        let read = load(&named.value).map(|bytes| {
            let file = TextFile::new(path_of(&source.path, &named.value), bytes);
            let reading = Reading::new(&file.printed, manuscript, needs, settings);
            (file, reading)
        });
        NamedText { named, read }
    };
    manuscript.texts.iter().map(read).collect()
}
