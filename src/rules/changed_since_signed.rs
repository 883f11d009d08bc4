//! A value that is not as it was when the manuscript was signed off.

use super::wording::sign_off::sign_command;
use super::{Context, sentence};
use crate::finding::{Finding, Label, Subject, SubjectKind};
use crate::sign_off::{Change, ChangeKind, SignOff};

/// How many changes are told one by one: where there are more, it is another manuscript.
const MAX_TOLD: usize = 1_000;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let SignOff::Signed { by, day, edition, changes, .. } = context.sign_off else { return };
    let edition = edition.as_ref().map(|edition| format!("edition {edition} ")).unwrap_or_default();
    let command = sign_command(context);
    let signed = format!(
        "{by} signed {edition}on {day}. If the change is meant, go through the numbers again, and sign: {command}"
    );
    findings.extend(changes.iter().take(MAX_TOLD).map(|change| finding(change, &signed)));
    if let Some(next) = changes.get(MAX_TOLD) {
        let more = changes.len() - MAX_TOLD;
        let message = format!("{more} more values are not what they were when the manuscript was signed off.");
        findings.push(Finding::new(Label::new(next.at, "the first of them"), message).help(signed));
    }
}

fn finding(change: &Change, signed: &str) -> Finding {
    let label = match (change.kind, &change.was) {
        (ChangeKind::Value, Some(was)) => format!("{was} when it was signed"),
        (ChangeKind::Value, None) => "added after it was signed".to_string(),
        (ChangeKind::Assumed, was) => {
            format!("not a change here: the rule book had {} when it was signed", was.as_deref().unwrap_or("nothing"))
        }
        (ChangeKind::Level, _) => "not a change here: house rules, or the rule book, set the level".to_string(),
        (ChangeKind::Query, Some(_)) => "not a change here: the numbers are those that were signed".to_string(),
        (ChangeKind::Query, None) => "nobody was asked this when it was signed".to_string(),
        (ChangeKind::TextNumber, was) if change.text.is_some() => match was {
            Some(was) => format!("{was} when it was signed"),
            None => "not in the text when it was signed".to_string(),
        },
        (ChangeKind::TextNumber, was) => {
            format!("it said {} when the manuscript was signed", was.as_deref().unwrap_or("nothing"))
        }
        (ChangeKind::Text, _) => "otherwise than when it was signed".to_string(),
        (ChangeKind::Option, _) => "not a change here: the check asks for more than was signed".to_string(),
    };
    let message = sentence(&format!("{}.", change.sentence()));
    let mut finding = Finding::new(Label::new(change.at, label), message).help(signed);
    finding.size.clone_from(&change.size);
    finding.stated.clone_from(&change.is);
    match &change.text {
        Some(text) => finding.about(Subject::of(SubjectKind::Quote, &text.quote)).in_text(text.index),
        None => finding,
    }
}
