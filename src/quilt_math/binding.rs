//! Binding: how long it must be, how many strips that takes, how much fabric, and how far the fold reaches.
//!
//! Everything here is geometry except what is passed in: the take-up at a corner, the tails, the opening and the
//! seams are the pattern's or the publisher's.

use super::outline::Edge;
use crate::choices::{Fold, Grain, Join};
use crate::quantity::{Count, Length, Percent, Yardage};

/// What the binding's two ends take beyond the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// Free tails at the first and the last stitch, and the opening left between these.
    Tails {
        /// The tail before the first stitch.
        start: Length,
        /// The tail after the last stitch.
        end: Length,
        /// The edge between the first and the last stitch.
        opening: Length,
    },
    /// A plain length beyond the perimeter, which the pattern states instead.
    Extra(Length),
    /// None: each side of the quilt has a strip of its own.
    Sides,
}

/// How a binding is made, the same for every size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Method {
    /// How wide each strip is cut.
    pub strip_width: Length,
    /// What one join between two strips takes from their length.
    pub join_loss: Length,
    /// What it takes to close the two ends.
    pub closing: Length,
    /// What a mitred corner takes up.
    pub take_up: Length,
    /// The two ends.
    pub ends: Ends,
}

/// The lengths that a binding must have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lengths {
    /// The perimeter.
    pub perimeter: Length,
    /// What all corners take up.
    pub corners: Length,
    /// The least that can go round and be closed.
    pub bare: Length,
    /// The length with the tails, or the extra, that the pattern asks for; never less than `bare`.
    pub asked: Length,
}

/// What a join between two strips takes from their length.
///
/// A diagonal join takes exactly the strip's width: two strips of 10, 3 wide, make 17 (Crayon Box Quilt Studio,
/// "What is lost", 2012; Quilting Board t109880). A straight join takes two seam allowances.
pub fn join_loss(join: Join, strip_width: Length, join_seam: Length) -> Length {
    match join {
        Join::Diagonal => strip_width,
        Join::Straight => join_seam * 2,
    }
}

/// The lengths that a binding must have to go round an edge.
///
/// Closing the ends by a seam takes as much as a join: the tails of a diagonal join overlap by exactly the cut width
/// (Maple Leaf Quilters, "Joining the Ends of your Binding"). A facing is not closed: it is cut side by side.
pub fn lengths(edge: &Edge, method: &Method) -> Lengths {
    let perimeter = edge.perimeter();
    let corners = method.take_up * edge.corners();
    // A facing around a round edge is a ring, which is closed by one more join.
    let ring = method.ends == Ends::Sides && !edge.cornered;
    let bare = perimeter + corners + if ring { method.join_loss } else { method.closing };
    let comfortable = match method.ends {
        Ends::Tails { start, end, opening } => perimeter + corners + start + end - opening,
        Ends::Extra(extra) => perimeter + extra,
        Ends::Sides => bare,
    };
    Lengths { perimeter, corners, bare, asked: comfortable.max(bare) }
}

/// How long so many strips are when joined: n U - (n - 1) j.
pub fn joined(strips: Count, strip_length: Length, join_loss: Length) -> Length {
    match strips {
        Count(0) => Length::ZERO,
        strips => strip_length * strips - join_loss * strips.less(Count(1)),
    }
}

/// The fewest strips that reach a length; `None` where a strip is no longer than a join takes.
pub fn strips_for(length: Length, strip_length: Length, join_loss: Length) -> Option<Count> {
    (length - join_loss).covered_by(strip_length - join_loss).map(|strips| strips.max(Count(1)))
}

/// How the strips lie on the fabric.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutPlan {
    /// How many strips.
    pub strips: Count,
    /// How many lie side by side, or end to end, in one row.
    pub per_row: Count,
    /// How many rows.
    pub rows: Count,
    /// How much of the bolt one row takes.
    pub row: Length,
    /// How much of the bolt all rows take, without anything for squaring up; before washing where it is washed first.
    pub fabric: Yardage,
    /// How much shorter the fabric is after washing.
    pub shrinks: Percent,
}

impl CutPlan {
    /// How much of the bolt all rows take when they are cut.
    pub fn cut(&self) -> Length {
        self.row * self.rows
    }

    /// The same strips of fabric that is so much shorter after washing.
    #[must_use]
    pub fn shrinking(self, shrinks: Percent) -> CutPlan {
        CutPlan { shrinks, fabric: Yardage(shrinks.before(self.cut())), ..self }
    }
}

/// Lays strips on fabric: crosswise ones a row of one strip width, lengthwise ones a row of one strip length.
/// Whole rows decide, never area. `None` where not even one strip fits the usable width.
pub fn cut_plan(
    strips: Count,
    grain: Grain,
    strip_width: Length,
    strip_length: Length,
    usable_width: Length,
) -> Option<CutPlan> {
    let (across, row) = match grain {
        Grain::Lengthwise => (strip_width, strip_length),
        Grain::Crosswise | Grain::Bias => (strip_length, strip_width),
    };
    let per_row = usable_width.pieces_of(across);
    let rows = strips.in_groups_of(per_row)?;
    Some(CutPlan { strips, per_row, rows, row, fabric: Yardage(row * rows), shrinks: Percent::default() })
}

/// How wide a binding strip and a flange strip are that are sewn together along their length: b + f - 2 s.
pub fn with_flange(strip_width: Length, flange: Length, seam: Length) -> Length {
    strip_width + flange - seam * 2
}

/// How much of a flange shows beside the binding that is folded over: half of what its strip is wider, (f - b) / 2.
pub fn flange_shows(strip_width: Length, flange: Length) -> Length {
    (flange - strip_width).half()
}

/// How far the folded edge reaches past the stitching of the seam, less than nothing where it falls short.
///
/// Double: folded, the strip is w/2; it travels the seam to the edge, round the loft and the seam back, and its own
/// seam allowance is one more: w/2 - 3s - t. Single: w - 4s - t. This is the handbooks' "six times the finished
/// width plus ease" and "four times" (All-in-One Quilter's Reference Tool, C&T: 1/4 takes 1 5/8 and 1 1/8). `None` for a
/// facing, which lies flat on the back.
pub fn reach(fold: Fold, strip_width: Length, seam: Length, loft: Length) -> Option<Length> {
    match fold {
        Fold::Double => Some(strip_width.half() - seam * 3 - loft),
        Fold::Single => Some(strip_width - seam * 4 - loft),
        Fold::Facing => None,
    }
}

/// The narrowest strip whose fold reaches so far past the stitching: `reach` solved for the width.
pub fn width_for_reach(fold: Fold, reach: Length, seam: Length, loft: Length) -> Option<Length> {
    match fold {
        Fold::Double => Some((reach + seam * 3 + loft) * 2),
        Fold::Single => Some(reach + seam * 4 + loft),
        Fold::Facing => None,
    }
}
