//! The center of a top: its blocks, the sashing between them, and the triangles that set them on point.

use super::arrangement::Grid;
use super::design::fabric_of;
use super::places::{Outline, Place};
use super::top_parts::{PartKind, TopDrawing, TopPart, TopSource};
use super::top_rows::rows_of;
use crate::manuscript::Field;
use crate::manuscript::design::{CutFrom, PieceRef};
use crate::manuscript::model::Set;
use crate::quantity::{Count, Length};
use crate::quilt_math::layout::{Sashing, Side};

/// Draws what lies inside of the borders.
pub(super) fn center_of(source: &TopSource<'_, '_>, drawing: &mut TopDrawing) {
    let center = Center { source, corner: source.corner_inside(0) };
    if let Some(rows) = source.laid.rows.as_ref().filter(|_| source.top.rows.is_some()) {
        rows_of(source.manuscript, source.laid.stated, rows, center.corner, source.room, drawing);
        return;
    }
    let count = center.count();
    if count > source.room as u64 {
        let (width, length) = source.top.inner();
        let to = center.corner.plus(Place { across: width, down: length });
        drawing.parts.push(TopPart::new(PartKind::Empty, Outline::rectangle(center.corner, to)));
        drawing.empty.push(format!("{count} blocks and sashes, too many to draw one by one"));
        drawing.more = count;
        return;
    }
    center.blocks(drawing);
    match source.top.set {
        Set::Straight => center.sashing(drawing),
        Set::OnPoint => {
            center.sashing_on_point(drawing);
            center.triangles(drawing);
        }
    }
}

struct Center<'a, 'm> {
    source: &'a TopSource<'a, 'm>,
    /// Where it begins.
    corner: Place,
}

impl Center<'_, '_> {
    fn grid(&self) -> Grid {
        let count = |count: Count| usize::try_from(count.0).unwrap_or(usize::MAX);
        let top = self.source.top;
        Grid { set: top.set, across: count(top.across), down: count(top.down) }
    }

    /// How many parts there are.
    fn count(&self) -> u64 {
        let top = self.source.top;
        let sashes = top.all_sashes() + top.cornerstones();
        (top.blocks() + sashes + top.side_triangles() + top.corner_triangles()).0
    }

    fn fabric(&self, piece: &Field<PieceRef>) -> Option<String> {
        fabric_of(self.source.manuscript, piece.value()?)
    }

    fn blocks(&self, drawing: &mut TopDrawing) {
        let (laid, grid) = (self.source.laid, self.grid());
        drawing.spread_evenly = laid.blocks.len() > 1;
        let counts: Vec<u64> = laid.blocks.iter().map(|block| block.count.0).collect();
        let stated = counts.iter().sum::<u64>();
        let mut without = 0;
        for ((across, down, is_gap), block) in grid.each().zip(grid.arranged(&counts)) {
            let outline = match self.source.top.set {
                Set::Straight => self.straight(across, down),
                Set::OnPoint => self.on_point(across, down, is_gap),
            };
            let Some(block) = block.and_then(|block| laid.blocks.get(block)) else {
                without += 1;
                drawing.parts.push(TopPart::new(PartKind::Empty, outline));
                continue;
            };
            drawing.parts.push(TopPart::new(PartKind::Block, outline).named(&block.stated.name, block.block));
        }
        if without > 0 {
            let place = if without == 1 { "place" } else { "places" };
            drawing.empty.push(format!("{without} {place} that no block is stated for"));
        }
        let beyond = stated.saturating_sub(grid.places() as u64);
        if beyond > 0 {
            drawing.empty.push(format!("{beyond} of the blocks, which are more than there are places"));
        }
    }

    /// How wide the sashing is.
    fn sash(&self) -> Length {
        self.source.top.sashing.map_or(Length::ZERO, |sashing| sashing.width)
    }

    /// How far it is from the edge to the first block.
    fn before(&self) -> Length {
        let round = self.source.top.sashing.is_some_and(|sashing| sashing.round);
        if round { self.sash() } else { Length::ZERO }
    }

    /// Where the column and the row of a block begin.
    fn begins(&self, across: usize, down: usize) -> (Length, Length) {
        let block = self.source.top.block;
        let after = |number: usize, side: Length| self.before() + (side + self.sash()) * Count(number as u64);
        (after(across, block.width), after(down, block.length))
    }

    fn straight(&self, across: usize, down: usize) -> Outline {
        let (left, top) = self.begins(across, down);
        self.plain(left, top, self.source.top.block.width, self.source.top.block.length)
    }

