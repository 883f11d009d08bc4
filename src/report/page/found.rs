//! The findings of a page: those that still stand, and those that an editor has accepted.

use serde::Serialize;

use super::excerpt::Excerpt;
use crate::finding::{Finding, Label};
use crate::manuscript::{ByPlace, Source, Span};
use crate::report::glue::glued;
use crate::report::tame_line;

/// One finding as the page tells it.
#[derive(Serialize)]
pub(super) struct Found {
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

impl Found {
    /// The findings that still stand, counted from one.
    pub(super) fn standing(source: &Source, findings: &[Finding]) -> Vec<Found> {
        let numbered = findings.iter().zip(1..);
        numbered.map(|(finding, number)| Found::new(source, "finding", number, finding, None)).collect()
    }

    /// One that an editor has accepted, with the reason.
    pub(super) fn accepted(source: &Source, number: usize, finding: &Finding, because: &str) -> Found {
        Found::new(source, "accepted", number, finding, Some(tame_line(because)))
    }

    fn new(source: &Source, kind: &str, number: usize, finding: &Finding, because: Option<String>) -> Found {
        let place = source.place(finding.at.at.start);
        Found {
            id: format!("{kind}-{number}"),
            number,
            level: finding.level.word(),
            rule: finding.rule,
            about: finding.about_words().map(|about| tame_line(&about)),
            line: place.line,
            column: place.column,
            message: glued(&tame_line(&finding.message)),
            excerpt: Excerpt::of(source, finding.at.at),
            related: finding.related.iter().map(|label| related(source, label)).collect(),
            help: finding.help.lines().map(|line| glued(&tame_line(line))).collect(),
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
    found: &'f [Found],
    by_place: ByPlace,
}

impl<'f> FoundByPlace<'f> {
    pub(super) fn new(found: &'f [Found]) -> FoundByPlace<'f> {
        FoundByPlace { found, by_place: ByPlace::new(found.iter().map(|found| found.at)) }
    }

    /// The links to those of them at whose place a number is.
    pub(super) fn links(&self, at: Span) -> Vec<Link> {
        let mut links: Vec<Link> = self.by_place.overlapping(at).map(|index| self.found[index].link()).collect();
        links.reverse();
        links
    }
}

fn related(source: &Source, label: &Label) -> Related {
    Related { line: source.place(label.at.start).line, words: glued(&tame_line(&label.text)) }
}
