//! The findings of a file in one row, accepted or not, and names for things that must not be confused.

use std::collections::BTreeMap;

use crate::finding::Finding;
use crate::run::Checked;

/// A finding, and the reason where it was accepted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Told<'f> {
    pub(super) finding: &'f Finding,
    pub(super) because: Option<&'f str>,
}

/// All findings of a file, by place.
pub(super) fn told(file: &Checked) -> Vec<Told<'_>> {
    let findings = file.outcome.findings.iter().map(|finding| Told { finding, because: None });
    let accepted = file.outcome.accepted.iter();
    let accepted = accepted.map(|found| Told { finding: &found.finding, because: Some(&found.because) });
    let mut told: Vec<Told<'_>> = findings.chain(accepted).collect();
    // Both are in order already, and stay so where the place is the same.
    told.sort_by_key(|told| told.finding.at.at);
    told
}

/// Counts how often each name has come.
#[derive(Debug, Default)]
pub(super) struct Names {
    seen: BTreeMap<String, usize>,
}

impl Names {
    /// How often the name has come, this time included.
    pub(super) fn count(&mut self, name: &str) -> usize {
        match self.seen.get_mut(name) {
            Some(seen) => {
                *seen += 1;
                *seen
            }
            None => {
                self.seen.insert(name.to_string(), 1);
                1
            }
        }
    }
}
