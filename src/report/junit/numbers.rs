//! Which stated number a finding is about: the one at whose place it is.

use crate::account::Number;
use crate::finding::Finding;
use crate::manuscript::Span;

/// The stated numbers of a file, by place.
#[derive(Debug)]
pub(super) struct ByPlace<'n> {
    numbers: &'n [Number],
    /// The numbers by where they start, each with the furthest end of those up to it.
    order: Vec<(usize, usize)>,
}

impl<'n> ByPlace<'n> {
    pub(super) fn new(numbers: &'n [Number]) -> ByPlace<'n> {
        let mut order: Vec<(usize, usize)> = (0..numbers.len()).map(|index| (index, 0)).collect();
        order.sort_by_key(|(index, _)| numbers[*index].at);
        let mut furthest = 0;
        for (index, end) in &mut order {
            furthest = furthest.max(numbers[*index].at.end);
            *end = furthest;
        }
        ByPlace { numbers, order }
    }

    /// The index of the number that a finding is about. Of several at its place, the one that is just there, then one
    /// of its size, then the first.
    pub(super) fn of(&self, finding: &Finding) -> Option<usize> {
        let at = finding.at.at;
        let fits = |index: &usize| {
            let number = &self.numbers[*index];
            (number.at == at, number.size == finding.size, std::cmp::Reverse(*index))
        };
        self.overlapping(at).max_by_key(fits)
    }

    fn overlapping(&self, at: Span) -> impl Iterator<Item = usize> {
        let before = self.order.partition_point(|(index, _)| self.numbers[*index].at.start < at.end);
        let near = self.order[..before].iter().rev().take_while(move |(_, furthest)| *furthest > at.start);
        near.map(|(index, _)| *index).filter(move |index| self.numbers[*index].at.end > at.start)
    }
}
