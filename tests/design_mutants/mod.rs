//! The example pattern in five sizes is right, and each of its numbers, changed by one step that matters, is found out:
//! by a query or an error that points at the number, or at the number that it contradicts. What cannot be found out is
//! listed with the reason (`kinds.rs`), so that every number of the example is accounted for.
//!
//! The test finds the numbers in the text, and a number that no kind is listed for fails it, so that a new number must
//! be thought about. Four reasons excuse a change: nothing depends on it; it is assumed, and all else is still enough;
//! it is more than is needed, which is a note at most; it stays within the room that other numbers leave.

mod kinds;
mod manuscript;
mod steps;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::path::Path;

use crate::support::fixed::holds;
use sparestrip::check::check;
use sparestrip::finding::{Finding, Level};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

use kinds::{KINDS, Kind, MENDED, Outcome, Reason, is_of};
use manuscript::{Number, changed, numbers};

#[allow(clippy::disallowed_methods)] // The project's own example is small and is text.
fn example() -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns/cormorant-stair.pattern.yaml");
    std::fs::read_to_string(file).expect("the example")
}

fn findings(text: &str) -> Vec<Finding> {
    check(&Source::from_text("cormorant-stair.pattern.yaml", text), &Settings::default()).findings
}

/// The example with one number changed.
struct Mutant {
    text: String,
    number: Number,
    /// What is stated now, and where it stands.
    is: String,
    was: String,
    at: Range<usize>,
    by: i64,
    outcome: Outcome,
    findings: Vec<Finding>,
}

fn kind_of(number: &Number) -> &'static Kind {
    let mut kinds = KINDS.iter().filter(|kind| is_of(kind.path, &number.path));
    let kind = kinds.next().unwrap_or_else(|| panic!("{} is of no kind", number.path));
    assert!(kinds.next().is_none(), "{} is of two kinds", number.path);
    kind
}

fn mutants(text: &str) -> Vec<Mutant> {
    let mut made = Vec::new();
    for number in numbers(text) {
        let was = &text[number.at.clone()];
        for step in kind_of(&number).steps {
            let Some(is) = changed(was, step.by) else { continue };
            let mut mutant = text.to_string();
            mutant.replace_range(number.at.clone(), &is);
            let at = number.at.start..number.at.start + is.len();
            let grave = |found: &Finding| found.level >= Level::Query;
            let findings = findings(&mutant).into_iter().filter(grave).collect();
            let (number, was, by, outcome) = (number.clone(), was.to_string(), step.by, step.outcome);
            made.push(Mutant { text: mutant, number, is, was, at, by, outcome, findings });
        }
    }
    made
}

impl Mutant {
    /// Whether a finding, or a place that it shows beside, is the number that is meant.
    fn is_shown(&self) -> bool {
        let touches = |start: usize, end: usize, at: &Range<usize>| start < at.end && at.start < end;
        match self.outcome {
            Outcome::CaughtAt(path) => {
                let mut meant = numbers(&self.text).into_iter().filter(|number| is_of(path, &number.path));
                let is_at = |found: &Finding, at: &Range<usize>| touches(found.at.at.start, found.at.at.end, at);
                meant.any(|number| self.findings.iter().any(|found| is_at(found, &number.at)))
            }
            _ => self.findings.iter().any(|found| {
                touches(found.at.at.start, found.at.at.end, &self.at)
                    || found.related.iter().any(|label| touches(label.at.start, label.at.end, &self.at))
            }),
        }
    }

    fn told(&self) -> String {
        let rules: BTreeSet<&str> = self.findings.iter().map(|found| found.rule).collect();
        format!("{}: {} in place of {}: {rules:?}", self.number.path, self.is, self.was)
    }
}

#[test]
fn the_example_is_right() {
    assert_eq!(findings(&example()), Vec::new());
}

#[test]
fn every_mutant_that_matters_is_caught_and_shown() {
    let all = mutants(&example());
    let meant: Vec<&Mutant> = all.iter().filter(|mutant| !matches!(mutant.outcome, Outcome::Undetectable(_))).collect();
    let missed: Vec<String> =
        meant.iter().filter(|mutant| mutant.findings.is_empty()).map(|mutant| mutant.told()).collect();
    let elsewhere: Vec<String> = meant
        .iter()
        .filter(|mutant| !mutant.findings.is_empty() && !mutant.is_shown())
        .map(|mutant| mutant.told())
        .collect();
    println!("{} mutants that matter, {} caught", meant.len(), meant.len() - missed.len());
    assert!(meant.len() >= 200, "only {} mutants", meant.len());
    assert!(missed.is_empty(), "{} missed:\n{}", missed.len(), missed.join("\n"));
    assert!(elsewhere.is_empty(), "{} not pointed at:\n{}", elsewhere.len(), elsewhere.join("\n"));
}

/// A correction that is offered puts back what the example states, to the character.
#[test]
fn what_follows_from_other_numbers_is_mended() {
    let text = example();
    let mut mended = 0;
    for mutant in mutants(&text) {
        let follows = MENDED.iter().any(|path| is_of(path, &mutant.number.path));
        if !follows || mutant.by > 0 || !matches!(mutant.outcome, Outcome::Caught) {
            continue;
        }
        let corrections = mutant.findings.iter().filter_map(|found| found.correction.as_ref());
        let restored = corrections.map(|correction| correction.apply(&mutant.text)).any(|mended| mended == text);
        assert!(restored, "{}", mutant.told());
        mended += 1;
    }
    println!("{mended} mutants are mended by a correction");
    assert!(mended >= 200, "only {mended}");
}

/// What is called undetectable is so for at least one number of its kind, or the list would excuse too much.
#[test]
fn what_is_called_undetectable_is_so() {
    let mut counts: BTreeMap<(&str, i64, Reason), (usize, usize)> = BTreeMap::new();
    for mutant in mutants(&example()) {
        let Outcome::Undetectable(reason) = mutant.outcome else { continue };
        let count = counts.entry((kind_of(&mutant.number).path, mutant.by, reason)).or_default();
        count.0 += 1;
        count.1 += usize::from(mutant.findings.is_empty());
    }
    for ((path, by, reason), (all, silent)) in &counts {
        println!("{path} by {by}: {silent} of {all} pass, for {reason:?}");
    }
    let caught: Vec<_> = counts.iter().filter(|(_, (_, silent))| *silent == 0).collect();
    assert!(caught.is_empty(), "called undetectable, and caught each time: {caught:?}");
}

/// Making the corrections of a mutant changes what is said, and nothing else. Each is a dozen checks: some of them.
#[test]
fn the_corrections_of_a_mutant_fix_what_they_say() {
    let step = if cfg!(feature = "long_tests") { 1 } else { 15 };
    let changed =
        mutants(&example()).iter().step_by(step).filter(|mutant| !holds(&mutant.text).changes.is_empty()).count();
    assert!(changed > 5, "only {changed}");
}