    fn plain(&self, left: Length, top: Length, width: Length, length: Length) -> Outline {
        Outline::rectangle(Place::plain(left, top), Place::plain(left + width, top + length)).moved(self.corner)
    }

    /// A place on point: so many half steps from block to block across and down, and so much of a diagonal more.
    fn step(&self, across: usize, down: usize, more: (Length, Length)) -> Place {
        let half = (self.source.top.block.width + self.sash()).half();
        let at_edge = self.at_edge();
        let side = |number: usize, more: Length| Side::diagonal(half * Count(number as u64) + at_edge + more);
        Place { across: side(across, more.0), down: side(down, more.1) }.plus(self.corner)
    }

    /// How far the edge lies outside of the middles of the squares there, as a part of a diagonal.
    fn at_edge(&self) -> Length {
        if self.is_whole_at_edge() { self.sash().half() } else { Length::ZERO }
    }

    fn is_whole_at_edge(&self) -> bool {
        self.source.top.sashing.is_some_and(|sashing| sashing.whole_at_edge)
    }

    /// A square on point about a place, by half of its side: its own corner at the top left is at the top.
    fn diamond(&self, across: usize, down: usize, half: Length) -> Outline {
        let zero = Length::ZERO;
        let corners = [(zero, -half), (half, zero), (zero, half), (-half, zero)];
        Outline(corners.iter().map(|more| self.step(across, down, *more)).collect())
    }

    fn on_point(&self, across: usize, down: usize, is_gap: bool) -> Outline {
        let gap = usize::from(is_gap);
        self.diamond(2 * across + 1 + gap, 2 * down + 1 + gap, self.source.top.block.width.half())
    }

    /// The sashes around each block on point that is not in a gap, and the squares at its corners.
    fn sashing_on_point(&self, drawing: &mut TopDrawing) {
        if self.source.top.sashing.is_none() {
            return;
        }
        let stated = self.source.laid.stated;
        let (sash, square) = (self.fabric(&stated.sash), self.fabric(&stated.cornerstone));
        let grid = self.grid();
        for (across, down, _) in grid.each().filter(|(.., is_gap)| !is_gap) {
            for outline in self.sashes_around(2 * across + 1, 2 * down + 1) {
                drawing.parts.push(TopPart::new(PartKind::Sash, outline).of_fabric(sash.clone()));
            }
        }
        let last = (2 * grid.across, 2 * grid.down);
        for down in 0..=last.1 {
            for across in (1 - down % 2..=last.0).step_by(2) {
                let outline = self.square_on_point((across, down), last);
                drawing.parts.push(TopPart::new(PartKind::Cornerstone, outline).of_fabric(square.clone()));
            }
        }
    }

    /// The four sashes at the sides of a block on point.
    fn sashes_around(&self, across: usize, down: usize) -> [Outline; 4] {
        let (near, far) = (self.source.top.block.width.half(), self.source.top.block.width.half() + self.sash());
        // Along a side of the block, and away from it; both lie on the diagonals of the quilt.
        let place = |along: Length, away: Length, turns: usize| {
            let (x, y) = ((along + away).half(), (away - along).half());
            let turned = [(x, -y), (y, x), (-x, y), (-y, -x)];
            self.step(across, down, turned[turns])
        };
        [0, 1, 2, 3].map(|turns| {
            Outline(vec![
                place(-near, near, turns),
                place(-near, far, turns),
                place(near, far, turns),
                place(near, near, turns),
            ])
        })
    }

    /// A square where sashes cross: whole, or the half of it inside of the edge.
    fn square_on_point(&self, at: (usize, usize), last: (usize, usize)) -> Outline {
        let half = self.sash().half();
        let Outline(corners) = self.diamond(at.0, at.1, half);
        let cut = match at {
            _ if self.is_whole_at_edge() => None,
            (_, 0) => Some(0),
            (across, _) if across == last.0 => Some(1),
            (_, down) if down == last.1 => Some(2),
            (0, _) => Some(3),
            _ => None,
        };
        let kept = corners.into_iter().enumerate().filter(|(number, _)| Some(*number) != cut);
        Outline(kept.map(|(_, corner)| corner).collect())
    }

