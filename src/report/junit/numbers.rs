//! Which stated number a finding is about: the one at whose place it is.

use std::cmp::Reverse;

use crate::audit::AuditedNumber;
use crate::finding::Finding;
use crate::manuscript::SpanIndex;

/// The stated numbers of a file, by place.
#[derive(Debug)]
pub(super) struct NumbersByPlace<'n> {
    numbers: &'n [AuditedNumber],
    by_place: SpanIndex,
}

impl<'n> NumbersByPlace<'n> {
    pub(super) fn new(numbers: &'n [AuditedNumber]) -> NumbersByPlace<'n> {
        NumbersByPlace { numbers, by_place: SpanIndex::new(numbers.iter().map(|number| number.at)) }
    }

    /// The index of the number that a finding is about. Of several at its place, the one that is just there, then one
    /// of its size, then the first.
    pub(super) fn of(&self, finding: &Finding) -> Option<usize> {
        let at = finding.at.at;
        let fits = |index: &usize| {
            let number = &self.numbers[*index];
            (number.at == at, number.size == finding.size, Reverse(*index))
        };
        self.by_place.overlapping(at).max_by_key(fits)
    }
}
