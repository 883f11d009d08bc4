//! What a manuscript states, entry by entry, with the place of each.

use crate::quantity::{Amount, Count, Measure, Written};

use super::design::{Block, PieceRef, Unit};
use super::{Field, Mistake, Span, Spanned};

/// A pattern manuscript.
#[derive(Debug, Default)]
pub struct Manuscript {
    /// The pattern's name.
    pub pattern: Field<String>,
    /// Which edition of the pattern it is.
    pub edition: Field<String>,
    /// What a bare number means.
    pub measure: Measure,
    /// Whether the measure was read; otherwise it is a guess.
    pub measure_read: bool,
    /// What the printed pattern tells its reader.
    pub assumes: Assumes,
    /// The sizes the pattern is published in.
    pub sizes: Vec<Size>,
    /// The binding.
    pub binding: Option<Binding>,
    /// The backing.
    pub backing: Option<Backing>,
    /// The batting.
    pub batting: Option<Batting>,
    /// The fabrics, each with its cutting list.
    pub fabrics: Vec<Fabric>,
    /// The units that are sewn from pieces.
    pub units: Vec<Unit>,
    /// Whether all of them were read, or there are none.
    pub units_whole: bool,
    /// The blocks that are sewn from units.
    pub blocks: Vec<Block>,
    /// Whether all of them were read, or there are none.
    pub blocks_whole: bool,
    /// How the quilt top is laid out, size by size.
    pub layout: Option<Layout>,
    /// Findings that the editor has accepted.
    pub accepted: Vec<Accepted>,
    /// What is wrong with the way it is written down.
    pub mistakes: Vec<Mistake>,
}

/// What the printed pattern tells its reader to go by.
#[derive(Debug, Default)]
pub struct Assumes {
    /// The width between the selvedges that the reader can use.
    pub usable_width: Field<Written>,
    /// The piecing seam.
    pub seam: Field<Written>,
    /// The smallest step in which a shop sells fabric.
    pub sold_by: Field<Written>,
}

/// A size that the pattern is published in.
#[derive(Debug)]
pub struct Size {
    /// What the pattern calls it.
    pub name: String,
    /// Where its name stands.
    pub at: Span,
    /// Its finished width and length.
    pub finished: Field<(Written, Written)>,
    /// Its outline, where that is not a rectangle.
    pub outline: Field<Outline>,
    /// The bed that it is for.
    pub bed: Field<Bed>,
    /// How far it hangs down over the sides and the foot of the bed.
    pub drop: Field<Written>,
}

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

/// The binding: the method once, and what is stated for each size.
#[derive(Debug)]
pub struct Binding {
    /// Where the word `binding` stands.
    pub at: Span,
    /// The fabric that it is cut from, by its place among the fabrics.
    pub from: Field<usize>,
    /// How wide the strips are cut.
    pub strip_width: Field<Written>,
    /// Double-fold or single-fold.
    pub fold: Field<Fold>,
    /// The seam that attaches it.
    pub seam: Field<Written>,
    /// How thick the sandwich is at the edge.
    pub loft: Field<Loft>,
    /// How the strips are joined.
    pub join: Field<Join>,
    /// Which way of the fabric the strips are cut.
    pub grain: Field<Grain>,
    /// How the fold is fastened.
    pub finish: Field<Finish>,
    /// The side of the quilt that it is sewn to first.
    pub sewn_first_to: Field<Side>,
    /// The free tails.
    pub tails: Tails,
    /// How much of the edge is left open between the first and the last stitch.
    pub opening: Field<Written>,
    /// A plain length beyond the perimeter, stated instead of tails.
    pub extra_length: Field<Written>,
    /// How long each strip is cut, where that is not the usable width.
    pub strip_length: Field<Written>,
    /// The usable width for the binding alone.
    pub usable_width: Field<Written>,
    /// What the pattern prints for each size, in the order of the sizes.
    pub requires: Vec<PerSize<BindingRequires>>,
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

/// What the pattern prints about the binding of one size.
#[derive(Debug)]
pub struct BindingRequires {
    /// Where the size's name stands.
    pub at: Span,
    /// How many strips.
    pub strips: Field<Count>,
    /// How much fabric.
    pub fabric: Field<Amount>,
    /// How long each strip is cut, for this size.
    pub strip_length: Field<Written>,
    /// The side of the square that continuous bias is cut from.
    pub square: Field<Written>,
}

/// The backing: how it is made, and what is stated for each size.
#[derive(Debug)]
pub struct Backing {
    /// Where the word `backing` stands.
    pub at: Span,
    /// How far it reaches beyond the quilt's top at each side.
    pub overhang: Field<Written>,
    /// The seam that joins its panels.
    pub seam: Field<Written>,
    /// The usable width for the backing alone.
    pub usable_width: Field<Written>,
    /// Whether the fabric's print has a way up, so that panels must run along the quilt.
    pub directional: Field<YesNo>,
    /// What the pattern prints for each size, in the order of the sizes.
    pub requires: Vec<PerSize<BackingRequires>>,
}

/// What the pattern prints about the backing of one size.
#[derive(Debug)]
pub struct BackingRequires {
    /// Where the size's name stands.
    pub at: Span,
    /// How much fabric.
    pub fabric: Field<Amount>,
    /// How many panels it is sewn from.
    pub panels: Field<Count>,
    /// The way the panels run.
    pub panels_run: Field<PanelsRun>,
}

/// The batting, and what is stated for each size.
#[derive(Debug)]
pub struct Batting {
    /// Where the word `batting` stands.
    pub at: Span,
    /// How far it reaches beyond the quilt's top at each side.
    pub overhang: Field<Written>,
    /// What the pattern prints for each size, in the order of the sizes.
    pub requires: Vec<PerSize<Spanned<BattingSize>>>,
}

/// A size of batting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BattingSize {
    /// A width and a length.
    Measured(Written, Written),
    /// A packaged size whose measurements the rule book gives.
    Packaged(Packaged),
}

