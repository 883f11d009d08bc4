//! The report on code quality that GitLab shows beside the lines of a change.
//!
//! Its fields are in GitLab's documentation, "Code Quality", section "Code Quality report format": `description`,
//! `check_name`, `fingerprint`, `severity`, `location.path` and `location.lines.begin`, in one array.

use std::io::{self, Write};

use serde::Serialize;

use super::entry::{Entry, of_file, of_problem};
use super::spool::JsonItems;
use super::{Report, ReportInParts};
use crate::finding::Level;
use crate::run::{Checked, Total};

/// The format of GitLab's report on code quality.
#[derive(Clone, Copy, Debug, Default)]
pub struct Gitlab;

#[derive(Serialize)]
struct Violation {
    description: String,
    check_name: &'static str,
    fingerprint: String,
    severity: &'static str,
    location: Location,
}

#[derive(Serialize)]
struct Location {
    path: String,
    lines: Lines,
}

#[derive(Serialize)]
struct Lines {
    begin: usize,
}

impl Report for Gitlab {
    fn begin(&self) -> Box<dyn ReportInParts> {
        Box::new(Violations(JsonItems::at_depth(1)))
    }
}

/// The array that is being written.
struct Violations(JsonItems);

impl Violations {
    fn push(&mut self, entry: Entry, out: &mut dyn Write) -> io::Result<()> {
        if self.0.is_empty() {
            write!(out, "[")?;
        }
        self.0.push(&violation(entry), out)
    }
}

impl ReportInParts for Violations {
    fn file(&mut self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        of_file(file).into_iter().try_for_each(|entry| self.push(entry, out))
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        total.problems.iter().try_for_each(|problem| self.push(of_problem(problem), out))?;
        if self.0.is_empty() {
            write!(out, "[")?;
        }
        self.0.finish(out)?;
        writeln!(out)
    }
}

fn violation(entry: Entry) -> Violation {
    let severity = match entry.level {
        Level::Error => "major",
        Level::Query => "minor",
        Level::Note => "info",
    };
    let description = format!("{}: {}", entry.title(), entry.in_full());
    let lines = Lines { begin: entry.line() };
    // The path is from the top of the repository, and must not begin with the folder itself.
    let path = entry.path.strip_prefix("./").unwrap_or(&entry.path).to_string();
    Violation {
        description,
        check_name: entry.rule,
        fingerprint: entry.fingerprint,
        severity,
        location: Location { path, lines },
    }
}
