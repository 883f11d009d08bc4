//! Checking one manuscript: read it, compute what it needs, run the rules, lay the acceptances over the findings, and
//! settle which corrections are offered and what follows from what.

use crate::acceptance::{Applied, apply};
use crate::caution::{CribQuilts, crib_quilts};
use crate::finding::{Finding, Label, Level};
use crate::manuscript::{Manuscript, Mistake, ReadText, Source, Span};
use crate::requirement::Needs;
use crate::rule_book::Settings;
use crate::rules::{Context, RULES, SIGN_OFF_RULES};
use crate::sign_off::SignOff;
use crate::trial::settle;

pub use crate::acceptance::AcceptedFinding;

/// What was found in one file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// The findings, by place.
    pub findings: Vec<Finding>,
    /// The findings that the editor has accepted, by place.
    pub accepted: Vec<AcceptedFinding>,
    /// The sizes that are for a crib, of which a caution is told.
    pub cribs: Option<CribQuilts>,
}

/// The rule that looks at acceptances and so runs after all others.
const AFTER_ACCEPTING: &str = "accepted-unused";

/// Whether the findings come with their corrections, each of which takes another check to try.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Corrections {
    /// Each is tried, and offered where it brings no other finding.
    Tried,
    /// None is offered: for reports that do not show them.
    #[default]
    LeftOut,
}

/// Reads and checks a manuscript, and tries the corrections.
pub fn check(source: &Source, settings: &Settings) -> Outcome {
    check_with(source, settings, Corrections::Tried)
}

/// Reads and checks a manuscript, with the corrections or without them.
pub fn check_with(source: &Source, settings: &Settings, corrections: Corrections) -> Outcome {
    let read = ReadText::of(source);
    check_needs(source, &read, &Needs::new(&read.manuscript, settings), settings, corrections)
}

/// Checks a manuscript that was read, and whose needs were computed.
pub(crate) fn check_needs(
    source: &Source,
    read: &ReadText<'_>,
    needs: &Needs<'_>,
    settings: &Settings,
    corrections: Corrections,
) -> Outcome {
    let manuscript = &read.manuscript;
    let mut outcome = find(source, manuscript, needs, settings);
    settle(source, read, settings, corrections, &mut outcome.findings);
    outcome.cribs = crib_quilts(source, manuscript, settings);
    outcome
}

/// What the rules find in a manuscript that was read; its corrections are not tried.
pub(crate) fn find_in(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Outcome {
    find(source, manuscript, &Needs::new(manuscript, settings), settings)
}

fn find(source: &Source, manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Outcome {
    let mut context = context(source, manuscript, needs, settings);
    let findings = run(&context, |rule| rule != AFTER_ACCEPTING);
    let Applied { mut findings, mut accepted, unused } = apply(source, manuscript, findings);
    context.unused_acceptances = &unused;
    findings.extend(run(&context, |rule| rule == AFTER_ACCEPTING));
    findings.sort_by_cached_key(order);
    accepted.sort_by_cached_key(|accepted| order(&accepted.finding));
    Outcome { findings, accepted, cribs: None }
}

/// What the rules may look at; nobody has asked for sign-offs yet.
fn context<'a>(
    source: &'a Source,
    manuscript: &'a Manuscript,
    needs: &'a Needs<'a>,
    settings: &'a Settings,
) -> Context<'a> {
    Context { source, manuscript, settings, needs, unused_acceptances: &[], sign_off: &SignOff::NotAsked }
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
