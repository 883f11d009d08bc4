//! What the formats for lines and matchers tell: everything that was found, each with its place on one line.

use std::path::Path;

use super::fingerprint::{Fingerprints, of_path};
use super::sanitize_line;
use crate::discover::Problem;
use crate::finding::{Finding, Level};
use crate::manuscript::Place;
use crate::run::Checked;
use crate::text::page_words;

/// What a number is reported as that nothing checks, where an account of all numbers was asked for.
pub(super) const NUMBER_NOT_CHECKED: &str = "number-not-checked";

/// What a file is reported as that cannot be read.
const NOT_READ: &str = "not-read";

/// One thing that is told. All words of it are on one line, and without control characters.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Entry {
    /// The path as it was given, separated as URIs and matchers have it.
    pub(super) path: String,
    /// Where it begins; `None` where a whole file is meant.
    pub(super) start: Option<Place>,
    /// The line on which it ends.
    pub(super) end_line: usize,
    pub(super) level: Level,
    pub(super) rule: &'static str,
    /// What it is about: the size, the fabric and so on.
    pub(super) about: Option<String>,
    pub(super) message: String,
    /// The working and what mends it.
    pub(super) help: String,
    pub(super) fingerprint: String,
}

impl Entry {
    /// `binding-short (throw)`.
    pub(super) fn title(&self) -> String {
        match &self.about {
            Some(about) => format!("{} ({about})", self.rule),
            None => self.rule.to_string(),
        }
    }

    /// The line that it is on; the first where a whole file is meant.
    pub(super) fn line(&self) -> usize {
        self.start.map_or(1, |place| place.line)
    }

    /// The message with the working behind it, on one line.
    pub(super) fn in_full(&self) -> String {
        if self.help.is_empty() { self.message.clone() } else { format!("{} {}", self.message, self.help) }
    }
}

/// Everything that was found in one file, by place: the findings that nobody accepted, then the numbers that nothing
/// checks.
pub(super) fn of_file(file: &Checked) -> Vec<Entry> {
    let names = Fingerprints::of(file);
    let findings = file.outcome.findings.iter().zip(names.findings);
    let findings = findings.map(|(found, fingerprint)| finding(file, found, fingerprint));
    let numbers = file.unaccounted.iter().zip(names.unaccounted).map(|(line, fingerprint)| {
        let message = format!("not checked: {}", line.number);
        Entry {
            level: Level::Error,
            rule: NUMBER_NOT_CHECKED,
            about: line.size.as_deref().map(sanitize_line),
            message: sanitize_line(&message),
            help: sanitize_line(&line.working),
            ..at(file, line.at, fingerprint)
        }
    });
    findings.chain(numbers).collect()
}

/// A file that cannot be read.
pub(super) fn of_problem(problem: &Problem) -> Entry {
    Entry {
        path: path(&problem.path),
        start: None,
        end_line: 1,
        level: Level::Error,
        rule: NOT_READ,
        about: None,
        message: sanitize_line(&format!("It cannot be read: {}.", problem.why)),
        help: String::new(),
        fingerprint: of_path(NOT_READ, &problem.path),
    }
}

fn finding(file: &Checked, finding: &Finding, fingerprint: String) -> Entry {
    Entry {
        level: finding.level,
        rule: finding.rule,
        about: finding.about_words().map(|about| sanitize_line(&about)),
        message: sanitize_line(&on_page(file, finding)),
        help: sanitize_line(&finding.help),
        ..at(file, finding.at.at, fingerprint)
    }
}

/// The message; in a printed text that has pages or paragraphs and no lines, after these: `Page 3: ...`.
pub(super) fn on_page(file: &Checked, finding: &Finding) -> String {
    match file.page_of(finding.at.at).and_then(page_words) {
        Some(page) => format!("{}: {}", with_capital(&page), finding.message),
        None => finding.message.clone(),
    }
}

fn with_capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
}

/// An entry at a place, of which nothing else is said yet. Where the file has no lines, it is at the file as a whole.
fn at(file: &Checked, at: crate::manuscript::Span, fingerprint: String) -> Entry {
    let has_lines = file.page_of(at).is_none();
    Entry {
        path: path(&file.path),
        start: has_lines.then(|| file.source.place(at.start)),
        end_line: if has_lines { file.source.place(at.end).line } else { 1 },
        level: Level::Note,
        rule: "",
        about: None,
        message: String::new(),
        help: String::new(),
        fingerprint,
    }
}

fn path(path: &Path) -> String {
    let shown = sanitize_line(&path.to_string_lossy());
    if cfg!(windows) { shown.replace('\\', "/") } else { shown }
}

/// Text as XML can hold it: without the two marks that are no characters.
pub(super) fn for_xml(text: &str) -> String {
    text.replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}")
}
