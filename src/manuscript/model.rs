//! What a manuscript states, entry by entry, with the place of each. What the words of the format are read into is
//! declared with them, section by section; here is what those are made of.

use crate::quantity::{Amount, Count, Written};

use super::{Field, Span, Spanned};

pub use super::read::{Accepted, Assumes, Manuscript};
pub use super::read_backing::{Backing, BackingRequires, Batting};
pub use super::read_binding::{Binding, BindingRequires, Tails};
pub use super::read_fabrics::{Cut, Fabric};
pub use super::read_layout::{Border, SizeLayout};
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BattingSize {
    /// A width and a length.
    Measured(Written, Written),
    /// A packaged size whose measurements the rule book gives.
    Packaged(Packaged),
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

/// A choice that is written as one of a few words, and the words.
macro_rules! keywords {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[allow(unreachable_pub)] // Private to the module that uses the macro, public in the model.
        pub enum $name { $($(#[$variant_doc])* $variant),+ }

        impl $crate::manuscript::Keyword for $name {
            const WORDS: &'static [(&'static str, $name)] = &[$(($word, $name::$variant)),+];
            const NAMES: &'static [&'static str] = &[$($word),+];
        }
    };
}

pub(crate) use keywords;

keywords!(
    /// How the strip is folded.
    Fold {
    /// Folded in half lengthwise; two raw edges at the seam.
    Double = "double",
    /// One layer; its second raw edge is turned under.
    Single = "single",
});
keywords!(
    /// How strips are joined end to end.
    Join {
    /// At 45 degrees.
    Diagonal = "diagonal",
    /// Across, with a plain seam.
    Straight = "straight",
});
keywords!(
    /// Which way of the fabric strips are cut.
    Grain {
    /// Selvedge to selvedge.
    Crosswise = "crosswise",
    /// Along the selvedge.
    Lengthwise = "lengthwise",
    /// At 45 degrees to the selvedge.
    Bias = "bias",
});
keywords!(
    /// Which way of the fabric pieces are cut.
    CutGrain {
    /// In strips from selvedge to selvedge.
    Crosswise = "crosswise",
    /// Along the selvedge.
    Lengthwise = "lengthwise",
});
keywords!(
    /// How a fabric is sold.
    SoldAs {
    /// From the bolt.
    Yardage = "yardage",
    /// Half a yard cut in half.
    FatQuarters = "fat_quarters",
    /// A quarter of a yard cut in half.
    FatEighths = "fat_eighths",
    /// Precut strips.
    Strips = "strips",
    /// Precut squares.
    Squares = "squares",
});
keywords!(
    /// Yes or no.
    YesNo {
    /// It is so.
    Yes = "yes",
    /// It is not so.
    No = "no",
});
keywords!(
    /// How the folded edge is fastened.
    Finish {
    /// Topstitched by machine.
    Machine = "machine",
    /// Stitched down by hand.
    Hand = "hand",
    /// Stitched in the ditch of the first seam.
    Ditch = "ditch",
});
keywords!(
    /// The way that the panels of a backing run.
    PanelsRun {
    /// Along the length of the quilt.
    Along = "along",
    /// Across its width.
    Across = "across",
});
keywords!(
    /// A size in which batting is sold in a package.
    Packaged {
    /// For a crib.
    Crib = "packaged crib",
    /// For a twin bed.
    Twin = "packaged twin",
    /// For a full bed.
    Full = "packaged full",
    /// For a queen bed.
    Queen = "packaged queen",
    /// For a king bed.
    King = "packaged king",
});
keywords!(
    /// A bed that a quilt is for.
    Bed {
    /// A full-size crib, or cot.
    Crib = "crib",
    /// A twin bed.
    Twin = "twin bed",
    /// A full bed.
    Full = "full bed",
    /// A queen bed.
    Queen = "queen bed",
    /// A king bed.
    King = "king bed",
});
keywords!(
    /// How the blocks of a layout stand.
    Set {
    /// In rows and columns, their sides upright.
    Straight = "straight",
    /// On their corners.
    OnPoint = "on_point",
});
keywords!(
    /// How the corners of a border are made.
    Corners {
    /// Top and bottom run over the ends of the sides.
    Butted = "butted",
    /// Sewn at 45 degrees.
    Mitred = "mitered",
    /// With a square in each.
    Cornerstones = "cornerstones",
});
keywords!(
    /// A side of the quilt.
    Side {
    /// The backing.
    Back = "back",
    /// The top.
    Front = "front",
});
keywords!(
    /// Loft in a word.
    LoftWord {
    /// A thin sandwich.
    Low = "low",
    /// A middling one.
    Medium = "medium",
    /// A thick one.
    High = "high",
});
keywords!(
    /// The measure in a word.
    MeasureWord {
    /// Inches and yards.
    Inch = "inch",
    /// Centimetres and metres.
    Cm = "cm",
});

/// How thick the sandwich is at the edge, pressed flat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Loft {
    /// A word whose thickness the rule book gives.
    Keyword(LoftWord),
    /// A measured thickness.
    Measured(Written),
}
