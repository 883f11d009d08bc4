//! Plans of small fabrics that the strips of one fabric after another do not find: pieces dealt out evenly, and pieces that
//! lie in one row.
//!
//! Both only ever find fewer fabrics; what no way of cutting can do without is decided elsewhere.

use super::cutting::{CutGrid, CutStrips, DecidedSmall};
use super::items::Item;
use crate::quantity::{Count, Length};

/// How many numbers of fabrics are tried between the least and what was found.
const TRIED: usize = 3;
/// How many ways of filling a row are looked at, and how many of all rows together.
const LOOKED_AT: u32 = 20_000;
const LOOKED_AT_IN_ALL: u32 = 200_000;

/// The same decision, with a plan that takes fewer fabrics where one is found; `decide` says what one fabric holds.
pub(super) fn with_fewer(
    items: &[Item],
    (across, along): (Length, Length),
    decided: DecidedSmall,
    decide: impl Fn(&[Item]) -> Option<DecidedSmall>,
) -> DecidedSmall {
    if decided.least >= decided.count {
        return decided;
    }
    let rows = in_rows(items, across, along).filter(|fabrics| total(fabrics) < decided.count);
    let decided = match rows {
        Some(fabrics) => DecidedSmall { count: total(&fabrics), fabrics, ..decided },
        None => decided,
    };
    let tried = decided.least.0.max(2)..decided.count.0;
    let even = tried.take(TRIED).find_map(|number| dealt_out(items, (across, along), Count(number), &decide));
    match even {
        Some(fabrics) => DecidedSmall { count: total(&fabrics), fabrics, ..decided },
        None => decided,
    }
}

fn total(fabrics: &[CutStrips]) -> Count {
    fabrics.iter().fold(Count(0), |sum, fabric| sum + fabric.count)
}

/// So many fabrics, each with its share of every kind rounded up, but for what the last ones need not give.
fn dealt_out(
    items: &[Item],
    (across, along): (Length, Length),
    number: Count,
    decide: impl Fn(&[Item]) -> Option<DecidedSmall>,
) -> Option<Vec<CutStrips>> {
    let share = |item: &Item| Some(Item { count: item.count.in_groups_of(number)?, ..*item });
    let shares: Vec<Item> = items.iter().map(share).collect::<Option<_>>()?;
    // Most shares are plainly more than one fabric holds.
    let covered = |item: &Item| (item.across.ticks() * item.along.ticks()).saturating_mul(i128::from(item.count.0));
    if shares.iter().fold(0i128, |sum, item| sum.saturating_add(covered(item))) > across.ticks() * along.ticks() {
        return None;
    }
    let one = decide(&shares).filter(|one| one.count == Count(1))?;
    let [fabric] = one.fabrics.as_slice() else { return None };
    let over = items.iter().zip(&shares).map(|(item, share)| (share.count * number).less(item.count).0).collect();
    Some(alike(fabric, number, over))
}

/// So many fabrics that are cut alike, but for the pieces that are more than enough, by their items: the last ones are cut
/// without them.
pub fn alike(fabric: &CutStrips, number: Count, mut over: Vec<u64>) -> Vec<CutStrips> {
    let mut fabrics = Vec::new();
    let mut whole = number;
    while over.iter().any(|over| *over > 0) && whole.0 > 0 {
        whole = whole.less(Count(1));
        fabrics.push(CutStrips { count: Count(1), grids: without(&fabric.grids, &mut over), ..fabric.clone() });
    }
    let alike = (whole.0 > 0).then(|| CutStrips { count: whole, ..fabric.clone() });
    alike.into_iter().chain(fabrics).collect()
}

/// The pieces of one fabric without those that are more than enough.
fn without(grids: &[CutGrid], over: &mut [u64]) -> Vec<CutGrid> {
    let left = grids.iter().filter_map(|grid| {
        let less = over[grid.item].min(grid.count.0);
        over[grid.item] -= less;
        let count = Count(grid.count.0 - less);
        (count.0 > 0).then_some(CutGrid { count, ..*grid })
    });
    left.collect()
}

