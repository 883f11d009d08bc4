//! Pieces that the text cuts from what is left beside others.

use std::sync::Arc;

pub use super::fabric_size::BesideNeeds;
use super::fabric_size::{FabricNeeds, FabricSize};
use crate::manuscript::model::Bought;
use crate::quantity::{Count, Length};
use crate::quilt_math::beside::Rows;
use crate::quilt_math::cutting::{Cloth, Cut, Shape};
use crate::quilt_math::cutting_list::taken;
use crate::quilt_math::plan::{StripCut, Strips};
use crate::quilt_math::planner::{CutGrid, Item};
use crate::quilt_math::taken::Taken;

impl BesideNeeds {
    /// The row as it is cut, with what is cut beside the pieces; `None` for more rows than one.
    fn row(&self) -> Option<Strips> {
        let items: Vec<Item> = self.entries.iter().map(|(_, item)| *item).collect();
        let beside = self.rows.plan_of_one(&items)?;
        let Rows { width, length, count, usable } = self.rows;
        let laid = |grid: &CutGrid| StripCut::of_grid(self.entries[grid.item].0, grid);
        let (from, stacked) = (Length::ZERO, Count(1));
        let along = StripCut { piece: self.of, count, from, above: from, across: width, along: length, stacked };
        let cuts: Vec<StripCut> = std::iter::once(along).chain(beside.iter().map(laid)).collect();
        let columns = |cut: &StripCut| cut.count.in_groups_of(cut.stacked).unwrap_or_default();
        let end = cuts.iter().map(|cut| cut.from + cut.across * columns(cut)).max().unwrap_or_default();
        Some(Strips { count: Count(1), width: length, cuts, rest: usable - end })
    }
}

/// The plan that the text tells, each row with what is cut beside its pieces, and everything else after it; `None` where
/// it tells no such row, or a row is not known.
pub(super) fn stated_plan(beside: &[BesideNeeds], cuts: &[Cut], cloth: Cloth) -> Option<Taken> {
    if beside.is_empty() {
        return None;
    }
    let rows: Vec<Strips> = beside.iter().map(BesideNeeds::row).collect::<Option<_>>()?;
    let in_rows = |place: usize| {
        beside.iter().any(|beside| beside.of == place || beside.entries.iter().any(|(entry, _)| *entry == place))
    };
    let none = |count: Option<Count>| count.map(|_| Count(0));
    let others = cuts.iter().enumerate().map(|(place, cut)| {
        if in_rows(place) { Cut { strips: none(cut.strips), pieces: none(cut.pieces), ..*cut } } else { *cut }
    });
    let mut plan = taken(&others.collect::<Vec<Cut>>(), cloth)?;
    Arc::make_mut(&mut plan.plan).strips.splice(..0, rows);
    Some(plan)
}

/// What is decided about each piece along the bolt beside which others are cut.
pub(super) fn beside(fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Vec<BesideNeeds> {
    let stated = &fabric.stated.cut;
    if stated.iter().all(|cut| cut.beside_entry.is_none()) || size.sharing.is_some() {
        return Vec::new();
    }
    let Some(Cloth::Bolt { width: usable }) = fabric.cloth else { return Vec::new() };
    let bought = match size.required {
        Some(Bought::Amount(amount)) => Some(size.shrinks.left_of(amount.value.most().0)),
        Some(Bought::Count(_)) | None => None,
    };
    let of = |entry: usize| {
        let along = size.cuts.get(entry).copied().flatten()?;
        let Shape::Lengthwise { width, length } = along.shape else { return None };
        let count = along.strips.or(along.pieces)?;
        let cut_beside = stated.iter().enumerate().filter(|(_, cut)| cut.beside_entry == Some(entry));
        let entries: Option<Vec<(usize, Item)>> =
            cut_beside.map(|(place, _)| Some((place, item(size, place)?))).collect();
        let entries = entries.filter(|entries| !entries.is_empty())?;
        let rows = Rows { width, length, count, usable };
        let items: Vec<Item> = entries.iter().map(|(_, item)| *item).collect();
        let decided = rows.hold(&items, bought);
        Some(BesideNeeds { of: entry, entries, rows, decided })
    };
    (0..stated.len()).filter_map(of).collect()
}

fn item(size: &FabricSize<'_>, entry: usize) -> Option<Item> {
    let cut = size.cuts.get(entry).copied().flatten()?;
    let Shape::Piece { width, height, turns, .. } = cut.shape else { return None };
    Some(Item { across: width, along: height, count: cut.pieces?, turns })
}
