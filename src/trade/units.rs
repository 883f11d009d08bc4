//! Units: how large their pieces are cut, how many each takes, and how many units come of one set of pieces.
//!
//! All of it is plain geometry, for any seam. Handbooks print it for a seam of 1/4 in, where 2 + root 2 seams are
//! 7/8 in and 2 + 2 root 2 seams are 1 1/4 in (`AllPeopleQuilt`, "Cutting Half- and Quarter-Square Triangles").

use super::rectangle::Rectangle;
use super::roots::{Side as To, root};
use crate::manuscript::design::{Make, Method};
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

impl Part {
    fn square(name: &'static str, pieces: u64, side: Side) -> Part {
        Part { name, pieces: Count(pieces), width: side, height: side, share: Share::Whole }
    }

    const fn shared(mut self, share: Share) -> Part {
        self.share = share;
        self
    }
}

/// How a unit with this make and method is cut, part by part; none for a strip set, whose strips the writer chooses.
///
/// The finished size of a triangle that sets blocks is that of the block.
pub fn parts(make: Make, method: Option<Method>, finished: Rectangle, seam: Length) -> Vec<Part> {
    let (f, s) = (finished.width, seam);
    match (make, method) {
        (Make::StripSet, _) => Vec::new(),
        (Make::Patch, _) => vec![patch("patch", 1, finished, s)],
        (Make::HalfSquareTriangle, Some(Method::EightAtATime)) => both(half_square_eight(f, s), Share::Half),
        (Make::HalfSquareTriangle, Some(Method::FourAtATime)) => both(half_square_four(f, s), Share::OverRootOfTwo),
        (Make::HalfSquareTriangle, _) => both(half_square_two(f, s), Share::Whole),
        (Make::QuarterSquareTriangle, _) => both(quarter_square(f, s), Share::Whole),
        (Make::FlyingGeese, Some(Method::StitchAndFlip)) => geese_flipped(finished, s),
        (Make::FlyingGeese, _) => geese_four(f, s),
        (Make::SquareInASquare, Some(Method::Pieced)) => square_in_a_square_pieced(f, s),
        (Make::SquareInASquare, _) => square_in_a_square_flipped(f, s),
        (Make::HalfRectangleTriangle, _) => half_rectangle(finished, s),
        (Make::SideTriangle, _) => vec![Part::square("square", 1, side_triangle(f, s)).shared(Share::Half)],
        (Make::CornerTriangle, _) => {
            vec![Part::square("square", 1, corner_triangle(f, s)).shared(Share::OverRootOfTwo)]
        }
    }
}

/// How many pieces of each part one set takes, in the order of [`Make::parts`]; none for a strip set.
pub const fn pieces(make: Make, method: Option<Method>) -> &'static [Count] {
    match (make, method) {
        (Make::StripSet, _) => &[],
        (Make::FlyingGeese, Some(Method::StitchAndFlip)) | (Make::SquareInASquare, Some(Method::Pieced)) => {
            &[Count(1), Count(2)]
        }
        (Make::FlyingGeese | Make::SquareInASquare, _) => &[Count(1), Count(4)],
        (Make::HalfSquareTriangle | Make::QuarterSquareTriangle | Make::HalfRectangleTriangle, _) => {
            &[Count(1), Count(1)]
        }
        (Make::Patch | Make::SideTriangle | Make::CornerTriangle, _) => &[Count(1)],
    }
}

/// How many units one set of pieces gives; `None` for a strip set, where it depends on the strips.
pub const fn gives(make: Make, method: Option<Method>) -> Option<Count> {
    Some(match (make, method) {
        (Make::StripSet, _) => return None,
        (Make::HalfSquareTriangle, Some(Method::EightAtATime)) => Count(8),
        (Make::FlyingGeese, Some(Method::StitchAndFlip)) | (Make::Patch | Make::SquareInASquare, _) => Count(1),
        (Make::HalfSquareTriangle, Some(Method::FourAtATime)) | (Make::FlyingGeese | Make::SideTriangle, _) => Count(4),
        (
            Make::HalfSquareTriangle | Make::QuarterSquareTriangle | Make::HalfRectangleTriangle | Make::CornerTriangle,
            _,
        ) => Count(2),
    })
}

/// How many segments come of a strip set: floor(strip length / segment).
pub fn segments(strip_length: Length, segment: Length) -> Count {
    strip_length.pieces_of(segment)
}

/// A patch: finished size and a seam at each side.
fn patch(name: &'static str, pieces: u64, finished: Rectangle, seam: Length) -> Part {
    let (width, height) = (plain(finished.width, seam), plain(finished.length, seam));
    Part { name, pieces: Count(pieces), width, height, share: Share::Whole }
}

/// A side of a patch: f + 2s.
pub fn plain(f: Length, s: Length) -> Side {
    Side { finished: Exact::whole(f), allowance: Exact::whole(s * 2), cut: Exact::whole(f + s * 2) }
}

fn both(side: Side, share: Share) -> Vec<Part> {
    vec![Part::square("first", 1, side).shared(share), Part::square("second", 1, side).shared(share)]
}

