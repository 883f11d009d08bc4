//! Units: how large their pieces are cut, how many each takes, and how many units come of one set of pieces.
//!
//! All of it is plain geometry, for any seam. Handbooks print it for a seam of 1/4 in, where 2 + root 2 seams are
//! 7/8 in and 2 + 2 root 2 seams are 1 1/4 in (`AllPeopleQuilt`, "Cutting Half- and Quarter-Square Triangles").
//!
//! A cut size with a root in it is held as the two whole ticks next to it (`Exact`), one not above the true size and
//! one not below it. A stated size is short only if it is below the lower, and too large only if it is above the upper,
//! each beyond the tolerance of 1/64 in: printed tables that round the root of two to 1.414 are right, and so is the
//! size that handbooks print, the allowance rounded up to the ruler.

use super::fixed_point::{Side as To, root};
use super::rectangle::Rectangle;
use crate::quantity::{Count, Length, common_divisor};

/// A length that may be no fraction, between the two whole ticks next to it. Stated lengths are whole ticks, so that
/// comparing them with these two is comparing them with the length itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exact {
    /// The most whole ticks that are not above it.
    pub below: Length,
    /// The fewest whole ticks that are not below it.
    pub above: Length,
}

impl Exact {
    /// A length that is whole ticks.
    const fn whole(length: Length) -> Exact {
        Exact { below: length, above: length }
    }

    /// A length and a root beside it.
    fn with_root(length: Length, square: i128) -> Exact {
        Exact { below: length + root(square, To::Below), above: length + root(square, To::Above) }
    }

    /// A length and the root of half a square beside it.
    fn with_root_of_half(length: Length, square: i128) -> Exact {
        // Where the half is no whole number, the next whole number above has the same root above.
        let above = square / 2 + square % 2;
        Exact { below: length + root(square / 2, To::Below), above: length + root(above, To::Above) }
    }

    /// Whether a length is as long, or short of it by a tolerance at most.
    pub fn is_met_by(self, length: Length, tolerance: Length) -> bool {
        length + tolerance >= self.above
    }

    /// Whether a length is longer by more than a tolerance.
    pub fn is_exceeded_by(self, length: Length, tolerance: Length) -> bool {
        length - tolerance > self.below
    }

    /// Whether a length is the same within a tolerance.
    pub fn is_about(self, length: Length, tolerance: Length) -> bool {
        self.is_met_by(length, tolerance) && !self.is_exceeded_by(length, tolerance)
    }
}

/// One side of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Side {
    /// What is seen of it once it is sewn.
    pub finished: Exact,
    /// What its seams take.
    pub allowance: Exact,
    /// Both together: how it is cut.
    pub cut: Exact,
}

impl Side {
    /// What to cut: the exact size where it is a fraction, otherwise the next mark of a ruler.
    pub fn on_ruler(&self, step: Length) -> Length {
        let whole = self.cut.below == self.cut.above;
        if whole { self.cut.above } else { self.cut.above.up_to(step) }
    }

    /// The next mark of a ruler: where the allowance is rounded up to one first, as handbooks do, and then the sum.
    pub fn by_handbook(&self, step: Length) -> Length {
        (self.finished.above + self.allowance.above.up_to(step)).up_to(step)
    }
}

/// What a larger piece does to the unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// The unit grows as much.
    Whole,
    /// It grows half as much.
    Half,
    /// It grows as much, divided by the root of two.
    OverRootOfTwo,
    /// It stays as large, and the seam across its corner lies so much too far in, divided by the root of two.
    SeamMoves,
}

impl Share {
    /// How far the unit, or its seam, is out where a piece is so much too large, never less.
    pub fn of(self, excess: Length) -> Length {
        match self {
            Share::Whole => excess,
            Share::Half => excess.half(),
            Share::OverRootOfTwo | Share::SeamMoves => {
                Exact::with_root_of_half(Length::ZERO, excess.ticks() * excess.ticks()).above
            }
        }
    }
}

/// A part of a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// What the format calls it.
    pub name: &'static str,
    /// How many pieces one set takes.
    pub pieces: Count,
    /// How wide each is cut.
    pub width: Side,
    /// How high each is cut.
    pub height: Side,
    /// What a larger piece does to the unit.
    pub share: Share,
}

/// How many segments come of a strip set: floor(strip length / segment).
pub fn segments(strip_length: Length, segment: Length) -> Count {
    strip_length.pieces_of(segment)
}

/// A patch: finished size and a seam at each side.
pub(super) fn patch(finished: Rectangle, seam: Length) -> (Side, Side) {
    (plain(finished.width, seam), plain(finished.length, seam))
}

/// A side of a patch: f + 2s.
pub fn plain(f: Length, s: Length) -> Side {
    Side { finished: Exact::whole(f), allowance: Exact::whole(s * 2), cut: Exact::whole(f + s * 2) }
}

/// Two half-square triangles from two squares of f + s (2 + root 2). Sewn beside the diagonal and cut along it, each
/// half loses s root 2 of its sides to that seam. 3 finished is cut 3 7/8 (`AllPeopleQuilt`; North Hampshire Quilters).
pub(super) fn half_square_two(f: Length, s: Length) -> Side {
    let square = 2 * s.ticks() * s.ticks();
    Side {
        finished: Exact::whole(f),
        allowance: Exact::with_root(s * 2, square),
        cut: Exact::with_root(f + s * 2, square),
    }
}

