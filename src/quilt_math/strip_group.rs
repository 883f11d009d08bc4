//! Strips from which pieces of several kinds are cut: how many strips hold them, decided by proof.
//!
//! Lengths are packed strip by strip: that all lengths together are no more than all strips together is necessary and
//! not enough (plain geometry). Pieces may be turned, unless the print says otherwise, and may lie one above another.

use std::sync::{Arc, OnceLock};

use super::cutting::{Cloth, Cut, Shape};
use super::kept::Kept;
use super::plan::plan_strips;
use super::plan::{Piece, Plan, Strips, plan_on_small};
use super::planner::{CutGrid, CutStrips, DecidedSmall, Item, decide_small, fewest_by_area, fewest_by_scales};
use super::taken::Taken;
use crate::quantity::{Count, Length};

/// The strips that several pieces are cut from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StripGroup {
    /// The entry of the cutting list that states the strips.
    pub entry: usize,
    /// How long each strip is.
    pub across: Length,
    /// How wide each strip is.
    pub along: Length,
    /// The pieces, each with its entry.
    pub pieces: Vec<(usize, Item)>,
    /// What is cut from each strip, by the entries of the list; nothing where only their number is known.
    pub strips: Vec<CutStrips>,
    /// How many strips hold the pieces.
    pub needed: Count,
    /// No way of cutting takes fewer.
    pub least: Count,
}

/// The strips of a list from which several pieces are cut.
pub fn strip_groups(cuts: &[Cut], cloth: Cloth) -> Vec<StripGroup> {
    if cuts.iter().all(|cut| cut.within.is_none()) {
        return Vec::new();
    }
    (0..cuts.len()).filter_map(|entry| strip_group(cuts, entry, cloth)).collect()
}

/// The strips that one entry states for several pieces; `None` where it states none, or a piece does not come out of
/// them.
fn strip_group(cuts: &[Cut], entry: usize, cloth: Cloth) -> Option<StripGroup> {
    let Shape::WholeStrip { width: along } = cuts.get(entry)?.shape else { return None };
    let across = cloth.strip_length();
    let members = cuts.iter().enumerate().filter(|(_, cut)| cut.within == Some(entry));
    let pieces: Vec<(usize, Item)> = members.map(|(place, cut)| Some((place, item(cut)?))).collect::<Option<_>>()?;
    if pieces.is_empty() {
        return None;
    }
    let kinds = alike(&pieces);
    let items: Vec<Item> = kinds.iter().map(|(item, _)| *item).collect();
    let decided = kept(&items, across, along)?;
    let mut left: Vec<Vec<(usize, Count)>> = kinds.into_iter().map(|(_, entries)| entries).collect();
    let strips = decided.fabrics.iter().flat_map(|strips| by_entries(strips, along, &mut left)).collect();
    Some(StripGroup { entry, across, along, strips, needed: decided.count, least: decided.least, pieces })
}

fn item(cut: &Cut) -> Option<Item> {
    let Shape::Piece { width, height, turns, .. } = cut.shape else { return None };
    Some(Item { across: width, along: height, count: cut.pieces?, turns })
}

/// Pieces that are cut alike as one kind, with the entries that give them.
fn alike(pieces: &[(usize, Item)]) -> Vec<(Item, Vec<(usize, Count)>)> {
    let mut kinds: Vec<(Item, Vec<(usize, Count)>)> = Vec::new();
    for (entry, item) in pieces {
        let same = |kind: &&mut (Item, _)| {
            (kind.0.across, kind.0.along, kind.0.turns) == (item.across, item.along, item.turns)
        };
        match kinds.iter_mut().find(same) {
            Some((kind, entries)) => {
                kind.count = kind.count + item.count;
                entries.push((*entry, item.count));
            }
            None => kinds.push((*item, vec![(*entry, item.count)])),
        }
    }
    kinds
}

/// Strips of kinds as strips of entries, of which so many pieces are still to be cut.
fn by_entries(strips: &CutStrips, width: Length, left: &mut [Vec<(usize, Count)>]) -> Vec<CutStrips> {
    let mut made: Vec<CutStrips> = Vec::new();
    let mut strips_left = strips.count.0;
    while strips_left > 0 {
        // As many strips as the first entry of each kind fills, and one of several entries where it does not.
        let whole = strips.grids.iter().map(|grid| {
            let of_kind: u64 =
                strips.grids.iter().filter(|other| other.item == grid.item).map(|other| other.count.0).sum();
            left[grid.item].first().map_or(0, |(_, count)| count.0 / of_kind.max(1))
        });
        let count = whole.min().unwrap_or(strips_left).min(strips_left);
        let mut grids = Vec::new();
        for grid in &strips.grids {
            if count > 0 {
                grids.extend(
                    take(&mut left[grid.item], Count(grid.count.0 * count)).map(|item| CutGrid { item, ..*grid }),
                );
                continue;
            }
            grids.extend(
                cells(grid).filter_map(|cell| Some(CutGrid { item: take(&mut left[grid.item], Count(1))?, ..cell })),
            );
        }
        made.push(CutStrips { count: Count(count.max(1)), width, remnant: None, grids });
        strips_left -= count.max(1);
    }
    made
}