/// A fabric, and what is cut from it.
#[derive(Debug)]
pub struct Fabric {
    /// What the pattern calls it.
    pub name: String,
    /// Where its name stands.
    pub at: Span,
    /// What it is for.
    pub role: Field<String>,
    /// The usable width of this fabric alone.
    pub usable_width: Field<Written>,
    /// Whether its print has a way, so that pieces keep theirs.
    pub directional: Field<YesNo>,
    /// How it is sold.
    pub sold_as: Field<SoldAs>,
    /// The width of precut strips, or the side of precut squares.
    pub precut: Field<Written>,
    /// What the pattern prints for each size, in the order of the sizes.
    pub requires: Vec<PerSize<Bought>>,
    /// What is cut from it.
    pub cut: Vec<Cut>,
    /// Whether all of the cutting list was read.
    pub cut_whole: bool,
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

/// One entry of a cutting list.
#[derive(Debug)]
pub struct Cut {
    /// Where it starts.
    pub at: Span,
    /// What the pattern calls the piece.
    pub piece: Field<String>,
    /// How large the piece is cut.
    pub size: Field<(Written, Written)>,
    /// How wide the strips are cut, which are left whole where no size is stated.
    pub strip_width: Field<Written>,
    /// Which way of the fabric it is cut.
    pub grain: Field<CutGrain>,
    /// The strips that the text tells to cut, for each size in their order.
    pub strips: Vec<Field<Count>>,
    /// How many pieces are needed, for each size in their order.
    pub pieces: Vec<Field<Count>>,
}

/// How the quilt top is laid out.
#[derive(Debug)]
pub struct Layout {
    /// Where the word `layout` stands.
    pub at: Span,
    /// The layout of each size, in the order of the sizes; nothing for a size that has none.
    pub sizes: Vec<PerSize<SizeLayout>>,
}

/// The layout of one size: blocks, what lies between them, what sets them, and borders.
#[derive(Debug)]
pub struct SizeLayout {
    /// Where the size's name stands.
    pub at: Span,
    /// Whether the blocks stand straight or on their points.
    pub set: Field<Set>,
    /// How many blocks there are from side to side.
    pub across: Field<Count>,
    /// How many there are from top to bottom.
    pub down: Field<Count>,
    /// Which blocks.
    pub blocks: Field<Blocks>,
    /// How wide the sashing between the blocks finishes.
    pub sashing: Field<Written>,
    /// Whether there is sashing round the blocks too.
    pub sashing_round: Field<YesNo>,
    /// Whether there are squares where sashes cross.
    pub cornerstones: Field<YesNo>,
    /// The piece of the cutting list for sashes.
    pub sash: Field<PieceRef>,
    /// The piece for the sashes from side to side, where there are no cornerstones.
    pub long_sash: Field<PieceRef>,
    /// The piece for cornerstones.
    pub cornerstone: Field<PieceRef>,
    /// The unit that sets the blocks at the sides, by its place among the units.
    pub side_triangles: Field<usize>,
    /// The unit that sets them at the corners.
    pub corner_triangles: Field<usize>,
    /// The borders, from the inside.
    pub borders: Vec<Border>,
    /// Whether all borders were read.
    pub borders_whole: bool,
}

/// The blocks of a layout, by their places among the blocks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Blocks {
    /// The same block everywhere.
    All(usize),
    /// So many of each.
    Each(Vec<(Field<usize>, Field<Count>)>),
}

