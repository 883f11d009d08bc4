//! What is cut from each fabric of a size: the strips across it, the pieces in them, and what is left.

use serde::Serialize;

use super::ShownLength;
use super::bias::{BiasDrawing, SquareDrawing};
use crate::manuscript::model::Bought;
use crate::quantity::{Count, Length, Measure, Yardage};
use crate::quilt_math::cutting::Cloth;
use crate::quilt_math::plan::{StripCut, Strips};
use crate::quilt_math::taken::Taken;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

/// What is cut from one fabric.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FabricDrawing {
    /// The fabric, or `binding`.
    pub fabric: String,
    /// How it is cut.
    #[serde(flatten)]
    pub cut: FabricCut,
}

/// How a fabric is cut.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum FabricCut {
    /// In strips from selvedge to selvedge, or in rows of strips along them.
    Bolt(BoltDrawing),
    /// A square for one strip on the bias.
    Square(SquareDrawing),
    /// In strips on the bias.
    Bias(BiasDrawing),
    /// Precut pieces of one size.
    Precut(PrecutDrawing),
}

/// Fabric from the bolt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BoltDrawing {
    /// How much the pattern tells to buy; nothing where it does not.
    pub stated: Option<ShownLength>,
    /// How much of it is used, and what is left or missing.
    #[serde(flatten)]
    pub extent: Extent,
    /// The width between the selvedges that is used.
    pub usable_width: ShownLength,
    /// How many strips there are in all.
    pub strips: u64,
    /// The strips from one end on, those that are alike together.
    pub rows: Vec<Row>,
    /// How many strips more are not shown.
    pub more: u64,
}

/// How far along the bolt something reaches.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Extent {
    /// What the strips take.
    pub used: ShownLength,
    /// What is left of the stated amount, squaring up included.
    pub left: Option<ShownLength>,
    /// What is missing.
    pub short: Option<ShownLength>,
}

/// Strips that are cut alike, one after another along the bolt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Row {
    /// The number of the first of them.
    pub first: u64,
    /// How many.
    pub strips: u64,
    /// How far along the bolt the first begins.
    pub from: ShownLength,
    /// How wide each is cut.
    pub width: ShownLength,
    /// What is cut from each, from one selvedge on.
    pub pieces: Vec<Pieces>,
    /// How many pieces more in each are not told.
    pub more_pieces: u64,
    /// What is left at the end of each.
    pub rest: ShownLength,
    /// All that is left over of each, the ends included.
    pub left_over: Vec<LeftOver>,
}

/// A rectangle that no piece is cut from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftOver {
    /// How far from the strip's end it begins.
    pub from: ShownLength,
    /// How far from the strip's edge it begins.
    pub above: ShownLength,
    /// How long it is along the strip.
    pub across: ShownLength,
    /// How much of the strip's width it takes.
    pub along: ShownLength,
}

/// Pieces of one kind in a strip.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Pieces {
    /// What they are called.
    pub piece: String,
    /// How many in each strip.
    pub count: u64,
    /// How far from the strip's end the first begins.
    pub from: ShownLength,
    /// How far from the strip's edge the first begins.
    pub above: ShownLength,
    /// How long each is along the strip.
    pub across: ShownLength,
    /// How much of the strip's width each takes.
    pub along: ShownLength,
    /// How many lie beside one another in the strip's width.
    pub stacked: u64,
}

/// Precut pieces.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PrecutDrawing {
    /// What one is called: `fat quarter`.
    pub called: String,
    /// How wide each is.
    pub across: ShownLength,
    /// How long each is.
    pub along: ShownLength,
    /// How many are used.
    pub used: u64,
    /// How many the pattern tells to buy.
    pub stated: Option<u64>,
    /// How many are left.
    pub left: u64,
    /// How many are missing.
    pub short: u64,
}

/// How many kinds of pieces one row tells.
const MAX_PIECES: usize = 40;

