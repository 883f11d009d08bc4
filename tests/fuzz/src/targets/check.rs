//! A check: every place lies in the text, and each correction that is offered clears its finding and brings none.

use std::collections::BTreeMap;

use sparestrip::check::{Corrections, Outcome, check_with};
use sparestrip::finding::{Finding, Subject};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::rules::TEXT_RULES;

use super::{Fault, Kind, Target, hold, in_text, source};
use crate::pool::Seen;
use crate::rng::Rng;

pub(super) const TARGET: Target = Target {
    name: "check",
    about: "a manuscript is checked; places lie in it, and of some the corrections are made, each by itself",
    kind: Kind::Manuscript,
    share: 200,
    run,
};

/// How many corrections of one text are made: each takes another check.
const MAX_MADE: usize = 6;

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let source = source(input);
    let mut rng = Rng::of(input);
    let settings = Settings::default();
    if !rng.one_in(6) {
        let outcome = check_with(&source, &settings, Corrections::LeftOut);
        return placed(&source, &outcome, seen);
    }
    let outcome = check_with(&source, &settings, Corrections::Tried);
    placed(&source, &outcome, seen)?;
    let offered: Vec<&Finding> = outcome.findings.iter().filter(|finding| finding.correction.is_some()).collect();
    let first = rng.below(offered.len());
    for finding in offered.iter().cycle().skip(first).take(MAX_MADE.min(offered.len())) {
        made(&source, &settings, &outcome, finding)?;
    }
    Ok(())
}

/// Every place that an outcome names lies in the text.
pub(super) fn placed(source: &Source, outcome: &Outcome, seen: &mut Seen) -> Result<(), Fault> {
    let text = &source.text;
    let accepted = outcome.accepted.iter().map(|accepted| &accepted.finding);
    for finding in outcome.findings.iter().chain(accepted) {
        in_text(text, finding.at.at, finding.rule)?;
        finding.related.iter().try_for_each(|label| in_text(text, label.at, finding.rule))?;
        if let Some(correction) = &finding.correction {
            in_text(text, correction.at, finding.rule)?;
        }
        hold(!finding.message.is_empty(), "a finding without words", || format!("{finding:?}"))?;
        note(finding, seen);
    }
    Ok(())
}

fn note(finding: &Finding, seen: &mut Seen) {
    let mut words = vec![finding.rule];
    words.extend(finding.subject.words().map(|(word, _)| word));
    words.push(if finding.size.is_some() { "of a size" } else { "of all" });
    words.push(finding.level.word());
    seen.note(&words);
    let cause = finding.cause.as_ref().map_or("", |cause| cause.rule);
    let withheld = finding.withheld.as_deref().unwrap_or_default();
    let withheld = withheld.split(" (").next().unwrap_or_default();
    seen.note(&[finding.rule, cause, withheld, if finding.correction.is_some() { "corrected" } else { "" }]);
}

type Key = (&'static str, Option<String>, Subject);

fn key(finding: &Finding) -> Key {
    (finding.rule, finding.size.clone(), finding.subject.clone())
}

/// How often each thing is found. That a printed text is not there says nothing of a correction that names it.
pub(super) fn counted(outcome: &Outcome) -> BTreeMap<Key, usize> {
    let mut counted = BTreeMap::new();
    for finding in outcome.findings.iter().filter(|finding| !TEXT_RULES.contains(&finding.rule)) {
        *counted.entry(key(finding)).or_default() += 1;
    }
    counted
}

/// One correction, made by itself: its finding is gone, and none is there that was not.
fn made(source: &Source, settings: &Settings, before: &Outcome, finding: &Finding) -> Result<(), Fault> {
    let Some(correction) = &finding.correction else { return Ok(()) };
    let text = Source::from_text(&source.path, correction.apply(&source.text));
    let after = counted(&check_with(&text, settings, Corrections::LeftOut));
    let before = counted(before);
    let own = key(finding);
    let told = || {
        format!(
            "{} at {:?}: {:?} -> {:?}",
            finding.rule,
            correction.at,
            correction.at.text(&source.text),
            correction.replacement
        )
    };
    let stays = after.get(&own).copied().unwrap_or_default() >= before.get(&own).copied().unwrap_or_default();
    hold(!stays, "a correction that does not clear its finding", told)?;
    let brought = after.iter().find(|(key, count)| **count > before.get(key).copied().unwrap_or_default());
    hold(brought.is_none(), "a correction that brings a finding", || format!("{}\nbrings {brought:?}", told()))
}
