//! The list of sign-offs for people.

use super::super::sanitize_line;
use super::{SignedManuscript, off_and_queries};
use crate::quantity::Count;
use crate::sign_off::{Change, Fingerprint, ListedSignOff, Record, SignOffState};

/// The list as text.
pub fn signed_as_text(manuscripts: &[SignedManuscript]) -> String {
    let blocks: Vec<String> = manuscripts.iter().map(block).collect();
    blocks.join("\n")
}

fn block(manuscript: &SignedManuscript) -> String {
    let title = match &manuscript.edition {
        Some(edition) => format!("{}, edition {edition}", manuscript.pattern),
        None => manuscript.pattern.clone(),
    };
    let missing = if manuscript.is_there { "" } else { ", there no longer" };
    let mut lines = vec![format!("{} ({title}){missing}", manuscript.path.display())];
    if manuscript.sign_offs.is_empty() {
        lines.push("  nobody has signed it".to_string());
    }
    for listed in &manuscript.sign_offs {
        sign_off(listed, &mut lines);
    }
    lines.iter().map(|line| sanitize_line(line) + "\n").collect()
}

fn sign_off(listed: &ListedSignOff, lines: &mut Vec<String>) {
    let record = &listed.record;
    let state = match &listed.state {
        SignOffState::Counts(changes) => match changes.len() {
            0 => "nothing changed since".to_string(),
            1 => "one change since".to_string(),
            many => format!("{many} changes since"),
        },
        SignOffState::Earlier => "another sign-off counts".to_string(),
        SignOffState::Revoked(_) => "revoked".to_string(),
        SignOffState::Missing => "the manuscript is there no longer".to_string(),
    };
    let (by, day, short) = (&record.by, record.day(), Fingerprint::short(&record.fingerprint));
    lines.push(format!("  {day} signed by {by}, {short}: {state}"));
    match &listed.state {
        SignOffState::Counts(changes) => {
            under(record, lines);
            lines.extend(changes.iter().map(|change| format!("    - {}", change_line(change))));
        }
        SignOffState::Revoked(revocation) => {
            let (by, because) = (&revocation.by, &revocation.because);
            lines.push(format!("    {} revoked by {by}: {because}", revocation.day()));
        }
        SignOffState::Earlier | SignOffState::Missing => {}
    }
}

/// A change with the size it is for.
fn change_line(change: &Change) -> String {
    match &change.size {
        Some(size) => format!("{size}: {}", change.sentence()),
        None => change.sentence(),
    }
}

/// What was noted, and the conditions that it was signed under.
fn under(record: &Record, lines: &mut Vec<String>) {
    lines.extend(record.note.iter().map(|note| format!("    note: {note}")));
    if !record.accepted.is_empty() {
        let rules: Vec<&str> = record.accepted.iter().map(|accepted| accepted.rule.as_str()).collect();
        lines.push(format!("    accepted: {}", rules.join(", ")));
    }
    let Some(conditions) = &record.conditions else {
        lines.push("    by an earlier version, which did not record its conditions".to_string());
        return;
    };
    let options: Vec<&str> = conditions.options.words().collect();
    let (off, queries) = off_and_queries(conditions);
    let house = if record.house_rules.is_some() { ", under house rules" } else { "" };
    let with = if options.is_empty() { "without options".to_string() } else { format!("with {}", options.join(" ")) };
    lines.push(format!("    checked {with}{house}"));
    if !off.is_empty() {
        lines.push(format!("    {} off: {}", Count(off.len() as u64).of("rule"), off.join(", ")));
    }
    if !queries.is_empty() {
        let stood = if queries.len() == 1 { "one query".to_string() } else { format!("{} queries", queries.len()) };
        lines.push(format!("    {stood} stood: {}", queries.join(", ")));
    }
}
