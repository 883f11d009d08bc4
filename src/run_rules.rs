//! Running the rules on a manuscript that was read, and laying the acceptances over what they find.

use std::cmp::Ordering;

use crate::acceptance::{AcceptedFinding, Applied, apply};
use crate::caution::CribQuilts;
use crate::finding::{Finding, Label};
use crate::manuscript::{Manuscript, Source, Span};
use crate::requirement::Needs;
use crate::rule_book::Settings;
use crate::rules::{Context, RULES, SIGN_OFF_RULES, TEXT_RULES};
use crate::sign_off::SignOff;
use crate::text::{Load, NamedText, TextOutcome, named_texts};

/// What was found in one file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// The findings, by place.
    pub findings: Vec<Finding>,
    /// The findings that the editor has accepted, by place.
    pub accepted: Vec<AcceptedFinding>,
    /// The sizes that are for a crib, of which a caution is told.
    pub cribs: Option<CribQuilts>,
    /// What was found in the printed texts that it names, in the order in which it names them.
    pub texts: Vec<TextOutcome>,
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
    let is_other = |rule: &str| !TEXT_RULES.contains(&rule) || manuscript.texts.is_empty();
    let text_of = |_: &Finding| source.text.as_str();
    let Applied { mut findings, mut accepted, unused } = apply(source, manuscript, findings, &text_of, &is_other);
    // Most manuscripts accept nothing, and then that rule has nothing to look at.
    if !unused.is_empty() {
        context.unused_acceptances = &unused;
        findings.extend(run(&context, |rule| rule == AFTER_ACCEPTING));
    }
    findings.sort_by(order);
    accepted.sort_by(|one, other| order(&one.finding, &other.finding));
    Outcome { findings, accepted, ..Outcome::default() }
}

/// Adds what the rules find in the printed texts that a manuscript names.
pub(crate) fn add_texts(
    source: &Source,
    manuscript: &Manuscript,
    needs: &Needs<'_>,
    settings: &Settings,
    load: &Load<'_>,
    outcome: &mut Outcome,
) {
    let texts = named_texts(manuscript, needs, settings, load);
    let mut context = Context { texts: &texts, ..context(source, manuscript, needs, settings) };
    let findings = run(&context, |rule| TEXT_RULES.contains(&rule));
    let own = |finding: &Finding| finding.text.and_then(|text| texts.get(text)?.read.as_ref().ok());
    let text_of = |finding: &Finding| own(finding).map_or(source.text.as_str(), |(file, _)| file.source.text.as_str());
    let is_text_rule = |rule: &str| TEXT_RULES.contains(&rule);
    let Applied { findings, accepted, unused } = apply(source, manuscript, findings, &text_of, &is_text_rule);
    context.unused_acceptances = &unused;
    outcome.findings.extend(run(&context, |rule| rule == AFTER_ACCEPTING));
    let of_manuscript = |finding: &Finding| finding.text.is_none();
    outcome.findings.extend(findings.iter().filter(|finding| of_manuscript(finding)).cloned());
    outcome.accepted.extend(accepted.iter().filter(|accepted| of_manuscript(&accepted.finding)).cloned());
    outcome.findings.sort_by(order);
    outcome.accepted.sort_by(|one, other| order(&one.finding, &other.finding));
    for (index, text) in texts.into_iter().enumerate() {
        let NamedText { named, read: Ok((file, reading)) } = text else { continue };
        // Of a file that could not be read, its name is found fault with, and nothing is counted.
        if file.printed.passages.is_empty() {
            continue;
        }
        let of_text = |finding: &Finding| finding.text == Some(index);
        let mut text = TextOutcome::new(&named.value, file, reading);
        text.findings.extend(findings.iter().filter(|finding| of_text(finding)).cloned());
        text.findings.sort_by(order);
        text.accepted.extend(accepted.iter().filter(|accepted| of_text(&accepted.finding)).cloned());
        text.accepted.sort_by(|one, other| order(&one.finding, &other.finding));
        outcome.texts.push(text);
    }
}

/// What the rules may look at; nobody has asked for sign-offs yet.
fn context<'a>(
    source: &'a Source,
    manuscript: &'a Manuscript,
    needs: &'a Needs<'a>,
    settings: &'a Settings,
) -> Context<'a> {
    Context { source, manuscript, settings, needs, unused_acceptances: &[], sign_off: &SignOff::NotAsked, texts: &[] }
}

/// Adds what the sign-offs say to what was found in a manuscript. No acceptance silences it.
pub fn add_sign_off(source: &Source, settings: &Settings, sign_off: &SignOff, outcome: &mut Outcome) {
    if *sign_off == SignOff::NotAsked {
        return;
    }
    let nothing = Manuscript::default();
    let needs = Needs::new(&nothing, settings);
    let context = Context { sign_off, ..context(source, &nothing, &needs, settings) };
    for finding in run(&context, |rule| SIGN_OFF_RULES.contains(&rule)) {
        let Some(text) = finding.text.and_then(|text| outcome.texts.get_mut(text)) else {
            outcome.findings.push(finding);
            continue;
        };
        text.findings.push(finding);
        text.findings.sort_by(order);
    }
    outcome.findings.sort_by(order);
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
            match finding.text.and_then(|text| context.texts.get(text)?.read.as_ref().ok()) {
                Some((file, _)) => keep_inside(&file.source, finding),
                None if finding.text.is_none() => keep_inside(context.source, finding),
                // The text is read no longer, and its numbers have their places from when it was.
                None => {}
            }
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

/// By place, then as the rules are listed, then by size. Few stand at one place, so the list is rarely looked through.
fn order(one: &Finding, other: &Finding) -> Ordering {
    let rule = |finding: &Finding| RULES.iter().position(|rule| rule.name == finding.rule);
    let by_rule = || rule(one).cmp(&rule(other));
    one.at.at.cmp(&other.at.at).then_with(by_rule).then_with(|| one.size.cmp(&other.size))
}
