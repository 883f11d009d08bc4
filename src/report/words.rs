//! The summary of a run in words.

use crate::audit::{Line, Status, counted_once};
use crate::check::Tally;
use crate::quantity::Count;
use crate::run::{Checked, Total};
use crate::sanitize::sanitize_line;

/// `3 manuscripts: 2 errors, 1 query`, or `3 manuscripts: no problems`, and how many could not be read.
pub fn summary(run: &Total<'_>) -> String {
    let total = total_in_words(run.manuscripts, run.tally, run.following);
    let total = match run.unaccounted {
        0 => total,
        1 => format!("{total}, 1 number not checked"),
        many => format!("{total}, {many} numbers not checked"),
    };
    match run.problems.len() {
        0 => total,
        unread => format!("{total}; {unread} cannot be read"),
    }
}

/// A line for a printed text: `tide-pools.md: 135 of 138 numbers matched, 1 differs`.
pub(super) fn text_in_words(file: &Checked) -> Option<String> {
    let text = file.text.as_ref()?;
    Some(format!("{}: {}", sanitize_line(&file.path.to_string_lossy()), text.share.words()))
}

/// The summary of so many manuscripts, of whose findings so many follow from another.
pub(crate) fn total_in_words(manuscripts: usize, tally: Tally, following: usize) -> String {
    // Of what nobody has looked at, nothing can be said to be right.
    if manuscripts == 0 && tally == Tally::default() {
        return "no manuscripts".to_string();
    }
    let manuscripts = Count(manuscripts as u64).of("manuscript");
    let total = format!("{manuscripts}: {}", tally_in_words(tally));
    match following {
        0 => total,
        1 => format!("{total}, 1 of them follows from another"),
        many => format!("{total}, {many} of them follow from another"),
    }
}

/// `2 errors, 1 query, 1 accepted`, or `no problems`.
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
        parts.push("no problems".to_string());
    }
    parts.extend(count(tally.accepted, "accepted", "accepted"));
    parts.join(", ")
}

/// How many stated numbers have each status. A number that several lines are about is counted once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct StatusCounts {
    pub(super) ok: usize,
    pub(super) short: usize,
    pub(super) wrong: usize,
    pub(super) accepted: usize,
    pub(super) not_checked: usize,
    pub(super) as_given: usize,
}

impl StatusCounts {
    /// Counts the numbers of some lines of an account.
    pub(super) fn of<'l>(lines: impl IntoIterator<Item = &'l Line>) -> StatusCounts {
        let mut counts = StatusCounts::default();
        for line in counted_once(lines) {
            *match line.status {
                Status::Ok => &mut counts.ok,
                Status::Short => &mut counts.short,
                Status::Wrong => &mut counts.wrong,
                Status::Accepted => &mut counts.accepted,
                Status::NotChecked => &mut counts.not_checked,
                Status::AsGiven => &mut counts.as_given,
            } += 1;
        }
        counts
    }

    /// Those that are compared with something.
    pub(super) const fn checked(self) -> usize {
        self.ok + self.short + self.wrong + self.accepted
    }

    /// `7 of 7 checked numbers OK`, or `5 of 7 checked numbers OK, 1 short, 1 accepted, 1 not checked`.
    pub(super) fn in_words(self) -> String {
        let StatusCounts { ok, short, wrong, accepted, not_checked, .. } = self;
        let first = match self.checked() {
            0 => "nothing to check".to_string(),
            checked => format!("{ok} of {} OK", Count(checked as u64).of("checked number")),
        };
        let others = [(short, Status::Short), (wrong, Status::Wrong), (accepted, Status::Accepted)];
        let others = others.into_iter().chain([(not_checked, Status::NotChecked)]).filter(|(count, _)| *count > 0);
        std::iter::once(first)
            .chain(others.map(|(count, status)| format!("{count} {}", status.word())))
            .collect::<Vec<_>>()
            .join(", ")
    }
}
