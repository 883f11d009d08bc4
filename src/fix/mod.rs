//! Making the corrections of a manuscript in its text: those that can only be meant one way, and nothing else of it.
//!
//! A correction was tried by itself (`trial`). Here several are made at once, and the text that comes of it is checked
//! like any other: every finding that was to go is gone, and none is new. Where that does not hold, fewer are made at a
//! time. A correction that needs others beside it is made with these, or not at all (`chain`). Then the text is looked at again, until nothing is left that may be made. What an editor must decide is left,
//! with the choices (`decide`).

mod chain;
mod decide;
mod doubts;
mod numbers;

use std::collections::{BTreeMap, BTreeSet};

use crate::check::{Corrections, Outcome, check_with};
use crate::finding::{Correction, Finding, Subject};
use crate::manuscript::{Source, Span, read};
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;
use crate::run_rules::find_in;
use chain::chain;
use decide::{Verdict, decide};

pub use decide::{Choice, Why};

/// How often a text is looked at again. A chain of corrections, each of which makes the next possible, is a few long.
pub const MOST_ROUNDS: usize = 100;

/// What came of making the corrections of a text.
#[derive(Debug)]
pub struct Fixed {
    /// The text with the corrections made.
    pub source: Source,
    /// What was changed, by place in that text.
    pub changes: Vec<Change>,
    /// What is left to an editor, by place.
    pub left: Vec<Left>,
    /// Everything that is still found in the text.
    pub outcome: Outcome,
    /// Whether more could be made: [`MOST_ROUNDS`] were over before.
    pub is_unfinished: bool,
}

/// A correction that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The rule whose finding is gone with it.
    pub rule: &'static str,
    /// What it was about: the size, the fabric and so on.
    pub about: Option<String>,
    /// What was found.
    pub message: String,
    /// Whether it was found only once another was corrected, which is made with it.
    pub beside: bool,
    /// Where the new text stands.
    pub at: Span,
    /// What stood there.
    pub old: String,
    /// What stands there now.
    pub new: String,
}

/// A finding that is left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// Its index among the findings that are still there.
    pub finding: usize,
    /// Why it is left.
    pub why: Why,
    /// What could be written, where the program knows.
    pub choices: Vec<Choice>,
}

/// What tells a finding from another: its rule, its size and its subject.
type Key = (&'static str, Option<String>, Subject);

fn key(finding: &Finding) -> Key {
    (finding.rule, finding.size.clone(), finding.subject.clone())
}

fn counted(findings: &[Finding]) -> BTreeMap<Key, usize> {
    let mut counted = BTreeMap::new();
    for finding in findings {
        *counted.entry(key(finding)).or_default() += 1;
    }
    counted
}

/// What the rules find in a text, without trying any correction.
fn found(source: &Source, settings: &Settings) -> Vec<Finding> {
    found_and_accepted(source, settings).findings
}

/// The same with what is accepted.
fn found_and_accepted(source: &Source, settings: &Settings) -> Outcome {
    let mut manuscript = read(source);
    go_by_design(&mut manuscript, settings);
    // What is only tried is no assumption of the manuscript.
    find_in(source, &manuscript, &settings.keeping_nothing())
}

/// Whether the same is accepted for the same reasons: which findings an acceptance silences is for an editor to say.
fn accept_the_same(one: &Outcome, other: &Outcome) -> bool {
    let accepted = |outcome: &Outcome| {
        let all = outcome.accepted.iter().map(|accepted| (key(&accepted.finding), accepted.because.clone()));
        all.collect::<BTreeSet<_>>()
    };
    accepted(one) == accepted(other)
}

/// Makes the corrections of a text, as often as there are some that may be made.
pub fn fix(source: &Source, settings: &Settings) -> Fixed {
    let mut source = source.clone();
    let mut changes: Vec<Change> = Vec::new();
    for round in 0.. {
        let outcome = check_with(&source, settings, Corrections::Tried);
        let verdicts = verdicts(&source, settings, &outcome);
        let wanted = apart(&outcome.findings, &verdicts);
        let chain = if wanted.is_empty() { chain(&source, settings, &outcome, &verdicts) } else { None };
        let is_unfinished = !wanted.is_empty() || chain.is_some();
        if !is_unfinished || round == MOST_ROUNDS {
            changes.sort_by_key(|change| change.at);
            return Fixed { source, changes, left: left(verdicts), outcome, is_unfinished };
        }
        if let Some(chain) = chain {
            for (step, (text, finding, correction)) in chain.steps.into_iter().enumerate() {
                note(&mut changes, &text.text, &[(&finding, correction)], step > 0);
            }
            source = chain.source;
            continue;
        }
        let (made, text) = make(&source, settings, &outcome, wanted);
        note(&mut changes, &source.text, &made, false);
        source = text;
    }
    unreachable!("the rounds are counted")
}

/// What is to become of each finding. A text with bytes in it that are no text is not touched.
fn verdicts(source: &Source, settings: &Settings, outcome: &Outcome) -> Vec<Verdict> {
    let mut verdicts = decide(source, settings, outcome);
    if source.flaw.is_some() {
        for verdict in verdicts.iter_mut().filter(|verdict| matches!(verdict, Verdict::Fix(_))) {
            *verdict = Verdict::Leave(Why::NoOneText, Vec::new());
        }
    }
    verdicts
}

fn left(verdicts: Vec<Verdict>) -> Vec<Left> {
    let left = verdicts.into_iter().enumerate().filter_map(|(finding, verdict)| match verdict {
        Verdict::Leave(why, choices) => Some(Left { finding, why, choices }),
        Verdict::Fix(_) | Verdict::Pass => None,
    });
    left.collect()
}

/// A finding with the correction that may be made.
type Wanted<'f> = (&'f Finding, Correction);

