//! Which block stands where: what the layout says, or, where it says no more than how many there are of each, one even way
//! to set them.

use crate::choices::Set;

/// The places of a layout: how many across and down.
#[derive(Clone, Copy, Debug)]
pub(super) struct Grid {
    pub(super) set: Set,
    pub(super) across: usize,
    pub(super) down: usize,
}

impl Grid {
    /// How many places there are, those in the gaps of blocks on point among them.
    pub(super) const fn places(self) -> usize {
        let rows = self.across * self.down;
        match self.set {
            Set::Straight => rows,
            Set::OnPoint => rows + self.across.saturating_sub(1) * self.down.saturating_sub(1),
        }
    }

    /// The places row by row: across, down, and whether it is a gap between four others.
    pub(super) fn each(self) -> impl Iterator<Item = (usize, usize, bool)> {
        let row = move |down: usize| (0..self.across).map(move |across| (across, down, false));
        let gaps = move |down: usize| {
            let has_gaps = self.set == Set::OnPoint && down + 1 < self.down;
            let count = if has_gaps { self.across.saturating_sub(1) } else { 0 };
            (0..count).map(move |across| (across, down, true))
        };
        (0..self.down).flat_map(move |down| row(down).chain(gaps(down)))
    }

    /// Which of several blocks, each with its count, stands in each place; nothing where there are too few of them.
    pub(super) fn arranged(self, counts: &[u64]) -> Vec<Option<usize>> {
        let all = self.places() as u64;
        let gaps = all - (self.across * self.down) as u64;
        if let [one, other] = *counts {
            if self.set == Set::OnPoint && gaps > 0 && (one, other) == (all - gaps, gaps) {
                return self.each().map(|(.., is_gap)| Some(usize::from(is_gap))).collect();
            }
            if self.set == Set::OnPoint && gaps > 0 && (other, one) == (all - gaps, gaps) {
                return self.each().map(|(.., is_gap)| Some(usize::from(!is_gap))).collect();
            }
            if self.set == Set::Straight && one + other == all && one.abs_diff(other) <= 1 {
                let first = usize::from(one < other);
                return self.each().map(|(across, down, _)| Some((across + down + first) % 2)).collect();
            }
        }
        evenly(counts, self.places())
    }
}

/// The one that is most behind its share comes next.
fn evenly(counts: &[u64], places: usize) -> Vec<Option<usize>> {
    let all = counts.iter().map(|count| u128::from(*count)).sum::<u128>().max(1);
    let mut used = vec![0_u64; counts.len()];
    let mut laid = Vec::with_capacity(places);
    for number in 1..=places as u128 {
        let behind = |block: &usize| {
            let due = u128::from(counts[*block]) * number;
            i128::try_from(due).unwrap_or(i128::MAX)
                - i128::try_from(u128::from(used[*block]) * all).unwrap_or(i128::MAX)
        };
        let left = (0..counts.len()).filter(|block| used[*block] < counts[*block]);
        // The first of those that are as far behind.
        let next = left.rev().max_by_key(behind);
        if let Some(next) = next {
            used[next] += 1;
        }
        laid.push(next);
    }
    laid
}
