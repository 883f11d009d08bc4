//! The most valuable pieces that come out of one strip: a bounded knapsack in whole numbers.

use super::items::{Kind, Way};
use super::layout::Grid;
use crate::quantity::common_divisor;

/// The best fills of strips of one width, for each length up to the longest.
pub(super) struct Fill {
    /// Lengths are counted in this.
    step: i64,
    runs: Vec<Run>,
    /// The best value for each length.
    best: Vec<i64>,
    /// For each run, how many columns of it the best fill so far has at each length.
    chosen: Vec<u32>,
}

/// Columns of alike pieces, stacked as high as the strip is wide.
struct Run {
    kind: usize,
    way: Way,
    rows: i64,
    most: i64,
}

impl Fill {
    /// Fills strips so wide and up to so long with at most as many pieces as are wanted of each kind.
    pub(super) fn new(kinds: &[Kind], demand: &[i64], prices: &[i64], longest: i64, height: i64) -> Fill {
        let mut runs = Vec::new();
        let mut step = 0;
        for (kind, each) in kinds.iter().enumerate() {
            if demand[kind] <= 0 || prices[kind] <= 0 {
                continue;
            }
            for way in each.ways.iter().filter(|way| way.across <= longest && way.along <= height) {
                runs.push(Run { kind, way: *way, rows: height / way.along, most: demand[kind] });
                step = common_divisor(i128::from(way.across), step);
            }
        }
        let step = i64::try_from(step).unwrap_or(1).max(1);
        let size = index(longest / step) + 1;
        let mut fill = Fill { step, best: vec![0; size], chosen: vec![0; size * runs.len()], runs };
        for run in 0..fill.runs.len() {
            fill.add(run, prices);
        }
        fill
    }

    fn add(&mut self, number: usize, prices: &[i64]) {
        let size = self.best.len();
        let run = &self.runs[number];
        let (wide, price) = (index(run.way.across / self.step), prices[run.kind]);
        let chosen = &mut self.chosen[number * size..][..size];
        let full = run.most / run.rows;
        if index(full) >= size / wide {
            let value = price * run.rows;
            for at in wide..size {
                let with = self.best[at - wide] + value;
                if with > self.best[at] {
                    self.best[at] = with;
                    chosen[at] = chosen[at - wide] + 1;
                }
            }
            return;
        }
        let columns = index(full + i64::from(run.most % run.rows > 0));
        let values: Vec<i64> = (0..=columns).map(|columns| price * (count(columns) * run.rows).min(run.most)).collect();
        for at in (wide..size).rev() {
            let mut best = (self.best[at], 0);
            for (columns, value) in values.iter().enumerate().take(at / wide + 1).skip(1) {
                let with = self.best[at - columns * wide] + value;
                if with > best.0 {
                    best = (with, columns);
                }
            }
            self.best[at] = best.0;
            chosen[at] = u32::try_from(best.1).unwrap_or(0);
        }
    }

    /// The value of the best fill of a strip so long.
    pub(super) fn value(&self, length: i64) -> i64 {
        self.best[index(length / self.step).min(self.best.len() - 1)]
    }

    /// The best fill of a strip so long.
    pub(super) fn grids(&self, length: i64) -> Vec<Grid> {
        let size = self.best.len();
        let mut at = index(length / self.step).min(size - 1);
        let (mut grids, mut from) = (Vec::new(), 0);
        let mut left: Vec<(usize, i64)> = Vec::new();
        for (number, run) in self.runs.iter().enumerate().rev() {
            let columns = i64::from(self.chosen[number * size + at]);
            if columns == 0 {
                continue;
            }
            at -= index(columns * run.way.across / self.step);
            let used: i64 = left.iter().filter(|(kind, _)| *kind == run.kind).map(|(_, count)| count).sum();
            let count = (columns * run.rows).min(run.most - used);
            if count > 0 {
                let Way { across, along } = run.way;
                grids.push(Grid { kind: run.kind, from, above: 0, across, along, rows: run.rows, count });
                from += columns * across;
                left.push((run.kind, count));
            }
        }
        grids
    }
}

fn index(units: i64) -> usize {
    usize::try_from(units).unwrap_or(0)
}

fn count(index: usize) -> i64 {
    i64::try_from(index).unwrap_or(i64::MAX)
}
