//! Names of findings that stay when lines are added above, when other findings come and go, and when a number is
//! changed and is still wrong: for systems that tell what is new from what was there.

use std::path::Path;

use sha2::{Digest, Sha256};

use super::listed_findings::Names;
use crate::audit::Line;
use crate::finding::Finding;
use crate::run::Checked;

/// The fingerprints of one file.
#[derive(Debug)]
pub(super) struct Fingerprints {
    /// Those of the findings, in their order.
    pub(super) findings: Vec<String>,
    /// Those of the accepted findings.
    pub(super) accepted: Vec<String>,
    /// Those of the numbers that nothing checks.
    pub(super) unaccounted: Vec<String>,
}

impl Fingerprints {
    /// Names everything that was found in a file.
    pub(super) fn of(file: &Checked) -> Fingerprints {
        let mut given = Names::default();
        let path = plain(&file.path);
        let mut named = |what: String| {
            let what = format!("{path}\n{what}");
            let count = given.count(&what);
            hash(&format!("{what}\n{count}"))
        };
        let findings = file.outcome.findings.iter().map(|found| named(finding(file, found))).collect();
        let accepted = file.outcome.accepted.iter().map(|found| named(finding(file, &found.finding))).collect();
        let unaccounted = file.unaccounted.iter().map(|line| named(number(line))).collect();
        Fingerprints { findings, accepted, unaccounted }
    }
}

/// The fingerprint of something that is not in a text, such as a file that cannot be read.
pub(super) fn of_path(rule: &str, path: &Path) -> String {
    hash(&format!("{}\n{rule}", plain(path)))
}

/// What a finding is, whatever its numbers. A slip of the pen has no number and often no size: the word that it is about
/// tells it from another.
fn finding(file: &Checked, finding: &Finding) -> String {
    let about: Vec<String> = finding.subject.words().map(|(kind, name)| format!("{kind}={name}")).collect();
    let is_slip = finding.size.is_none() && finding.needed.is_none();
    let word = if is_slip { finding.at.at.text(&file.source.text) } else { "" };
    format!("{}\n{}\n{}\n{word}", finding.rule, finding.size.as_deref().unwrap_or_default(), about.join("\n"))
}

fn number(line: &Line) -> String {
    format!("{}\n{}\n{}", super::entry::NUMBER_NOT_CHECKED, line.size.as_deref().unwrap_or_default(), line.number)
}

/// The path as it is whatever the system and however it was typed: `./a\b` and `a/b` are one.
fn plain(path: &Path) -> String {
    let path = path.to_string_lossy();
    let path = if cfg!(windows) { path.replace('\\', "/") } else { path.into_owned() };
    path.strip_prefix("./").unwrap_or(&path).to_string()
}

/// The first half of a SHA-256, which is more than enough to tell findings apart.
fn hash(what: &str) -> String {
    Sha256::digest(what.as_bytes()).iter().take(16).map(|byte| format!("{byte:02x}")).collect()
}