/// Two half-square triangles from two squares of f + s (2 + root 2). Sewn beside the diagonal and cut along it, each
/// half loses s root 2 of its sides to that seam. 3 finished is cut 3 7/8 (`AllPeopleQuilt`; North Hampshire Quilters).
fn half_square_two(f: Length, s: Length) -> Side {
    let square = 2 * s.ticks() * s.ticks();
    Side {
        finished: Exact::whole(f),
        allowance: Exact::with_root(s * 2, square),
        cut: Exact::with_root(f + s * 2, square),
    }
}

/// Four half-square triangles from two squares that are sewn all round and cut along both diagonals: the seams bound a
/// square of c - 2s, and its side is the diagonal of a unit: (c - 2s) / root 2 = f + 2s.
fn half_square_four(f: Length, s: Length) -> Side {
    side_triangle(f, s)
}

/// Eight half-square triangles from two squares of 2 (f + s (2 + root 2)): four pairs of the squares that give two.
/// 3 finished is cut 7 3/4 (Craftsy, "How to make half-square triangles").
fn half_square_eight(f: Length, s: Length) -> Side {
    let square = 8 * s.ticks() * s.ticks();
    Side {
        finished: Exact::whole(f * 2),
        allowance: Exact::with_root(s * 4, square),
        cut: Exact::with_root(f * 2 + s * 4, square),
    }
}

/// Quarter-square triangles, two from two squares of f + s (2 + 2 root 2): both diagonals are seams. 3 finished is cut
/// 4 1/4 (`AllPeopleQuilt`; North Hampshire Quilters).
fn quarter_square(f: Length, s: Length) -> Side {
    let square = 8 * s.ticks() * s.ticks();
    Side {
        finished: Exact::whole(f),
        allowance: Exact::with_root(s * 2, square),
        cut: Exact::with_root(f + s * 2, square),
    }
}

/// Four flying geese of g x g/2 from one square of g + s (2 + 2 root 2) and four of g/2 + s (2 + root 2): the goose is a
/// quarter of a square over its long side, the sky half of a square. 4 x 2 takes 5 1/4 and 2 7/8 (Sylvia's Quilt Depot).
fn geese_four(g: Length, s: Length) -> Vec<Part> {
    vec![Part::square("goose", 1, quarter_square(g, s)), Part::square("sky", 4, half_square_two(g.half(), s))]
}

/// A flying goose by stitching two squares of h + 2s across the corners of a rectangle of (g + 2s) x (h + 2s): the seam
/// is the square's diagonal and reaches from the finished corner to the middle of the finished side.
fn geese_flipped(finished: Rectangle, s: Length) -> Vec<Part> {
    vec![patch("goose", 1, finished, s), Part::square("sky", 2, plain(finished.length, s)).shared(Share::SeamMoves)]
}

/// A square in a square by stitching four squares of f/2 + 2s across the corners of a square of f + 2s.
fn square_in_a_square_flipped(f: Length, s: Length) -> Vec<Part> {
    vec![
        patch("centre", 1, Rectangle::new(f, f), s),
        Part::square("corner", 4, plain(f.half(), s)).shared(Share::SeamMoves),
    ]
}

/// A square in a square from a centre of f / root 2 + 2s and four triangles, halves of two squares of
/// f/2 + s (2 + root 2). 12 finished takes a centre of 9 (Lesson 5, Square in a Square, class handout).
fn square_in_a_square_pieced(f: Length, s: Length) -> Vec<Part> {
    let square = f.ticks() * f.ticks();
    let centre = Side {
        finished: Exact::with_root_of_half(Length::ZERO, square),
        allowance: Exact::whole(s * 2),
        cut: Exact::with_root_of_half(s * 2, square),
    };
    vec![Part::square("centre", 1, centre), Part::square("corner", 2, half_square_two(f.half(), s))]
}

/// The square that is cut twice into four triangles for the sides of a quilt on point: their long side is the block's
/// diagonal, f root 2 + s (2 + 2 root 2) = 2s + (f + 2s) root 2. 12 takes 18 1/4 (Marcia Hohn, Quilter's Cache).
fn side_triangle(f: Length, s: Length) -> Side {
    let (t, with_seams) = (s.ticks(), (f + s * 2).ticks());
    Side {
        finished: Exact::with_root(Length::ZERO, 2 * f.ticks() * f.ticks()),
        allowance: Exact::with_root(s * 2, 8 * t * t),
        cut: Exact::with_root(s * 2, 2 * with_seams * with_seams),
    }
}

/// The square that is cut once into two triangles for the corners of a quilt on point: their long side is the block's
/// side, f / root 2 + s (2 + root 2) = 2s + (f + 2s) / root 2. 12 takes 9 3/8 (Marcia Hohn, Quilter's Cache).
fn corner_triangle(f: Length, s: Length) -> Side {
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
fn half_rectangle(finished: Rectangle, s: Length) -> Vec<Part> {
    let (w, h) = (finished.width, finished.length);
    let side = |f: Length, other: Length| {
        let allowance = seams_of_half_rectangle(f, other, s);
        let cut = Exact { below: f + allowance.below, above: f + allowance.above };
        Side { finished: Exact::whole(f), allowance, cut }
    };
    let part = |name| Part { name, pieces: Count(1), width: side(w, h), height: side(h, w), share: Share::Whole };
    vec![part("first"), part("second")]
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
