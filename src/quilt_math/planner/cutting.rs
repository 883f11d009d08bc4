//! How the pieces of a list are cut: strips, and grids of alike pieces in them.

use crate::quantity::{Count, Length};

/// How the pieces of a list are cut.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cutting {
    /// The strips; those that are alike stand together.
    pub strips: Vec<CutStrips>,
}

/// Strips that are cut alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutStrips {
    /// How many.
    pub count: Count,
    /// How wide each is.
    pub width: Length,
    /// The remnant that each is, where it is not cut from the fabric.
    pub remnant: Option<usize>,
    /// What is cut from each.
    pub grids: Vec<CutGrid>,
}

/// A list of pieces on small fabrics of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DecidedSmall {
    /// What is cut from each small fabric; those that are cut alike stand together.
    pub fabrics: Vec<CutStrips>,
    /// How long each small fabric is along the strips that are cut from it.
    pub across: Length,
    /// How many small fabrics that is.
    pub count: Count,
    /// No way of cutting takes fewer.
    pub least: Count,
}

/// A grid of alike pieces in a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct CutGrid {
    /// Which of the items.
    pub item: usize,
    /// How far from the strip's end it begins.
    pub from: Length,
    /// How far from the strip's edge it begins.
    pub above: Length,
    /// How long each piece is along the strip.
    pub across: Length,
    /// How much of the strip's width each takes.
    pub along: Length,
    /// How many lie one above another before the next lies further along the strip.
    pub stacked: Count,
    /// How many there are.
    pub count: Count,
}
