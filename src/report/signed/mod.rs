//! The list of sign-offs: who signed which manuscript, when and under which conditions, and what changed since.

mod csv;
mod json;
mod text;

pub use csv::signed_as_csv;
pub use json::signed_as_json;
pub use text::signed_as_text;

use std::path::PathBuf;

use crate::manuscript::{Source, read};
use crate::sign_off::{Conditions, ListedSignOff, OpenFinding, SignOffState};

/// A manuscript with its sign-offs, the last of them first.
#[derive(Debug)]
pub struct SignedManuscript {
    path: PathBuf,
    /// The pattern's name and its edition now; those that were signed, where the manuscript is there no longer.
    pattern: String,
    edition: Option<String>,
    is_there: bool,
    sign_offs: Vec<ListedSignOff>,
}

impl SignedManuscript {
    /// A manuscript that is there.
    pub fn new(source: &Source, sign_offs: Vec<ListedSignOff>) -> SignedManuscript {
        let manuscript = read(source);
        SignedManuscript {
            path: source.path.clone(),
            pattern: manuscript.pattern.stated().map(|name| name.value.clone()).unwrap_or_default(),
            edition: manuscript.edition.stated().map(|edition| edition.value.clone()),
            is_there: true,
            sign_offs,
        }
    }

    /// One that was signed and is there no longer.
    pub fn missing(path: PathBuf, sign_offs: Vec<ListedSignOff>) -> SignedManuscript {
        let last = sign_offs.first().map(|listed| &listed.record);
        SignedManuscript {
            path,
            pattern: last.map(|record| record.pattern.clone()).unwrap_or_default(),
            edition: last.and_then(|record| record.edition.clone()),
            is_there: false,
            sign_offs,
        }
    }

    /// How it stands, in a word.
    fn state(&self) -> &'static str {
        let counts = self.sign_offs.iter().map(|listed| &listed.state);
        let counts = counts.filter(|state| matches!(state, SignOffState::Counts(_))).map(word).next();
        match counts {
            _ if !self.is_there => "missing",
            Some(word) => word,
            None if self.sign_offs.is_empty() => "not signed",
            None => "revoked",
        }
    }
}

/// How a sign-off stands, in a word.
fn word(state: &SignOffState) -> &'static str {
    match state {
        SignOffState::Counts(changes) if changes.is_empty() => "current",
        SignOffState::Counts(_) => "changed",
        SignOffState::Earlier => "earlier",
        SignOffState::Revoked(_) => "revoked",
        SignOffState::Missing => "missing",
    }
}

/// The rules that were off, and the queries that stood, by name.
fn off_and_queries(conditions: &Conditions) -> (Vec<&str>, Vec<String>) {
    let queries = conditions.open.iter().filter(|open| open.is_query()).map(OpenFinding::title);
    (conditions.levels_off().collect(), queries.collect())
}
