//! Corrections made in random faulty manuscripts: what is said to be fixed is, nothing else changes, and nothing is new.

use std::collections::BTreeMap;

use sparestrip::finding::Level;
use sparestrip::fix::Why;

use super::{LONG_RUN, generate, rng, whole};
use crate::independent::whole_quilt::Units;
use crate::support::fixed::holds;

/// How many manuscripts.
const FAULTY: u64 = if LONG_RUN { 5_000 } else { 500 };

/// The rules of which a number that is one step too low is always put right.
const ALWAYS: [&str; 3] = ["binding-short", "binding-fabric-short", "spare-strip"];

/// A manuscript with one number too low, with anything in it, or a whole one with one or two numbers lower.
fn faulty(index: u64) -> (String, Option<&'static str>) {
    match index % 5 {
        0 | 1 => {
            let (manuscript, rule, _) = generate::one_too_low(&mut rng(51, index));
            (manuscript.text().0, Some(rule))
        }
        2 | 3 => (generate::anything(&mut rng(52, index)).text().0, None),
        _ => {
            let numbers = whole::in_units(index, Units::Own, None).numbers.len();
            let lowered = usize::try_from(rng(53, index).below(i64::try_from(numbers).unwrap())).unwrap();
            (whole::in_units(index, Units::Own, Some(lowered)).text, None)
        }
    }
}

#[test]
fn of_random_faulty_manuscripts_what_is_said_to_be_fixed_is_and_nothing_else_changes() {
    let (mut changed, mut rules): (u64, BTreeMap<&str, u64>) = (0, BTreeMap::new());
    for index in 0..FAULTY {
        let (text, rule) = faulty(index);
        let fixed = holds(&text);
        changed += u64::from(!fixed.changes.is_empty());
        fixed.changes.iter().for_each(|change| *rules.entry(change.rule).or_default() += 1);
        if let Some(rule) = rule.filter(|rule| ALWAYS.contains(rule)) {
            let errors = fixed.outcome.findings.iter().filter(|finding| finding.level == Level::Error).count();
            let large = fixed.left.iter().filter(|left| left.why == Why::Large).count();
            assert_eq!(errors, large, "manuscript {index}, {rule}:\n{text}\n{}", fixed.source.text);
        }
    }
    assert!(changed > FAULTY / 3, "only {changed} were changed");
    assert!(rules.len() > 8, "{rules:?}");
}
