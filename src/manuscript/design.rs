//! What a manuscript states of its design: the units that are sewn from pieces, and the blocks that are sewn from
//! units.

use super::{Field, Span};
use crate::quantity::Written;
use crate::quilt_math::makes::Way;

pub use super::read_blocks::Block;
pub use super::read_units::Unit;
pub use crate::quilt_math::makes::{Make, Method};

impl Unit {
    /// The way in which it is made, where its make and its method were read.
    pub fn way(&self) -> Option<&'static Way> {
        let make = self.make.value()?;
        if self.method.is_unread() {
            return None;
        }
        Some(make.way(self.method.value()))
    }
}

/// What one part of a unit is cut from.
#[derive(Debug)]
pub struct PartCut {
    /// The part.
    pub part: String,
    /// Where the part's name stands.
    pub at: Span,
    /// What it is cut from.
    pub from: Field<CutFrom>,
}

/// What a part is cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutFrom {
    /// A piece of a cutting list.
    Piece(PieceRef),
    /// A size that is written in the unit itself.
    Size(Written, Written),
}

/// A piece of a cutting list, by the places of both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PieceRef {
    /// The fabric, by its place among the fabrics.
    pub fabric: usize,
    /// The piece, by its place in the fabric's cutting list.
    pub cut: usize,
}

/// A row of a block.
#[derive(Debug)]
pub struct Row {
    /// Where it stands.
    pub at: Span,
    /// Its units from the left.
    pub places: Vec<Field<BlockUnit>>,
}

/// A unit in its place in a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BlockUnit {
    /// The unit, by its place among the units.
    pub unit: usize,
    /// Whether it is turned a quarter.
    pub turned: bool,
}
