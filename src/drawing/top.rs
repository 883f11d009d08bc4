//! The quilt top of a size, to scale: blocks, sashing, setting triangles and borders, each where it lies.

use super::places::{Outline, Place, exact_inches};
use super::top_borders::borders_of;
use super::top_center::center_of;
use super::top_parts::{PartKind, ShownSide, TopDrawing, TopPart, TopSource};
use super::top_rows::rows_of;
use crate::manuscript::model::{Manuscript, PerSize, Set};
use crate::quantity::Length;
use crate::quilt_math::layout::Side;
use crate::requirement::Needs;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::rows::RowsNeeds;

/// How many parts one top is drawn with at most.
const MAX_PARTS: usize = 2_000;

/// How many parts all tops of a manuscript are drawn with together.
const MAX_ALL_PARTS: usize = 6_000;

impl TopPart {
    /// A part of a kind, with its outline.
    pub(super) fn new(kind: PartKind, outline: Outline) -> TopPart {
        TopPart { kind, name: None, turned: false, border: None, fabric: None, outline, number: None }
    }

    /// The same, of a fabric.
    pub(super) fn of_fabric(self, fabric: Option<String>) -> TopPart {
        TopPart { fabric, ..self }
    }

    /// The same, being a block or a unit.
    pub(super) fn named(self, name: &str, number: usize) -> TopPart {
        TopPart { name: Some(name.to_string()), number: Some(number), ..self }
    }
}

/// The top of a size, by its place among the sizes; `None` where no layout is stated for it.
pub(super) fn top_of(manuscript: &Manuscript, needs: &Needs<'_>, index: usize) -> Option<TopDrawing> {
    match manuscript.layout.as_ref()?.sizes.get(index)? {
        PerSize::Nothing => return None,
        PerSize::Unread => return Some(empty("its layout could not be read")),
        PerSize::Stated(_) => {}
    }
    let layouts = &needs.layouts;
    let (place, laid) = layouts.sizes.iter().enumerate().find(|(_, laid)| laid.index == index)?;
    let room = (MAX_ALL_PARTS / layouts.sizes.len().max(1)).clamp(100, MAX_PARTS);
    let Some(top) = &laid.top else {
        return Some(match &laid.rows {
            Some(rows) if laid.unchecked.is_none() => rows_alone(manuscript, (layouts, laid), rows, room),
            _ => empty(laid.unchecked.unwrap_or("not all of its layout could be read")),
        });
    };
    Some(TopSource { manuscript, layouts, needs, laid, place, top, room }.drawing())
}

fn empty(why: &str) -> TopDrawing {
    TopDrawing { empty: vec![why.to_string()], ..TopDrawing::default() }
}

/// Rows that do not fit one another, each as it is stated, without borders.
fn rows_alone(
    manuscript: &Manuscript,
    (layouts, laid): (&LayoutsNeeds<'_>, &LayoutNeeds<'_>),
    rows: &RowsNeeds<'_>,
    room: usize,
) -> TopDrawing {
    let mut drawing = empty("its borders, since its rows do not fit one another");
    let whole = rows_of(manuscript, laid.stated, rows, Place::default(), room, &mut drawing);
    let shown = |length: Length| {
        let side = Side::straight(length);
        ShownSide { shown: layouts.side(side), inches: exact_inches(side), side }
    };
    (drawing.width, drawing.length) = (Some(shown(whole.width)), Some(shown(whole.length)));
    drawing.set = Some("straight");
    drawing
}

impl TopSource<'_, '_> {
    fn drawing(&self) -> TopDrawing {
        let (width, length) = self.top.finished();
        let mut drawing = TopDrawing {
            width: Some(self.shown(width)),
            length: Some(self.shown(length)),
            set: Some(if self.top.set == Set::OnPoint { "on_point" } else { "straight" }),
            blocks: self.top.rows.is_none().then_some((self.top.across.0, self.top.down.0)),
            ..TopDrawing::default()
        };
        center_of(self, &mut drawing);
        borders_of(self, &mut drawing);
        drawing
    }

    fn shown(&self, side: Side) -> ShownSide {
        ShownSide { shown: self.layouts.side(side), inches: exact_inches(side), side }
    }

    /// Where what is inside of a border begins.
    pub(super) fn corner_inside(&self, border: usize) -> Place {
        let outside = || self.top.borders.iter().skip(border);
        Place::plain(outside().map(|border| border.sides).sum(), outside().map(|border| border.top).sum())
    }
}
