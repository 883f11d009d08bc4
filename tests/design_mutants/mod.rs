//! Three examples, two of them in five sizes, are right, and each of their numbers, changed by one step that matters, is found out:
//! by a query or an error that points at the number, or at the number that it contradicts. What cannot be found out is
//! listed with the reason (`kinds.rs` and those beside it), so that every number of the examples is accounted for.
//!
//! The test finds the numbers in the text, and a number that no kind is listed for fails it, so that a new number must
//! be thought about. Four reasons excuse a change: nothing depends on it; it is assumed, and all else is still enough;
//! it is more than is needed, which is a note at most; it stays within the room that other numbers leave.

mod kinds;
mod kinds_of_rows;
mod kinds_on_point;
mod manuscript;
mod steps;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::path::Path;
use std::sync::OnceLock;

use crate::support::fixed::holds;
use rstest::rstest;
use sparestrip::check::check;
use sparestrip::finding::{Finding, Level};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

use kinds::{KINDS, Kind, MENDED, Outcome, Reason, is_of};
use kinds_of_rows::KINDS_OF_ROWS;
use kinds_on_point::KINDS_ON_POINT;
use manuscript::{Number, changed, numbers};

/// An example, with what is done to each of its numbers.
struct Example {
    file: &'static str,
    kinds: &'static [Kind],
    /// How many mutants matter, at least.
    least: usize,
    /// Its mutants, once they are checked.
    made: OnceLock<Vec<Mutant>>,
}

static GRID: Example =
    Example { file: "cormorant-stair.pattern.yaml", kinds: KINDS, least: 200, made: OnceLock::new() };
static ROWS: Example =
    Example { file: "plover-strand.pattern.yaml", kinds: KINDS_OF_ROWS, least: 650, made: OnceLock::new() };
static ON_POINT: Example =
    Example { file: "curlew-flat.pattern.yaml", kinds: KINDS_ON_POINT, least: 90, made: OnceLock::new() };

impl Example {
    #[allow(clippy::disallowed_methods)] // The project's own examples are small and are text.
    fn text(&self) -> String {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns");
        std::fs::read_to_string(folder.join(self.file)).expect("the example")
    }

    fn kind_of(&self, number: &Number) -> &'static Kind {
        let mut kinds = self.kinds.iter().filter(|kind| is_of(kind.path, &number.path));
        let kind = kinds.next().unwrap_or_else(|| panic!("{} is of no kind", number.path));
        assert!(kinds.next().is_none(), "{} is of two kinds", number.path);
        kind
    }

    /// Every mutant, which several tests look at and which are checked once.
    fn mutants(&self) -> &[Mutant] {
        self.made.get_or_init(|| self.make())
    }

    fn make(&self) -> Vec<Mutant> {
        let text = self.text();
        let mut made = Vec::new();
        for number in numbers(&text) {
            let (was, kind) = (&text[number.at.clone()], self.kind_of(&number));
            for step in kind.steps {
                let Some(is) = changed(was, step.by) else { continue };
                let mut mutant = text.clone();
                mutant.replace_range(number.at.clone(), &is);
                let at = number.at.start..number.at.start + is.len();
                let grave = |found: &Finding| found.level >= Level::Query;
                let findings = findings(&mutant).into_iter().filter(grave).collect();
                let (number, was, by, outcome) = (number.clone(), was.to_string(), step.by, step.outcome);
                made.push(Mutant { kind, text: mutant, number, is, was, at, by, outcome, findings });
            }
        }
        made
    }
}

fn findings(text: &str) -> Vec<Finding> {
    check(&Source::from_text("example.pattern.yaml", text), &Settings::default()).findings
}

/// The example with one number changed.
struct Mutant {
    kind: &'static Kind,
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

impl Mutant {
    /// Whether a finding, or a place that it shows beside, is the number that is meant.
    fn is_shown(&self) -> bool {
        self.is_shown_by(&self.findings)
    }

