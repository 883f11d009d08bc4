//! The summary of a run in words.

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