/// Pieces that all lie side by side in one row of each fabric, each row filled as far as can be, the longest piece first;
/// `None` where a piece may lie another way, or one above another.
fn in_rows(items: &[Item], across: Length, along: Length) -> Option<Vec<CutStrips>> {
    let length = |item: &Item| {
        let fits = |long: Length, wide: Length| long <= across && wide <= along;
        let ways = [Some((item.across, item.along)), item.turns.then_some((item.along, item.across))];
        let mut ways: Vec<(Length, Length)> =
            ways.into_iter().flatten().filter(|(long, wide)| fits(*long, *wide)).collect();
        ways.dedup();
        match ways.as_slice() {
            [(long, wide)] if *wide * Count(2) > along && long.is_positive() => Some((*long, *wide)),
            _ => None,
        }
    };
    let lengths: Vec<(Length, Length)> = items
        .iter()
        .map(|item| if item.count.0 == 0 { Some((across, along)) } else { length(item) })
        .collect::<Option<_>>()?;
    let mut order: Vec<usize> = (0..items.len()).filter(|item| items[*item].count.0 > 0).collect();
    order.sort_by_key(|item| std::cmp::Reverse(lengths[*item].0));
    let mut left: Vec<u64> = items.iter().map(|item| item.count.0).collect();
    let (mut rows, mut looked_at): (Vec<CutStrips>, u32) = (Vec::new(), 0);
    while let Some(first) = order.iter().copied().find(|item| left[*item] > 0) {
        if looked_at > LOOKED_AT_IN_ALL {
            return None;
        }
        let mut filling = Filling { lengths: &lengths, order: &order, left: &left, looked_at: 0, best: None };
        let mut row = vec![0; items.len()];
        row[first] = 1;
        filling.fill(0, across - lengths[first].0, &mut row);
        looked_at += filling.looked_at;
        let (row, _) = filling.best?;
        let times =
            row.iter().zip(&left).filter(|(of_row, _)| **of_row > 0).map(|(of_row, left)| left / of_row).min()?;
        for (left, of_row) in left.iter_mut().zip(&row) {
            *left -= of_row * times;
        }
        rows.push(CutStrips { count: Count(times), width: along, remnant: None, grids: grids(&row, &order, &lengths) });
    }
    Some(rows)
}

/// A row as it is cut, the longest piece first.
fn grids(row: &[u64], order: &[usize], lengths: &[(Length, Length)]) -> Vec<CutGrid> {
    let mut from = Length::ZERO;
    let mut grids = Vec::new();
    for item in order.iter().copied().filter(|item| row[*item] > 0) {
        let ((across, along), count) = (lengths[item], Count(row[item]));
        grids.push(CutGrid { item, from, above: Length::ZERO, across, along, stacked: Count(1), count });
        from = from + across * count;
    }
    grids
}

/// Looking for the pieces that fill a row best.
struct Filling<'l> {
    lengths: &'l [(Length, Length)],
    order: &'l [usize],
    left: &'l [u64],
    looked_at: u32,
    /// The best row with what it leaves.
    best: Option<(Vec<u64>, Length)>,
}

impl Filling<'_> {
    fn fill(&mut self, from: usize, room: Length, row: &mut Vec<u64>) {
        self.looked_at += 1;
        if self.best.as_ref().is_none_or(|(_, least)| room < *least) {
            self.best = Some((row.clone(), room));
        }
        let is_done = self.looked_at > LOOKED_AT || self.best.as_ref().is_some_and(|(_, least)| *least == Length::ZERO);
        let Some(item) = self.order.get(from).copied().filter(|_| !is_done) else { return };
        let long = self.lengths[item].0;
        let most = room.pieces_of(long).0.min(self.left[item] - row[item]);
        for more in (0..=most).rev() {
            row[item] += more;
            self.fill(from + 1, room - long * Count(more), row);
            row[item] -= more;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{in_rows, total};
    use crate::quantity::{Count, Length};
    use crate::quilt_math::planner::Item;

    fn item(across: (i64, i64), count: u64) -> Item {
        let along = Length::inch_fraction(5, 2);
        Item { across: Length::inch_fraction(across.0, across.1), along, count: Count(count), turns: true }
    }

    /// 6 of 6 1/2 and 1 of 2 1/2 are 41 1/2; 2 of 6 1/2 and 6 of 4 1/2 are 40; 2 of 4 1/2 and 7 of 2 1/2 are 26 1/2.
    #[test]
    fn rows_are_filled_as_far_as_can_be() {
        let items = [item((5, 2), 8), item((9, 2), 8), item((13, 2), 8)];
        let rows = in_rows(&items, Length::inch_fraction(42, 1), Length::inch_fraction(5, 2)).expect("rows");
        assert_eq!(total(&rows), Count(3));
        for (number, item) in items.iter().enumerate() {
            let of_item = |row: &super::CutStrips| {
                row.grids.iter().filter(|grid| grid.item == number).map(|grid| grid.count.0).sum::<u64>() * row.count.0
            };
            assert_eq!(rows.iter().map(of_item).sum::<u64>(), item.count.0);
        }
    }
}