/// The findings whose corrections may be made, without those that touch the place of another: they are looked at again
/// when that one is made.
fn apart<'f>(findings: &'f [Finding], verdicts: &[Verdict]) -> Vec<Wanted<'f>> {
    let mut apart: Vec<Wanted<'f>> = Vec::new();
    for (finding, verdict) in findings.iter().zip(verdicts) {
        let Verdict::Fix(own) = verdict else { continue };
        if !apart.iter().any(|(_, other)| own.at.start <= other.at.end && other.at.start <= own.at.end) {
            apart.push((finding, own.clone()));
        }
    }
    apart
}

/// Makes as many of the corrections at once as bring no other finding: all, or half of them, and so on. One alone was
/// tried, so something is always made.
fn make<'f>(
    source: &Source,
    settings: &Settings,
    outcome: &Outcome,
    mut wanted: Vec<Wanted<'f>>,
) -> (Vec<Wanted<'f>>, Source) {
    let before = counted(&outcome.findings);
    loop {
        let text = Source::from_text(&source.path, with(&source.text, &wanted));
        if wanted.len() == 1 {
            return (wanted, text);
        }
        let after = found_and_accepted(&text, settings);
        if holds(&before, &wanted, &after.findings) && accept_the_same(outcome, &after) {
            return (wanted, text);
        }
        wanted.truncate(wanted.len() / 2);
    }
}

/// Whether every finding is gone that was to go, and none is new.
fn holds(before: &BTreeMap<Key, usize>, made: &[Wanted<'_>], after: &[Finding]) -> bool {
    let mut most = before.clone();
    for (finding, _) in made {
        if let Some(count) = most.get_mut(&key(finding)) {
            *count = count.saturating_sub(1);
        }
    }
    counted(after).iter().all(|(key, count)| most.get(key).is_some_and(|most| count <= most))
}

/// The text with the corrections made, the last first, so that places before it stay.
fn with(text: &str, wanted: &[Wanted<'_>]) -> String {
    let mut corrections: Vec<&Correction> = wanted.iter().map(|(_, correction)| correction).collect();
    corrections.sort_by_key(|correction| std::cmp::Reverse(correction.at));
    corrections.into_iter().fold(text.to_string(), |text, correction| correction.apply(&text))
}

/// Notes the corrections that were made in a text at once: the last first, as they are made.
fn note(changes: &mut Vec<Change>, text: &str, made: &[Wanted<'_>], beside: bool) {
    let mut made: Vec<&Wanted<'_>> = made.iter().collect();
    made.sort_by_key(|(_, correction)| std::cmp::Reverse(correction.at));
    for (finding, Correction { at, replacement }) in made {
        for change in changes.iter_mut() {
            change.at = change.at.after_replacing(*at, replacement.len());
        }
        changes.push(Change {
            rule: finding.rule,
            about: finding.about_words(),
            message: finding.message.clone(),
            at: Span::new(at.start, at.start + replacement.len()),
            beside,
            old: at.text(text).to_string(),
            new: replacement.clone(),
        });
    }
}
