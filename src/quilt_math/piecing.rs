//! How the pieces of a unit lie in it, finished: the outline of each, from the corner at the top left of the unit.
//!
//! Plain geometry, exact: every corner lies on a side, on a middle, or where two seams at 45 degrees cross. Which way a
//! unit points is the pattern's drawing and no number, so each make is drawn one way: triangles of half a square meet in
//! the seam from the bottom left to the top right, geese point up, flipped corners and logs go around clockwise.

use super::log_cabin::LogOrder;
use super::makes::{Laid, Make, Method, UnitMeasures};
use super::outline::Point;
use super::rectangle::Rectangle;
use crate::quantity::Length;

/// A piece as it lies in a unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaidPiece {
    /// What the format calls the part.
    pub part: String,
    /// Its corners in turn, clockwise.
    pub outline: Vec<Point>,
}

impl LaidPiece {
    fn new(part: impl Into<String>, outline: Vec<Point>) -> LaidPiece {
        LaidPiece { part: part.into(), outline }
    }
}

/// The pieces of a unit; none for a strip set, whose strips the writer names, for triangles that set blocks, and for a
/// make whose pieces are not known.
pub fn pieces(make: Make, method: Option<Method>, unit: &UnitMeasures, order: LogOrder) -> Vec<LaidPiece> {
    let at = Places::of(unit.finished);
    let triangles = |parts: [&str; 2]| {
        vec![
            LaidPiece::new(parts[0], vec![at.top_left(), at.top_right(), at.bottom_left()]),
            LaidPiece::new(parts[1], vec![at.top_right(), at.bottom_right(), at.bottom_left()]),
        ]
    };
    match make.row().laid {
        Laid::Whole => vec![LaidPiece::new("patch", at.whole())],
        Laid::Halves => triangles(["first", "second"]),
        Laid::Quarters if method == Some(Method::Pieced) => at.quarters(["first", "second", "third", "fourth"]),
        // Two at a time, pieces of one fabric face each other.
        Laid::Quarters => at.quarters(["first", "second", "first", "second"]),
        Laid::PlainHalf => {
            let mut pieces = at.quarters(["", "first", "second", ""]);
            pieces.retain(|piece| !piece.part.is_empty());
            pieces.insert(0, triangles(["plain", ""]).swap_remove(0));
            pieces
        }
        Laid::Goose => vec![
            LaidPiece::new("goose", vec![at.top(), at.bottom_right(), at.bottom_left()]),
            LaidPiece::new("sky", vec![at.top_left(), at.top(), at.bottom_left()]),
            LaidPiece::new("sky", vec![at.top(), at.top_right(), at.bottom_right()]),
        ],
        Laid::SquareOnPoint => vec![
            LaidPiece::new("center", vec![at.top(), at.right(), at.bottom(), at.left()]),
            LaidPiece::new("corner", vec![at.top_left(), at.top(), at.left()]),
            LaidPiece::new("corner", vec![at.top(), at.top_right(), at.right()]),
            LaidPiece::new("corner", vec![at.right(), at.bottom_right(), at.bottom()]),
            LaidPiece::new("corner", vec![at.left(), at.bottom(), at.bottom_left()]),
        ],
        Laid::Flipped => snowball(unit),
        Laid::Logs => log_cabin(unit, order),
        Laid::Strips | Laid::SideTriangle | Laid::CornerTriangle | Laid::Unknown => Vec::new(),
    }
}

/// Strips side by side from the left, each with its name and its finished width, all so high.
pub fn side_by_side<'s>(strips: impl Iterator<Item = (&'s str, Length)>, height: Length) -> Vec<LaidPiece> {
    let mut from = Length::ZERO;
    let laid = strips.map(|(name, width)| {
        let outline = rectangle(from, Length::ZERO, Rectangle::new(width, height));
        from = from + width;
        LaidPiece::new(name, outline)
    });
    laid.collect()
}

/// The corners of a rectangle, clockwise from the top left.
pub fn rectangle(across: Length, down: Length, size: Rectangle) -> Vec<Point> {
    let (right, bottom) = (across + size.width, down + size.length);
    vec![
        Point { across, down },
        Point { across: right, down },
        Point { across: right, down: bottom },
        Point { across, down: bottom },
    ]
}

/// The places of a rectangle that seams meet in.
#[derive(Clone, Copy, Debug)]
struct Places {
    size: Rectangle,
}

impl Places {
    const fn of(size: Rectangle) -> Places {
        Places { size }
    }

    /// The place so many halves across and so many down.
    fn halves(self, across: i64, down: i64) -> Point {
        Point { across: (self.size.width * across).half(), down: (self.size.length * down).half() }
    }

    fn top_left(self) -> Point {
        self.halves(0, 0)
    }

    fn top(self) -> Point {
        self.halves(1, 0)
    }

    fn top_right(self) -> Point {
        self.halves(2, 0)
    }

    fn right(self) -> Point {
        self.halves(2, 1)
    }

    fn bottom_right(self) -> Point {
        self.halves(2, 2)
    }

    fn bottom(self) -> Point {
        self.halves(1, 2)
    }

    fn bottom_left(self) -> Point {
        self.halves(0, 2)
    }

    fn left(self) -> Point {
        self.halves(0, 1)
    }

    fn whole(self) -> Vec<Point> {
        vec![self.top_left(), self.top_right(), self.bottom_right(), self.bottom_left()]
    }

    /// Four triangles that meet in the middle: at the top, the right, the bottom and the left.
    fn quarters(self, parts: [&str; 4]) -> Vec<LaidPiece> {
        let corners = self.whole();
        let middle = self.halves(1, 1);
        let triangle =
            |(side, part): (usize, &str)| LaidPiece::new(part, vec![corners[side], corners[(side + 1) % 4], middle]);
        parts.into_iter().enumerate().map(triangle).collect()
    }
}