/// Four half-square triangles from two squares that are sewn all round and cut along both diagonals: the seams bound a
/// square of c - 2s, and its side is the diagonal of a unit: (c - 2s) / root 2 = f + 2s.
pub(super) fn half_square_four(f: Length, s: Length) -> Side {
    side_triangle(f, s)
}

/// Eight half-square triangles from two squares of 2 (f + s (2 + root 2)): four pairs of the squares that give two.
/// 3 finished is cut 7 3/4 (Craftsy, "How to make half-square triangles").
pub(super) fn half_square_eight(f: Length, s: Length) -> Side {
    let square = 8 * s.ticks() * s.ticks();
    Side {
        finished: Exact::whole(f * 2),
        allowance: Exact::with_root(s * 4, square),
        cut: Exact::with_root(f * 2 + s * 4, square),
    }
}

/// Quarter-square triangles, two from two squares of f + s (2 + 2 root 2): both diagonals are seams. 3 finished is cut
/// 4 1/4 (`AllPeopleQuilt`; North Hampshire Quilters).
pub(super) fn quarter_square(f: Length, s: Length) -> Side {
    let square = 8 * s.ticks() * s.ticks();
    Side {
        finished: Exact::whole(f),
        allowance: Exact::with_root(s * 2, square),
        cut: Exact::with_root(f + s * 2, square),
    }
}

/// The centre of a square in a square that triangles are sewn to: f / root 2 + 2s. 12 finished takes a centre of 9
/// (Lesson 5, Square in a Square, class handout).
pub(super) fn square_on_point(f: Length, s: Length) -> Side {
    let square = f.ticks() * f.ticks();
    Side {
        finished: Exact::with_root_of_half(Length::ZERO, square),
        allowance: Exact::whole(s * 2),
        cut: Exact::with_root_of_half(s * 2, square),
    }
}

/// The square that is cut twice into four triangles for the sides of a quilt on point: their long side is the block's
/// diagonal, f root 2 + s (2 + 2 root 2) = 2s + (f + 2s) root 2. 12 takes 18 1/4 (Marcia Hohn, Quilter's Cache).
pub(super) fn side_triangle(f: Length, s: Length) -> Side {
    let (t, with_seams) = (s.ticks(), (f + s * 2).ticks());
    Side {
        finished: Exact::with_root(Length::ZERO, 2 * f.ticks() * f.ticks()),
        allowance: Exact::with_root(s * 2, 8 * t * t),
        cut: Exact::with_root(s * 2, 2 * with_seams * with_seams),
    }
}

/// The square that is cut once into two triangles for the corners of a quilt on point: their long side is the block's
/// side, f / root 2 + s (2 + root 2) = 2s + (f + 2s) / root 2. 12 takes 9 3/8 (Marcia Hohn, Quilter's Cache).
pub(super) fn corner_triangle(f: Length, s: Length) -> Side {
    let (t, with_seams) = (s.ticks(), (f + s * 2).ticks());
    Side {
        finished: Exact::with_root_of_half(Length::ZERO, f.ticks() * f.ticks()),
        allowance: Exact::with_root(s * 2, 2 * t * t),
        cut: Exact::with_root_of_half(s * 2, with_seams * with_seams),
    }
}

/// Two half-rectangle triangles from two rectangles that are cut once. A triangle with a seam round it is the finished
/// one enlarged from the centre of the circle in it, from its radius r to r + s: w (1 + s / r) x h (1 + s / r), where
/// r = (w + h - d) / 2 and d is the diagonal. As a sum, w (1 + s / r) = w + s (w + h + d) / h.
pub(super) fn half_rectangle(finished: Rectangle, s: Length) -> (Side, Side) {
    let side = |f: Length, other: Length| {
        let allowance = seams_of_half_rectangle(f, other, s);
        let cut = Exact { below: f + allowance.below, above: f + allowance.above };
        Side { finished: Exact::whole(f), allowance, cut }
    };
    (side(finished.width, finished.length), side(finished.length, finished.width))
}

/// s (w + h + d) / h.
fn seams_of_half_rectangle(w: Length, h: Length, s: Length) -> Exact {
    let (w, h, s) = (w.ticks(), h.ticks(), s.ticks());
    if w <= 0 || h <= 0 {
        return Exact::whole(Length::ZERO);
    }
    // The proportions alone decide, and small numbers keep the square of s d within bounds.
    let common = common_divisor(common_divisor(w, h), s);
    let (w, h) = (w / common, h / common);
    let square = w * w + h * h;
    let (below, above) = match s.checked_mul(s).and_then(|s| s.checked_mul(square)) {
        Some(square) => (root(square, To::Below).ticks(), root(square, To::Above).ticks()),
        None => (s * root(square, To::Below).ticks(), s * root(square, To::Above).ticks()),
    };
    let (below, above) = (s * (w + h) + below, s * (w + h) + above);
    Exact {
        below: Length::from_ticks(below.div_euclid(h)),
        above: Length::from_ticks(above.div_euclid(h) + i128::from(above.rem_euclid(h) != 0)),
    }
}