/// Takes pieces of a kind from the first entry that has any left: its number.
fn take(left: &mut Vec<(usize, Count)>, count: Count) -> Option<usize> {
    let (entry, of_entry) = left.first_mut()?;
    let entry = *entry;
    *of_entry = of_entry.less(count);
    if of_entry.0 == 0 {
        left.remove(0);
    }
    Some(entry)
}

/// The pieces of a grid one by one.
fn cells(grid: &CutGrid) -> impl Iterator<Item = CutGrid> {
    let (grid, stacked) = (*grid, grid.stacked.0.max(1));
    (0..grid.count.0).map(move |cell| CutGrid {
        from: grid.from + grid.across * Count(cell / stacked),
        above: grid.above + grid.along * Count(cell % stacked),
        stacked: Count(1),
        count: Count(1),
        ..grid
    })
}

type Key = (Vec<Item>, Length, Length);

static KEPT: Kept<Key, OnceLock<Option<DecidedSmall>>> = Kept::new();

/// What is decided about pieces in strips, found again at once where it was asked before.
fn kept(items: &[Item], across: Length, along: Length) -> Option<DecidedSmall> {
    let decided = KEPT.answer((items.to_vec(), across, along), items.len(), |_| OnceLock::new());
    decided.get_or_init(|| decide(items, across, along)).clone()
}

fn decide(items: &[Item], across: Length, along: Length) -> Option<DecidedSmall> {
    let fits = |item: &Item| {
        let given = item.across <= across && item.along <= along;
        given || item.turns && item.along <= across && item.across <= along
    };
    if !items.iter().all(|item| item.count.0 == 0 || fits(item)) {
        return None;
    }
    // Measures that are too fine for tables are still planned piece by piece.
    let decided = decide_small(items, across, along).or_else(|| {
        let piece = |item: &Item| {
            let Item { across, along, count, turns } = *item;
            Piece { across, along, count, turns, stated: None }
        };
        let (plan, count) = plan_on_small(&items.iter().map(piece).collect::<Vec<Piece>>(), across, along);
        let least = fewest_by_area(items, across, along);
        plan.left_over.is_empty().then(|| DecidedSmall { fabrics: Vec::new(), across, count, least: least.min(count) })
    })?;
    if decided.least >= decided.count {
        return Some(decided);
    }
    let least = decided.least.max(fewest_by_scales(items, across, along)).min(decided.count);
    Some(DecidedSmall { least, ..decided })
}

impl StripGroup {
    /// The strips of so many fabrics of which each gives these pieces.
    #[must_use]
    pub fn of_each(self, among: Count) -> StripGroup {
        let times = |strips: &CutStrips| CutStrips { count: strips.count * among, ..strips.clone() };
        let pieces = self.pieces.iter().map(|(entry, item)| (*entry, Item { count: item.count * among, ..*item }));
        StripGroup {
            strips: self.strips.iter().map(times).collect(),
            pieces: pieces.collect(),
            needed: self.needed * among,
            least: self.least * among,
            ..self
        }
    }

    /// So many strips with the pieces that are cut from them, and those beyond the need empty; `None` where they are too
    /// few, or only their number is known.
    pub(super) fn filled(&self, told: Count) -> Option<Vec<CutStrips>> {
        if told < self.needed || self.strips.is_empty() && self.needed.0 > 0 {
            return None;
        }
        let spare = told.less(self.needed);
        let empty = CutStrips { count: spare, width: self.along, remnant: None, grids: Vec::new() };
        Some(self.strips.iter().cloned().chain((spare.0 > 0).then_some(empty)).collect())
    }

    /// As many strips as are needed, as a plan; `None` where only their number is known.
    pub fn plan(&self) -> Option<Taken> {
        let plan = Arc::new(Plan { strips: self.planned(self.needed)?, left_over: Vec::new() });
        Some(Taken { plan, strip_length: self.across, small: None, joined: Vec::new() })
    }

    /// So many strips as those of a plan.
    pub(super) fn planned(&self, told: Count) -> Option<Vec<Strips>> {
        Some(self.filled(told)?.iter().map(|strips| plan_strips(strips, self.across)).collect())
    }
}
