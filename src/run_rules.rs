//! Running the rules on a manuscript that was read, and laying the acceptances over what they find.

use crate::acceptance::{AcceptedFinding, Applied, apply};
use crate::caution::CribQuilts;
use crate::finding::{Finding, Label};
use crate::manuscript::{Manuscript, Source, Span};
use crate::requirement::Needs;
use crate::rule_book::Settings;
use crate::rules::{Context, RULES, SIGN_OFF_RULES};
use crate::sign_off::SignOff;

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

/// What the rules find in a manuscript that was read; its corrections are not tried.
pub(crate) fn find_in(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Outcome {
    find(source, manuscript, &Needs::new(manuscript, settings), settings)
}

/// What the rules find where the needs were computed.
pub(crate) fn find(source: &Source, manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Outcome {
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
