//! How often each thing is meant by numbers that stand together.

use super::sign::{Word, word};

/// How often each of some is in sets.
#[derive(Default)]
pub(super) struct Counts {
    /// In order, each with how often.
    list: Vec<(usize, usize)>,
    /// How many sets there are.
    sets: usize,
}

impl Counts {
    pub(super) fn new<'s>(sets: impl ExactSizeIterator<Item = &'s Vec<usize>>) -> Counts {
        let count = sets.len();
        let mut all: Vec<usize> = sets.flatten().copied().collect();
        all.sort_unstable();
        let list = all.chunk_by(usize::eq).map(|alike| (alike[0], alike.len())).collect();
        Counts { list, sets: count }
    }

    /// How many sets one of them is in.
    pub(super) fn of(&self, one: usize) -> usize {
        self.list.binary_search_by_key(&one, |(known, _)| *known).map_or(0, |at| self.list[at].1)
    }

    /// How many sets the most frequent is in.
    pub(super) fn most(&self) -> usize {
        self.list.iter().map(|(_, times)| *times).max().unwrap_or(0)
    }

    /// How often each is in the others than one of the sets.
    pub(super) fn without<'c>(&'c self, own: &'c [usize]) -> impl Iterator<Item = (usize, usize)> {
        self.list.iter().map(move |(one, times)| (*one, times - usize::from(own.binary_search(one).is_ok())))
    }
}

/// How often each thing is what the other numbers are of that stand with one.
pub(super) struct Tally<'g> {
    counts: &'g Counts,
    own: &'g [usize],
    pub(super) most: usize,
    /// How many others there are.
    pub(super) of: usize,
}

impl<'g> Tally<'g> {
    pub(super) fn new(counts: &'g Counts, own: &'g [usize]) -> Tally<'g> {
        let most = counts.without(own).map(|(_, times)| times).max().unwrap_or(0);
        Tally { counts, own, most, of: counts.sets - 1 }
    }

    /// How what a key is of stands among what the others are of.
    pub(super) fn rank(&self, of: &[usize]) -> Word<'static> {
        let times = |one: &usize| self.counts.of(*one) - usize::from(self.own.binary_search(one).is_ok());
        let own = of.iter().map(times).max().unwrap_or(0);
        match own {
            0 if self.most == 0 => word!("nobody"),
            0 => word!("none"),
            _ if own < self.most => word!("less"),
            _ if own == self.of => word!("all"),
            1 => word!("best"),
            _ => word!("best-of-more"),
        }
    }
}
