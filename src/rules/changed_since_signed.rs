//! A value that is not as it was when the manuscript was signed off.

use super::wording::sign_off::sign_command;
use super::{Context, sentence};
use crate::finding::{Finding, Label};
use crate::sign_off::{Change, SignOff};

/// How many changes are told one by one: where there are more, it is another manuscript.
const MAX_TOLD: usize = 1_000;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let SignOff::Signed { by, day, edition, changes } = context.sign_off else { return };
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
    let Change { at, what, was, is, .. } = change;
    let (then, now) = (or_nothing(was.as_ref()), or_nothing(is.as_ref()));
    // A value of the rule book stands nowhere in the manuscript, and must not be taken for the one it is told at.
    let what = if change.assumed { format!("the rule book's {what}") } else { what.clone() };
    let label = match was {
        Some(was) if change.assumed => format!("not a change here: the rule book had {was} when it was signed"),
        Some(was) => format!("{was} when it was signed"),
        None => "added after it was signed".to_string(),
    };
    let mut finding =
        Finding::new(Label::new(*at, label), sentence(&format!("{what}: signed as {then}, now {now}."))).help(signed);
    finding.size.clone_from(&change.size);
    finding.stated.clone_from(is);
    finding
}

fn or_nothing(value: Option<&String>) -> &str {
    match value.map(String::as_str) {
        None => "not stated",
        Some("") => "empty",
        Some(value) => value,
    }
}
