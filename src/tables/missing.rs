//! What is missing or could not be read, so that the tables lack it.
//!
//! A hole in the tables is seen: unread cells are question marks, the head says that the tables are not complete, and
//! the status is 1, whatever house rules say of the mistake. `PerSize` keeps what is not stated apart from what is not
//! read, since a dash says the one and a question mark the other.

use crate::check::{Corrections, check_with};
use crate::manuscript::{Manuscript, Mistake, MistakeKind, Place, Source};
use crate::rule_book::Settings;

/// Something that is missing or could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// Where it stands.
    pub place: Place,
    /// What is wrong with it.
    pub why: String,
    /// Whether it is not there at all.
    pub is_absent: bool,
}

/// What is missing or could not be read of a manuscript, by place. What is stated of accepted findings is in no table.
pub(super) fn missing(source: &Source, manuscript: &Manuscript) -> Vec<Missing> {
    let in_acceptance = |mistake: &Mistake| {
        manuscript
            .accepted
            .iter()
            .any(|accepted| accepted.at.start <= mistake.at.start && mistake.at.end <= accepted.at.end)
    };
    // What is not stated was not unreadable, and a fraction that runs together was read.
    let was_read =
        |what: &MistakeKind| matches!(what, MistakeKind::SizeNotStated { .. } | MistakeKind::RunTogether { .. });
    let told = |mistake: &&Mistake| !was_read(&mistake.what) && !in_acceptance(mistake);
    let mistakes: Vec<&Mistake> = manuscript.mistakes.iter().filter(told).collect();
    if mistakes.is_empty() {
        return Vec::new();
    }
    // The words for a mistake are those of its finding, by the standard levels: house rules may have turned it off.
    let outcome = check_with(source, &Settings::default(), Corrections::LeftOut);
    let found: Vec<_> =
        outcome.findings.iter().chain(outcome.accepted.iter().map(|accepted| &accepted.finding)).collect();
    // Several may be missing at one place: each has a finding of its own there.
    let words = |index: usize, mistake: &Mistake| {
        let before = mistakes.iter().take(index).filter(|earlier| earlier.at == mistake.at).count();
        let finding = found.iter().filter(|finding| finding.at.at == mistake.at).nth(before);
        finding.map_or_else(|| "It cannot be read.".to_string(), |finding| finding.message.clone())
    };
    let each = mistakes.iter().enumerate();
    each.map(|(index, mistake)| Missing {
        place: source.place(mistake.at.start),
        why: words(index, mistake),
        is_absent: matches!(mistake.what, MistakeKind::MissingEntry { .. }),
    })
    .collect()
}
