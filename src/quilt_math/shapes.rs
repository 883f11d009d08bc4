//! Shapes with slanted sides that are cut from strips: how wide the strip is, and how many come of it.
//!
//! All of it is plain geometry. A seam of s around a finished shape moves each side out by s. Where two sides meet at an
//! angle a, the corner moves along either side by s / sin a + s / tan a. So an equilateral triangle of the side f is cut
//! f + 2 root 3 s along each side from strips of its height + 3s with its tips, and + 2s where they are cut off at the
//! seam (The Quilter's Bible, shapes chapter: the finished height + 3/4 in); a hexagon from strips of f root 3 + 2s
//! (Slaney Quilting Studio, "How to cut the hexagon shape": 2 3/4 in flat to flat from 3 1/4 in); a diamond or a
//! parallelogram with the angle a from its height + 2s, every base + 2s / sin a along the strip.
//!
//! Shapes lie edge to edge in the strip, its edges two of their sides, the first end cut at the angle. Those that are
//! narrower at one edge are turned alternately, unless the print has a way up.
//!
//! No root is rounded before it is compared: a measure is a part without a root and one with the root of 2 or 3 (`Surd`),
//! compared by squares.

use super::fixed_point::{Side as To, root};
use crate::choices::{CutAngle, CutShape, Tips};
use crate::quantity::{Count, Length, Measure};

/// By how much a strip may be too narrow: what no ruler shows (the tolerance of cut sizes).
const TOLERANCE: Length = Length::inch_fraction(1, 64);

/// A length with a root in it, in twelfths of a tick: halves, quarters and thirds of ticks are whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Surd {
    plain: i128,
    /// What counts times the root.
    root: i128,
    /// What the root is of: 2 or 3.
    of: i128,
}

/// Parts of a tick in which a [`Surd`] is held.
const PARTS: i128 = 12;

impl Surd {
    const fn new(plain: i128, root: i128, of: i128) -> Surd {
        Surd { plain, root, of }
    }

    const fn plus(self, other: Surd) -> Surd {
        Surd { plain: self.plain + other.plain, root: self.root + other.root, of: self.of }
    }

    const fn minus(self, other: Surd) -> Surd {
        Surd { plain: self.plain - other.plain, root: self.root - other.root, of: self.of }
    }

    const fn times(self, count: i128) -> Surd {
        Surd { plain: self.plain * count, root: self.root * count, of: self.of }
    }

    const fn over(self, divisor: i128) -> Surd {
        Surd { plain: self.plain / divisor, root: self.root / divisor, of: self.of }
    }

    /// Whether it is no longer than a length, exactly.
    fn fits(self, length: Length) -> bool {
        let rest = length.ticks() * PARTS - self.plain;
        let (rest_squared, root_squared) = (rest * rest, self.of * self.root * self.root);
        match (rest >= 0, self.root >= 0) {
            (true, true) => rest_squared >= root_squared,
            (true, false) => true,
            (false, true) => false,
            (false, false) => rest_squared <= root_squared,
        }
    }

    /// In whole ticks, never less than the true length.
    fn above(self) -> Length {
        let below = self.below();
        if self.fits(below) { below } else { below + Length::from_ticks(1) }
    }

    /// In whole ticks, never more than the true length.
    fn below(self) -> Length {
        let square = self.of * self.root * self.root;
        let parts = self.plain
            + if self.root >= 0 { root(square, To::Below).ticks() } else { -root(square, To::Above).ticks() };
        Length::from_ticks(parts.div_euclid(PARTS))
    }
}

/// A shape that is cut from strips, as the text has it. Pieces of a list are many: it is kept small.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StripShape {
    /// Its finished side, or its finished base, the longer one; or how high it finishes, where that is stated instead.
    pub side: Length,
    /// How high it finishes, of a parallelogram or a trapezoid; 0 of every other shape.
    pub height: Length,
    /// The seam around it.
    pub seam: Length,
    /// How wide the strips are cut, where the text says so; otherwise 0.
    pub strip_width: Length,
    /// Which shape.
    pub shape: CutShape,
    /// The angle at its base, of a parallelogram or a trapezoid.
    pub angle: CutAngle,
    /// Whether a triangle keeps its tips.
    pub tips: Tips,
    /// Whether `side` is how high it finishes, from edge to edge or to the tip.
    pub by_height: bool,
    /// Whether it may be turned in the strip.
    pub turns: bool,
    /// Whether the strips run along the other side of a small fabric.
    pub is_sideways: bool,
    /// The measure of the ruler that strips are cut by.
    pub measure: Measure,
}

/// How a shape lies in a strip: as high as the strip, `long` at one edge and `short` at the other.
#[derive(Clone, Copy, Debug)]
struct Lies {
    height: Surd,
    long: Surd,
    short: Surd,
    kind: Row,
}

