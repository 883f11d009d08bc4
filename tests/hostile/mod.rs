//! Files that were never meant to be manuscripts, and manuscripts that were torn: each ends in a finding or a clear
//! line, in bounded time and memory, and nothing of it steers the terminal.

use crate::support;

mod bytes;
mod files;
mod large;
mod sanitized_output;
mod torn;

use std::path::Path;

use support::{Ran, bounded_program, finish, without_colours};

/// Checks one path in text, in colour and in JSON, and asserts what holds for any input. The JSON run comes back.
fn survives(folder: &Path, path: &str) -> Ran {
    let check = |more: &[&str]| {
        let ran = finish(bounded_program(folder).arg("check").args(more).arg(path), b"");
        let what = format!("{path} {more:?}");
        assert!(matches!(ran.status, Some(0..=2)), "{what}: {:?} {}", ran.status, ran.err);
        assert!(!ran.err.contains("panicked"), "{what}: {}", ran.err);
        ran
    };
    let text = check(&[]);
    text.is_tame(path);
    let colour = check(&["--color", "always"]);
    assert_eq!(without_colours(&colour.out), text.out, "{path}: colour changes nothing but colour");
    let json = check(&["--format", "json"]);
    json.is_tame(path);
    assert_eq!(json.status, text.status, "{path}");
    let report = json.json();
    let findings = report["findings"].as_array().map_or(0, Vec::len);
    assert!(
        findings > 0 || json.status == Some(0) || !json.err.is_empty(),
        "{path}: status {:?} and nothing says why",
        json.status
    );
    json
}

/// The same, for an input that must not pass as right.
fn is_refused(folder: &Path, path: &str) -> Ran {
    let ran = survives(folder, path);
    assert!(matches!(ran.status, Some(1 | 2)), "{path} passes: {}", ran.out);
    ran
}

/// The rules that found something, each once.
fn rules_in(ran: &Ran) -> Vec<String> {
    let report = ran.json();
    let findings = report["findings"].as_array().cloned().unwrap_or_default();
    let mut rules: Vec<String> = findings.iter().map(|found| found["rule"].as_str().unwrap_or("").into()).collect();
    rules.sort();
    rules.dedup();
    rules
}
