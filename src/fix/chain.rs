//! Corrections that need another beside them: two pieces more may take another strip, and that more fabric.
//!
//! Each by itself brings a finding, so none is offered. Together they bring none, which is tried before any is made.

use std::collections::BTreeMap;

use super::decide::{Choice, Verdict, Why, may_be_raised};
use super::doubts::Doubts;
use super::{Key, counted, found, key};
use crate::check::Outcome;
use crate::finding::{Correction, Finding, Level};
use crate::manuscript::{Source, read};
use crate::rule_book::Settings;

/// How many corrections are made together at most.
const MOST_STEPS: usize = 8;

/// How many bytes are checked again, in all, to find corrections that go together.
const MOST_BYTES_TRIED: usize = 16 * 1024 * 1024;

/// Corrections that go together.
pub(super) struct Chain {
    /// Each with its finding and the text in which it is made; the first is the one that needs the others.
    pub(super) steps: Vec<(Source, Finding, Correction)>,
    /// The text with all of them made.
    pub(super) source: Source,
}

/// The first finding that a few corrections put right together, with these.
pub(super) fn chain(source: &Source, settings: &Settings, outcome: &Outcome, verdicts: &[Verdict]) -> Option<Chain> {
    let before = counted(&outcome.findings);
    let doubts = Doubts::new(outcome, &read(source), &source.text);
    let most_tried = MOST_BYTES_TRIED / source.text.len().max(1);
    let withheld = outcome.findings.iter().zip(verdicts).filter_map(|(finding, verdict)| match verdict {
        Verdict::Leave(Why::Brings(_), choices) if finding.level == Level::Error => match choices.first() {
            Some(Choice::Text(correction)) => Some((finding, correction)),
            _ => None,
        },
        _ => None,
    });
    let tried = withheld.take(most_tried / MOST_STEPS + 1);
    tried
        .filter(|_| source.flaw.is_none())
        .find_map(|(finding, first)| together(source, settings, (&before, &doubts), finding, first))
}

/// The correction of a finding, and those of what it brings, until nothing is brought.
fn together(
    source: &Source,
    settings: &Settings,
    (before, doubts): (&BTreeMap<Key, usize>, &Doubts),
    finding: &Finding,
    correction: &Correction,
) -> Option<Chain> {
    let mut text = source.clone();
    let mut next = (finding.clone(), may_be_raised(source, doubts, finding, correction)?);
    let mut steps = Vec::new();
    while steps.len() < MOST_STEPS {
        let (finding, correction) = next;
        let after = Source::from_text(&text.path, correction.apply(&text.text));
        steps.push((text, finding, correction));
        let findings = found(&after, settings);
        let now = counted(&findings);
        let own = key(&steps[0].1);
        if now.get(&own).copied().unwrap_or_default() >= before[&own] {
            return None;
        }
        let is_new = |finding: &&Finding| now[&key(finding)] > before.get(&key(finding)).copied().unwrap_or_default();
        let brought: Vec<&Finding> = findings.iter().filter(is_new).collect();
        if brought.is_empty() {
            // One alone, where the file was too long to try each.
            return Some(Chain { steps, source: after });
        }
        let raised = |finding: &&Finding| {
            let correction = finding.correction.as_ref().filter(|_| finding.other_corrections.is_empty())?;
            Some(((*finding).clone(), may_be_raised(&after, doubts, finding, correction)?))
        };
        next = brought.iter().find_map(raised)?;
        text = after;
    }
    None
}
