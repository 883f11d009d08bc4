//! The texts of a manuscript, read and matched, for the rules to look at.

use super::files::{Load, TextFile, path_of};
use super::reading::{Reading, Share};
use crate::acceptance::AcceptedFinding;
use crate::finding::Finding;
use crate::manuscript::{Manuscript, Source, Spanned};
use crate::requirement::Needs;

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
    /// Its path.
    pub path: std::path::PathBuf,
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
    load: &Load<'_>,
) -> Vec<NamedText<'m>> {
    let read = |named: &'m Spanned<String>| {
        let read = load(&named.value).map(|bytes| {
            let file = TextFile::new(path_of(&source.path, &named.value), bytes);
            let reading = Reading::new(&file.printed, manuscript, needs);
            (file, reading)
        });
        NamedText { named, read }
    };
    manuscript.texts.iter().map(read).collect()
}