/// What is cut from one fabric of a size, in so many rows at most.
pub(super) fn drawing(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    rows: usize,
) -> Option<FabricDrawing> {
    let taken = size.to_follow()?;
    let cut = match (fabric.cloth?, taken.small) {
        (Cloth::Small { across, along, .. }, Some(used)) => {
            let stated = match size.required {
                Some(Bought::Count(stated)) => Some(stated.value),
                _ => None,
            };
            FabricCut::Precut(precut(fabric.sold_as_words(), (across, along), used, stated, needs.measure))
        }
        _ => {
            let stated = match size.required {
                Some(Bought::Amount(amount)) if size.shrinks.is_nothing() => {
                    Some(ShownLength::stated(&amount.value, needs.measure))
                }
                // What is cut is drawn, after washing.
                Some(Bought::Amount(amount)) => {
                    let left = Yardage(size.shrinks.left_of(amount.value.yardage().0));
                    Some(ShownLength::amount(left, needs.measure))
                }
                _ => None,
            };
            FabricCut::Bolt(bolt((needs.measure, rows), taken, stated, |piece| fabric.name(piece).to_string())?)
        }
    };
    Some(FabricDrawing { fabric: fabric.stated.name.clone(), cut })
}

fn precut(
    called: String,
    (across, along): (Length, Length),
    used: Count,
    stated: Option<Count>,
    measure: Measure,
) -> PrecutDrawing {
    PrecutDrawing {
        called,
        across: ShownLength::down(across, measure),
        along: ShownLength::down(along, measure),
        used: used.0,
        stated: stated.map(|stated| stated.0),
        left: stated.map_or(0, |stated| stated.less(used).0),
        short: stated.map_or(0, |stated| used.less(stated).0),
    }
}

/// The strips of a plan on the bolt; `None` where nothing is cut from it.
pub(super) fn bolt(
    (measure, most): (Measure, usize),
    taken: &Taken,
    stated: Option<ShownLength>,
    name: impl Fn(usize) -> String,
) -> Option<BoltDrawing> {
    let strips = taken.plan.strips.iter().fold(Count(0), |sum, strips| sum + strips.count);
    if strips.0 == 0 {
        return None;
    }
    let mut rows = Vec::new();
    let (mut first, mut from) = (1, Length::ZERO);
    for alike in taken.plan.strips.iter().take(most) {
        rows.push(row(alike, (first, from), taken.strip_length, measure, &name));
        first += alike.count.0;
        from = from + alike.width * alike.count;
    }
    Some(BoltDrawing {
        extent: extent(taken.plan.length(), stated.as_ref(), measure),
        stated,
        usable_width: ShownLength::down(taken.strip_length, measure),
        strips: strips.0,
        rows,
        more: strips.0 - (first - 1),
    })
}

fn extent(used: Length, stated: Option<&ShownLength>, measure: Measure) -> Extent {
    let left = stated.map(|stated| stated.length - used);
    Extent {
        used: ShownLength::up(used, measure),
        left: stated
            .filter(|stated| stated.length >= used)
            .map(|stated| ShownLength::over(stated.length, used, measure)),
        short: left.filter(|left| left.is_negative()).map(|left| ShownLength::up(-left, measure)),
    }
}

fn row(
    alike: &Strips,
    (first, from): (u64, Length),
    strip_length: Length,
    measure: Measure,
    name: &impl Fn(usize) -> String,
) -> Row {
    let pieces = |laid: &StripCut| Pieces {
        piece: name(laid.piece),
        count: laid.count.0,
        from: ShownLength::down(laid.from, measure),
        above: ShownLength::down(laid.above, measure),
        across: ShownLength::up(laid.across, measure),
        along: ShownLength::up(laid.along, measure),
        stacked: laid.stacked.0.max(1),
    };
    // The pieces lie in the order in which they are cut, as what is left over does.
    let cuts = match alike.parts() {
        Some(part) => part.grids().iter().map(|grid| StripCut::of_grid(grid.item, grid)).collect(),
        None => alike.cuts.clone(),
    };
    let left = alike.left_over(strip_length).into_iter().take(MAX_PIECES).map(|left| LeftOver {
        from: ShownLength::down(left.from, measure),
        above: ShownLength::down(left.above, measure),
        across: ShownLength::down(left.across, measure),
        along: ShownLength::down(left.along, measure),
    });
    Row {
        first,
        strips: alike.count.0,
        from: ShownLength::up(from, measure),
        width: ShownLength::up(alike.width, measure),
        pieces: cuts.iter().take(MAX_PIECES).map(pieces).collect(),
        more_pieces: cuts.iter().skip(MAX_PIECES).map(|laid| laid.count.0).sum(),
        rest: ShownLength::down(alike.rest, measure),
        left_over: left.collect(),
    }
}
