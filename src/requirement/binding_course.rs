//! How the binding lies on the edge of a size.

use super::binding::{BindingNeeds, SizeNeeds};
use crate::quantity::Length;
use crate::quilt_math::joins::Course;
use crate::quilt_math::outline::Edge;
use crate::rule_book::{LengthValue, Settings};

/// How near to a corner the opening may not come.
pub const OPENING_CLEAR_OF_CORNER: LengthValue = LengthValue::named("opening_clear_of_corner");
/// How near to a corner a join may not come.
pub const JOIN_CLEAR_OF_CORNER: LengthValue = LengthValue::named("join_clear_of_corner");

/// The course of the binding round a size; `None` where the tails are not known, or the opening does not fit.
pub fn course<'e>(needs: &BindingNeeds<'_>, size: &'e SizeNeeds<'_>, settings: &Settings) -> Option<Course<'e>> {
    let method = &size.method;
    let (start_tail, _) = needs.tails?;
    let laying = Laying {
        strip_length: size.strip_length,
        join_loss: method.join_loss,
        take_up: method.take_up,
        start_tail,
        opening: needs.opening?,
    };
    laying.round(&size.edge, settings)
}

/// How a binding is laid, whatever its strips are cut from.
#[derive(Clone, Copy, Debug)]
pub struct Laying {
    /// How long each strip is.
    pub strip_length: Length,
    /// What a join takes from the strips.
    pub join_loss: Length,
    /// What a corner takes up.
    pub take_up: Length,
    /// The tail before the first stitch.
    pub start_tail: Length,
    /// The edge between the last and the first stitch.
    pub opening: Length,
}

impl Laying {
    /// The course round an edge; `None` where the opening does not fit on any side.
    pub fn round<'e>(self, edge: &'e Edge, settings: &Settings) -> Option<Course<'e>> {
        let opening_clear = settings.length(OPENING_CLEAR_OF_CORNER);
        let Laying { strip_length, join_loss, take_up, start_tail, opening } = self;
        let fits = opening <= edge.room_for_opening(opening_clear);
        let moved = Length::ZERO;
        fits.then_some(Course { edge, strip_length, join_loss, take_up, start_tail, opening, opening_clear, moved })
    }
}
