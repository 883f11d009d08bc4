//! The quilt top of a size, to scale: blocks, sashing, setting triangles and borders, each where it lies.

use serde::Serialize;

use super::places::{Outline, Place, exact_inches};
use super::top_borders::borders_of;
use super::top_center::center_of;
use super::top_rows::rows_of;
use crate::manuscript::model::{Manuscript, PerSize, Set};
use crate::quantity::Length;
use crate::quilt_math::layout::{Side, Top};
use crate::requirement::Needs;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::rows::RowsNeeds;

/// How many parts one top is drawn with at most.
const MAX_PARTS: usize = 2_000;

/// How many parts all tops of a manuscript are drawn with together.
const MAX_ALL_PARTS: usize = 6_000;

/// The top of one size.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct TopDrawing {
    /// How wide it finishes, sewn.
    pub width: Option<ShownSide>,
    /// How long it finishes, sewn.
    pub length: Option<ShownSide>,
    /// How the blocks stand: `straight` or `on_point`.
    pub set: Option<&'static str>,
    /// How many blocks there are across and down; nothing where they are sewn in rows that need not be alike.
    pub blocks: Option<(u64, u64)>,
    /// Whether the layout says no more than how many blocks there are of each, so that where each stands is drawn evenly.
    pub spread_evenly: bool,
    /// Its parts: blocks, sashing and triangles from the top left, then the borders from the inside.
    pub parts: Vec<TopPart>,
    /// How many blocks, sashes and squares there are that are too many to be drawn.
    pub more: u64,
    /// What is not drawn, and why.
    pub empty: Vec<String>,
}

/// A side of the top, which on point is no fraction.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ShownSide {
    /// As a reader is told it.
    pub shown: String,
    /// So many inches, exactly: `48`, `48√2` or `8+48√2`.
    pub inches: String,
    /// The side itself.
    #[serde(skip)]
    pub side: Side,
}

/// What a part of a top is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PartKind {
    /// A block.
    Block,
    /// A sash as long as a block.
    Sash,
    /// A sash as long as a row.
    LongSash,
    /// A square where sashes cross.
    Cornerstone,
    /// A triangle that sets blocks at a side.
    SideTriangle,
    /// A triangle that sets blocks at a corner.
    CornerTriangle,
    /// A side of a border.
    Border,
    /// A square at the corner of a border.
    BorderCornerstone,
    /// A unit of a border.
    BorderUnit,
    /// A part of which nothing more is known.
    Empty,
}

/// A part of a top.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TopPart {
    /// What it is.
    pub kind: PartKind,
    /// The block or the unit that it is.
    pub name: Option<String>,
    /// Whether a block or a unit is turned a quarter, clockwise.
    #[serde(skip_serializing_if = "is_not")]
    pub turned: bool,
    /// The border that it is of, counted from the inside.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub border: Option<usize>,
    /// The fabric that it is cut from, where it is one piece and that is stated.
    pub fabric: Option<String>,
    /// Its outline on the top; of a block or a unit from its own corner at the top left.
    pub outline: Outline,
    /// The block, by its place among the blocks; or the unit, by its place among the units.
    #[serde(skip)]
    pub number: Option<usize>,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // The attribute of serde asks for a reference.
fn is_not(is: &bool) -> bool {
    !*is
}

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

/// What a top is drawn from.
pub(super) struct TopSource<'a, 'm> {
    pub(super) manuscript: &'m Manuscript,
    pub(super) layouts: &'a LayoutsNeeds<'m>,
    pub(super) needs: &'a Needs<'m>,
    pub(super) laid: &'a LayoutNeeds<'m>,
    /// The place of the layout among those that are stated.
    pub(super) place: usize,
    pub(super) top: &'a Top,
    /// How many parts may be drawn.
    pub(super) room: usize,
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
            Some(rows) if laid.unchecked.is_none() => rows_alone(manuscript, layouts, rows, room),
            _ => empty(laid.unchecked.unwrap_or("not all of its layout could be read")),
        });
    };
    Some(TopSource { manuscript, layouts, needs, laid, place, top, room }.drawing())
}

fn empty(why: &str) -> TopDrawing {
    TopDrawing { empty: vec![why.to_string()], ..TopDrawing::default() }
}

/// Rows that do not fit one another, each as it is stated, without borders.
fn rows_alone(manuscript: &Manuscript, layouts: &LayoutsNeeds<'_>, rows: &RowsNeeds<'_>, room: usize) -> TopDrawing {
    let mut drawing = empty("its borders, since its rows do not fit one another");
    let whole = rows_of(manuscript, rows, Place::default(), room, &mut drawing);
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
