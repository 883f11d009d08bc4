//! The quilt's edge with the binding laid round it.
//!
//! It is drawn clockwise as seen from the side that it is sewn to, with the quilt to the left of the needle, and as a
//! band that is wider than it is, since 3/8 in would be a hair.

use serde::Serialize;

use super::ShownLength;
use super::binding_layout::{BindingLayout, Tails};
use super::outline::PlacedOutline;
use crate::manuscript::model::{Fold, Join, Size};
use crate::quantity::{Count, Length, Measure};
use crate::quilt_math::binding::{Ends, Lengths, Method};
use crate::quilt_math::outline::Edge;
use crate::requirement::Needs;
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::binding_course::Laying;
use crate::rule_book::Settings;

/// The edge of one size and its binding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EdgeDrawing {
    /// How wide the quilt is.
    pub width: ShownLength,
    /// How long it is.
    pub length: ShownLength,
    /// All the way round.
    pub round: ShownLength,
    /// The sides in turn, the one with the start first; a round edge is one side.
    pub sides: Vec<EdgeSide>,
    /// What each corner takes up; nothing where there is none.
    pub take_up: Option<ShownLength>,
    /// How long the binding must be.
    pub needed: ShownLength,
    /// How long all of its strips are when joined, where anything says it.
    pub had: Option<ShownLength>,
    /// How much longer that is than it must be.
    pub over: Option<ShownLength>,
    /// How much is missing.
    pub short: Option<ShownLength>,
    /// The strips, where it is made of strips.
    pub strips: Option<StripCounts>,
    /// Whether it is one strip without joins, cut on the bias from a square.
    pub continuous: bool,
    /// How it lies; nothing where that is not known.
    pub laid: Option<BindingLayout>,
    /// Why it is not known how it lies.
    pub not_laid: Option<String>,
    /// Where the sides run.
    #[serde(skip)]
    pub outline: PlacedOutline,
    /// Whether strips are joined on the slant.
    #[serde(skip)]
    pub slanted: bool,
}

/// One side of the edge.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EdgeSide {
    /// Its number, the side with the start being 1.
    pub side: usize,
    /// How long it is.
    pub length: ShownLength,
}

/// The strips of a binding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StripCounts {
    /// How many are drawn: those stated, or those to print where none are stated.
    pub count: u64,
    /// Whether the pattern states them.
    pub stated: bool,
    /// How many it takes to reach; nothing where no number of them does.
    pub enough: Option<u64>,
    /// How many are left over.
    pub left_over: u64,
    /// How long each is.
    pub strip_length: ShownLength,
    /// What a join takes from their length.
    pub join_loss: ShownLength,
}

/// What the binding of a size is made of.
struct Made {
    lengths: Lengths,
    edge: Edge,
    pieces: Pieces,
}

enum Pieces {
    /// Strips, where it is known how many there are.
    Strips { strip_length: Length, join_loss: Length, count: Option<Count>, stated: bool, enough: Option<Count> },
    /// One strip from a square, with what it gives where the square is stated.
    Continuous { gives: Option<Length> },
    /// Strips of which nothing says how long they are.
    Unknown,
}

/// The edge of a size with its binding; `None` where the binding is not stated or not all of it was read.
pub(super) fn edge_of(needs: &Needs<'_>, index: usize, size: &Size, settings: &Settings) -> Option<EdgeDrawing> {
    let binding = needs.binding.as_ref()?;
    binding.stated.requires.get(index)?.stated()?;
    let straight = binding.sizes.iter().find(|known| known.size.name == size.name).map(|known| made(binding, known));
    let bias = || binding.bias.iter().find(|known| known.size.name == size.name).map(made_on_bias);
    let made = straight.or_else(bias)?;
    let outline = PlacedOutline::of(size, &made.edge)?;
    let (width, length) = size.finished.value()?;
    let measure = binding.measure;
    let method = binding.methods.get(index)?.as_ref()?;
    let sides = (1..).zip(&made.edge.sides);
    let had = made.had();
    let over = had.map(|had| had - made.lengths.asked);
    let (laid, not_laid) = match made.binding_layout(binding, method, settings) {
        Ok(laid) => (Some(laid), None),
        Err(why) => (None, Some(why.to_string())),
    };
    Some(EdgeDrawing {
        width: ShownLength::down(width.length, measure),
        length: ShownLength::down(length.length, measure),
        round: ShownLength::up(made.lengths.perimeter, measure),
        sides: sides.map(|(side, length)| EdgeSide { side, length: ShownLength::up(*length, measure) }).collect(),
        take_up: made.edge.cornered.then(|| ShownLength::up(method.take_up, measure)),
        needed: ShownLength::up(made.lengths.asked, measure),
        had: had.map(|had| ShownLength::down(had, measure)),
        over: had
            .filter(|had| *had >= made.lengths.asked)
            .map(|had| ShownLength::over(had, made.lengths.asked, measure)),
        short: over.filter(|over| over.is_negative()).map(|_| short(binding, &made)),
        strips: made.counts(measure),
        continuous: matches!(made.pieces, Pieces::Continuous { .. }),
        laid,
        not_laid,
        outline,
        slanted: binding.join != Some(Join::Straight),
    })
}

