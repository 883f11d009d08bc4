//! The drawn quilt top in numbers: its sides and its parts.

use serde::Serialize;

use super::places::Outline;
use crate::manuscript::model::Manuscript;
use crate::quilt_math::layout::{Side, Top};
use crate::requirement::Needs;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};

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
    /// A block of a border.
    BorderBlock,
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
