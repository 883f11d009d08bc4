//! A stated number in the few words that a format for tests keeps of it, without the text that it stands in.
//!
//! Kept for JUnit alone, with its line and column already worked out, so that the texts of manuscripts with nothing to
//! correct need not be kept: about 250 bytes a number.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::{Line, Status};
use crate::manuscript::{Place, Source, Span};

/// A stated number, with its line and column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AuditedNumber {
    /// The size it is for; `None` for the pattern as a whole.
    pub size: Option<String>,
    /// What it is, in the manuscript's words.
    pub number: String,
    /// Its status.
    pub status: Status,
    /// Why nothing checks it, where nothing does.
    pub why: String,
    /// Where it is stated.
    pub at: Span,
    /// The line and column of that.
    pub place: Place,
}

/// One line a stated number: of several lines about one number, such as a piece that two units take, the one whose
/// status is the gravest.
pub(crate) fn counted_once<'l>(lines: impl IntoIterator<Item = &'l Line>) -> Vec<&'l Line> {
    let mut places: BTreeMap<(Span, Option<&str>), usize> = BTreeMap::new();
    let mut once: Vec<&Line> = Vec::new();
    for line in lines {
        match places.entry((line.at, line.size.as_deref())) {
            Entry::Vacant(place) => {
                place.insert(once.len());
                once.push(line);
            }
            Entry::Occupied(place) => {
                let kept = &mut once[*place.get()];
                if kept.status < line.status {
                    *kept = line;
                }
            }
        }
    }
    once
}

/// The numbers of an account.
pub(crate) fn numbers(lines: &[Line], source: &Source) -> Vec<AuditedNumber> {
    counted_once(lines).into_iter().map(|line| number(line, source)).collect()
}

fn number(line: &Line, source: &Source) -> AuditedNumber {
    let why = if line.status == Status::NotChecked { line.working.clone() } else { String::new() };
    let (size, number) = (line.size.clone(), line.number.clone());
    AuditedNumber { size, number, status: line.status, why, at: line.at, place: source.place(line.at.start) }
}