/// A base with its corners, from the top left around. A corner that is sewn later covers what it overlaps.
fn snowball(unit: &UnitMeasures) -> Vec<LaidPiece> {
    let at = Places::of(unit.finished);
    let mut laid = vec![LaidPiece::new("base", at.whole())];
    let alike = unit.corners.len() <= 1;
    let count = if alike { usize::try_from(unit.alike_corners.0).unwrap_or(4) } else { unit.corners.len() };
    for number in 0..count.min(4) {
        let Some(leg) = unit.corners.get(if alike { 0 } else { number }).copied() else { continue };
        let flip = Flip::of(number, unit.finished, leg);
        for piece in &mut laid {
            piece.outline = flip.keep(&piece.outline);
        }
        let part = if alike { "corner".to_string() } else { format!("corner_{}", number + 1) };
        laid.push(LaidPiece::new(part, flip.corner.to_vec()));
    }
    laid.retain(|piece| piece.outline.len() > 2);
    laid
}

/// A corner that is flipped over, and the seam that it is flipped along.
struct Flip {
    corner: [Point; 3],
    /// Whether the corner is at the right, and whether it is at the bottom.
    is_at: (bool, bool),
    size: Rectangle,
    leg: Length,
}

impl Flip {
    fn of(number: usize, size: Rectangle, leg: Length) -> Flip {
        let is_at = (number == 1 || number == 2, number >= 2);
        let place = |across: Length, down: Length| Point {
            across: if is_at.0 { size.width - across } else { across },
            down: if is_at.1 { size.length - down } else { down },
        };
        let (tip, along, down) =
            (place(Length::ZERO, Length::ZERO), place(leg, Length::ZERO), place(Length::ZERO, leg));
        // Clockwise at each of the four corners.
        let corner = if is_at.0 == is_at.1 { [tip, along, down] } else { [tip, down, along] };
        Flip { corner, is_at, size, leg }
    }

    /// How far a place lies inside of the seam, across and down together; less than nothing beyond it.
    fn inside(&self, point: Point) -> Length {
        let across = if self.is_at.0 { self.size.width - point.across } else { point.across };
        let down = if self.is_at.1 { self.size.length - point.down } else { point.down };
        across + down - self.leg
    }

    /// What is left of a piece inside of the seam.
    fn keep(&self, outline: &[Point]) -> Vec<Point> {
        let mut kept: Vec<Point> = Vec::new();
        for (index, from) in outline.iter().copied().enumerate() {
            let to = outline[(index + 1) % outline.len()];
            let (own, next) = (self.inside(from), self.inside(to));
            if !own.is_negative() {
                kept.push(from);
            }
            let crosses = (own.is_negative() && next.is_positive()) || (own.is_positive() && next.is_negative());
            if crosses {
                kept.push(between(from, to, own, own - next));
            }
        }
        kept.dedup();
        if kept.len() > 1 && kept.first() == kept.last() {
            kept.pop();
        }
        kept
    }
}

/// The place on a line at a part of it: `part` of `whole`. Seams lie along the sides or at 45 degrees, so that it is
/// exact.
fn between(from: Point, to: Point, part: Length, whole: Length) -> Point {
    let share =
        |from: Length, to: Length| from + Length::from_ticks((to - from).ticks() * part.ticks() / whole.ticks());
    Point { across: share(from.across, to.across), down: share(from.down, to.down) }
}

/// A center with its logs. The first lies at the right, or, of courthouse steps, at the left.
fn log_cabin(unit: &UnitMeasures, order: LogOrder) -> Vec<LaidPiece> {
    let Some(center) = unit.center else { return Vec::new() };
    let zero = Length::ZERO;
    // What is sewn so far, from its corner at the top left, which logs at the left and at the top move.
    let (mut left, mut top) = (zero, zero);
    let (mut right, mut bottom) = (center.width, center.length);
    let mut laid = vec![LaidPiece::new("center", rectangle(left, top, center))];
    for (number, log) in unit.logs.iter().enumerate() {
        let (width, height) = (right - left, bottom - top);
        let (across, down, size) = match side_of_log(order, number) {
            Side::Right => (right, top, Rectangle::new(log.width, height)),
            Side::Left => (left - log.width, top, Rectangle::new(log.width, height)),
            Side::Bottom => (left, bottom, Rectangle::new(width, log.width)),
            Side::Top => (left, top - log.width, Rectangle::new(width, log.width)),
        };
        laid.push(LaidPiece::new(format!("log_{}", number + 1), rectangle(across, down, size)));
        (left, top) = (left.min(across), top.min(down));
        (right, bottom) = (right.max(across + size.width), bottom.max(down + size.length));
    }
    for point in laid.iter_mut().flat_map(|piece| &mut piece.outline) {
        *point = Point { across: point.across - left, down: point.down - top };
    }
    laid
}

/// A side that a log goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Left,
    Right,
    Top,
    Bottom,
}

/// The side that the log of a number, from 0, goes on.
const fn side_of_log(order: LogOrder, number: usize) -> Side {
    match (order, number % 4) {
        (LogOrder::Round, 2) | (LogOrder::Opposite, 0) => Side::Left,
        (LogOrder::Round | LogOrder::TwoSides, 0) | (LogOrder::TwoSides, 2) | (LogOrder::Opposite, 1) => Side::Right,
        (LogOrder::Round, 3) | (LogOrder::Opposite, 2) => Side::Top,
        _ => Side::Bottom,
    }
}