fn made(binding: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Made {
    let stated = size.stated.strips.value();
    let count = if size.stated.strips.is_absent() { size.strips_to_print(binding) } else { stated };
    let join_loss = size.method.join_loss;
    let pieces = Pieces::Strips {
        strip_length: size.strip_length,
        join_loss,
        count,
        stated: stated.is_some(),
        enough: size.strips,
    };
    Made { lengths: size.lengths, edge: size.edge.clone(), pieces }
}

/// One strip where a square is stated, and otherwise bias strips, as the rules take them.
fn made_on_bias(size: &BiasNeeds<'_>) -> Made {
    let pieces = if size.stated.square.is_absent() {
        bias_strips(size).unwrap_or(Pieces::Unknown)
    } else {
        Pieces::Continuous { gives: size.sides().map(|sides| size.given_by(sides)) }
    };
    Made { lengths: size.lengths, edge: size.edge.clone(), pieces }
}

/// `None` where nothing says how long each strip is.
fn bias_strips(size: &BiasNeeds<'_>) -> Option<Pieces> {
    let stated = size.stated.strips.value();
    let run = size.strip_run()?;
    let enough = size.strips_of(run);
    let count = if size.stated.strips.is_absent() { enough } else { stated };
    let (strip_length, join_loss) = (run, size.join_loss());
    Some(Pieces::Strips { strip_length, join_loss, count, stated: stated.is_some(), enough })
}

/// How much is missing, by the lengths that are told.
fn short(binding: &BindingNeeds<'_>, made: &Made) -> ShownLength {
    let had = made.had().unwrap_or_default();
    let shown = binding.short(made.lengths.asked, had);
    ShownLength { shown, ..ShownLength::up(made.lengths.asked - had, binding.measure) }
}

impl Made {
    /// How long all of it is when joined.
    fn had(&self) -> Option<Length> {
        match self.pieces {
            Pieces::Strips { strip_length, join_loss, count, .. } => {
                Some(crate::quilt_math::binding::joined(count?, strip_length, join_loss))
            }
            Pieces::Continuous { gives } => gives,
            Pieces::Unknown => None,
        }
    }

    fn counts(&self, measure: Measure) -> Option<StripCounts> {
        let Pieces::Strips { strip_length, join_loss, count, stated, enough } = self.pieces else { return None };
        let count = count?;
        Some(StripCounts {
            count: count.0,
            stated,
            enough: enough.map(|enough| enough.0),
            left_over: enough.map_or(0, |enough| count.less(enough).0),
            strip_length: ShownLength::down(strip_length, measure),
            join_loss: ShownLength::up(join_loss, measure),
        })
    }

    fn binding_layout(
        &self,
        needs: &BindingNeeds<'_>,
        method: &Method,
        settings: &Settings,
    ) -> Result<BindingLayout, &'static str> {
        if needs.fold == Some(Fold::Facing) {
            return Err("A facing is cut for each side by itself.");
        }
        let (strip_length, join_loss, count) = match self.pieces {
            Pieces::Strips { strip_length, join_loss, count, enough, .. } => {
                let count = count.ok_or("Nothing says how many strips there are.")?;
                let enough = enough.ok_or("No number of strips so short goes around.")?;
                (strip_length, join_loss, count.min(enough))
            }
            // One strip is as long as all of it.
            Pieces::Continuous { gives } => (gives.unwrap_or(self.lengths.asked), Length::ZERO, Count(1)),
            Pieces::Unknown => return Err("Nothing says how long each strip is."),
        };
        let tails = self.tails(needs, method);
        let Tails { start, opening, .. } = tails;
        let laying = Laying {
            strip_length,
            join_loss,
            take_up: method.take_up,
            start_tail: start,
            opening: opening.unwrap_or_default(),
        };
        let course = laying.round(&self.edge, settings).ok_or("The opening does not fit on any side.")?;
        Ok(BindingLayout::new(&course, count, tails, needs.measure))
    }

    /// The two tails. With a plain extra length nobody knows them, so half of what is beyond the edge is drawn at each
    /// end.
    fn tails(&self, needs: &BindingNeeds<'_>, method: &Method) -> Tails {
        match method.ends {
            Ends::Tails { start, end, opening } => Tails { start, end, opening: Some(opening), assumed: false },
            Ends::Extra(_) | Ends::Sides => {
                let Lengths { perimeter, corners, asked, .. } = self.lengths;
                let beyond = asked - perimeter - corners + needs.opening.unwrap_or_default();
                let start = beyond.half();
                Tails { start, end: beyond - start, opening: needs.opening, assumed: true }
            }
        }
    }
}
