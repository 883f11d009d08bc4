//! Signing a manuscript off: what is recorded, what counts as a change since, and that a record is never lost or torn.

use crate::support;

mod changes;
mod conditions;
mod listing;
mod names;
mod names_and_order;
mod papers;
mod recording;
mod refusing;
mod revoking;
mod sets;
mod texts;
mod together;

use std::path::{Path, PathBuf};

use support::{GOOD, Ran, run, write};

/// The manuscript that most tests sign.
const NAME: &str = "lanterns.pattern.yaml";

/// A folder with a manuscript that was signed off.
fn signed(text: &str) -> tempfile::TempDir {
    let folder = folder_of(text);
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(0), "{ran:?}");
    folder
}

fn folder_of(text: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    write(&folder.path().join(NAME), text);
    folder
}

fn sign(folder: &Path, by: &str) -> Ran {
    run(folder, &["sign", NAME, &format!("--by={by}")])
}

fn record_file(folder: &Path) -> PathBuf {
    folder.join("sign-offs.yaml")
}

#[allow(clippy::disallowed_methods)] // A file of the test's own.
fn text_of(file: &Path) -> String {
    std::fs::read_to_string(file).expect("a file that can be read")
}

/// The records as any reader of YAML sees them.
fn records(folder: &Path) -> Vec<serde_yaml::Value> {
    serde_yaml::from_str(&text_of(&record_file(folder))).expect("a list of sign-offs")
}

/// What `check --signed` finds about the sign-off: rule, size, message and the text that it points at.
fn found(folder: &Path) -> Vec<(String, String, String, String)> {
    found_in(folder, NAME)
}

fn found_in(folder: &Path, name: &str) -> Vec<(String, String, String, String)> {
    let text = text_of(&folder.join(name));
    let json = run(folder, &["check", "--signed", "--format", "json", name]).json();
    let findings = json["findings"].as_array().expect("a list");
    let word = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_string();
    let one = |finding: &serde_json::Value| {
        let number = |key: &str| usize::try_from(finding["at"][key].as_u64().expect("a number")).expect("it fits");
        let at = &text[number("byte")..number("byte") + number("bytes")];
        (word(&finding["rule"]), word(&finding["size"]), word(&finding["message"]), at.to_string())
    };
    findings.iter().map(one).filter(|found| ["not-signed", "changed-since-signed"].contains(&&*found.0)).collect()
}

/// The signed manuscript with one text in it replaced by another.
fn changed(from: &str, to: &str) -> String {
    assert!(GOOD.contains(from), "{from:?} is not in the manuscript");
    GOOD.replacen(from, to, 1)
}
