//! The findings of a page: those that still stand, and those that an editor has accepted.

use serde::Serialize;

use super::excerpt::Excerpt;
use crate::finding::{Finding, Label};
use crate::manuscript::{Source, Span, SpanIndex};
use crate::report::nonbreaking::nonbreaking;
use crate::report::sanitize_line;
use crate::text::{TextOutcome, page_words};

/// One finding as the page tells it.
#[derive(Serialize)]
pub(super) struct PageFinding {
    /// What links to it.
    id: String,
    number: usize,
    level: &'static str,
    rule: &'static str,
    about: Option<String>,
    /// The printed text that it is in, where it is in one.
    file: Option<String>,
    /// The page or the paragraph, where that is no text itself.
    page: Option<String>,
    line: usize,
    column: usize,
    message: String,
    excerpt: Excerpt,
    related: Vec<Related>,
    help: Vec<String>,
    because: Option<String>,
    #[serde(skip)]
    at: Span,
}

/// Another place that a finding points at.
#[derive(Serialize)]
struct Related {
    line: usize,
    words: String,
}

/// A link from a number to a finding at its place.
#[derive(Serialize)]
pub(super) struct Link {
    id: String,
    words: String,
}

/// Where a finding is: in the manuscript, or in a printed text.
#[derive(Clone, Copy)]
pub(super) enum FoundIn<'f> {
    Manuscript(&'f Source),
    Text(&'f TextOutcome),
}

impl<'f> FoundIn<'f> {
    fn source(self) -> &'f Source {
        match self {
            FoundIn::Manuscript(source) => source,
            FoundIn::Text(text) => text.source(),
        }
    }

    /// The file's name alone.
    fn name(self) -> Option<String> {
        let FoundIn::Text(text) = self else { return None };
        Some(sanitize_line(&text.path().file_name().unwrap_or(text.path().as_os_str()).to_string_lossy()))
    }

    fn page(self, at: Span) -> Option<String> {
        let FoundIn::Text(text) = self else { return None };
        text.file.place(at).and_then(page_words)
    }

    /// Where the manuscript states the number: one of its own places, that no number has, where it does not say.
    fn stated_at(self, finding: &Finding) -> Span {
        match self {
            FoundIn::Manuscript(_) => finding.at.at,
            FoundIn::Text(_) => {
                finding.elsewhere.first().map_or(Span::new(usize::MAX, usize::MAX), |elsewhere| elsewhere.at)
            }
        }
    }
}

impl PageFinding {
    /// One that still stands.
    pub(super) fn standing(file: FoundIn<'_>, id: &str, number: usize, finding: &Finding) -> PageFinding {
        PageFinding::new(file, &format!("{id}finding"), number, finding, None)
    }

    /// One that an editor has accepted, with the reason.
    pub(super) fn accepted(
        file: FoundIn<'_>,
        id: &str,
        number: usize,
        finding: &Finding,
        because: &str,
    ) -> PageFinding {
        PageFinding::new(file, &format!("{id}accepted"), number, finding, Some(sanitize_line(because)))
    }

    fn new(file: FoundIn<'_>, kind: &str, number: usize, finding: &Finding, because: Option<String>) -> PageFinding {
        let source = file.source();
        let place = source.place(finding.at.at.start);
        PageFinding {
            id: format!("{kind}-{number}"),
            number,
            level: finding.level.word(),
            rule: finding.rule,
            about: finding.about_words().map(|about| sanitize_line(&about)),
            file: file.name(),
            page: file.page(finding.at.at),
            line: place.line,
            column: place.column,
            message: nonbreaking(&sanitize_line(&finding.message)),
            excerpt: Excerpt::of(source, finding.at.at),
            related: finding.related.iter().map(|label| related(source, label)).collect(),
            help: finding.help.lines().map(|line| nonbreaking(&sanitize_line(line))).collect(),
            because,
            at: file.stated_at(finding),
        }
    }

    fn link(&self) -> Link {
        let words = if self.because.is_some() { "accepted finding" } else { "finding" };
        Link { id: self.id.clone(), words: format!("{words} {}", self.number) }
    }
}

/// The findings of a page, to be looked up by their places.
pub(super) struct FoundByPlace<'f> {
    found: &'f [PageFinding],
    by_place: SpanIndex,
}

impl<'f> FoundByPlace<'f> {
    pub(super) fn new(found: &'f [PageFinding]) -> FoundByPlace<'f> {
        FoundByPlace { found, by_place: SpanIndex::new(found.iter().map(|found| found.at)) }
    }

    /// The links to those of them at whose place a number is.
    pub(super) fn links(&self, at: Span) -> Vec<Link> {
        let mut links: Vec<Link> = self.by_place.overlapping(at).map(|index| self.found[index].link()).collect();
        links.reverse();
        links
    }
}

fn related(source: &Source, label: &Label) -> Related {
    Related { line: source.place(label.at.start).line, words: nonbreaking(&sanitize_line(&label.text)) }
}
