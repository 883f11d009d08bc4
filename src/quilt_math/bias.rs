//! Bias strips: from a square as one continuous strip, or one by one across fabric at 45 degrees.
//!
//! The strips are cut after the triangle at one end is sewn to the other, so that every strip is whole and as long as
//! the next. Cut as they come, those at both ends would be shorter, and no pattern says how long each is. The seam that
//! this takes is counted.

use super::fixed_point::{Side, diagonal, root};
use crate::quantity::{Count, Length};

/// The side of the square from which continuous bias of a length comes, never less than the true one.
///
/// The square gives its area in strip: a side a gives a^2 / w. Its two construction seams take two seam allowances
/// off each side first: (a - 2s)^2 / w. Plain geometry; `McCall's` Quilting, "Continuous Bias", prints a table that
/// lies 0 to 3 in above it.
pub fn square_for(length: Length, strip_width: Length, seam: Length) -> Length {
    root(length.ticks() * strip_width.ticks(), Side::Above) + seam * 2
}

/// How much continuous bias a square gives, never more than the true length.
pub fn square_gives(side: Length, strip_width: Length, seam: Length) -> Length {
    rectangle_gives((side, side), strip_width, seam)
}

/// How much continuous bias a rectangle gives, never more than the true length: (a - 2s) (b - 2s) / w.
pub fn rectangle_gives((width, length): (Length, Length), strip_width: Length, seam: Length) -> Length {
    let inside = |side: Length| (side - seam * 2).ticks().max(0);
    Length::from_ticks(inside(width) * inside(length) / strip_width.ticks().max(1))
}

/// How bias strips lie on fabric.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BiasStrips {
    /// How long each strip is, never more than the true length.
    pub run: Length,
    /// How much of the fabric's edge one strip takes, never less than the true length.
    pub pitch: Length,
    /// How many can be cut.
    pub available: Count,
}

/// The bias strips that come out of fabric, each from edge to edge of its shorter way. A strip takes its width times
/// the root of two of the longer way: it is measured along the edge, not across the strip.
///
/// Laid at 45 degrees on a rectangle, strips would run out into a triangle at either end. So that every strip is
/// whole, the triangle is cut off one end and sewn to the other, straight edge to straight edge, which takes two
/// seam allowances off the longer way (common practice).
pub fn strips_from(usable_width: Length, fabric: Length, strip_width: Length, seam: Length) -> BiasStrips {
    let (short, long) = (usable_width.min(fabric), usable_width.max(fabric));
    let pitch = diagonal(strip_width, Side::Above);
    BiasStrips { run: diagonal(short, Side::Below), pitch, available: (long - seam * 2).pieces_of(pitch) }
}

/// What a join between two bias strips takes: their ends lie on the grain, at 45 degrees to the strip, so two seam
/// allowances take two seams times the root of two of its length.
pub fn join_loss(seam: Length) -> Length {
    diagonal(seam * 2, Side::Above)
}