/// How shapes follow one another along the strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Row {
    /// Both sides slant towards the short edge: every second one is turned.
    Alternating,
    /// One side is square to the edges: two make a rectangle.
    InPairs,
    /// Side by side, both edges as long.
    SideBySide,
    /// Point to point.
    PointToPoint,
}

impl StripShape {
    /// A shape by its side and height, which may be turned, from strips of which the text does not say how wide they are.
    pub const fn new(shape: CutShape, (side, height): (Length, Length), seam: Length) -> StripShape {
        StripShape {
            side,
            height,
            seam,
            strip_width: Length::ZERO,
            shape,
            angle: CutAngle::Sixty,
            tips: Tips::Sharp,
            by_height: false,
            turns: true,
            is_sideways: false,
            measure: Measure::Inch,
        }
    }

    /// Whether its sides meet below its height, so that there is no such shape: a trapezoid too high for its base.
    pub fn is_impossible(&self) -> bool {
        self.shape == CutShape::Trapezoid && self.top().fits(Length::ZERO)
    }

    /// The finished upper edge of a trapezoid.
    fn top(&self) -> Surd {
        let (base, height) = (self.side.ticks(), self.height.ticks());
        match self.angle {
            CutAngle::Sixty => Surd::new(12 * base, -8 * height, 3),
            CutAngle::FortyFive => Surd::new(12 * (base - 2 * height), 0, 2),
        }
    }

    /// The root that its measures have, and its finished side and height in it.
    fn finished(&self) -> (i128, Surd, Surd) {
        let of = match (self.shape, self.angle) {
            (CutShape::Diamond45, _) | (CutShape::Parallelogram | CutShape::Trapezoid, CutAngle::FortyFive) => 2,
            _ => 3,
        };
        let plain = |length: Length| Surd::new(12 * length.ticks(), 0, of);
        let rooted = |length: Length, parts: i128| Surd::new(0, parts * length.ticks(), of);
        // How high it is beside its side, and the other way round, in twelfths of the root.
        let (up, along) = match self.shape {
            CutShape::Hexagon => (12, 4),
            CutShape::Diamond45 => (6, 12),
            _ => (6, 8),
        };
        match self.shape {
            CutShape::Parallelogram | CutShape::Trapezoid => (of, plain(self.side), plain(self.height)),
            _ if self.by_height => (of, rooted(self.side, along), plain(self.side)),
            _ => (of, plain(self.side), rooted(self.side, up)),
        }
    }

    /// How it lies in a strip as wide as it is high.
    fn lies(&self) -> Lies {
        let (of, side, height) = self.finished();
        let seam = self.seam.ticks();
        let s = |plain: i128, root: i128| Surd::new(plain * seam, root * seam, of);
        let sharp = self.tips == Tips::Sharp;
        let (strip, long, short, kind) = match self.shape {
            CutShape::Triangle60 => {
                let top = if sharp { s(0, 0) } else { s(0, 8) };
                (s(if sharp { 36 } else { 24 }, 0), side.plus(s(0, 24)), top, Row::Alternating)
            }
            CutShape::HalfTriangle60 => {
                let top = if sharp { s(12, 0) } else { s(12, 4) };
                (s(if sharp { 36 } else { 24 }, 0), side.over(2).plus(s(12, 12)), top, Row::InPairs)
            }
            CutShape::Hexagon => (s(24, 0), side.times(2).plus(s(0, 16)), s(0, 0), Row::PointToPoint),
            CutShape::HalfHexagon => (s(24, 0), side.times(2).plus(s(0, 24)), side.plus(s(0, 8)), Row::Alternating),
            CutShape::Diamond60 => (s(24, 0), side.plus(s(0, 16)), side.plus(s(0, 16)), Row::SideBySide),
            CutShape::Diamond45 => (s(24, 0), side.plus(s(0, 24)), side.plus(s(0, 24)), Row::SideBySide),
            CutShape::Parallelogram | CutShape::Template => {
                let edge = side.plus(if of == 3 { s(0, 16) } else { s(0, 24) });
                (s(24, 0), edge, edge, Row::SideBySide)
            }
            CutShape::Trapezoid => {
                let (long, short) = if of == 3 { (s(0, 24), s(0, 8)) } else { (s(24, 24), s(-24, 24)) };
                (s(24, 0), side.plus(long), self.top().plus(short), Row::Alternating)
            }
        };
        Lies { height: height.plus(strip), long, short, kind }
    }

