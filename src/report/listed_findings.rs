//! The findings of a file in one row, accepted or not, and names for things that must not be confused.

use std::collections::BTreeMap;

use crate::finding::Finding;
use crate::run::Checked;

/// A finding, and the reason where it was accepted.
#[derive(Clone, Copy, Debug)]
pub(super) struct ListedFinding<'f> {
    pub(super) finding: &'f Finding,
    pub(super) because: Option<&'f str>,
}

/// All findings of a file, by place.
pub(super) fn listed_findings(file: &Checked) -> Vec<ListedFinding<'_>> {
    let findings = file.outcome.findings.iter().map(|finding| ListedFinding { finding, because: None });
    let accepted = file.outcome.accepted.iter();
    let accepted = accepted.map(|found| ListedFinding { finding: &found.finding, because: Some(&found.because) });
    let mut told: Vec<ListedFinding<'_>> = findings.chain(accepted).collect();
    // Both are in order already, and stay so where the place is the same.
    told.sort_by_key(|told| told.finding.at.at);
    told
}

/// The names that were given in a file, each with how often it was asked for.
#[derive(Debug, Default)]
pub(super) struct Names {
    given: BTreeMap<String, usize>,
}

impl Names {
    /// How often the name was asked for, this time included.
    pub(super) fn count(&mut self, name: &str) -> usize {
        let count = self.given.get(name).map_or(1, |count| count + 1);
        self.given.insert(name.to_string(), count);
        count
    }

    /// The name, with a number behind it where it was given before.
    pub(super) fn unique(&mut self, name: &str) -> String {
        let mut count = self.count(name);
        if count == 1 {
            return name.to_string();
        }
        // A piece may itself be named as another is with its number.
        while self.given.contains_key(&format!("{name} ({count})")) {
            count = self.count(name);
        }
        let unique = format!("{name} ({count})");
        self.given.insert(unique.clone(), 1);
        unique
    }
}
