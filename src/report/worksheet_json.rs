//! The worksheet as JSON, version 1. The shape is frozen: other programs read it. A new shape gets a new version.

use serde::Serialize;

use super::json::{PlaceV1, place};
use super::sanitize::escape_json;
use crate::audit::{FoundHere, Line};
use crate::drawing::Drawings;
use crate::manuscript::Source;
use crate::text::{Share, TextPlace};
use crate::worksheet::{SaidInText, SignState, Signing, Worksheet, WorksheetText};

#[derive(Serialize)]
struct WorksheetV1<'a> {
    version: u32,
    pattern: Option<&'a str>,
    edition: Option<&'a str>,
    file: String,
    /// Only where the sign-offs were looked up.
    #[serde(skip_serializing_if = "Option::is_none")]
    signing: Option<SigningV1<'a>>,
    /// Only where a part was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    only: Option<&'a [String]>,
    /// Only where printed texts were read.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    texts: Vec<TextV1<'a>>,
    lines: Vec<LineV1<'a>>,
    drawings: &'a Drawings,
    cautions: &'a [&'static str],
}

#[derive(Serialize)]
struct SigningV1<'a> {
    fingerprint: &'a str,
    short: String,
    state: &'static str,
    by: Option<&'a str>,
    day: Option<&'a str>,
    changes: usize,
}

/// A printed text, and how many of its numbers were matched.
#[derive(Serialize)]
struct TextV1<'a> {
    file: &'a str,
    numbers: usize,
    matched: usize,
    differ: usize,
    unclear: usize,
}

/// Where a printed text says a number: on a line, a page or in a paragraph.
#[derive(Serialize)]
struct InTextV1<'a> {
    file: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    column: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    page: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    paragraph: Option<u32>,
    quoted: &'a str,
    differs: bool,
}

#[derive(Serialize)]
struct FoundV1 {
    rule: &'static str,
    level: &'static str,
    accepted: bool,
}

#[derive(Serialize)]
struct LineV1<'a> {
    size: Option<&'a str>,
    /// The word at the top of the manuscript that it stands under, and the fabric where it is one's.
    section: Option<&'a str>,
    fabric: Option<&'a str>,
    number: &'a str,
    stated: &'a str,
    needed: &'a str,
    margin: String,
    standing: String,
    working: &'a str,
    /// What is found about the number, the gravest first.
    found: Vec<FoundV1>,
    /// Only of a number that printed texts are searched for; empty where none says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    in_texts: Option<Vec<InTextV1<'a>>>,
    at: PlaceV1,
}

/// The worksheet of a manuscript as one JSON object, with a line's end after it.
pub fn worksheet_json(source: &Source, worksheet: &Worksheet) -> String {
    written(&whole(source, worksheet))
}

#[derive(Serialize)]
struct WorksheetsV1<'a> {
    version: u32,
    worksheets: Vec<WorksheetV1<'a>>,
}

/// The worksheets of several manuscripts as one JSON object, with a line's end after it.
pub fn worksheets_json(sheets: &[(Source, Worksheet)]) -> String {
    let worksheets = sheets.iter().map(|(source, worksheet)| whole(source, worksheet)).collect();
    written(&WorksheetsV1 { version: 1, worksheets })
}

fn written(whole: &impl Serialize) -> String {
    // Strings and numbers only: nothing of it can fail to be written.
    let text = serde_json::to_string_pretty(whole).unwrap_or_default();
    format!("{}\n", escape_json(&text))
}

fn whole<'a>(source: &Source, worksheet: &'a Worksheet) -> WorksheetV1<'a> {
    WorksheetV1 {
        version: 1,
        pattern: worksheet.pattern.as_deref(),
        edition: worksheet.edition.as_deref(),
        file: worksheet.path.to_string_lossy().into_owned(),
        signing: worksheet.signing.as_ref().map(signing),
        only: worksheet.only.as_ref().map(|only| only.words.as_slice()),
        texts: worksheet.texts.list.iter().map(text).collect(),
        lines: worksheet.account.lines.iter().map(|account| line(source, worksheet, account)).collect(),
        drawings: &worksheet.drawings,
        cautions: &worksheet.cautions,
    }
}

fn signing(signing: &Signing) -> SigningV1<'_> {
    let (by, day, changes) = match &signing.state {
        SignState::Signed { by, day, conditions } => (Some(by.as_str()), Some(day.as_str()), *conditions),
        SignState::Revoked { by, day, .. } => (Some(by.as_str()), Some(day.as_str()), 0),
        SignState::Changed { by, day, changes } => (Some(by.as_str()), Some(day.as_str()), *changes),
        SignState::NotLookedUp | SignState::Unsigned => (None, None, 0),
    };
    SigningV1 { fingerprint: &signing.fingerprint, short: signing.short(), state: signing.word(), by, day, changes }
}

fn line<'a>(source: &Source, worksheet: &'a Worksheet, line: &'a Line) -> LineV1<'a> {
    let section = worksheet.sections.section(line.at);
    LineV1 {
        size: line.size.as_deref(),
        section: section.map(|section| section.word.as_str()),
        fabric: section.and_then(|section| section.fabric.as_deref()),
        number: &line.number,
        stated: &line.stated,
        needed: &line.needed,
        margin: line.margin.plain(),
        standing: line.status.word().to_lowercase(),
        working: &line.working,
        found: line.found.iter().map(found).collect(),
        in_texts: worksheet.texts.of(line).map(|said| said.into_iter().map(in_text).collect()),
        at: place(source, line.at),
    }
}

fn text(text: &WorksheetText) -> TextV1<'_> {
    let Share { right, differ, unclear } = text.share;
    TextV1 { file: &text.name, numbers: text.share.all(), matched: right, differ, unclear }
}

fn in_text(said: &SaidInText) -> InTextV1<'_> {
    let (page, paragraph) = match said.page {
        Some(TextPlace::Page(page)) => (Some(page), None),
        Some(TextPlace::Paragraph(paragraph)) => (None, Some(paragraph)),
        _ => (None, None),
    };
    let (line, column) = said.place.map(|place| (place.line, place.column)).unzip();
    InTextV1 { file: &said.name, line, column, page, paragraph, quoted: &said.quoted, differs: said.differs }
}

const fn found(found: &FoundHere) -> FoundV1 {
    FoundV1 { rule: found.rule, level: found.level.word(), accepted: found.accepted }
}
