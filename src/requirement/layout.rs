//! How the binding lies on the edge of a size.

use super::binding::{BindingNeeds, SizeNeeds};
use crate::rule_book::{LengthValue, Settings};
use crate::trade::joins::Course;

/// How near to a corner the opening may not come.
pub const OPENING_CLEAR_OF_CORNER: LengthValue = LengthValue("opening_clear_of_corner");
/// How near to a corner a join may not come.
pub const JOIN_CLEAR_OF_CORNER: LengthValue = LengthValue("join_clear_of_corner");

/// The course of the binding round a size; `None` where the tails are not known, or the opening does not fit.
pub fn course(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>, settings: &Settings) -> Option<Course> {
    let method = needs.method.as_ref()?;
    let (start_tail, _) = needs.tails?;
    let opening = needs.opening?;
    let opening_clear = settings.length(OPENING_CLEAR_OF_CORNER);
    let fits = opening <= size.edge.room_for_opening(opening_clear);
    fits.then_some(Course {
        edge: size.edge.clone(),
        strip_length: size.strip_length,
        join_loss: method.join_loss,
        take_up: method.take_up,
        start_tail,
        opening,
        opening_clear,
    })
}
