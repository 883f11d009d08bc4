//! Strips that the text tells to cut, with their own pieces laid in them, and the room that they leave for pieces that
//! the text leaves open.

use super::cutting_list::List;
use super::plan::{Piece, StripCut, Strips, plan};
use super::planner::{CutGrid, CutStrips, Cutting, LeftOver, Remnant, parts};
use crate::quantity::{Count, Length};

/// Stated strips with the pieces that they are stated for.
#[derive(Debug, Default)]
pub(super) struct FilledStrips {
    strips: Vec<CutStrips>,
    /// Room at the ends of strips, and after that the room beside pieces in a strip's width.
    rooms: Vec<StripRemnant>,
    /// How many of the rooms are at the ends of strips.
    ends: usize,
    /// How wide the widest strips are from which several kinds of pieces are cut: how they lie is left to the reader.
    widest_group: Length,
}

/// Room in stated strips that are alike.
#[derive(Clone, Copy, Debug)]
struct StripRemnant {
    /// Which of the strips.
    strips: usize,
    /// How far from the strip's end it begins.
    from: Length,
    /// How far from the strip's edge it begins.
    above: Length,
    is: Remnant,
}

impl FilledStrips {
    /// Lays the pieces of a list in the strips that are stated for them; `None` where some fit no way round.
    pub(super) fn new(list: &List, usable: Length) -> Option<FilledStrips> {
        if !list.pieces.iter().any(is_stated) {
            return Some(FilledStrips::default());
        }
        let stated = list.pieces.iter().zip(&list.entries).filter(|(piece, _)| is_stated(piece));
        let (of_groups, stated): (Vec<_>, Vec<_>) = stated.partition(|(_, entry)| list.group_of(**entry).is_some());
        let (pieces, entries): (Vec<Piece>, Vec<usize>) = stated.into_iter().unzip();
        let plan = plan(&pieces, usable);
        if !plan.left_over.is_empty() {
            return None;
        }
        let mut ends: Vec<StripRemnant> = rooms(&plan.strips, |strips| Some(end(strips, usable)));
        let mut beside = rooms(&plan.strips, beside);
        let strips = plan.strips.iter().map(|strips| cut_strips(strips, Some(&entries))).collect();
        let mut filled = FilledStrips { strips, ends: 0, rooms: Vec::new(), widest_group: Length::ZERO };
        for (piece, entry) in of_groups {
            for room in filled.add_group(list, piece, *entry, usable) {
                let whole = room.is.along == filled.strips[room.strips].width;
                if whole { ends.push(room) } else { beside.push(room) }
            }
        }
        filled.ends = ends.len();
        filled.rooms = ends.into_iter().chain(beside).collect();
        Some(filled)
    }

    /// Adds strips from which pieces of several kinds are cut. The room that they leave.
    fn add_group(&mut self, list: &List, piece: &Piece, entry: usize, usable: Length) -> Vec<StripRemnant> {
        let mut rooms = Vec::new();
        let whole = || {
            let (across, along, count) = (piece.across, piece.along, Count(1));
            let from = Length::ZERO;
            let grid = CutGrid { item: entry, from, above: from, across, along, stacked: count, count };
            vec![CutStrips { count: piece.count, width: along, remnant: None, grids: vec![grid] }]
        };
        self.widest_group = self.widest_group.max(piece.along);
        let strips = list.group_of(entry).and_then(|group| group.filled(piece.count)).unwrap_or_else(whole);
        for strips in strips {
            let left = match parts(&strips.grids) {
                Some(part) => part.left_over(usable, strips.width),
                None if strips.grids.is_empty() => {
                    let (from, above) = (Length::ZERO, Length::ZERO);
                    vec![LeftOver { from, above, across: usable, along: strips.width }]
                }
                None => Vec::new(),
            };
            let room = |left: LeftOver| StripRemnant {
                strips: self.strips.len(),
                from: left.from,
                above: left.above,
                is: Remnant { across: left.across, along: left.along, count: strips.count },
            };
            rooms.extend(left.into_iter().map(room));
            self.strips.push(strips);
        }
        rooms
    }

    /// How much of the fabric's length they take.
    pub(super) fn length(&self) -> Length {
        self.strips.iter().map(|strips| strips.width * strips.count).sum()
    }

