//! Workflow commands: what GitHub Actions shows beside the lines of a change.
//!
//! How they are written and escaped is described in GitHub's documentation, "Workflow commands for GitHub Actions", and
//! done so in `actions/toolkit`, `packages/core/src/command.ts`: in the text `%`, CR and LF are written as `%25`, `%0D`
//! and `%0A`; in a property `:` and `,` as `%3A` and `%2C` as well.

use std::io::{self, Write};

use super::entry::{Entry, of_file, of_problem};
use super::{Report, ReportInParts};
use crate::finding::Level;
use crate::run::{Checked, Total};

/// The format of workflow commands.
#[derive(Clone, Copy, Debug, Default)]
pub struct Github;

impl Report for Github {
    fn begin(&self) -> Box<dyn ReportInParts> {
        Box::new(Github)
    }
}

impl ReportInParts for Github {
    fn file(&mut self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        of_file(file).iter().try_for_each(|entry| writeln!(out, "{}", command(entry)))
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        total.problems.iter().try_for_each(|problem| writeln!(out, "{}", command(&of_problem(problem))))
    }
}

/// `::error file=...,line=...,endLine=...,col=...,title=...::message`.
fn command(entry: &Entry) -> String {
    let word = match entry.level {
        Level::Error => "error",
        Level::Query => "warning",
        Level::Note => "notice",
    };
    let mut properties = format!("file={}", property(&entry.path));
    if let Some(place) = entry.start {
        properties.push_str(&format!(",line={},endLine={}", place.line, entry.end_line));
        // A column is refused where more lines than one are meant.
        if place.line == entry.end_line {
            properties.push_str(&format!(",col={}", place.column));
        }
    }
    properties.push_str(&format!(",title={}", property(&entry.title())));
    format!("::{word} {properties}::{}", text(&entry.in_full()))
}

/// The message, as the text of a command.
fn text(words: &str) -> String {
    words.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn property(words: &str) -> String {
    text(words).replace(':', "%3A").replace(',', "%2C")
}
