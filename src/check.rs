//! Checking one manuscript: read it, compute what it needs, run the rules, lay the acceptances over the findings, and
//! try the corrections.

use crate::acceptance::{Laid, lay};
use crate::finding::{Finding, Label, Level, Subject};
use crate::manuscript::{Manuscript, Mistake, Source, Span, read};
use crate::requirement::Needs;
use crate::rule_book::Settings;
use crate::rules::{Context, RULES, SIGN_OFF_RULES};
use crate::sign_off::SignOff;

pub use crate::acceptance::AcceptedFinding;

/// What was found in one file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// The findings, by place.
    pub findings: Vec<Finding>,
    /// The findings that the editor has accepted, by place.
    pub accepted: Vec<AcceptedFinding>,
}

/// The rule that looks at acceptances and so runs after all others.
const AFTER_ACCEPTING: &str = "accepted-unused";

/// Reads and checks a manuscript.
pub fn check(source: &Source, settings: &Settings) -> Outcome {
    let manuscript = read(source);
    check_needs(source, &manuscript, &Needs::new(&manuscript, settings), settings)
}

/// Checks a manuscript that was read, and whose needs were computed.
pub(crate) fn check_needs(source: &Source, manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Outcome {
    let mut outcome = find(source, manuscript, needs, settings);
    withhold_harmful(source, settings, &mut outcome);
    outcome
}

/// How many bytes are checked again, in all, to try corrections: a few hundred tries of an ordinary manuscript.
const MOST_BYTES_TRIED: usize = 1024 * 1024;

/// Takes back each correction that asked to be tried and would bring another finding.
fn withhold_harmful(source: &Source, settings: &Settings, outcome: &mut Outcome) {
    let before: Vec<Key> = outcome.findings.iter().map(key).collect();
    // A manuscript with hundreds of findings is not checked hundreds of times over.
    let mut tries = MOST_BYTES_TRIED / source.text.len().max(1);
    for finding in &mut outcome.findings {
        let Some(correction) = finding.correction.as_ref().filter(|correction| correction.if_harmless) else {
            continue;
        };
        if tries == 0 {
            finding.correction = None;
            continue;
        }
        tries -= 1;
        let text = Source::from_text(&source.path, correction.apply(&source.text));
        let after = find_in(&text, &read(&text), settings);
        // Two mistakes of one kind may be about the same: of those, one less is left.
        let mut left = before.clone();
        let gone = key(finding);
        left.remove(left.iter().position(|key| *key == gone).unwrap_or_default());
        let harmless = after.findings.iter().map(key).all(|found| {
            let known = left.iter().position(|key| *key == found);
            known.map(|index| left.swap_remove(index)).is_some()
        });
        if !harmless {
            finding.correction = None;
        }
    }
}

/// What tells a finding from another: its rule, its size and its subject.
type Key = (&'static str, Option<String>, Subject);

fn key(finding: &Finding) -> Key {
    (finding.rule, finding.size.clone(), finding.subject.clone())
}

/// What the rules find in a manuscript that was read; its corrections are not tried.
fn find_in(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Outcome {
    find(source, manuscript, &Needs::new(manuscript, settings), settings)
}

fn find(source: &Source, manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Outcome {
    let mut context = context(source, manuscript, needs, settings);
    let findings = run(&context, |rule| rule != AFTER_ACCEPTING);
    let Laid { mut findings, mut accepted, unused } = lay(source, manuscript, findings);
    context.unused_acceptances = &unused;
    findings.extend(run(&context, |rule| rule == AFTER_ACCEPTING));
    findings.sort_by_cached_key(order);
    accepted.sort_by_cached_key(|accepted| order(&accepted.finding));
    Outcome { findings, accepted }
}

/// What the rules may look at; nobody has asked for sign-offs yet.
fn context<'a>(
    source: &'a Source,
    manuscript: &'a Manuscript,
    needs: &'a Needs<'a>,
    settings: &'a Settings,
) -> Context<'a> {
    Context {
        source,
        manuscript,
        settings,
        binding: needs.binding.as_ref(),
        backing: needs.backing.as_ref(),
        batting: needs.batting.as_ref(),
        fabrics: &needs.fabrics,
        units: &needs.units,
        blocks: &needs.blocks,
        layouts: &needs.layouts,
        counts: &needs.counts,
        series: &needs.series,
        unused_acceptances: &[],
        sign_off: &SignOff::NotAsked,
    }
}

/// Adds what the sign-offs say to what was found in a manuscript. No acceptance silences it.
pub fn add_sign_off(source: &Source, settings: &Settings, sign_off: &SignOff, outcome: &mut Outcome) {
    if *sign_off == SignOff::NotAsked {
        return;
    }
    let nothing = Manuscript::default();
    let needs = Needs::new(&nothing, settings);
    let context = Context { sign_off, ..context(source, &nothing, &needs, settings) };
    outcome.findings.extend(run(&context, |rule| SIGN_OFF_RULES.contains(&rule)));
    outcome.findings.sort_by_cached_key(order);
}

/// The mistakes of a house-rules file as findings.
pub fn house_findings(source: &Source, mistakes: Vec<Mistake>, settings: &Settings) -> Vec<Finding> {
    let manuscript = Manuscript { mistakes, ..Manuscript::default() };
    find_in(source, &manuscript, settings).findings
}

fn run(context: &Context<'_>, wanted: impl Fn(&str) -> bool) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, rule) in RULES.iter().enumerate().filter(|(_, rule)| wanted(rule.name)) {
        let Some(level) = context.settings.level(index) else { continue };
        let first = findings.len();
        (rule.check)(context, &mut findings);
        for finding in &mut findings[first..] {
            finding.rule = rule.name;
            finding.level = finding.level.min(level);
            keep_inside(context.source, finding);
        }
    }
    findings
}

/// A finding in an empty file still has a place, and none points beyond the text or into the middle of a character.
fn keep_inside(source: &Source, finding: &mut Finding) {
    let text = &source.text;
    let clamp = |label: &mut Label| {
        let (mut start, mut end) = (label.at.start.min(text.len()), label.at.end.min(text.len()));
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        while !text.is_char_boundary(end) {
            end += 1;
        }
        label.at = Span::new(start, end);
    };
    clamp(&mut finding.at);
    finding.related.iter_mut().for_each(clamp);
}

/// By place, then as the rules are listed, then by size.
fn order(finding: &Finding) -> (Span, Option<usize>, Option<String>) {
    let rule = RULES.iter().position(|rule| rule.name == finding.rule);
    (finding.at.at, rule, finding.size.clone())
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
    /// Counts an outcome.
    pub fn of(outcome: &Outcome) -> Tally {
        let count = |level| outcome.findings.iter().filter(|finding| finding.level == level).count();
        Tally {
            errors: count(Level::Error),
            queries: count(Level::Query),
            notes: count(Level::Note),
            accepted: outcome.accepted.len(),
        }
    }

    /// Adds another tally.
    pub fn add(&mut self, other: Tally) {
        self.errors += other.errors;
        self.queries += other.queries;
        self.notes += other.notes;
        self.accepted += other.accepted;
    }
}
