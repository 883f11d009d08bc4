//! Running the rules on a manuscript that was read, and laying the acceptances over what they find.

use std::cmp::Ordering;

use crate::acceptance::{AcceptedFinding, Applied, apply};
use crate::caution::CribQuilts;
use crate::finding::{Finding, Label};
use crate::manuscript::{Manuscript, Source, Span};
use crate::requirement::Needs;
use crate::rule_book::Settings;
use crate::rules::{Context, RULES, SIGN_OFF_RULES, TEXT_RULES, Wording};
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

/// For how many findings of each size there is room once there is one.
const FINDINGS_PER_SIZE: usize = 4;

/// Up to how many sizes.
const MANY_SIZES: usize = 256;

/// The rule that looks at acceptances and so runs after all others.
const AFTER_ACCEPTING: &str = "accepted-unused";

/// What the rules find in a manuscript that was read; its corrections are not tried.
pub(crate) fn find_in(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Outcome {
    find(source, manuscript, &Needs::new(manuscript, settings), settings)
}

/// The same, with only what tells the findings from each other. An acceptance is for the numbers that a finding names,
/// so where anything is accepted they are worded.
pub(crate) fn find_unworded(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Outcome {
    let needs = Needs::new(manuscript, settings);
    let wording = if manuscript.accepted.is_empty() { Wording::LeftOut } else { Wording::Whole };
    find_with(&Context { wording, ..context(source, manuscript, &needs, settings) })
}

/// What the rules find where the needs were computed.
pub(crate) fn find(source: &Source, manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Outcome {
    find_with(&context(source, manuscript, needs, settings))
}

fn find_with(context: &Context<'_>) -> Outcome {
    let Context { source, manuscript, .. } = *context;
    let findings = run(context, |rule| rule != AFTER_ACCEPTING);
    let is_other = |rule: &str| !TEXT_RULES.contains(&rule) || manuscript.texts.is_empty();
    let text_of = |_: &Finding| source.text.as_str();
    let Applied { mut findings, mut accepted, unused } = apply(source, manuscript, findings, &text_of, &is_other);
    // Most manuscripts accept nothing, and then that rule has nothing to look at.
    if !unused.is_empty() {
        let context = Context { unused_acceptances: &unused, ..*context };
        findings.extend(run(&context, |rule| rule == AFTER_ACCEPTING));
    }
    sort(&mut findings);
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
    sort(&mut outcome.findings);
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
        sort(&mut text.findings);
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
    Context {
        source,
        manuscript,
        settings,
        needs,
        unused_acceptances: &[],
        sign_off: &SignOff::NotAsked,
        texts: &[],
        wording: Wording::Whole,
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
    for finding in run(&context, |rule| SIGN_OFF_RULES.contains(&rule)) {
        let Some(text) = finding.text.and_then(|text| outcome.texts.get_mut(text)) else {
            outcome.findings.push(finding);
            continue;
        };
        text.findings.push(finding);
        sort(&mut text.findings);
    }
    sort(&mut outcome.findings);
}

fn run(context: &Context<'_>, wanted: impl Fn(&str) -> bool) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, rule) in RULES.iter().enumerate().filter(|(_, rule)| wanted(rule.name)) {
        let Some(level) = context.settings.level(index) else { continue };
        let first = findings.len();
        (rule.check)(context, &mut findings);
        if first == 0 && !findings.is_empty() {
            // Where one is found, more are: a list that grows is copied again and again.
            findings.reserve(context.manuscript.sizes.len().min(MANY_SIZES) * FINDINGS_PER_SIZE);
        }
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

/// Sorts findings where they stand: they are large, and a sort that moves them by way of a second list copies them twice.
fn sort(findings: &mut [Finding]) {
    if findings.is_sorted_by(|one, other| order(one, other).is_le()) {
        return;
    }
    let mut from: Vec<usize> = (0..findings.len()).collect();
    from.sort_by(|one, other| order(&findings[*one], &findings[*other]));
    for at in 0..findings.len() {
        // What stood there may have been swapped away, to where the finding of an earlier place was.
        let mut own = from[at];
        while own < at {
            own = from[own];
        }
        findings.swap(at, own);
    }
}

/// By place, then as the rules are listed, then by size. Few stand at one place, so the list is rarely looked through.
fn order(one: &Finding, other: &Finding) -> Ordering {
    let rule = |finding: &Finding| RULES.iter().position(|rule| rule.name == finding.rule);
    let by_rule = || rule(one).cmp(&rule(other));
    one.at.at.cmp(&other.at.at).then_with(by_rule).then_with(|| one.size.cmp(&other.size))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{find_in, find_unworded};
    use crate::finding::Finding;
    use crate::manuscript::{Source, read};
    use crate::rule_book::Settings;

    /// Everything of it is short, and a join lands at a corner.
    const SHORT: &str = "\
pattern: Short
measure: inch
sizes:
  wall: { finished: 40 x 50 }
binding:
  strip_width: 2 1/2
  flange: 1
  requires:
    wall: { strips: 1, fabric: 1/8 yd, flange: 1 in }
batting:
  requires:
    wall: 20 x 20
backing:
  requires:
    wall: { fabric: 1/2 yd, panels: 1, size: 30 x 30 }
";

    #[test]
    fn what_is_found_without_words_is_what_is_found_with_them() {
        let (source, settings) = (Source::from_text("short.pattern.yaml", SHORT), Settings::default());
        let manuscript = read(&source);
        let worded = find_in(&source, &manuscript, &settings).findings;
        let unworded = find_unworded(&source, &manuscript, &settings).findings;
        let key = |finding: &Finding| {
            (finding.rule, finding.level, finding.size.clone(), finding.subject.clone(), finding.at.at)
        };
        assert_eq!(worded.iter().map(key).collect::<Vec<_>>(), unworded.iter().map(key).collect::<Vec<_>>());
        let without: BTreeSet<&str> =
            unworded.iter().filter(|finding| finding.message.is_empty()).map(|finding| finding.rule).collect();
        let expected = [
            "backing-panels",
            "backing-short",
            "batting-short",
            "binding-fabric-short",
            "binding-short",
            "join-near-corner",
        ];
        assert_eq!(without, BTreeSet::from(expected), "those rules that can leave words out, and no others");
        assert_eq!(without.len(), 6);
        assert!(worded.iter().all(|finding| !finding.message.is_empty()));
    }
}
