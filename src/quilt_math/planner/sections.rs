//! Strips in sections: some pieces as long as the strip is wide, and beside them sections of rows one above another.

use super::fill::Fill;
use super::items::List;
use super::layout::Grid;
use crate::quantity::common_divisor;

/// The most valuable stacks of rows for each width and height of a section.
pub(super) struct Sections<'l> {
    list: &'l List,
    demand: &'l [i64],
    prices: &'l [i64],
    /// The widths of rows, each with its fills.
    rows: Vec<(i64, Fill)>,
    heights: Vec<i64>,
    /// Widths and heights of sections are counted in these.
    step: (i64, i64),
    size: (usize, usize),
    /// The best value for each width and height.
    best: Vec<i64>,
    /// The row on top of the best stack, counted from one; nought for none.
    top: Vec<u8>,
}

/// The largest table of sections.
const MAX_TABLE: usize = 400_000;

/// How many widths of strips are tried beyond those of single pieces.
const MAX_SUMS: usize = 24;

impl<'l> Sections<'l> {
    pub(super) fn new(
        list: &'l List,
        heights: &[i64],
        demand: &'l [i64],
        prices: &'l [i64],
        tallest: i64,
    ) -> Sections<'l> {
        let rows: Vec<(i64, Fill)> = heights
            .iter()
            .map(|height| (*height, Fill::new(&list.kinds, demand, prices, list.width, *height)))
            .collect();
        let wanted = list.kinds.iter().zip(demand).filter(|(_, wanted)| **wanted > 0);
        let ways = wanted.flat_map(|(kind, _)| kind.ways.iter());
        let divide = |(across, along), way: &super::items::Way| {
            (common_divisor(i128::from(way.across), across), common_divisor(i128::from(way.along), along))
        };
        let (across, along) = ways.fold((0, 0), divide);
        let step = (i64::try_from(across).unwrap_or(1).max(1), i64::try_from(along).unwrap_or(1).max(1));
        let strip_heights = strip_heights(heights);
        let highest = strip_heights.last().copied().unwrap_or(0).max(tallest);
        let size = (slot(list.width / step.0) + 1, slot(highest / step.1) + 1);
        let mut sections = Sections {
            list,
            demand,
            prices,
            rows,
            heights: strip_heights,
            step,
            size,
            best: Vec::new(),
            top: Vec::new(),
        };
        if size.0.saturating_mul(size.1) <= MAX_TABLE {
            sections.best = vec![0; size.0 * size.1];
            sections.top = vec![0; size.0 * size.1];
            for across in 0..size.0 {
                sections.stack(across);
            }
        }
        sections
    }

    /// About how many steps it takes to find the best strips.
    pub(super) fn work(list: &List, heights: &[i64]) -> usize {
        let plain = super::plain::plain_work(list, heights);
        let divide = |divisor, way: &super::items::Way| common_divisor(i128::from(way.across), divisor);
        let step = list.kinds.iter().flat_map(|kind| &kind.ways).fold(0, divide);
        let width = usize::try_from(i128::from(list.width) / step.max(1)).unwrap_or(usize::MAX);
        let strips = strip_heights(heights).len();
        plain + MAX_TABLE.min(width * 200) * heights.len() + strips * width * (width / 4 + 10)
    }

    /// Stacks of rows in a section so wide, for each height.
    fn stack(&mut self, across: usize) {
        let width = units(across) * self.step.0;
        let values: Vec<(usize, i64)> =
            self.rows.iter().map(|(height, fill)| (self.row_slots(*height), fill.value(width))).collect();
        let (best, top) = (
            &mut self.best[across * self.size.1..][..self.size.1],
            &mut self.top[across * self.size.1..][..self.size.1],
        );
        for at in 1..best.len() {
            let mut most = (best[at - 1], 0);
            for (number, (height, value)) in values.iter().enumerate() {
                // More of a kind than is wanted may lie in a stack, so its value is limited by the numbers alone.
                if *value > 0 && *height <= at && best[at - height].saturating_add(*value) > most.0 {
                    most = (best[at - height].saturating_add(*value), number + 1);
                }
            }
            best[at] = most.0;
            top[at] = u8::try_from(most.1).unwrap_or(0);
        }
    }

    /// How much of a section a row takes: rounded up, since a row may be as wide as a piece that is no longer wanted.
    fn row_slots(&self, height: i64) -> usize {
        slot((height + self.step.1 - 1) / self.step.1)
    }

    /// The widths of strips that are tried.
    pub(super) fn strip_heights(&self) -> Vec<i64> {
        self.heights.clone()
    }

    /// The best strip so long and so wide, with its value: pieces as in a plain strip first, then up to two sections.
    pub(super) fn strip(&self, length: i64, height: i64) -> Option<(Vec<Grid>, i64)> {
        if self.best.is_empty() || slot(height / self.step.1) >= self.size.1 {
            return None;
        }
        let plain = Fill::new(&self.list.kinds, self.demand, self.prices, length, height);
        let most = slot(length / self.step.0).min(self.size.0 - 1);
        let values: Vec<i64> =
            (0..=most).map(|across| self.best[across * self.size.1 + slot(height / self.step.1)]).collect();
        // Two sections beside one another, for each width of both.
        let sums = |both: usize| {
            let (ones, others) = (&values[..=both / 2], values[..=both].iter().rev());
            ones.iter().zip(others).map(|(one, other)| one.saturating_add(*other))
        };
        let pairs: Vec<i64> = (0..=most).map(|both| sums(both).max().unwrap_or(0)).collect();
        let split =
            (0..=most).map(|both| (plain.value(length - units(both) * self.step.0).saturating_add(pairs[both]), both));
        let (worth, both) = split.max_by_key(|(worth, both)| (*worth, std::cmp::Reverse(*both)))?;
        let beside = length - units(both) * self.step.0;
        let mut grids = plain.grids(beside);
        let mut from = grids.iter().map(Grid::end).max().unwrap_or(0);
        let one = sums(both).enumerate().rfind(|(_, sum)| *sum == pairs[both]).map_or(0, |(one, _)| one);
        for across in [both - one, one] {
            self.section(across, height, from, &mut grids);
            from += units(across) * self.step.0;
        }
        self.limit(&mut grids);
        let worth_limited = grids.iter().map(|grid| grid.count * self.prices[grid.kind]).sum::<i64>().min(worth);
        Some((grids, worth_limited))
    }

    fn section(&self, across: usize, height: i64, from: i64, grids: &mut Vec<Grid>) {
        let mut at = slot(height / self.step.1);
        let mut above = 0;
        let width = units(across) * self.step.0;
        while at > 0 {
            let Some(number) = usize::from(self.top[across * self.size.1 + at]).checked_sub(1) else {
                at -= 1;
                continue;
            };
            let (height, fill) = &self.rows[number];
            let row = fill.grids(width);
            grids.extend(row.into_iter().map(|grid| Grid { from: from + grid.from, above, ..grid }));
            above += i64::try_from(self.row_slots(*height)).unwrap_or(0) * self.step.1;
            at -= self.row_slots(*height);
        }
    }

    /// No more pieces of a kind than are wanted.
    fn limit(&self, grids: &mut Vec<Grid>) {
        let mut left = self.demand.to_vec();
        for grid in &mut *grids {
            grid.count = grid.count.min(left[grid.kind]);
            left[grid.kind] -= grid.count;
        }
        grids.retain(|grid| grid.count > 0);
    }
}

/// Widths of single pieces, and sums of two of them.
fn strip_heights(heights: &[i64]) -> Vec<i64> {
    let mut sums: Vec<i64> = heights
        .iter()
        .enumerate()
        .flat_map(|(number, one)| heights[number..].iter().map(move |other| one + other))
        .collect();
    sums.sort_unstable();
    sums.dedup();
    sums.truncate(MAX_SUMS);
    sums.extend(heights);
    sums.sort_unstable();
    sums.dedup();
    sums
}

fn slot(units: i64) -> usize {
    usize::try_from(units).unwrap_or(0)
}

fn units(slot: usize) -> i64 {
    i64::try_from(slot).unwrap_or(0)
}