    /// What they leave at their ends.
    pub(super) fn ends(&self) -> Vec<Remnant> {
        self.rooms[..self.ends].iter().map(|room| room.is).collect()
    }

    /// What they leave at their ends and beside pieces.
    pub(super) fn remnants(&self) -> Vec<Remnant> {
        self.rooms.iter().map(|room| room.is).collect()
    }

    /// How wide the widest is that leaves any room.
    pub(super) fn widest(&self) -> Length {
        let with_room = self.rooms.iter().map(|room| self.strips[room.strips].width).max().unwrap_or_default();
        with_room.max(self.widest_group)
    }

    /// A plan of the other pieces with these strips in front, what is cut from their rooms in its place.
    pub(super) fn with(&self, others: Cutting) -> Cutting {
        let (used, cut): (Vec<CutStrips>, Vec<CutStrips>) =
            others.strips.into_iter().partition(|strips| strips.remnant.is_some());
        let mut all = Vec::new();
        for (number, strips) in self.strips.iter().enumerate() {
            let mut parts = vec![strips.clone()];
            for (index, room) in self.rooms.iter().enumerate().filter(|(_, room)| room.strips == number) {
                let fills = used.iter().filter(|strips| strips.remnant == Some(index)).cloned().collect();
                parts = filled(parts, fills, room);
            }
            all.extend(parts);
        }
        Cutting { strips: all.into_iter().chain(cut).collect() }
    }
}

/// Whether the text tells the strips across the fabric that a piece is cut from.
pub(super) fn is_stated(piece: &Piece) -> bool {
    piece.stated.is_some_and(|stated| !stated.along)
}

/// The rooms of all strips that have one.
fn rooms(strips: &[Strips], room: impl Fn(&Strips) -> Option<(Length, Length, Remnant)>) -> Vec<StripRemnant> {
    let rooms = strips.iter().enumerate().filter_map(|(number, strips)| {
        let (from, above, is) = room(strips)?;
        (is.across.is_positive() && is.along.is_positive()).then_some(StripRemnant { strips: number, from, above, is })
    });
    rooms.collect()
}

fn end(strips: &Strips, usable: Length) -> (Length, Length, Remnant) {
    let is = Remnant { across: strips.rest, along: strips.width, count: strips.count };
    (usable - strips.rest, Length::ZERO, is)
}

/// The room in the width of strips, as far as their pieces reach; `None` for empty strips.
fn beside(strips: &Strips) -> Option<(Length, Length, Remnant)> {
    let [laid] = strips.cuts.as_slice() else { return None };
    let across = laid.across * laid.count.in_groups_of(laid.stacked)?;
    let above = laid.along * laid.stacked.min(laid.count);
    Some((laid.from, above, Remnant { across, along: strips.width - above, count: strips.count }))
}

/// Planned strips with the numbers of the cutting list, where the plan does not have them.
pub(super) fn cut_strips(strips: &Strips, entries: Option<&[usize]>) -> CutStrips {
    let grid = |laid: &StripCut| CutGrid {
        item: entries.map_or(laid.piece, |entries| entries[laid.piece]),
        from: laid.from,
        above: laid.above,
        across: laid.across,
        along: laid.along,
        stacked: laid.stacked,
        count: laid.count,
    };
    let grids = strips.cuts.iter().map(grid).collect();
    CutStrips { count: strips.count, width: strips.width, remnant: None, grids }
}

/// Strips with what is cut from a room of theirs, which may differ from strip to strip.
fn filled(parts: Vec<CutStrips>, mut fills: Vec<CutStrips>, room: &StripRemnant) -> Vec<CutStrips> {
    let mut all = Vec::new();
    for mut part in parts {
        while part.count.0 > 0 {
            let Some(fill) = fills.first_mut() else {
                all.push(part);
                break;
            };
            let count = part.count.min(fill.count);
            let moved =
                |grid: &CutGrid| CutGrid { from: room.from + grid.from, above: room.above + grid.above, ..*grid };
            let grids = part.grids.iter().copied().chain(fill.grids.iter().map(moved)).collect();
            all.push(CutStrips { count, grids, ..part.clone() });
            part.count = part.count.less(count);
            fill.count = fill.count.less(count);
            if fill.count == Count(0) {
                fills.remove(0);
            }
        }
    }
    all
}