    fn is_shown_by(&self, findings: &[Finding]) -> bool {
        let touches = |start: usize, end: usize, at: &Range<usize>| start < at.end && at.start < end;
        match self.outcome {
            Outcome::CaughtAt(path) => {
                let mut meant = numbers(&self.text).into_iter().filter(|number| is_of(path, &number.path));
                let is_at = |found: &Finding, at: &Range<usize>| touches(found.at.at.start, found.at.at.end, at);
                meant.any(|number| findings.iter().any(|found| is_at(found, &number.at)))
            }
            _ => findings.iter().any(|found| {
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

#[rstest]
#[case::grid(&GRID)]
#[case::rows(&ROWS)]
#[case::on_point(&ON_POINT)]
fn the_example_is_right(#[case] example: &Example) {
    assert_eq!(findings(&example.text()), Vec::new());
}

#[rstest]
#[case::grid(&GRID)]
#[case::rows(&ROWS)]
#[case::on_point(&ON_POINT)]
fn every_mutant_that_matters_is_caught_and_shown(#[case] example: &Example) {
    let all = example.mutants();
    let meant: Vec<&Mutant> = all.iter().filter(|mutant| !matches!(mutant.outcome, Outcome::Undetectable(_))).collect();
    let missed: Vec<String> =
        meant.iter().filter(|mutant| mutant.findings.is_empty()).map(|mutant| mutant.told()).collect();
    let elsewhere: Vec<String> = meant
        .iter()
        .filter(|mutant| !mutant.findings.is_empty() && !mutant.is_shown())
        .map(|mutant| mutant.told())
        .collect();
    println!("{} mutants that matter, {} caught", meant.len(), meant.len() - missed.len());
    assert!(meant.len() >= example.least, "only {} mutants", meant.len());
    assert!(missed.is_empty(), "{} missed:\n{}", missed.len(), missed.join("\n"));
    assert!(elsewhere.is_empty(), "{} not pointed at:\n{}", elsewhere.len(), elsewhere.join("\n"));
}

/// What is said first, of what has no cause among the rest, stands at the number that was changed, or shows it beside a
/// number that it contradicts.
#[rstest]
#[case::grid(&GRID)]
#[case::rows(&ROWS)]
#[case::on_point(&ON_POINT)]
fn the_first_finding_is_about_the_number_that_was_changed(#[case] example: &Example) {
    let mut elsewhere = Vec::new();
    let mut all = 0;
    for mutant in example.mutants() {
        let first = mutant.findings.iter().find(|found| found.cause.is_none());
        // What is more than is needed is found, if at all, where it takes more of something else; and what is assumed is
        // contradicted by every number that goes by it.
        let is_meant =
            !matches!(mutant.outcome, Outcome::Undetectable(_)) && !mutant.number.path.starts_with("assumes");
        let Some(first) = first.filter(|_| is_meant) else { continue };
        all += 1;
        if !mutant.is_shown_by(std::slice::from_ref(first)) {
            elsewhere.push(format!("{} first: {} {:?} {}", mutant.told(), first.rule, first.size, first.message));
        }
    }
    println!("{} of {all} mutants are shown by what is said first", all - elsewhere.len());
    assert!(elsewhere.is_empty(), "{} of {all}:\n{}", elsewhere.len(), elsewhere.join("\n"));
}

/// Of one wrong number there is one cause: every error beside it that does not show it says from what it follows.
#[rstest]
#[case::grid(&GRID)]
#[case::rows(&ROWS)]
#[case::on_point(&ON_POINT)]
fn what_is_told_without_a_cause_shows_the_number_that_was_changed(#[case] example: &Example) {
    let (mut following, mut others) = (0, Vec::new());
    // What is assumed is contradicted by every number that goes by it.
    let is_meant =
        |mutant: &&Mutant| matches!(mutant.outcome, Outcome::Caught) && !mutant.number.path.starts_with("assumes");
    let meant = example.mutants().iter().filter(is_meant);
    for mutant in meant {
        following += mutant.findings.iter().filter(|found| found.cause.is_some()).count();
        let free = mutant.findings.iter().filter(|found| found.cause.is_none() && found.level == Level::Error);
        let elsewhere: Vec<String> = free
            .filter(|found| !mutant.is_shown_by(std::slice::from_ref(found)))
            .map(|found| format!("{} {:?}", found.rule, found.size))
            .collect();
        if !elsewhere.is_empty() {
            others.push(format!("{} also without a cause: {}", mutant.told(), elsewhere.join(", ")));
        }
    }
    println!("{following} findings say from what they follow");
    assert!(others.is_empty(), "{}:\n{}", others.len(), others.join("\n"));
    assert!(following > 20, "{following}");
}

/// A correction that is offered puts back what the example states, to the character.
#[test]
fn what_follows_from_other_numbers_is_mended() {
    let text = GRID.text();
    let mut mended = 0;
    for mutant in GRID.mutants() {
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
#[rstest]
#[case::grid(&GRID)]
#[case::rows(&ROWS)]
#[case::on_point(&ON_POINT)]
fn what_is_called_undetectable_is_so(#[case] example: &Example) {
    let mut counts: BTreeMap<(&str, i64, Reason), (usize, usize)> = BTreeMap::new();
    for mutant in example.mutants() {
        let Outcome::Undetectable(reason) = mutant.outcome else { continue };
        let count = counts.entry((mutant.kind.path, mutant.by, reason)).or_default();
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
    let changed = GRID.mutants().iter().step_by(step).filter(|mutant| !holds(&mutant.text).changes.is_empty()).count();
    assert!(changed > 5, "only {changed}");
}
