//! JSON, version 1. The shape is frozen: other programs read it. A new shape gets a new version.

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde::Serialize;

use super::Report;
use super::caution::Caution;
use super::fingerprint::Fingerprints;
use super::sanitize::escape_json;
use crate::audit::Line;
use crate::check::Tally;
use crate::discover::Problem;
use crate::finding::{Finding, Label};
use crate::manuscript::{Source, Span};
use crate::run::{Checked, Run};

/// The JSON format.
#[derive(Clone, Copy, Debug)]
pub struct Json;

#[derive(Serialize)]
struct RunV1<'a> {
    version: u32,
    findings: Vec<FindingV1<'a>>,
    accepted: Vec<AcceptedV1<'a>>,
    /// Only where an account of all numbers was asked for and some are not checked.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    unaccounted: Vec<UnaccountedV1<'a>>,
    /// Only where something could not be read.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    problems: Vec<ProblemV1<'a>>,
    /// Only where a manuscript has a quilt for a crib.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cautions: Vec<Caution<'a>>,
    summary: SummaryV1,
}

#[derive(Serialize)]
struct ProblemV1<'a> {
    file: String,
    why: &'a str,
}

#[derive(Serialize)]
struct UnaccountedV1<'a> {
    number: &'a str,
    size: Option<&'a str>,
    file: String,
    stated: &'a str,
    why: &'a str,
    at: PlaceV1,
    /// Only where it follows from the one thing that cannot be read.
    #[serde(skip_serializing_if = "Option::is_none")]
    caused_by: Option<CauseV1<'a>>,
}

#[derive(Serialize)]
struct FindingV1<'a> {
    rule: &'a str,
    level: &'a str,
    size: Option<&'a str>,
    subject: BTreeMap<&'static str, &'a str>,
    file: String,
    fingerprint: String,
    message: &'a str,
    help: &'a str,
    stated: Option<&'a str>,
    needed: Option<&'a str>,
    at: PlaceV1,
    related: Vec<RelatedV1<'a>>,
    correction: Option<CorrectionV1<'a>>,
    /// Only where the rule has a correction that is not offered.
    #[serde(skip_serializing_if = "Option::is_none")]
    correction_withheld: Option<&'a str>,
    /// Only where it follows from another finding.
    #[serde(skip_serializing_if = "Option::is_none")]
    caused_by: Option<CauseV1<'a>>,
}

#[derive(Serialize)]
struct CauseV1<'a> {
    rule: &'a str,
    size: Option<&'a str>,
    at: PlaceV1,
}

#[derive(Serialize)]
struct AcceptedV1<'a> {
    #[serde(flatten)]
    finding: FindingV1<'a>,
    because: &'a str,
}

#[derive(Serialize)]
pub(super) struct PlaceV1 {
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    byte: usize,
    bytes: usize,
}

#[derive(Serialize)]
struct RelatedV1<'a> {
    message: &'a str,
    at: PlaceV1,
}

#[derive(Serialize)]
struct CorrectionV1<'a> {
    at: PlaceV1,
    replacement: &'a str,
}

#[derive(Serialize)]
struct SummaryV1 {
    manuscripts: usize,
    errors: usize,
    queries: usize,
    notes: usize,
    accepted: usize,
    /// Only where some findings follow from another.
    #[serde(skip_serializing_if = "is_none")]
    following: usize,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // As serde asks.
fn is_none(number: &usize) -> bool {
    *number == 0
}

impl Report for Json {
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        let Tally { errors, queries, notes, accepted } = run.tally();
        let summary =
            SummaryV1 { manuscripts: run.manuscripts, errors, queries, notes, accepted, following: run.following() };
        let (mut findings, mut accepted) = (Vec::new(), Vec::new());
        for file in &run.files {
            let names = Fingerprints::of(file);
            findings.extend(
                file.outcome.findings.iter().zip(names.findings).map(|(found, name)| finding(file, found, name)),
            );
            accepted.extend(file.outcome.accepted.iter().zip(names.accepted).map(|(found, name)| AcceptedV1 {
                finding: finding(file, &found.finding, name),
                because: &found.because,
            }));
        }
        let unaccounted = run.files.iter().flat_map(|file| file.unaccounted.iter().map(|line| number(file, line)));
        let whole = RunV1 {
            version: 1,
            findings,
            accepted,
            unaccounted: unaccounted.collect(),
            problems: run.problems.iter().map(problem).collect(),
            cautions: run.files.iter().filter_map(Caution::of).collect(),
            summary,
        };
        let text = serde_json::to_string_pretty(&whole)?;
        writeln!(out, "{}", escape_json(&text))
    }
}

fn finding<'a>(file: &'a Checked, finding: &'a Finding, fingerprint: String) -> FindingV1<'a> {
    FindingV1 {
        rule: finding.rule,
        level: finding.level.word(),
        size: finding.size.as_deref(),
        subject: finding.subject.words().collect(),
        file: file.path.to_string_lossy().into_owned(),
        fingerprint,
        message: &finding.message,
        help: &finding.help,
        stated: finding.stated.as_deref(),
        needed: finding.needed.as_deref(),
        at: place(&file.source, finding.at.at),
        related: finding.related.iter().map(|label| related(&file.source, label)).collect(),
        correction: finding.correction.as_ref().map(|correction| CorrectionV1 {
            at: place(&file.source, correction.at),
            replacement: &correction.replacement,
        }),
        correction_withheld: finding.withheld.as_deref(),
        caused_by: finding.cause.as_ref().map(|cause| CauseV1 {
            rule: cause.rule,
            size: cause.size.as_deref(),
            at: place(&file.source, cause.at),
        }),
    }
}

fn number<'a>(file: &'a Checked, line: &'a Line) -> UnaccountedV1<'a> {
    UnaccountedV1 {
        number: &line.number,
        size: line.size.as_deref(),
        file: file.path.to_string_lossy().into_owned(),
        stated: &line.stated,
        why: &line.working,
        at: place(&file.source, line.at),
        caused_by: unread_cause(file, line),
    }
}

/// The one thing that cannot be read, for a number that is not checked because of it.
fn unread_cause<'a>(file: &'a Checked, line: &Line) -> Option<CauseV1<'a>> {
    let mut unread = file.unread().filter(|_| line.may_follow_from_unread());
    let (first, None) = (unread.next()?, unread.next()) else { return None };
    Some(CauseV1 { rule: first.rule, size: first.size.as_deref(), at: place(&file.source, first.at.at) })
}

fn problem(problem: &Problem) -> ProblemV1<'_> {
    ProblemV1 { file: problem.path.to_string_lossy().into_owned(), why: &problem.why }
}

fn related<'a>(source: &Source, label: &'a Label) -> RelatedV1<'a> {
    RelatedV1 { message: &label.text, at: place(source, label.at) }
}

pub(super) fn place(source: &Source, at: Span) -> PlaceV1 {
    let (start, end) = (source.place(at.start), source.place(at.end));
    PlaceV1 {
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
        byte: at.start,
        bytes: at.len(),
    }
}
