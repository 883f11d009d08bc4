//! The program against a second computation that shares nothing with it but the text of the manuscripts: random
//! manuscripts that are exactly right, some with one number too low, and some with anything in them.
//! `SPARESTRIP_TEST_SEED` runs them with another seed, and the feature `long_tests` runs many more.

mod amounts;
mod backing;
mod backing_generate;
mod backing_manuscript;
mod backing_verdict;
mod begun;
mod bench_of_strips;
mod bias;
mod buying;
mod design;
mod fabrics;
mod fixed;
mod generate;
mod joined;
mod manuscript;
mod plans;
mod printed;
use crate::support::rng;
mod schema;
mod shown;
mod sums;
mod verdict;
mod whole;
mod whole_quilt;
mod whole_text;

use std::collections::BTreeSet;

use amounts::{Round, rounded};
use manuscript::Manuscript;
use rng::Rng;
use sparestrip::check::{Outcome, check};
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use verdict::{Expected, verdict};

/// A run of several minutes, before a release or after a change of what is computed.
const LONG_RUN: bool = cfg!(feature = "long_tests");

/// How many manuscripts of each kind.
const MANUSCRIPTS: u64 = if LONG_RUN { 10_000 } else { 500 };

/// A random number generator for one manuscript, so that a failing one can be made again alone.
fn rng(kind: u64, index: u64) -> Rng {
    let seed = std::env::var("SPARESTRIP_TEST_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(1959_u64);
    Rng::new(seed.wrapping_mul(1_000_003).wrapping_add(kind << 40).wrapping_add(index))
}

fn checked(text: &str) -> Outcome {
    // Of some manuscripts of every kind all sums that are shown are computed.
    if text.len().is_multiple_of(20) {
        sums::hold(text);
    }
    check(&Source::from_text("lighthouse-row.pattern.yaml", text), &Settings::default())
}

/// The program's findings in the form of the expected ones. Numbers that are not looked at are left out.
fn found(outcome: &Outcome, expected: &[Expected]) -> Vec<Expected> {
    let mut found: Vec<Expected> = outcome.findings.iter().map(|finding| as_expected(finding, expected)).collect();
    found.sort();
    found
}

fn as_expected(finding: &Finding, expected: &[Expected]) -> Expected {
    let twin = expected.iter().find(|twin| twin.rule == finding.rule && twin.size == finding.size.as_deref());
    let looked_at = twin.is_none_or(|twin| twin.stated.is_some());
    let name = finding.size.as_ref().map(|size| &*Box::leak(size.clone().into_boxed_str()));
    Expected {
        rule: finding.rule,
        size: name,
        level: finding.level.word(),
        at: (finding.at.at.start, finding.at.at.end),
        stated: finding.stated.clone().filter(|_| looked_at),
        needed: finding.needed.clone().filter(|_| looked_at),
    }
}

/// Checks one manuscript both ways and asks for the same findings.
fn agree(manuscript: &Manuscript, index: u64) -> (String, Outcome, Vec<Expected>) {
    let (text, places) = manuscript.text();
    let outcome = checked(&text);
    let expected = verdict(manuscript, &places);
    assert_eq!(found(&outcome, &expected), expected, "manuscript {index} (found, then expected):\n{text}");
    (text, outcome, expected)
}

type Subject = (&'static str, Option<String>);

fn subjects(outcome: &Outcome) -> BTreeSet<Subject> {
    outcome.findings.iter().map(|finding| (finding.rule, finding.size.clone())).collect()
}

/// Makes each offered correction and checks again: the finding is gone, and nothing new is found.
fn corrections_mend(text: &str, outcome: &Outcome, index: u64) -> usize {
    let before = subjects(outcome);
    let mut made = 0;
    for finding in &outcome.findings {
        let Some(correction) = &finding.correction else { continue };
        let mended = correction.apply(text);
        let after = subjects(&checked(&mended));
        let gone: Subject = (finding.rule, finding.size.clone());
        assert!(!after.contains(&gone), "manuscript {index}: {gone:?} is still there after\n{mended}\nbefore:\n{text}");
        // A number that was wrong was not compared across the sizes: once mended, it may be asked about.
        let new: Vec<&Subject> = after.difference(&before).filter(|new| new.0 != "sizes-out-of-order").collect();
        assert!(new.is_empty(), "manuscript {index}: mending {gone:?} brings {new:?} in\n{mended}\nbefore:\n{text}");
        made += 1;
    }
    made
}

#[test]
fn a_manuscript_that_is_exactly_right_is_never_blamed() {
    let mut notes = BTreeSet::new();
    for index in 0..MANUSCRIPTS {
        let manuscript = generate::exact(&mut rng(1, index));
        let (text, outcome, _) = agree(&manuscript, index);
        for finding in &outcome.findings {
            assert_eq!(finding.level.word(), "note", "manuscript {index}: {}\n{text}", finding.message);
            notes.insert(finding.rule);
        }
    }
    // The notes that are no blame all came up, so the comparison above was about something.
    assert_eq!(notes, BTreeSet::from(["hollow-edge", "join-near-corner", "not-on-ruler"]));
}

#[test]
fn one_number_too_low_is_caught_by_its_rule_at_its_place() {
    let mut rules = BTreeSet::new();
    for index in 0..MANUSCRIPTS {
        let (manuscript, rule, size) = generate::one_too_low(&mut rng(2, index));
        let (text, outcome, _) = agree(&manuscript, index);
        let blamed: Vec<(&str, Option<&str>)> = outcome
            .findings
            .iter()
            .filter(|finding| finding.level.word() != "note")
            // Halves that shops sell in unlike steps are asked about as well, as the second computation says.
            .filter(|finding| finding.rule == rule || finding.rule != "pair-disagrees")
            .map(|finding| (finding.rule, finding.size.as_deref()))
            .collect();
        assert_eq!(blamed, [(rule, size)], "manuscript {index}:\n{text}");
        corrections_mend(&text, &outcome, index);
        rules.insert(rule);
    }
    assert_eq!(rules.len(), 9, "every rule about a low number came up: {rules:?}");
}

#[test]
fn on_any_numbers_both_computations_say_the_same() {
    let mut made = 0;
    for index in 0..MANUSCRIPTS {
        let manuscript = generate::anything(&mut rng(3, index));
        let (text, outcome, _) = agree(&manuscript, index);
        // Each correction is a check of its own, so only some manuscripts are mended.
        if index % 5 == 0 {
            made += corrections_mend(&text, &outcome, index);
        }
    }
    assert!(made > usize::try_from(MANUSCRIPTS / 10).unwrap(), "only {made} corrections were offered");
}

#[test]
fn a_short_binding_is_told_by_how_much_and_whether_it_goes_round_at_all() {
    let (mut round, mut not_round) = (0_u64, 0_u64);
    for index in 0..MANUSCRIPTS {
        let manuscript = generate::anything(&mut rng(4, index));
        let (text, outcome, _) = agree(&manuscript, index);
        for finding in outcome.findings.iter().filter(|finding| finding.rule == "binding-short") {
            let size = manuscript.sizes.iter().find(|size| Some(size.name) == finding.size.as_deref()).unwrap();
            let laid = manuscript.laid(size, size.strips.unwrap());
            let cannot = laid < manuscript.bare(size);
            let needed = if cannot { manuscript.bare(size) } else { manuscript.asked(size) };
            let told = |value, round| rounded(value, manuscript.metric, round);
            let short = told(needed, Round::Up) - told(laid, Round::Down);
            let by = format!(": {} short", manuscript.print(short, Round::Up));
            assert!(finding.message.contains(&by), "{by}: {}\n{text}", finding.message);
            assert_eq!(finding.message.contains("cannot go around the quilt at all"), cannot, "{text}");
            assert_eq!(finding.message.contains("can go around the quilt, but"), !cannot, "{text}");
            *(if cannot { &mut not_round } else { &mut round }) += 1;
        }
    }
    assert!(round > MANUSCRIPTS / 50 && not_round > MANUSCRIPTS / 50, "both wordings came up: {round} and {not_round}");
}
