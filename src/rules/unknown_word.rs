//! A word that the format does not have.

use super::{Context, RULES, mistakes};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::mistake::AMONG_PIECES;
use crate::manuscript::model::{BattingSize, PerSize};
use crate::manuscript::{MistakeKind, Span, is_plain, nearest};
use crate::requirement::batting::package_words;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::UnknownWord { word, place, known, nearest } => {
            Some(finding(context, mistake.at, word, &format!("in {place}"), known, *nearest))
        }
        MistakeKind::UnknownFabric { name, fabrics, nearest } => {
            let correct = |nearest: &String| Correction::name(&context.source.text, mistake.at, nearest);
            let finding = unknown_fabric(mistake.at, name, fabrics, nearest.as_deref());
            Some(finding.corrected(nearest.as_ref().map(correct)))
        }
        MistakeKind::UnknownName { name, among, known, nearest, within } if *among != AMONG_PIECES => {
            let correct = |nearest: &String| named_within(context, mistake.at, nearest, *within);
            let finding = unknown_name(mistake.at, name, among, known, nearest.as_deref());
            Some(finding.corrected(nearest.as_ref().map(correct)))
        }
        _ => None,
    });
    findings.extend(unknown_packages(context));
    for rule in context.manuscript.accepted.iter().filter_map(|accepted| accepted.rule.stated()) {
        if RULES.iter().all(|known| known.name != rule.value) {
            let names: Vec<&'static str> = RULES.iter().map(|rule| rule.name).collect();
            let nearest = nearest(&rule.value, names.iter().copied());
            findings.push(finding(context, rule.at, &rule.value, "as the name of a rule", &names, nearest));
        }
    }
}

/// Packaged battings that neither the rule book nor the house has.
fn unknown_packages(context: &Context<'_>) -> Vec<Finding> {
    let Some(needs) = context.needs.batting.as_ref() else { return Vec::new() };
    let stated = needs.stated.requires.iter().filter_map(PerSize::stated);
    let unknown = stated.filter_map(|stated| match &stated.value {
        BattingSize::OfHouse(name) => {
            let words = package_words(name);
            needs.package(&words).is_none().then_some((stated.at, words))
        }
        BattingSize::Measured(..) | BattingSize::Packaged(_) => None,
    });
    let known: Vec<&str> = needs.packages.iter().map(|(name, _)| name.as_str()).collect();
    let finding = |(at, words): (Span, String)| {
        let nearest = nearest(&words, known.iter().copied());
        let label = nearest.map_or("not known".to_string(), |nearest| format!("did you mean {nearest}?"));
        let message = format!("\"{words}\" is no packaged batting that is known.");
        let help = format!("Known: {}. House rules add others, such as packaged_throw: 60 x 60.", known.join(", "));
        let correct = |nearest: &str| Correction::name(&context.source.text, at, nearest);
        Finding::new(Label::new(at, label), message).help(help).corrected(nearest.map(correct))
    };
    unknown.map(finding).collect()
}

fn unknown_fabric(at: Span, name: &str, fabrics: &[String], nearest: Option<&str>) -> Finding {
    let list = match fabrics {
        [] => "The pattern lists no fabrics.".to_string(),
        fabrics => format!("Its fabrics: {}.", fabrics.join(", ")),
    };
    let label = nearest.map_or("not among the fabrics".to_string(), |nearest| format!("did you mean {nearest}?"));
    let meant = nearest.map_or_else(String::new, |nearest| format!("Did you mean {nearest}? "));
    Finding::new(Label::new(at, label), format!("\"{name}\" is not one of the pattern's fabrics.")).help(meant + &list)
}

/// The correction of a name, and of the whole value where only part of it is the name and quotes are needed.
fn named_within(context: &Context<'_>, at: Span, name: &str, within: Option<(Span, &'static str)>) -> Correction {
    let source = &context.source.text;
    match within {
        Some((whole, after)) if whole == at || !is_plain(name) => {
            Correction::name(source, whole, &format!("{name}{after}"))
        }
        _ => Correction::name(source, at, name),
    }
}

/// How many of the names there are a message tells.
const MAX_NAMED: usize = 20;

pub(super) fn unknown_name(at: Span, name: &str, among: &str, known: &[String], nearest: Option<&str>) -> Finding {
    let named = known.iter().take(MAX_NAMED).map(String::as_str).collect::<Vec<_>>().join(", ");
    let list = match known.len() {
        0 => format!("None is known there: nothing is stated of {among}."),
        1..=MAX_NAMED => format!("{}: {named}.", super::sentence(among)),
        many => format!("{}: {named} and {} more.", super::sentence(among), many - MAX_NAMED),
    };
    let label = nearest.map_or(format!("not one of {among}"), |nearest| format!("did you mean {nearest}?"));
    let meant = nearest.map_or_else(String::new, |nearest| format!("Did you mean {nearest}? "));
    Finding::new(Label::new(at, label), format!("\"{name}\" is not one of {among}.")).help(meant + &list)
}

fn finding(
    context: &Context<'_>,
    at: Span,
    word: &str,
    place: &str,
    known: &[&'static str],
    nearest: Option<&'static str>,
) -> Finding {
    let message = format!("\"{word}\" is not a word that is known {place}.");
    let list = if known.is_empty() {
        "No words are known there.".to_string()
    } else {
        format!("Known there: {}.", known.join(", "))
    };
    let (label, meant) = match nearest {
        Some(nearest) => (format!("did you mean {nearest}?"), Some(format!("Did you mean {nearest}?"))),
        None => ("not known here".to_string(), None),
    };
    Finding::new(Label::new(at, label), message)
        .help(meant.map_or_else(String::new, |meant| meant + " ") + &list)
        .corrected(nearest.map(|nearest| Correction::word(&context.source.text, at, nearest)))
}
