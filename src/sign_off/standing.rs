//! How a manuscript stands to the sign-offs beside it: which of them counts, and what is otherwise since.

use std::collections::BTreeSet;

use super::compare::{Change, Now};
use super::conditions::Conditions;
use super::record::{Record, file_name};
use super::record_file::Recorded;
use super::revocation::Revocation;
use crate::manuscript::{Source, Span};
use crate::rule_book::Settings;
use crate::text::TextOutcome;

/// What a check of a manuscript came to: the conditions that it was checked under, and the printed texts that were read.
pub type Found<'f> = (&'f Conditions, &'f [TextOutcome]);

/// How a manuscript stands to the sign-offs beside it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum SignOff {
    /// Nobody asked.
    #[default]
    NotAsked,
    /// There is none.
    None {
        /// Where to say so.
        at: Span,
        /// Another manuscript that was signed with the very same values, which this one may have been.
        same_as: Option<String>,
    },
    /// There was one, and somebody took it back.
    Revoked {
        /// Where to say so.
        at: Span,
        /// Who signed.
        by: String,
        /// On which day.
        day: String,
        /// Who took it back, when and why.
        revocation: Revocation,
    },
    /// There is one. Of several that stand, the one counts whose values it has; failing that, the latest.
    Signed {
        /// Who signed.
        by: String,
        /// On which day.
        day: String,
        /// Which edition, where it had one.
        edition: Option<String>,
        /// The fingerprint of what was signed.
        fingerprint: String,
        /// What changed since.
        changes: Vec<Change>,
    },
}

impl SignOff {
    /// How a manuscript stands to the records in its folder, by its own numbers alone.
    pub fn of(source: &Source, settings: &Settings, recorded: &Recorded) -> SignOff {
        SignOff::with(source, settings, recorded, None, |_| true)
    }

    /// The same with what its printed texts say, under the conditions that it was checked under.
    pub fn under(source: &Source, settings: &Settings, recorded: &Recorded, now: Found<'_>) -> SignOff {
        SignOff::with(source, settings, recorded, Some(now), |_| true)
    }

    /// The same by those records alone that are wanted.
    pub fn by(
        source: &Source,
        settings: &Settings,
        recorded: &Recorded,
        now: Found<'_>,
        is_wanted: impl Fn(&Record) -> bool,
    ) -> SignOff {
        SignOff::with(source, settings, recorded, Some(now), is_wanted)
    }

    fn with(
        source: &Source,
        settings: &Settings,
        recorded: &Recorded,
        found: Option<Found<'_>>,
        is_wanted: impl Fn(&Record) -> bool,
    ) -> SignOff {
        let name = file_name(source);
        let (conditions, texts) = found.unzip();
        let now = Now::new(source, texts);
        let has_numbers = |record: &Record| now.has_numbers_of(settings, record);
        let standing: Vec<&Record> = recorded.standing(&name).into_iter().filter(|record| is_wanted(record)).collect();
        let best = best(&now, settings, &standing, conditions);
        // Where the very numbers that it has were revoked, that is to be said, and not what changed since others.
        let revoked = || {
            let is_own = |record: &&Record| record.manuscript == name && is_wanted(record);
            let own = recorded.signed.iter().filter(is_own);
            let revoked = own.filter_map(|record| Some((record, recorded.revocation_of(record)?)));
            revoked.max_by_key(|(record, _)| (has_numbers(record), record.when))
        };
        if best.is_none()
            && let Some((record, revocation)) = revoked()
            && (standing.is_empty() || has_numbers(record))
        {
            let (by, day) = (record.by.clone(), record.day());
            return SignOff::Revoked { at: now.start(), by, day, revocation: revocation.clone() };
        }
        match best.or(standing.last().copied()) {
            Some(record) => SignOff::Signed {
                by: record.by.clone(),
                day: record.day(),
                edition: record.edition.clone(),
                fingerprint: record.fingerprint.clone(),
                changes: changes(&now, settings, record, conditions),
            },
            None => {
                let others = recorded.signed.iter().filter(|record| recorded.revocation_of(record).is_none());
                let same = others.filter(|record| now.is_as_signed(record)).max_by_key(|record| record.when);
                SignOff::None { at: now.start(), same_as: same.map(|record| record.manuscript.clone()) }
            }
        }
    }
}