    fn sashing(&self, drawing: &mut TopDrawing) {
        let Some(sashing) = self.source.top.sashing else { return };
        let stated = self.source.laid.stated;
        let long = self.fabric(self.source.laid.piece_of_long_sashes());
        let sash = self.fabric(&stated.sash);
        let square = self.fabric(&stated.cornerstone);
        let (grid, block) = (self.grid(), self.source.top.block);
        let (columns, rows) =
            (self.gaps(sashing, grid.across, block.width), self.gaps(sashing, grid.down, block.length));
        for down in 0..grid.down {
            for left in &columns {
                let outline = self.plain(*left, self.begins(0, down).1, sashing.width, block.length);
                drawing.parts.push(TopPart::new(PartKind::Sash, outline).of_fabric(sash.clone()));
            }
        }
        for top in &rows {
            if !sashing.cornerstones {
                let outline = self.plain(Length::ZERO, *top, self.source.top.inner().0.straight, sashing.width);
                drawing.parts.push(TopPart::new(PartKind::LongSash, outline).of_fabric(long.clone()));
                continue;
            }
            for across in 0..grid.across {
                let outline = self.plain(self.begins(across, 0).0, *top, block.width, sashing.width);
                drawing.parts.push(TopPart::new(PartKind::Sash, outline).of_fabric(sash.clone()));
            }
            for left in &columns {
                let outline = self.plain(*left, *top, sashing.width, sashing.width);
                drawing.parts.push(TopPart::new(PartKind::Cornerstone, outline).of_fabric(square.clone()));
            }
        }
    }

    /// Where sashes begin, beside so many blocks.
    fn gaps(&self, sashing: Sashing, blocks: usize, side: Length) -> Vec<Length> {
        let first = usize::from(!sashing.round);
        let last = if sashing.round { blocks } else { blocks.saturating_sub(1) };
        let before = |number: usize| self.before() + (side + sashing.width) * Count(number as u64) - sashing.width;
        (first..=last).map(before).collect()
    }

    /// The triangles at the four sides, and at the corners.
    fn triangles(&self, drawing: &mut TopDrawing) {
        let stated = self.source.laid.stated;
        let mut add = |kind: PartKind, unit: &Field<usize>, corners: [Place; 3]| {
            let part = TopPart::new(kind, Outline(corners.to_vec())).of_fabric(self.fabric_of_triangle(unit));
            let named = unit.value().and_then(|unit| Some((unit, self.source.manuscript.units.get(unit)?)));
            drawing.parts.push(match named {
                Some((number, unit)) => part.named(&unit.name, number),
                None => part,
            });
        };
        let grid = self.grid();
        let (right, bottom) = (2 * grid.across, 2 * grid.down);
        let (zero, edge, deep) = (Length::ZERO, self.at_edge(), self.source.top.block.width.half());
        // Between two whole squares a triangle reaches from tip to tip, between two halves from side to side.
        let tip = if self.is_whole_at_edge() { zero } else { self.sash().half() };
        let side = &stated.side_triangles;
        for at in (2..right).step_by(2) {
            let (from, to, inner) = (at - 1, at + 1, zero);
            let top = [(from, (tip, -edge)), (to, (-tip, -edge)), (at, (inner, deep))];
            add(PartKind::SideTriangle, side, top.map(|(across, more)| self.step(across, 0, more)));
            let low = [(to, (-tip, edge)), (from, (tip, edge)), (at, (inner, -deep))];
            add(PartKind::SideTriangle, side, low.map(|(across, more)| self.step(across, bottom, more)));
        }
        for at in (2..bottom).step_by(2) {
            let (from, to) = (at - 1, at + 1);
            let left = [(to, (-edge, -tip)), (from, (-edge, tip)), (at, (deep, zero))];
            add(PartKind::SideTriangle, side, left.map(|(down, more)| self.step(0, down, more)));
            let last = [(from, (edge, tip)), (to, (edge, -tip)), (at, (-deep, zero))];
            add(PartKind::SideTriangle, side, last.map(|(down, more)| self.step(right, down, more)));
        }
        let corner = &stated.corner_triangles;
        let leg = deep + edge;
        for (across, down, corners) in [
            (0, 0, [(-edge, -edge), (leg, -edge), (-edge, leg)]),
            (right, 0, [(edge, -edge), (edge, leg), (-leg, -edge)]),
            (right, bottom, [(edge, edge), (-leg, edge), (edge, -leg)]),
            (0, bottom, [(-edge, edge), (-edge, -leg), (leg, edge)]),
        ] {
            add(PartKind::CornerTriangle, corner, corners.map(|more| self.step(across, down, more)));
        }
    }

    fn fabric_of_triangle(&self, unit: &Field<usize>) -> Option<String> {
        let cut = self.source.manuscript.units.get(unit.value()?)?.cut.first()?;
        match cut.from.value()? {
            CutFrom::Piece(piece) => fabric_of(self.source.manuscript, piece),
            CutFrom::Size(..) => None,
        }
    }
}
