//! The report on code quality that GitLab shows beside the lines of a change.
//!
//! Its fields are in GitLab's documentation, "Code Quality", section "Code Quality report format": `description`,
//! `check_name`, `fingerprint`, `severity`, `location.path` and `location.lines.begin`, in one array.

use std::io::{self, Write};

use serde::Serialize;

use super::Report;
use super::entry::{Entry, of_run};
use super::sanitize::escape_json;
use crate::finding::Level;
use crate::run::Run;

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
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        let violations: Vec<Violation> = of_run(run).map(violation).collect();
        let text = serde_json::to_string_pretty(&violations)?;
        writeln!(out, "{}", escape_json(&text))
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
