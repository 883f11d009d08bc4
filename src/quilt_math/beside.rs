//! What is left of the fabric's width beside pieces that are cut along it, and whether other pieces come out of it.
//!
//! Pieces along the bolt lie side by side in rows, each row as long as they are (common practice for borders without
//! joins). What is left beside them is as long, and as wide as the usable width less the pieces.

use super::planner::{CutGrid, Item, Remnant, decide_small, decision};
use crate::quantity::{Count, Length};

/// Pieces along the bolt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rows {
    /// How wide each piece is.
    pub width: Length,
    /// How long each piece is.
    pub length: Length,
    /// How many there are.
    pub count: Count,
    /// The usable width of fabric.
    pub usable: Length,
}

/// Whether pieces come out of what is left beside others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    /// A way of cutting is known.
    Fits,
    /// No way of cutting fits.
    Short,
    /// Neither is known.
    Undecided,
}

impl Rows {
    /// What is left beside them in as few rows as can be: the rows that are full, and the last one.
    pub fn left(&self) -> Vec<Remnant> {
        let each = self.usable.pieces_of(self.width);
        if each.0 == 0 || self.count.0 == 0 {
            return Vec::new();
        }
        let (full, last) = (Count(self.count.0 / each.0), Count(self.count.0 % each.0));
        let beside = |pieces: Count, rows: Count| {
            let across = self.usable - self.width * pieces;
            (rows.0 > 0 && across.is_positive()).then_some(Remnant { across, along: self.length, count: rows })
        };
        let last = if last.0 > 0 { beside(last, Count(1)) } else { None };
        beside(each, full).into_iter().chain(last).collect()
    }

    /// How pieces lie beside those of one row, by their places among the items; `None` for more rows than one, and where
    /// no plan is known.
    pub fn plan_of_one(&self, items: &[Item]) -> Option<Vec<CutGrid>> {
        let [room] = self.left()[..] else { return None };
        let decided = decide_small(items, room.across, room.along).filter(|_| room.count == Count(1))?;
        let from = self.usable - room.across;
        let moved = |grid: &CutGrid| CutGrid { from: from + grid.from, ..*grid };
        match decided.fabrics.as_slice() {
            [] => Some(Vec::new()),
            [one] if one.count == Count(1) => Some(one.grids.iter().map(moved).collect()),
            _ => None,
        }
    }

    /// Whether pieces come out of what is left, where so much fabric is bought.
    pub fn hold(&self, items: &[Item], bought: Option<Length>) -> Beside {
        if items.iter().all(|item| item.count.0 == 0) {
            return Beside::Fits;
        }
        let left = self.left();
        let one_room = match left.as_slice() {
            [room] if room.count == Count(1) => decide_small(items, room.across, room.along),
            _ => None,
        };
        if one_room.as_ref().is_some_and(|decided| decided.count.0 <= 1) {
            return Beside::Fits;
        }
        if !left.is_empty()
            && decision(items, self.usable, &left).best().is_some_and(|plan| !plan.length().is_positive())
        {
            return Beside::Fits;
        }
        // More rows than one leave room that may be shared among them otherwise.
        let one_row = bought.is_some_and(|bought| bought < self.length * 2);
        let fits_none = |room: &Remnant| items.iter().any(|item| item.count.0 > 0 && !fits(item, room));
        let of_one_row = match left.as_slice() {
            [] => true,
            [room] => fits_none(room) || one_room.is_some_and(|decided| decided.least.0 > 1),
            _ => false,
        };
        if one_row && of_one_row || bought.is_some_and(|bought| self.lacks_area(items, bought)) {
            return Beside::Short;
        }
        Beside::Undecided
    }

    /// Whether all rows that the fabric has room for leave less than the pieces cover.
    fn lacks_area(&self, items: &[Item], bought: Length) -> bool {
        let rows = i128::from(bought.pieces_of(self.length).0);
        let ticks = |length: Length| length.ticks();
        let pieces = i128::from(self.count.0);
        let left = (rows * ticks(self.usable) - pieces * ticks(self.width)).max(0) * ticks(self.length);
        let covered = items.iter().map(|item| ticks(item.across) * ticks(item.along) * i128::from(item.count.0));
        covered.sum::<i128>() > left
    }
}

/// Whether a piece lies in a room some way round.
fn fits(item: &Item, room: &Remnant) -> bool {
    let given = item.across <= room.across && item.along <= room.along;
    given || item.turns && item.along <= room.across && item.across <= room.along
}
