//! The worksheet as JSON, version 1. The shape is frozen: other programs read it. A new shape gets a new version.

use serde::Serialize;

use super::json::{PlaceV1, place};
use super::sanitize::escape_json;
use crate::audit::{FoundHere, Line};
use crate::drawing::Drawings;
use crate::manuscript::Source;
use crate::worksheet::Worksheet;

#[derive(Serialize)]
struct WorksheetV1<'a> {
    version: u32,
    pattern: Option<&'a str>,
    edition: Option<&'a str>,
    file: String,
    lines: Vec<LineV1<'a>>,
    drawings: &'a Drawings,
    cautions: &'a [&'static str],
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
    number: &'a str,
    stated: &'a str,
    needed: &'a str,
    margin: String,
    standing: String,
    working: &'a str,
    /// What is found about the number, the gravest first.
    found: Vec<FoundV1>,
    at: PlaceV1,
}

/// The worksheet of a manuscript as one JSON object, with a line's end after it.
pub fn worksheet_json(source: &Source, worksheet: &Worksheet) -> String {
    let whole = WorksheetV1 {
        version: 1,
        pattern: worksheet.pattern.as_deref(),
        edition: worksheet.edition.as_deref(),
        file: worksheet.path.to_string_lossy().into_owned(),
        lines: worksheet.account.lines.iter().map(|account| line(source, account)).collect(),
        drawings: &worksheet.drawings,
        cautions: &worksheet.cautions,
    };
    // Strings and numbers only: nothing of it can fail to be written.
    let text = serde_json::to_string_pretty(&whole).unwrap_or_default();
    format!("{}\n", escape_json(&text))
}

fn line<'a>(source: &Source, line: &'a Line) -> LineV1<'a> {
    LineV1 {
        size: line.size.as_deref(),
        number: &line.number,
        stated: &line.stated,
        needed: &line.needed,
        margin: line.margin.plain(),
        standing: line.status.word().to_lowercase(),
        working: &line.working,
        found: line.found.iter().map(found).collect(),
        at: place(source, line.at),
    }
}

const fn found(found: &FoundHere) -> FoundV1 {
    FoundV1 { rule: found.rule, level: found.level.word(), accepted: found.accepted }
}
