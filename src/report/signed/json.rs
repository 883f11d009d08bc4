//! The list of sign-offs for programs, version 1.

use serde::Serialize;

use super::super::sanitize::escape_json;
use super::{SignedManuscript, word};
use crate::sign_off::{Change, ChangeKind, Conditions, Fingerprint, ListedSignOff, OpenFinding, SignOffState};

#[derive(Serialize)]
struct ListV1<'a> {
    version: u32,
    manuscripts: Vec<ManuscriptV1<'a>>,
}

#[derive(Serialize)]
struct ManuscriptV1<'a> {
    file: String,
    pattern: &'a str,
    edition: Option<&'a str>,
    state: &'static str,
    sign_offs: Vec<SignOffV1<'a>>,
}

#[derive(Serialize)]
struct SignOffV1<'a> {
    by: &'a str,
    when: String,
    note: Option<&'a str>,
    edition: Option<&'a str>,
    fingerprint: &'a str,
    short: String,
    state: &'static str,
    /// Nothing in sign-offs of versions that did not record them.
    conditions: Option<ConditionsV1<'a>>,
    accepted: Vec<&'a str>,
    changes: Vec<ChangeV1<'a>>,
    revoked: Option<RevokedV1<'a>>,
}

#[derive(Serialize)]
struct ConditionsV1<'a> {
    options: Vec<&'static str>,
    house_rules: bool,
    rules_off: Vec<&'a str>,
    open: &'a [OpenFinding],
}

#[derive(Serialize)]
struct ChangeV1<'a> {
    kind: &'static str,
    what: &'a str,
    size: Option<&'a str>,
    was: Option<&'a str>,
    is: Option<&'a str>,
    message: String,
}

#[derive(Serialize)]
struct RevokedV1<'a> {
    by: &'a str,
    when: String,
    because: &'a str,
}

/// The list as JSON.
pub fn signed_as_json(manuscripts: &[SignedManuscript]) -> String {
    let list = ListV1 { version: 1, manuscripts: manuscripts.iter().map(manuscript).collect() };
    // Nothing in it can fail to be written.
    escape_json(&serde_json::to_string_pretty(&list).unwrap_or_default()) + "\n"
}

fn manuscript(manuscript: &SignedManuscript) -> ManuscriptV1<'_> {
    ManuscriptV1 {
        file: manuscript.path.display().to_string(),
        pattern: &manuscript.pattern,
        edition: manuscript.edition.as_deref(),
        state: manuscript.state(),
        sign_offs: manuscript.sign_offs.iter().map(sign_off).collect(),
    }
}

fn sign_off(listed: &ListedSignOff) -> SignOffV1<'_> {
    let record = &listed.record;
    let (changes, revoked) = match &listed.state {
        SignOffState::Counts(changes) => (changes.as_slice(), None),
        SignOffState::Revoked(revocation) => (&[][..], Some(revocation)),
        SignOffState::Earlier | SignOffState::Missing => (&[][..], None),
    };
    SignOffV1 {
        by: &record.by,
        when: record.when.to_string(),
        note: record.note.as_deref(),
        edition: record.edition.as_deref(),
        fingerprint: &record.fingerprint,
        short: Fingerprint::short(&record.fingerprint),
        state: word(&listed.state),
        conditions: record.conditions.as_ref().map(|signed| conditions(signed, record.house_rules.is_some())),
        accepted: record.accepted.iter().map(|accepted| accepted.rule.as_str()).collect(),
        changes: changes.iter().map(change).collect(),
        revoked: revoked.map(|revocation| RevokedV1 {
            by: &revocation.by,
            when: revocation.when.to_string(),
            because: &revocation.because,
        }),
    }
}

fn conditions(conditions: &Conditions, house_rules: bool) -> ConditionsV1<'_> {
    ConditionsV1 {
        options: conditions.options.words().collect(),
        house_rules,
        rules_off: conditions.levels_off().collect(),
        open: &conditions.open,
    }
}

fn change(change: &Change) -> ChangeV1<'_> {
    ChangeV1 {
        kind: match change.kind {
            ChangeKind::Value => "value",
            ChangeKind::Assumed => "assumed",
            ChangeKind::Level => "level",
            ChangeKind::Query => "query",
            ChangeKind::Option => "option",
            ChangeKind::Text => "text",
            ChangeKind::TextNumber => "number of a text",
        },
        what: &change.what,
        size: change.size.as_deref(),
        was: change.was.as_deref(),
        is: change.is.as_deref(),
        message: change.sentence(),
    }
}
