//! Fabric that a binding is cut from on the bias: a square for one strip, or strips one by one.

use serde::Serialize;

use super::ShownLength;
use crate::quantity::Yardage;
use crate::requirement::bias::{BiasNeeds, NO_NUMBER};
use crate::requirement::binding::BindingNeeds;

/// A square for continuous bias.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SquareDrawing {
    /// The width between the selvedges that can be used.
    pub usable_width: ShownLength,
    /// How much fabric the pattern tells to buy.
    pub stated: Option<ShownLength>,
    /// The side of the square: as stated, or as needed.
    pub side: ShownLength,
    /// Whether the pattern states it.
    pub side_stated: bool,
    /// How large it must be.
    pub side_needed: ShownLength,
    /// How wide the strip is.
    pub strip_width: ShownLength,
    /// How long a strip it gives.
    pub gives: ShownLength,
    /// How long it must be.
    pub needed: ShownLength,
    /// What is left of the strip.
    pub left: Option<ShownLength>,
    /// What is missing.
    pub short: Option<ShownLength>,
}

/// Strips on the bias.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BiasDrawing {
    /// The width between the selvedges that can be used.
    pub usable_width: ShownLength,
    /// The fabric that they are cut from.
    pub fabric_amount: ShownLength,
    /// Whether the pattern states it.
    pub stated: bool,
    /// How wide each strip is.
    pub strip_width: ShownLength,
    /// How long a strip from edge to edge is.
    pub edge_to_edge: ShownLength,
    /// How long each strip is cut.
    pub strip_length: ShownLength,
    /// How much of the fabric's edge each strip takes.
    pub pitch: ShownLength,
    /// How many strips are wanted.
    pub wanted: u64,
    /// How many the fabric gives.
    pub gives: u64,
    /// How many strips lie from edge to edge.
    pub runs: u64,
}

/// The square that is stated, or the one that is needed.
pub(super) fn square(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> SquareDrawing {
    let measure = needs.measure;
    let stated = size.sides().map(|(side, _)| side);
    let square = stated.unwrap_or_else(|| size.square());
    let gives = size.given_by((square, square));
    let over = gives - size.lengths.asked;
    let (up, down) = (|length| ShownLength::up(length, measure), |length| ShownLength::down(length, measure));
    SquareDrawing {
        usable_width: down(size.usable_width),
        stated: size.stated.fabric.stated().map(|fabric| ShownLength::stated(&fabric.value, measure)),
        side: up(square),
        side_stated: stated.is_some(),
        side_needed: up(size.square()),
        strip_width: up(size.strip_width),
        gives: down(gives),
        needed: up(size.lengths.asked),
        left: (!over.is_negative()).then(|| ShownLength::over(gives, size.lengths.asked, measure)),
        short: over.is_negative().then(|| ShownLength { shown: needs.short(size.lengths.asked, gives), ..up(-over) }),
    }
}

/// The strips out of the stated fabric, or out of the least that gives them; `None` where nothing says how long the strips are, or no number of them reaches.
pub(super) fn strips(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<BiasDrawing> {
    let measure = needs.measure;
    let stated = size.stated.fabric.stated().map(|fabric| fabric.value.least());
    let fabric: Yardage = match stated {
        Some(stated) => stated,
        None if size.no_run_stated() => return None,
        None => size.fabric(needs.shop.own_step(), needs.shop.squaring)?,
    };
    let laid = size.strips_from(fabric);
    let wanted = size.strips_wanted(fabric).filter(|wanted| *wanted != NO_NUMBER)?;
    Some(BiasDrawing {
        usable_width: ShownLength::down(size.usable_width, measure),
        fabric_amount: match size.stated.fabric.stated() {
            Some(stated) => ShownLength::stated(&stated.value, measure),
            None => ShownLength::amount(fabric, measure),
        },
        stated: stated.is_some(),
        strip_width: ShownLength::up(size.strip_width, measure),
        edge_to_edge: ShownLength::down(laid.run, measure),
        strip_length: ShownLength::down(size.strip_length.or_length(|| laid.run)?, measure),
        pitch: ShownLength::up(laid.pitch, measure),
        wanted: wanted.0,
        gives: size.available(fabric)?.0,
        runs: laid.available.0,
    })
}
