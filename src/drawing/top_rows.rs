//! A top that is sewn in rows or columns of blocks, which need not be alike.

use super::places::{Outline, Place};
use super::top_parts::{PartKind, TopDrawing, TopPart};
use crate::manuscript::model::Manuscript;
use crate::quantity::{Count, Length};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::rows::{RowNeeds, RowsNeeds};

/// Draws the rows from a corner on, one after another, each as long as it is. How large they are together.
pub(super) fn rows_of(
    manuscript: &Manuscript,
    rows: &RowsNeeds<'_>,
    corner: Place,
    room: usize,
    drawing: &mut TopDrawing,
) -> Rectangle {
    let count = rows.count();
    let all = rows.rows.iter().map(RowNeeds::width).sum::<Length>() * rows.times;
    let longest = rows.rows.iter().map(RowNeeds::length).max().unwrap_or_default();
    let size = if rows.are_columns { Rectangle::new(all, longest) } else { Rectangle::new(longest, all) };
    if count > Count(room as u64) {
        let to = corner.plus(Place::plain(size.width, size.length));
        drawing.parts.push(TopPart::new(PartKind::Empty, Outline::rectangle(corner, to)));
        drawing.empty.push(format!("{count} blocks, too many to draw one by one"));
        drawing.more = count.0;
        return size;
    }
    let mut from = Length::ZERO;
    for _ in 0..rows.times.0 {
        for row in &rows.rows {
            let mut along = Length::ZERO;
            for (laid, stated) in row.blocks.iter().zip(&row.stated.blocks) {
                for _ in 0..laid.count.0 {
                    let place = |along: Length, across: Length| {
                        corner.plus(if rows.are_columns {
                            Place::plain(across, along)
                        } else {
                            Place::plain(along, across)
                        })
                    };
                    let outline = Outline::rectangle(place(along, from), place(along + laid.along, from + laid.across));
                    drawing.parts.push(block(manuscript, laid.block, stated.value.turned, outline));
                    along = along + laid.along;
                }
            }
            from = from + row.width();
        }
    }
    size
}

fn block(manuscript: &Manuscript, number: usize, turned: bool, outline: Outline) -> TopPart {
    let Outline(mut corners) = outline;
    // One that is turned a quarter, clockwise, has its own corner at the top right.
    if turned {
        corners.rotate_left(1);
    }
    let name = manuscript.blocks.get(number).map_or("", |block| block.name.as_str());
    TopPart { turned, ..TopPart::new(PartKind::Block, Outline(corners)).named(name, number) }
}
