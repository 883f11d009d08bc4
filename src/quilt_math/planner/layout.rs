//! How pieces lie: grids of alike pieces in strips.

use super::cutting::{CutGrid, CutStrips, Cutting};
use super::items::List;
use super::parts::in_order;
use crate::quantity::{Count, Length};

impl Cutting {
    /// How much of the fabric's length it takes.
    pub fn length(&self) -> Length {
        self.strips.iter().filter(|strips| strips.remnant.is_none()).map(|strips| strips.width * strips.count).sum()
    }

    pub(super) fn new(list: &List, strips: &[Strip]) -> Cutting {
        let mut all: Vec<CutStrips> =
            strips.iter().flat_map(|strip| in_order(cut_strips(list, strip), strip.from == From::Fabric)).collect();
        all.sort_by(|one, other| (one.remnant, other.width, &one.grids).cmp(&(other.remnant, one.width, &other.grids)));
        let mut cutting = Cutting::default();
        for strips in all {
            match cutting.strips.last_mut() {
                Some(before)
                    if (before.width, before.remnant, &before.grids)
                        == (strips.width, strips.remnant, &strips.grids) =>
                {
                    before.count = before.count + strips.count;
                }
                _ => cutting.strips.push(strips),
            }
        }
        cutting
    }
}

/// Strips in lengths, by the numbers of the items.
fn cut_strips(list: &List, strip: &Strip) -> CutStrips {
    let count = |count: i64| Count(u64::try_from(count).unwrap_or(0));
    let grid = |grid: &Grid| CutGrid {
        item: list.items[grid.kind],
        from: list.length(grid.from),
        above: list.length(grid.above),
        across: list.length(grid.across),
        along: list.length(grid.along),
        stacked: count(grid.rows),
        count: count(grid.count),
    };
    CutStrips {
        count: count(strip.times),
        width: list.length(strip.height),
        remnant: if let From::Offcut(offcut) = strip.from { Some(list.remnants[offcut]) } else { None },
        grids: strip.grids.iter().map(grid).collect(),
    }
}

/// A grid of alike pieces, its rows along the strip and one above another.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Grid {
    /// Which kind.
    pub(super) kind: usize,
    /// How far from the strip's end it begins.
    pub(super) from: i64,
    /// How far from the strip's edge it begins.
    pub(super) above: i64,
    /// The side of each that lies across the fabric.
    pub(super) across: i64,
    /// The side of each that lies along the bolt.
    pub(super) along: i64,
    /// How many lie one above another before the next lies further along the strip.
    pub(super) rows: i64,
    /// How many there are; the last column may have fewer than the others.
    pub(super) count: i64,
}

impl Grid {
    /// Where it ends along the strip.
    pub(super) fn end(&self) -> i64 {
        self.from + self.across * columns(self.count, self.rows)
    }

    /// Where it ends across the strip.
    pub(super) fn top(&self) -> i64 {
        self.above + self.along * self.rows.min(self.count)
    }
}

pub(super) fn columns(count: i64, rows: i64) -> i64 {
    (count + rows - 1) / rows.max(1)
}

/// Where a strip is cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum From {
    /// The fabric itself: it takes as much as it is wide.
    Fabric,
    /// One of the offcuts, by its number: it takes one of them.
    Offcut(usize),
    /// A small fabric, whole.
    Small,
    /// The room beside lengthwise pieces, by its number: it takes as much of its length as it is wide.
    Beside(usize),
}

/// Strips that are cut alike.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Strip {
    pub(super) from: From,
    /// How wide it is.
    pub(super) height: i64,
    pub(super) grids: Vec<Grid>,
    pub(super) times: i64,
}

impl Strip {
    /// How many of each kind come out of all of them.
    pub(super) fn pieces(&self, kinds: usize) -> Vec<i64> {
        let mut pieces = vec![0; kinds];
        for grid in &self.grids {
            pieces[grid.kind] += grid.count * self.times;
        }
        pieces
    }

    /// How many pieces come out of one of them.
    pub(super) fn pieces_in_all(&self) -> i64 {
        self.grids.iter().map(|grid| grid.count).sum()
    }

    /// Lays grids that stand side by side on the strip's edge one right after another, the widest first.
    fn close_gaps(&mut self) {
        if self.grids.iter().any(|grid| grid.above > 0) {
            return;
        }
        self.grids.sort_by_key(|grid| (std::cmp::Reverse((grid.along, grid.across)), grid.kind));
        let mut from = 0;
        for grid in &mut self.grids {
            grid.from = from;
            from = grid.end();
        }
    }

    /// How much of the fabric's length all of them take.
    pub(super) const fn cost(&self) -> i64 {
        match self.from {
            From::Fabric => self.height * self.times,
            From::Small => self.times,
            From::Offcut(_) | From::Beside(_) => 0,
        }
    }
}

/// How much of the fabric's length strips take.
pub(super) fn length(strips: &[Strip]) -> i64 {
    strips.iter().map(Strip::cost).sum()
}

/// Takes out what is more than the demand, from the last strips first, and makes strips as narrow as they can be.
pub(super) fn trim(mut strips: Vec<Strip>, demand: &[i64]) -> Vec<Strip> {
    for (kind, wanted) in demand.iter().enumerate() {
        let made: i64 = strips.iter().map(|strip| strip.pieces(demand.len())[kind]).sum();
        let mut excess = made - wanted;
        let mut index = strips.len();
        while excess > 0 && index > 0 {
            index -= 1;
            excess -= take_out(&mut strips, index, kind, excess);
        }
    }
    for strip in &mut strips {
        strip.grids.retain(|grid| grid.count > 0);
        strip.close_gaps();
        if strip.from == From::Fabric {
            strip.height = strip.grids.iter().map(Grid::top).max().unwrap_or(0);
        }
    }
    strips.retain(|strip| strip.times > 0 && !strip.grids.is_empty());
    strips
}

/// Takes so many pieces of a kind, or as many as there are, out of strips. How many were taken out.
fn take_out(strips: &mut Vec<Strip>, index: usize, kind: usize, excess: i64) -> i64 {
    let mut taken = 0;
    for grid in 0..strips[index].grids.len() {
        let (times, count) = (strips[index].times, strips[index].grids[grid].count);
        let left = excess - taken;
        if strips[index].grids[grid].kind != kind || left <= 0 || count == 0 {
            continue;
        }
        if left >= count * times {
            strips[index].grids[grid].count = 0;
            taken += count * times;
            continue;
        }
        let mut emptied = strips[index].clone();
        emptied.grids[grid].count = 0;
        emptied.times = left / count;
        let mut partly = strips[index].clone();
        partly.grids[grid].count = count - left % count;
        partly.times = i64::from(left % count > 0);
        strips[index].times -= emptied.times + partly.times;
        strips.extend([partly, emptied].into_iter().filter(|strip| strip.times > 0));
        return excess;
    }
    taken
}
