//! Whole manuscripts by the second computation: fabrics, units, blocks, layout, binding, backing and batting together, in
//! one, two and five sizes. Each number is exactly what is needed, and then each in turn is one step lower.

use std::collections::{BTreeMap, BTreeSet};

use sparestrip::check::Outcome;
use sparestrip::finding::{Finding, Label, Level};

use super::{LONG_RUN, checked, rng};
use crate::independent::whole_quilt::{Quilt, Units};
use crate::independent::whole_text::{Caught, Manuscript, Number, Shown, write};

/// How many manuscripts.
const QUILTS: u64 = if LONG_RUN { 6_000 } else { 120 };

const SIZES: [usize; 3] = [1, 2, 5];

fn quilt(index: u64) -> Quilt {
    let sizes = SIZES[usize::try_from(index % 3).unwrap()];
    Quilt::random(&mut rng(41, index), sizes, Units::Own)
}

/// A manuscript in which lengths are written in units of the other measure.
pub(crate) fn in_units(index: u64, units: Units, lowered: Option<usize>) -> Manuscript {
    let sizes = SIZES[usize::try_from(index % 3).unwrap()];
    write(&Quilt::random(&mut rng(43, index), sizes, units), index, lowered)
}

/// What is found in a text above note.
pub(crate) fn blamed(text: &str) -> Vec<String> {
    above_note(&checked(text)).map(|finding| format!("{}: {}", finding.rule, finding.message)).collect()
}

fn above_note(outcome: &Outcome) -> impl Iterator<Item = &Finding> {
    outcome.findings.iter().filter(|finding| finding.level > Level::Note)
}

/// Fails with the first case of each kind of failure.
fn none_of(failures: &BTreeMap<String, (usize, String)>) {
    let told: Vec<String> =
        failures.iter().map(|(kind, (times, first))| format!("{times} times: {kind}\n{first}")).collect();
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn a_whole_manuscript_that_is_exactly_right_is_never_blamed_by_any_rule() {
    let (mut came_up, mut failures) = (BTreeSet::new(), BTreeMap::new());
    for index in 0..QUILTS {
        let quilt = quilt(index);
        let manuscript = write(&quilt, index, None);
        for finding in above_note(&checked(&manuscript.text)) {
            let first =
                || (0, format!("manuscript {index}: {}\n{}\n{}", finding.message, finding.help, manuscript.text));
            failures.entry(finding.rule.to_string()).or_insert_with(first).0 += 1;
        }
        came_up.extend(quilt.features());
    }
    none_of(&failures);
    assert_eq!(came_up.len(), 14, "every kind of manuscript came up: {came_up:?}");
}

fn is_caught(finding: &Finding, number: &Number) -> bool {
    let Caught { rules, size, subject, shown } = &number.caught;
    let named: BTreeMap<&str, &str> = finding.subject.words().collect();
    let holds = |label: &Label| label.at.start <= number.place.start && number.place.end <= label.at.end;
    let is_there = match shown {
        Shown::At => holds(&finding.at),
        Shown::Beside => holds(&finding.at) || finding.related.iter().any(holds),
    };
    rules.contains(&finding.rule)
        && is_there
        && size.is_none_or(|size| finding.size.as_deref() == Some(size))
        && subject.iter().all(|(kind, name)| named.get(kind) == Some(&name.as_str()))
}

#[test]
fn each_number_of_a_whole_manuscript_one_step_lower_is_caught_and_named() {
    let (mut kinds, mut rules, mut failures) = (BTreeMap::new(), BTreeSet::new(), BTreeMap::new());
    for index in 0..QUILTS / 2 {
        let quilt = quilt(index);
        let count = write(&quilt, index, None).numbers.len();
        // Each number is a check of its own: of each manuscript some, and all over the run.
        for lowered in (0..count).filter(|number| (u64::try_from(*number).unwrap() + index / 3).is_multiple_of(12)) {
            let manuscript = write(&quilt, index, Some(lowered));
            let number = &manuscript.numbers[lowered];
            let outcome = checked(&manuscript.text);
            *kinds.entry(number.kind).or_insert(0) += 1;
            if let Some(caught) = above_note(&outcome).find(|finding| is_caught(finding, number)) {
                rules.insert(caught.rule);
                continue;
            }
            let told: Vec<_> = above_note(&outcome)
                .map(|finding| (finding.rule, &finding.size, &finding.subject, &finding.message))
                .collect();
            let now = &manuscript.text[number.place.clone()];
            let first =
                || (0, format!("manuscript {index}: {number:?}, now {now}, gave {told:#?}\n{}", manuscript.text));
            failures.entry(number.kind.to_string()).or_insert_with(first).0 += 1;
        }
    }
    none_of(&failures);
    // With another seed one or two kinds may be among those that are not lowered.
    assert!(kinds.len() >= 20, "nearly every kind of number was lowered: {kinds:?}");
    assert!(rules.len() >= 15, "{rules:?}");
}

/// The text of a right manuscript with everything in it.
pub(crate) fn right_text(index: u64) -> String {
    write(&quilt(index), index, None).text
}
