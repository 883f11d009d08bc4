//! Checking one manuscript: read it, compute what it needs, run the rules, lay the acceptances over the findings, and
//! settle which corrections are offered and what follows from what.

use crate::caution::crib_quilts;
use crate::finding::{Finding, Level};
use crate::manuscript::{Manuscript, Mistake, ReadText, Source, arena_for};
use crate::requirement::Needs;
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;
use crate::run_rules::{add_texts, find, find_in};
use crate::text::{Load, beside};
use crate::trial::settle;

pub use crate::acceptance::AcceptedFinding;
pub use crate::run_rules::{Outcome, add_sign_off};
pub use crate::trial::Corrections;

/// Reads and checks a manuscript, and tries the corrections.
pub fn check(source: &Source, settings: &Settings) -> Outcome {
    check_with(source, settings, Corrections::Tried)
}

/// Reads and checks a manuscript, with the corrections or without them.
pub fn check_with(source: &Source, settings: &Settings, corrections: Corrections) -> Outcome {
    check_loading(source, settings, corrections, &beside(&source.path))
}

/// Checks a manuscript that was read, and whose needs were computed, with what gives its printed texts.
pub(crate) fn check_needs(
    source: &Source,
    read: &ReadText<'_>,
    needs: &Needs<'_>,
    settings: &Settings,
    corrections: Corrections,
    load: &Load<'_>,
) -> Outcome {
    let manuscript = &read.manuscript;
    let mut outcome = find(source, manuscript, needs, settings);
    settle(source, (read, needs), settings, corrections, &mut outcome.findings);
    if !manuscript.texts.is_empty() {
        add_texts(source, manuscript, needs, settings, load, &mut outcome);
    }
    outcome.cribs = crib_quilts(source, manuscript, settings);
    outcome
}

/// Reads and checks a manuscript as [`check`] does, with what gives the printed texts that it names.
pub fn check_with_texts(source: &Source, settings: &Settings, load: &Load<'_>) -> Outcome {
    check_loading(source, settings, Corrections::Tried, load)
}

/// The same with the corrections or without them.
pub(crate) fn check_loading(
    source: &Source,
    settings: &Settings,
    corrections: Corrections,
    load: &Load<'_>,
) -> Outcome {
    let arena = arena_for(&source.text);
    let mut read = ReadText::of(source, &arena);
    go_by_design(&mut read.manuscript, settings);
    check_needs(source, &read, &Needs::new(&read.manuscript, settings), settings, corrections, load)
}

/// The mistakes of a house-rules file as findings.
pub fn house_findings(source: &Source, mistakes: Vec<Mistake>, settings: &Settings) -> Vec<Finding> {
    let manuscript = Manuscript { mistakes, ..Manuscript::default() };
    find_in(source, &manuscript, settings).findings
}

/// How many findings of each level there are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Errors.
    pub errors: usize,
    /// Queries.
    pub queries: usize,
    /// Notes.
    pub notes: usize,
    /// Accepted findings, of any level.
    pub accepted: usize,
}

impl Tally {
    /// Counts an outcome, without what was found in printed texts.
    pub fn of(outcome: &Outcome) -> Tally {
        Tally::of_findings(&outcome.findings, outcome.accepted.len())
    }

    /// Counts an outcome with what was found in printed texts.
    pub fn with_texts(outcome: &Outcome) -> Tally {
        let mut tally = Tally::of(outcome);
        outcome.texts.iter().for_each(|text| tally.add(Tally::of_findings(&text.findings, text.accepted.len())));
        tally
    }

    fn of_findings(findings: &[Finding], accepted: usize) -> Tally {
        let count = |level| findings.iter().filter(|finding| finding.level == level).count();
        Tally { errors: count(Level::Error), queries: count(Level::Query), notes: count(Level::Note), accepted }
    }

    /// Adds another tally.
    pub fn add(&mut self, other: Tally) {
        self.errors += other.errors;
        self.queries += other.queries;
        self.notes += other.notes;
        self.accepted += other.accepted;
    }
}
