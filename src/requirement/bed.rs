//! The bed that a size is for: how much of it the quilt must cover.

use super::batting::finished;
use crate::manuscript::model::{Bed, Size};
use crate::quantity::Length;
use crate::quilt_math::rectangle::Rectangle;
use crate::rule_book::{DimensionsValue, Settings};

const TWIN: DimensionsValue = DimensionsValue::named("mattress_twin");
const LONG_TWIN: DimensionsValue = DimensionsValue::named("mattress_long_twin");
const FULL: DimensionsValue = DimensionsValue::named("mattress_full");
const QUEEN: DimensionsValue = DimensionsValue::named("mattress_queen");
const KING: DimensionsValue = DimensionsValue::named("mattress_king");
const CALIFORNIA_KING: DimensionsValue = DimensionsValue::named("mattress_california_king");

/// What a quilt must cover.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BedNeeds {
    /// The quilt.
    pub quilt: Rectangle,
    /// The top of the mattress.
    pub mattress: Rectangle,
    /// How far the quilt hangs down at both sides and at the foot.
    pub drop: Length,
    /// How much of it is tucked under the pillows.
    pub tuck: Length,
    /// The mattress, the drops and the tuck.
    pub needed: Rectangle,
}

/// What a size must cover; `None` where no bed is stated, or something of it could not be read. No quilt has to cover the
/// mattress of a crib.
pub fn bed(size: &Size, settings: &Settings) -> Option<BedNeeds> {
    let mattress = match size.bed.value()? {
        Bed::Crib => return None,
        Bed::Twin => TWIN,
        Bed::LongTwin => LONG_TWIN,
        Bed::Full => FULL,
        Bed::Queen => QUEEN,
        Bed::King => KING,
        Bed::CaliforniaKing => CALIFORNIA_KING,
    };
    let mattress = settings.dimensions(mattress);
    let drop = size.drop.or_length(|| Length::ZERO)?;
    let tuck = size.tuck.or_length(|| Length::ZERO)?;
    let needed = Rectangle::new(mattress.width + drop * 2, mattress.length + drop + tuck);
    Some(BedNeeds { quilt: finished(size)?, mattress, drop, tuck, needed })
}