/// A border.
#[derive(Debug)]
pub struct Border {
    /// Where its entry starts.
    pub at: Span,
    /// How wide it finishes.
    pub width: Field<Written>,
    /// How its corners are made.
    pub corners: Field<Corners>,
    /// The piece of the cutting list for it, or for its two sides.
    pub piece: Field<PieceRef>,
    /// The piece for its top and bottom, where that is another.
    pub piece_across: Field<PieceRef>,
    /// The piece for the squares at its corners.
    pub cornerstone: Field<PieceRef>,
    /// Whether it is pieced from strips that are joined.
    pub pieced: Field<YesNo>,
    /// How those strips are joined.
    pub join: Field<Join>,
    /// How much longer than the quilt with its borders a mitred border is cut.
    pub ease: Field<Written>,
}

/// The free tails at both ends of the binding.
#[derive(Debug, Default)]
pub struct Tails {
    /// Where the tails are stated.
    pub at: Option<Span>,
    /// Before the first stitch.
    pub start: Field<Written>,
    /// After the last stitch.
    pub end: Field<Written>,
}

/// A finding that the editor has accepted.
#[derive(Debug)]
pub struct Accepted {
    /// The whole entry.
    pub at: Span,
    /// The rule.
    pub rule: Field<String>,
    /// The size, where the rule is about one.
    pub size: Field<String>,
    /// Why it is accepted.
    pub because: Field<String>,
}

/// A choice that is written as one of a few words, and the words.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[allow(unreachable_pub)] // Private to the module that uses the macro, public in the model.
        pub enum $name { $($(#[$variant_doc])* $variant),+ }

        impl $crate::manuscript::Word for $name {
            const WORDS: &'static [(&'static str, $name)] = &[$(($word, $name::$variant)),+];
        }
    };
}

pub(crate) use words;

words!(
    /// How the strip is folded.
    Fold {
    /// Folded in half lengthwise; two raw edges at the seam.
    Double = "double",
    /// One layer; its second raw edge is turned under.
    Single = "single",
});
words!(
    /// How strips are joined end to end.
    Join {
    /// At 45 degrees.
    Diagonal = "diagonal",
    /// Across, with a plain seam.
    Straight = "straight",
});
words!(
    /// Which way of the fabric strips are cut.
    Grain {
    /// Selvedge to selvedge.
    Crosswise = "crosswise",
    /// Along the selvedge.
    Lengthwise = "lengthwise",
    /// At 45 degrees to the selvedge.
    Bias = "bias",
});
words!(
    /// Which way of the fabric pieces are cut.
    CutGrain {
    /// In strips from selvedge to selvedge.
    Crosswise = "crosswise",
    /// Along the selvedge.
    Lengthwise = "lengthwise",
});
words!(
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
words!(
    /// Yes or no.
    YesNo {
    /// It is so.
    Yes = "yes",
    /// It is not so.
    No = "no",
});
words!(
    /// How the folded edge is fastened.
    Finish {
    /// Topstitched by machine.
    Machine = "machine",
    /// Stitched down by hand.
    Hand = "hand",
    /// Stitched in the ditch of the first seam.
    Ditch = "ditch",
});
words!(
    /// The way that the panels of a backing run.
    PanelsRun {
    /// Along the length of the quilt.
    Along = "along",
    /// Across its width.
    Across = "across",
});
words!(
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
words!(
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
words!(
    /// How the blocks of a layout stand.
    Set {
    /// In rows and columns, their sides upright.
    Straight = "straight",
    /// On their corners.
    OnPoint = "on_point",
});
words!(
    /// How the corners of a border are made.
    Corners {
    /// Top and bottom run over the ends of the sides.
    Butted = "butted",
    /// Sewn at 45 degrees.
    Mitred = "mitred",
    /// With a square in each.
    Cornerstones = "cornerstones",
});
words!(
    /// A side of the quilt.
    Side {
    /// The backing.
    Back = "back",
    /// The top.
    Front = "front",
});
words!(
    /// Loft in a word.
    LoftWord {
    /// A thin sandwich.
    Low = "low",
    /// A middling one.
    Medium = "medium",
    /// A thick one.
    High = "high",
});
words!(
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
    Word(LoftWord),
    /// A measured thickness.
    Measured(Written),
}
