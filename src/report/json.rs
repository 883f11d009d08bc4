//! JSON, version 1. The shape is frozen: other programs read it. A new shape gets a new version.

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde::Serialize;

use super::caution::Caution;
use super::fingerprint::Fingerprints;
use super::spool::{JsonItems, SpooledArray, laid_out};
use super::{Report, ReportInParts};
use crate::audit::Line;
use crate::check::Tally;
use crate::discover::Problem;
use crate::finding::{Elsewhere, Finding, Label, SubjectKind};
use crate::manuscript::{Source, Span};
use crate::run::{Checked, Total};
use crate::text::{Share, TextPlace};

/// The JSON format.
#[derive(Clone, Copy, Debug)]
pub struct Json;

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
    at: WhereV1<'a>,
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

/// A place in a text; or a page or a paragraph of a file that is no text, with the words there.
#[derive(Serialize)]
#[serde(untagged)]
enum WhereV1<'a> {
    Lines(PlaceV1),
    Page {
        #[serde(skip_serializing_if = "Option::is_none")]
        page: Option<u32>,
        #[serde(skip_serializing_if = "Option::is_none")]
        paragraph: Option<u32>,
        quoted: &'a str,
    },
}

#[derive(Serialize)]
struct RelatedV1<'a> {
    message: &'a str,
    /// Only where it is in another file than the finding.
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<String>,
    at: PlaceV1,
}

#[derive(Serialize)]
struct CorrectionV1<'a> {
    at: PlaceV1,
    replacement: &'a str,
}

/// A printed text that was checked, and how many of its numbers were matched.
#[derive(Serialize)]
struct TextV1 {
    file: String,
    manuscript: String,
    numbers: usize,
    matched: usize,
    differ: usize,
    unclear: usize,
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
    fn begin(&self) -> Box<dyn ReportInParts> {
        let items = || SpooledArray::at_depth(2);
        let (accepted, unaccounted, cautions, texts) = (items(), items(), items(), items());
        Box::new(JsonInParts { findings: None, accepted, unaccounted, cautions, texts })
    }
}

/// The object that is being written: `version`, `findings`, `accepted`, `unaccounted`, `problems`, `cautions`, `texts`
/// and `summary`, those between `accepted` and `summary` only where there is something in them.
struct JsonInParts {
    /// The findings, which are written at once; `None` where nothing is written yet.
    findings: Option<JsonItems>,
    accepted: SpooledArray,
    /// Only where an account of all numbers was asked for and some are not checked.
    unaccounted: SpooledArray,
    /// Only where a manuscript has a quilt for a crib.
    cautions: SpooledArray,
    /// Only where a manuscript names printed texts.
    texts: SpooledArray,
}

impl JsonInParts {
    fn findings(&mut self, out: &mut dyn Write) -> io::Result<&mut JsonItems> {
        if self.findings.is_none() {
            write!(out, "{{\n  \"version\": 1,\n  \"findings\": [")?;
        }
        Ok(self.findings.get_or_insert(JsonItems::at_depth(2)))
    }
}

impl ReportInParts for JsonInParts {
    fn file(&mut self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        let names = Fingerprints::of(file);
        let findings = self.findings(out)?;
        for (found, name) in file.outcome.findings.iter().zip(names.findings) {
            findings.push(&finding(file, found, name), out)?;
        }
        for (found, name) in file.outcome.accepted.iter().zip(names.accepted) {
            self.accepted
                .push(&AcceptedV1 { finding: finding(file, &found.finding, name), because: &found.because })?;
        }
        file.unaccounted.iter().try_for_each(|line| self.unaccounted.push(&number(file, line)))?;
        text(file).iter().try_for_each(|text| self.texts.push(text))?;
        Caution::of(file).iter().try_for_each(|caution| self.cautions.push(caution))
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        self.findings(out)?.finish(out)?;
        let mut problems = SpooledArray::at_depth(2);
        total.problems.iter().try_for_each(|told| problems.push(&problem(told)))?;
        write!(out, ",\n  \"accepted\": ")?;
        self.accepted.write(out)?;
        let others = [
            ("unaccounted", &mut self.unaccounted),
            ("problems", &mut problems),
            ("cautions", &mut self.cautions),
            ("texts", &mut self.texts),
        ];
        for (name, array) in others.into_iter().filter(|(_, array)| !array.is_empty()) {
            write!(out, ",\n  \"{name}\": ")?;
            array.write(out)?;
        }
        let Tally { errors, queries, notes, accepted } = total.tally;
        let (manuscripts, following) = (total.manuscripts, total.following);
        let summary = SummaryV1 { manuscripts, errors, queries, notes, accepted, following };
        writeln!(out, ",\n  \"summary\": {}\n}}", laid_out(&summary, 1)?)
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
        at: place_of(file, finding),
        related: finding
            .related
            .iter()
            .map(|label| related(&file.source, label))
            .chain(finding.elsewhere.iter().map(elsewhere))
            .collect(),
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

fn place_of<'a>(file: &'a Checked, finding: &'a Finding) -> WhereV1<'a> {
    let quoted = || finding.subject.get(SubjectKind::Quote).unwrap_or_default();
    match file.page_of(finding.at.at) {
        Some(TextPlace::Page(page)) => WhereV1::Page { page: Some(page), paragraph: None, quoted: quoted() },
        Some(TextPlace::Paragraph(paragraph)) => {
            WhereV1::Page { page: None, paragraph: Some(paragraph), quoted: quoted() }
        }
        _ => WhereV1::Lines(place(&file.source, finding.at.at)),
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

fn text(file: &Checked) -> Option<TextV1> {
    let text = file.text.as_ref()?;
    let Share { right, differ, unclear } = text.share;
    Some(TextV1 {
        file: file.path.to_string_lossy().into_owned(),
        manuscript: text.manuscript.to_string_lossy().into_owned(),
        numbers: text.share.all(),
        matched: right,
        differ,
        unclear,
    })
}

fn problem(problem: &Problem) -> ProblemV1<'_> {
    ProblemV1 { file: problem.path.to_string_lossy().into_owned(), why: &problem.why }
}

fn related<'a>(source: &Source, label: &'a Label) -> RelatedV1<'a> {
    RelatedV1 { message: &label.text, file: None, at: place(source, label.at) }
}

fn elsewhere(elsewhere: &Elsewhere) -> RelatedV1<'_> {
    let (start, end) = (elsewhere.start, elsewhere.end);
    let at = PlaceV1 {
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
        byte: elsewhere.at.start,
        bytes: elsewhere.at.len(),
    };
    RelatedV1 { message: &elsewhere.text, file: Some(elsewhere.path.to_string_lossy().into_owned()), at }
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