    /// A parallelogram that lies on its other side; `None` for every other shape.
    fn on_other_side(&self) -> Option<Lies> {
        if self.shape != CutShape::Parallelogram {
            return None;
        }
        let (of, seam) = (self.finished().0, self.seam.ticks());
        let (base, height) = (self.side.ticks(), self.height.ticks());
        let (along, edge) = if of == 3 { (8, 16) } else { (12, 24) };
        let long = Surd::new(0, along * height + edge * seam, of);
        let strip = Surd::new(24 * seam, 6 * base, of);
        Some(Lies { height: strip, long, short: long, kind: Row::SideBySide })
    }

    /// The ways in which it lies in strips: of a parallelogram that may be turned, on either side.
    pub fn ways(self) -> impl Iterator<Item = ShapeWay> {
        let way = move |lies| ShapeWay { lies, turns: self.turns };
        std::iter::once(self.lies()).chain(self.on_other_side().filter(|_| self.turns)).map(way)
    }

    /// What strips are rounded up to that the text leaves open: what no ruler shows finer.
    pub const fn mark(&self) -> Length {
        match self.measure {
            Measure::Inch => TOLERANCE,
            Measure::Cm => Length::from_ticks(Length::millimetres(1).ticks() / 10),
        }
    }

    /// How large it is when it is cut, never more than the truth, in square ticks.
    pub fn area_below(&self) -> i128 {
        let lies = self.lies();
        let across = match lies.kind {
            // Half as wide again as a side.
            Row::PointToPoint => lies.long.times(3).over(4),
            Row::Alternating | Row::InPairs | Row::SideBySide => lies.long.plus(lies.short).over(2),
        };
        across.below().ticks().max(0) * lies.height.below().ticks().max(0)
    }
}

/// One way in which a shape lies in strips.
#[derive(Clone, Copy, Debug)]
pub struct ShapeWay {
    lies: Lies,
    turns: bool,
}

impl ShapeWay {
    /// How wide the strip must be, never less than the truth.
    pub fn width(&self) -> Length {
        self.lies.height.above()
    }

    /// The same, never more than the truth.
    pub fn width_below(&self) -> Length {
        self.lies.height.below()
    }

    /// How long its longest edge is cut, never less than the truth.
    pub fn edge(&self) -> Length {
        match self.lies.kind {
            Row::PointToPoint => self.lies.long.over(2).above(),
            Row::Alternating | Row::InPairs | Row::SideBySide => self.lies.long.above(),
        }
    }

    /// How many rows of it lie in a strip of a width.
    pub fn rows(&self, strip_width: Length) -> Count {
        let height = self.lies.height;
        let most = strip_width.pieces_of(height.below().max(Length::from_ticks(1)));
        let fits = |rows: u64| height.times(i128::from(rows)).fits(strip_width);
        let rows = (0..=most.0.min(MAX_ROWS)).rev().find(|rows| fits(*rows)).unwrap_or(0);
        // What no ruler shows is no fault.
        let nearly = rows == 0 && height.fits(strip_width + TOLERANCE);
        Count(if nearly { 1 } else { rows })
    }

    /// How far so many of them reach along a strip.
    fn extent(&self, count: u64) -> Surd {
        let Lies { long, short, kind, height } = self.lies;
        let (count, odd) = (i128::from(count), i128::from(count % 2));
        let both = long.plus(short);
        match kind {
            Row::SideBySide => {
                let slant = match height.of {
                    2 => height,
                    _ => Surd::new(height.root, height.plain / 3, 3),
                };
                slant.plus(long.times(count))
            }
            Row::PointToPoint => long.times(count),
            // The print has a way up.
            Row::Alternating | Row::InPairs if !self.turns => long.times(count),
            Row::Alternating if count == 0 => long.times(0),
            Row::Alternating => long.minus(short).plus(both.times(count)).over(2),
            Row::InPairs => both.times(count / 2).plus(long.times(odd)),
        }
    }

    /// How many come of one row of a strip of a length.
    pub fn in_row(&self, strip_length: Length) -> Count {
        let (mut fit, mut no) = (0, 1);
        let most = Length::LONGEST.ticks().unsigned_abs();
        let fits = |count: u64| self.extent(count).fits(strip_length);
        if !fits(1) {
            return Count(0);
        }
        while u128::from(no) < most && fits(no) {
            (fit, no) = (no, no * 2);
        }
        while no - fit > 1 {
            let middle = fit + (no - fit) / 2;
            if fits(middle) { fit = middle } else { no = middle }
        }
        Count(fit)
    }

    /// How far so many of them reach along a strip, never less than the truth.
    pub fn reach(&self, count: Count) -> Length {
        if count.0 == 0 { Length::ZERO } else { self.extent(count.0).above() }
    }
}

/// How many rows of a shape are looked for in one strip.
const MAX_ROWS: u64 = 100_000;
