//! The summary of a run in words.

use crate::account::{Line, Standing};
use crate::check::Tally;
use crate::quantity::Count;
use crate::run::Run;

/// `3 manuscripts: 2 errors, 1 query`, or `3 manuscripts: nothing to mend`.
pub fn summary(run: &Run) -> String {
    let total = total_in_words(run.manuscripts, run.tally());
    match run.unaccounted() {
        0 => total,
        1 => format!("{total}, 1 number not checked"),
        many => format!("{total}, {many} numbers not checked"),
    }
}

/// The summary of so many manuscripts.
pub(crate) fn total_in_words(manuscripts: usize, tally: Tally) -> String {
    let manuscripts = Count(manuscripts as u64).of("manuscript");
    format!("{manuscripts}: {}", tally_in_words(tally))
}

/// `2 errors, 1 query, 1 accepted`, or `nothing to mend`.
pub(crate) fn tally_in_words(tally: Tally) -> String {
    let count = |number: usize, one: &str, many: &str| {
        (number > 0).then(|| format!("{number} {}", if number == 1 { one } else { many }))
    };
    let mut parts: Vec<String> = [
        count(tally.errors, "error", "errors"),
        count(tally.queries, "query", "queries"),
        count(tally.notes, "note", "notes"),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() {
        parts.push("nothing to mend".to_string());
    }
    parts.extend(count(tally.accepted, "accepted", "accepted"));
    parts.join(", ")
}

/// How many numbers stand in each way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Standings {
    /// Those that are enough, generous and accepted ones among them.
    pub(super) held: usize,
    /// Those that are compared with something.
    pub(super) checked: usize,
    /// Those that nothing checks.
    pub(super) not_checked: usize,
    /// Those that others go by.
    pub(super) given: usize,
}

impl Standings {
    /// Counts lines of an account.
    pub(super) fn of<'l>(lines: impl IntoIterator<Item = &'l Line>) -> Standings {
        let mut standings = Standings { held: 0, checked: 0, not_checked: 0, given: 0 };
        for line in lines {
            match line.standing {
                Standing::Held | Standing::Generous | Standing::Accepted => {
                    standings.held += 1;
                    standings.checked += 1;
                }
                Standing::Short | Standing::Query => standings.checked += 1,
                Standing::NotChecked => standings.not_checked += 1,
                Standing::Given => standings.given += 1,
            }
        }
        standings
    }

    /// `all 7 checked numbers are held`, or `5 of 7 checked numbers are held, 1 number not checked`.
    pub(super) fn in_words(self) -> String {
        let Standings { held, checked, not_checked, .. } = self;
        let held = match checked {
            0 => "nothing to check".to_string(),
            1 if held == 1 => "the one checked number is held".to_string(),
            _ if held == checked => format!("all {checked} checked numbers are held"),
            _ => format!("{held} of {} held", Count(checked as u64).of("checked number")),
        };
        match not_checked {
            0 => held,
            1 => format!("{held}, 1 number not checked"),
            many => format!("{held}, {many} numbers not checked"),
        }
    }
}
