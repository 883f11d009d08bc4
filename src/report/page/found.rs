//! The findings of a page: those that still stand, and those that an editor has accepted.

use serde::Serialize;

use super::excerpt::Excerpt;
use crate::finding::{Finding, Label};
use crate::manuscript::{Source, Span, SpanIndex};
use crate::report::nonbreaking::nonbreaking;
use crate::report::sanitize_line;

/// One finding as the page tells it.
#[derive(Serialize)]
pub(super) struct PageFinding {
    /// What links to it.
    id: String,
    number: usize,
    level: &'static str,
    rule: &'static str,
    about: Option<String>,
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

impl PageFinding {
    /// One that still stands.
    pub(super) fn standing(source: &Source, id: &str, number: usize, finding: &Finding) -> PageFinding {
        PageFinding::new(source, &format!("{id}finding"), number, finding, None)
    }

    /// One that an editor has accepted, with the reason.
    pub(super) fn accepted(source: &Source, id: &str, number: usize, finding: &Finding, because: &str) -> PageFinding {
        PageFinding::new(source, &format!("{id}accepted"), number, finding, Some(sanitize_line(because)))
    }

    fn new(source: &Source, kind: &str, number: usize, finding: &Finding, because: Option<String>) -> PageFinding {
        let place = source.place(finding.at.at.start);
        PageFinding {
            id: format!("{kind}-{number}"),
            number,
            level: finding.level.word(),
            rule: finding.rule,
            about: finding.about_words().map(|about| sanitize_line(&about)),
            line: place.line,
            column: place.column,
            message: nonbreaking(&sanitize_line(&finding.message)),
            excerpt: Excerpt::of(source, finding.at.at),
            related: finding.related.iter().map(|label| related(source, label)).collect(),
            help: finding.help.lines().map(|line| nonbreaking(&sanitize_line(line))).collect(),
            because,
            at: finding.at.at,
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