/// The last of some sign-offs, by their time, whose numbers a manuscript has: if one was made under the conditions that
/// hold now, that.
fn best<'r>(
    now: &Now<'_>,
    settings: &Settings,
    standing: &[&'r Record],
    conditions: Option<&Conditions>,
) -> Option<&'r Record> {
    let matching: Vec<&Record> =
        standing.iter().copied().filter(|record| now.has_numbers_of(settings, record)).collect();
    let is_same = |record: &&&Record| {
        conditions.is_none_or(|conditions| now.changed_conditions(record, conditions, true).is_empty())
    };
    matching.iter().rev().find(is_same).or(matching.last()).copied()
}

/// A sign-off with how it stands.
#[derive(Clone, Debug)]
pub struct ListedSignOff {
    /// The sign-off.
    pub record: Record,
    /// How it stands.
    pub state: SignOffState,
}

/// How one of the sign-offs of a manuscript stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SignOffState {
    /// It counts, with what changed since.
    Counts(Vec<Change>),
    /// Another one counts.
    Earlier,
    /// It was taken back.
    Revoked(Revocation),
    /// Its manuscript is there no longer.
    Missing,
}

/// All sign-offs of a manuscript, the last of them first.
pub fn list_sign_offs(
    source: &Source,
    settings: &Settings,
    recorded: &Recorded,
    (conditions, texts): Found<'_>,
) -> Vec<ListedSignOff> {
    let now = Now::new(source, Some(texts));
    let name = file_name(source);
    let standing = recorded.standing(&name);
    let counts = best(&now, settings, &standing, Some(conditions)).or(standing.last().copied());
    let state = |record: &Record| match recorded.revocation_of(record) {
        Some(revocation) => SignOffState::Revoked(revocation.clone()),
        None if counts == Some(record) => SignOffState::Counts(changes(&now, settings, record, Some(conditions))),
        None => SignOffState::Earlier,
    };
    listed(recorded, &name, state)
}

/// The sign-offs of manuscripts that are there no longer, by their names.
pub fn list_missing(recorded: &Recorded, there: impl Fn(&str) -> bool) -> Vec<(String, Vec<ListedSignOff>)> {
    let names: BTreeSet<&str> = recorded.signed.iter().map(|record| record.manuscript.as_str()).collect();
    let state = |record: &Record| match recorded.revocation_of(record) {
        Some(revocation) => SignOffState::Revoked(revocation.clone()),
        None => SignOffState::Missing,
    };
    let missing = names.into_iter().filter(|name| !there(name));
    missing.map(|name| (name.to_string(), listed(recorded, name, state))).collect()
}

fn listed(recorded: &Recorded, name: &str, state: impl Fn(&Record) -> SignOffState) -> Vec<ListedSignOff> {
    let mut own: Vec<&Record> = recorded.signed.iter().filter(|record| record.manuscript == name).collect();
    own.sort_by_key(|record| std::cmp::Reverse((record.when, record.by.clone())));
    // Lines that a merge doubled say the same twice.
    own.dedup();
    own.into_iter().map(|record| ListedSignOff { record: record.clone(), state: state(record) }).collect()
}

fn changes(now: &Now<'_>, settings: &Settings, record: &Record, conditions: Option<&Conditions>) -> Vec<Change> {
    let mut changes = now.changes(settings, record);
    let same_numbers = changes.is_empty();
    if let Some(conditions) = conditions {
        changes.extend(now.changed_conditions(record, conditions, same_numbers));
        changes.sort_by_key(Change::place);
    }
    changes
}
