//! What a manuscript states, entry by entry, with the place of each. What the words of the format are read into is
//! declared with them, section by section; here is what those are made of.

use crate::quantity::{Amount, Count, Written};

use super::{Field, Span, Spanned};

pub use crate::choices::{
    Bed, Closing, Corners, CutAgain, CutAngle, CutFromLeft, CutGrain, CutShape, EdgeSquares, Finish, Fold, Grain, Join,
    LoftWord, MeasureWord, Measured, Packaged, PanelsRun, Set, Side, SoldAs, Tips, YesNo,
};

pub use super::read::{Accepted, Assumes, Manuscript};
pub use super::read_backing::{Backing, BackingRequires, Batting, Overhang as StatedOverhang, Sides};
pub use super::read_binding::{Binding, BindingRequires, Tails};
pub use super::read_bought::{BoughtAs, Instead};
pub use super::read_extras::{PillowBack, PillowPieces, PrairiePoints, Sleeve};
pub use super::read_fabrics::{Cut, Fabric};
pub use super::read_layout::{Border, BorderSides, BorderWidths, SizeLayout};
pub use super::read_notions::{Colorway, Notion};
pub use super::read_rows::{BlocksOfRow, LaidRow};
pub use super::read_shape::Shaped;
pub use super::read_sizes::Size;

/// An outline that is not a rectangle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outline {
    /// A circle as wide as the finished width.
    Circle,
    /// Equal straight sides.
    Regular {
        /// How many.
        sides: Count,
        /// How long each is.
        side: Written,
    },
    /// Corners cut off at 45 degrees, so much along each side.
    Clipped(Written),
    /// Scallops along all four sides.
    Scalloped {
        /// How many across the width.
        across: Count,
        /// How many down the length.
        down: Count,
        /// How far each rises.
        depth: Written,
    },
    /// Straight lines from point to point: across from the left, down from the top.
    Points(Vec<(Written, Written)>),
}

/// What is stated for one size.
#[derive(Debug)]
pub enum PerSize<T> {
    /// It was read.
    Stated(T),
    /// Nothing is stated for this size.
    Nothing,
    /// Something is stated and could not be read, which was reported.
    Unread,
}

impl<T> PerSize<T> {
    /// What is stated, if anything.
    pub const fn stated(&self) -> Option<&T> {
        match self {
            PerSize::Stated(value) => Some(value),
            PerSize::Nothing | PerSize::Unread => None,
        }
    }
}

/// A size of batting.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BattingSize {
    /// A width and a length.
    Measured(Written, Written),
    /// A packaged size whose measurements the rule book gives.
    Packaged(Packaged),
    /// A packaged size that a house has added, by its name without `packaged`.
    OfHouse(String),
}

/// What the pattern tells its reader to buy of a fabric for one size.
#[derive(Debug)]
pub enum Bought {
    /// So much from the bolt.
    Amount(Spanned<Amount>),
    /// So many fat quarters, precut strips and so on.
    Count(Spanned<Count>),
}

impl Bought {
    /// Where it is stated.
    pub const fn at(&self) -> Span {
        match self {
            Bought::Amount(amount) => amount.at,
            Bought::Count(count) => count.at,
        }
    }

    /// Whether it says that none is bought.
    pub fn is_nothing(&self) -> bool {
        match self {
            Bought::Amount(amount) => !amount.value.most().0.is_positive(),
            Bought::Count(count) => count.value == Count(0),
        }
    }
}

/// How the quilt top is laid out.
#[derive(Debug)]
pub struct Layout {
    /// Where the word `layout` stands.
    pub at: Span,
    /// The layout of each size, in the order of the sizes; nothing for a size that has none.
    pub sizes: Vec<PerSize<SizeLayout>>,
}

/// The blocks of a layout, by their places among the blocks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Blocks {
    /// The same block everywhere.
    All(usize),
    /// So many of each.
    Each(Vec<(Field<usize>, Field<Count>)>),
}

/// How thick the sandwich is at the edge, pressed flat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Loft {
    /// A word whose thickness the rule book gives.
    Keyword(LoftWord),
    /// A measured thickness.
    Measured(Written),
}
