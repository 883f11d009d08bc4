//! A top that is sewn in rows or columns of blocks, which need not be alike, with the sashing between them.

use super::design::fabric_of;
use super::places::{Outline, Place};
use super::top_parts::{PartKind, TopDrawing, TopPart};
use crate::manuscript::Field;
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Manuscript, SizeLayout};
use crate::quantity::{Count, Length};
use crate::quilt_math::layout::Sashing;
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::rows::{RowNeeds, RowsNeeds};

/// Draws the rows from a corner on, one after another, each as long as it is. How large they are together.
pub(super) fn rows_of(
    manuscript: &Manuscript,
    stated: &SizeLayout,
    rows: &RowsNeeds<'_>,
    corner: Place,
    room: usize,
    drawing: &mut TopDrawing,
) -> Rectangle {
    let longest = rows.rows.iter().map(RowNeeds::length).max().unwrap_or_default();
    let (size, count) = (turned(rows, longest, rows.width()), parts(rows));
    if count > Count(room as u64) {
        let to = corner.plus(Place::plain(size.width, size.length));
        drawing.parts.push(TopPart::new(PartKind::Empty, Outline::rectangle(corner, to)));
        let what = if rows.sashing.is_some() { "blocks and sashes" } else { "blocks" };
        drawing.empty.push(format!("{count} {what}, too many to draw one by one"));
        drawing.more = count.0;
        return size;
    }
    let fabric = |piece: &Field<PieceRef>| fabric_of(manuscript, piece.value()?);
    let fabrics = [&stated.sash, &stated.long_sash, &stated.cornerstone].map(fabric);
    RowsDrawing { manuscript, rows, corner, longest, fabrics }.draw(drawing);
    size
}

/// A size along the rows and across them, as it lies.
fn turned(rows: &RowsNeeds<'_>, along: Length, across: Length) -> Rectangle {
    if rows.are_columns { Rectangle::new(across, along) } else { Rectangle::new(along, across) }
}

/// How many blocks, sashes and squares there are.
fn parts(rows: &RowsNeeds<'_>) -> Count {
    let beside = rows.rows.iter().fold(Count(0), |sum, row| sum + row.sashes.0) * rows.times;
    let of_line = rows.rows.first().map_or(Count(0), |row| {
        let has_cornerstones = rows.sashing.is_some_and(|sashing| sashing.cornerstones);
        let blocks = row.blocks.iter().fold(Count(0), |sum, blocks| sum + blocks.count);
        if has_cornerstones { blocks + row.sashes.0 } else { Count(1) }
    });
    rows.count() + beside + of_line * rows.between()
}

struct RowsDrawing<'a, 'm> {
    manuscript: &'a Manuscript,
    rows: &'a RowsNeeds<'m>,
    /// Where they begin.
    corner: Place,
    /// How long the longest of them is.
    longest: Length,
    /// The fabrics of sashes, of long sashes and of the squares where they cross.
    fabrics: [Option<String>; 3],
}

impl RowsDrawing<'_, '_> {
    fn draw(&self, drawing: &mut TopDrawing) {
        let mut from = Length::ZERO;
        let mut is_first = true;
        for row in (0..self.rows.times.0).flat_map(|_| &self.rows.rows) {
            if let Some(sashing) = self.rows.sashing.filter(|sashing| !is_first || sashing.round) {
                self.line(drawing, from, sashing);
                from = from + sashing.width;
            }
            is_first = false;
            self.row(drawing, from, row);
            from = from + row.width();
        }
        if let Some(sashing) = self.rows.sashing.filter(|sashing| sashing.round) {
            self.line(drawing, from, sashing);
        }
    }

    /// What lies along the rows from one place to another, and across them.
    fn outline(&self, along: (Length, Length), across: (Length, Length)) -> Outline {
        let place = |along: Length, across: Length| {
            let size = turned(self.rows, along, across);
            self.corner.plus(Place::plain(size.width, size.length))
        };
        Outline::rectangle(place(along.0, across.0), place(along.1, across.1))
    }

    fn row(&self, drawing: &mut TopDrawing, from: Length, row: &RowNeeds<'_>) {
        let sash = |drawing: &mut TopDrawing, along: Length, sashing: Sashing| {
            let outline = self.outline((along, along + sashing.width), (from, from + row.width()));
            drawing.parts.push(TopPart::new(PartKind::Sash, outline).of_fabric(self.fabrics[0].clone()));
        };
        let mut along = Length::ZERO;
        let mut is_first = true;
        for (laid, stated) in row.blocks.iter().zip(&row.stated.blocks) {
            for _ in 0..laid.count.0 {
                if let Some(sashing) = self.rows.sashing.filter(|sashing| !is_first || sashing.round) {
                    sash(drawing, along, sashing);
                    along = along + sashing.width;
                }
                is_first = false;
                let outline = self.outline((along, along + laid.along), (from, from + laid.across));
                drawing.parts.push(self.block(laid.block, stated.value.turned, outline));
                along = along + laid.along;
            }
        }
        if let Some(sashing) = self.rows.sashing.filter(|sashing| sashing.round) {
            sash(drawing, along, sashing);
        }
    }

    /// The sash between two rows: one as long as they are, or with cornerstones one beside each block.
    fn line(&self, drawing: &mut TopDrawing, from: Length, sashing: Sashing) {
        let [sash, long, square] = &self.fabrics;
        let across = (from, from + sashing.width);
        let Some(first) = self.rows.rows.first().filter(|_| sashing.cornerstones) else {
            let outline = self.outline((Length::ZERO, self.longest), across);
            drawing.parts.push(TopPart::new(PartKind::LongSash, outline).of_fabric(long.clone()));
            return;
        };
        let mut add = |kind: PartKind, along: Length, by: Length, fabric: &Option<String>| {
            let part = TopPart::new(kind, self.outline((along, along + by), across));
            drawing.parts.push(part.of_fabric(fabric.clone()));
            along + by
        };
        let mut along = Length::ZERO;
        let blocks = first.blocks.iter().flat_map(|blocks| (0..blocks.count.0).map(|_| blocks.along));
        for (number, block) in blocks.enumerate() {
            if number > 0 || sashing.round {
                along = add(PartKind::Cornerstone, along, sashing.width, square);
            }
            along = add(PartKind::Sash, along, block, sash);
        }
        if sashing.round {
            add(PartKind::Cornerstone, along, sashing.width, square);
        }
    }

    fn block(&self, number: usize, turned: bool, outline: Outline) -> TopPart {
        let Outline(mut corners) = outline;
        // One that is turned a quarter, clockwise, has its own corner at the top right.
        if turned {
            corners.rotate_left(1);
        }
        let name = self.manuscript.blocks.get(number).map_or("", |block| block.name.as_str());
        TopPart { turned, ..TopPart::new(PartKind::Block, Outline(corners)).named(name, number) }
    }
}
