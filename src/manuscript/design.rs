//! What a manuscript states of its design: the units that are sewn from pieces, and the blocks that are sewn from
//! units.

use super::model::words;
use super::{Field, Span};
use crate::quantity::{Count, Written};

/// A unit: pieces sewn together.
#[derive(Debug)]
pub struct Unit {
    /// What the pattern calls it.
    pub name: String,
    /// Where its name stands.
    pub at: Span,
    /// What it is.
    pub make: Field<Make>,
    /// How it is made, where its make has more than one way.
    pub method: Field<Method>,
    /// Its finished width and height; those of the block, for triangles that set blocks.
    pub finished: Field<(Written, Written)>,
    /// The seam that it is pieced with.
    pub seam: Field<Written>,
    /// Where the word `cut` stands, if it does.
    pub cut_at: Option<Span>,
    /// What its parts are cut from, in the manuscript's order.
    pub cut: Vec<PartCut>,
    /// Whether every part that it has was read.
    pub cut_whole: bool,
    /// How many the text says that one set of pieces gives.
    pub yields: Field<Count>,
    /// The size that the text says to trim it to.
    pub trim: Field<(Written, Written)>,
    /// How wide the text says to cut the segments of a strip set.
    pub segment: Field<Written>,
}

impl Unit {
    /// The way in which it is made, where its make has ways and this was read.
    pub fn way(&self) -> Option<Option<Method>> {
        let ways = self.make.value()?.methods();
        match ways.first() {
            Some(first) => self.method.or(*first).map(Some),
            None => Some(None),
        }
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

/// A block: units row by row.
#[derive(Debug)]
pub struct Block {
    /// What the pattern calls it.
    pub name: String,
    /// Where its name stands.
    pub at: Span,
    /// Its finished width and height.
    pub finished: Field<(Written, Written)>,
    /// Its rows, from the top.
    pub rows: Vec<Row>,
    /// Whether all its rows were read.
    pub whole: bool,
}

/// A row of a block.
#[derive(Debug)]
pub struct Row {
    /// Where it stands.
    pub at: Span,
    /// Its units from the left.
    pub places: Vec<Field<Placed>>,
}

/// A unit in its place in a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    /// The unit, by its place among the units.
    pub unit: usize,
    /// Whether it is turned a quarter.
    pub turned: bool,
}

words!(
    /// What a unit is.
    Make {
    /// One piece.
    Patch = "patch",
    /// Two triangles of half a square each.
    HalfSquareTriangle = "half_square_triangle",
    /// Four triangles of a quarter of a square each.
    QuarterSquareTriangle = "quarter_square_triangle",
    /// One large triangle, the goose, between two small ones.
    FlyingGeese = "flying_geese",
    /// A square on its point in a square.
    SquareInASquare = "square_in_a_square",
    /// Two triangles of half a rectangle each.
    HalfRectangleTriangle = "half_rectangle_triangle",
    /// Strips sewn side by side and cut across into segments.
    StripSet = "strip_set",
    /// The triangle that fills the side of a quilt set on point.
    SideTriangle = "side_triangle",
    /// The triangle that fills the corner of a quilt set on point.
    CornerTriangle = "corner_triangle",
});
words!(
    /// How a unit is made.
    Method {
    /// Two squares give two units.
    TwoAtATime = "two_at_a_time",
    /// One set of squares gives four units.
    FourAtATime = "four_at_a_time",
    /// Two squares give eight units.
    EightAtATime = "eight_at_a_time",
    /// Squares are sewn across the corners and flipped over.
    StitchAndFlip = "stitch_and_flip",
    /// Triangles are cut and sewn on.
    Pieced = "pieced",
});

impl Make {
    /// The ways in which it is made, the usual one first; none where there is only one way.
    pub const fn methods(self) -> &'static [Method] {
        match self {
            Make::HalfSquareTriangle => &[Method::TwoAtATime, Method::FourAtATime, Method::EightAtATime],
            Make::FlyingGeese => &[Method::FourAtATime, Method::StitchAndFlip],
            Make::SquareInASquare => &[Method::StitchAndFlip, Method::Pieced],
            Make::Patch
            | Make::QuarterSquareTriangle
            | Make::HalfRectangleTriangle
            | Make::StripSet
            | Make::SideTriangle
            | Make::CornerTriangle => &[],
        }
    }

    /// Its parts, by the names that the format gives them; none for a strip set, whose strips the writer names.
    pub const fn parts(self) -> &'static [&'static str] {
        match self {
            Make::Patch => &["patch"],
            Make::HalfSquareTriangle | Make::QuarterSquareTriangle | Make::HalfRectangleTriangle => {
                &["first", "second"]
            }
            Make::FlyingGeese => &["goose", "sky"],
            Make::SquareInASquare => &["centre", "corner"],
            Make::StripSet => &[],
            Make::SideTriangle | Make::CornerTriangle => &["square"],
        }
    }

    /// Whether it is a triangle that sets blocks on point.
    pub const fn sets_blocks(self) -> bool {
        matches!(self, Make::SideTriangle | Make::CornerTriangle)
    }
}
