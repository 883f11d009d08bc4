//! An outline laid down: where each of its sides runs, so that a place along the edge can be found on it.
//!
//! Straight sides are exact. A curve is a row of points at equal steps along it, near enough for a drawing; the numbers
//! along the edge do not come from here.
//!
//! A scalloped edge is drawn with the tips of its scallops at the finished size.

use super::rotation::{Turn, scallop};
use crate::manuscript::model::{Outline, Size};
use crate::quantity::{Count, Length};
use crate::quilt_math::outline::{Edge, Point, turning_points};

/// An outline with the place of each side, in the order of its [`Edge`]: the longest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlacedOutline {
    /// The sides in turn.
    pub sides: Vec<PlacedSide>,
    /// Whether there are corners between the sides.
    pub cornered: bool,
    /// Whether it goes round as the hands of a clock do.
    pub clockwise: bool,
}

/// One side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlacedSide {
    /// How long it is.
    pub length: Length,
    /// Points at equal steps along it, from its first to its last.
    pub points: Vec<Point>,
}

/// A place on an outline: how far along which side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// Which side, the first being 0.
    pub side: usize,
    /// How far along it.
    pub along: Length,
}

/// Into how many straight lines a circle is drawn.
const CIRCLE_STEPS: i64 = 240;

impl PlacedOutline {
    /// The outline of a size; `None` where its measurements or its outline could not be read.
    pub fn of(size: &Size, edge: &Edge) -> Option<PlacedOutline> {
        let (width, length) = size.finished.value()?;
        let (width, length) = (width.length, length.length);
        let mut runs = match size.outline.stated().map(|outline| &outline.value) {
            None => closed(&rectangle(width, length)),
            Some(Outline::Circle) => vec![circle(width)],
            Some(Outline::Regular { sides, side }) => closed(&regular(*sides, side.length, (width, length))),
            Some(Outline::Clipped(clip)) => closed(&clipped(width, length, clip.length)),
            Some(Outline::Scalloped { across, down, depth }) => {
                scalloped((width, length), (*across, *down), depth.length)
            }
            Some(Outline::Points(points)) => {
                let points: Vec<Point> =
                    points.iter().map(|(across, down)| point(across.length, down.length)).collect();
                closed(&turning_points(&points))
            }
        };
        let first = edge.first.min(runs.len().saturating_sub(1));
        runs.rotate_left(first);
        let sides: Vec<PlacedSide> =
            edge.sides.iter().zip(runs).map(|(length, points)| PlacedSide { length: *length, points }).collect();
        let clockwise = is_clockwise(&sides);
        (!sides.is_empty()).then_some(PlacedOutline { sides, cornered: edge.cornered, clockwise })
    }

    /// The point at a spot.
    pub fn at(&self, spot: Spot) -> Point {
        let Some(side) = self.sides.get(spot.side) else { return point(Length::ZERO, Length::ZERO) };
        let (step, rest) = side.step(spot.along);
        let (from, to) = (side.points[step], side.points[step + 1]);
        let between = |from: Length, to: Length| {
            let way = (to - from).ticks();
            // Both are far below 2^63, so the product fits.
            Length::from_ticks(from.ticks() + way * rest / side.length.ticks().max(1))
        };
        point(between(from.across, to.across), between(from.down, to.down))
    }

    /// The way that the edge runs at a spot, as a point beside nothing.
    pub fn way(&self, spot: Spot) -> Point {
        let Some(side) = self.sides.get(spot.side) else { return point(Length::ZERO, Length::ZERO) };
        let (step, _) = side.step(spot.along);
        let (from, to) = (side.points[step], side.points[step + 1]);
        point(to.across - from.across, to.down - from.down)
    }

    /// The line along the edge from one spot on to another, which may be beyond the last side.
    pub fn between(&self, from: Spot, to: Spot) -> Vec<Point> {
        let mut line = vec![self.at(from)];
        let mut spot = from;
        let mut sides_left = self.sides.len() + 1;
        while sides_left > 0 && (spot.side != to.side || to.along < spot.along) {
            let Some(side) = self.sides.get(spot.side) else { break };
            let (step, _) = side.step(spot.along);
            line.extend(&side.points[step + 1..]);
            spot = Spot { side: (spot.side + 1) % self.sides.len(), along: Length::ZERO };
            sides_left -= 1;
        }
        if let Some(side) = self.sides.get(spot.side) {
            let (first, last) = (side.step(spot.along).0, side.step(to.along).0);
            line.extend(side.points.iter().take(last + 1).skip(first + 1));
        }
        line.push(self.at(to));
        line
    }

    /// All of its points in turn.
    pub fn points(&self) -> impl Iterator<Item = Point> {
        self.sides.iter().flat_map(|side| side.points.iter().copied())
    }
}

impl PlacedSide {
    /// Which of its lines a place along it is on, and the rest of the way in that line, as a share of the side's ticks.
    fn step(&self, along: Length) -> (usize, i128) {
        let lines = (self.points.len() as i128 - 1).max(1);
        let share = along.ticks().clamp(0, self.length.ticks()) * lines;
        let whole = self.length.ticks().max(1);
        let step = (share / whole).min(lines - 1);
        (usize::try_from(step).unwrap_or_default(), share - step * whole)
    }
}

fn point(across: Length, down: Length) -> Point {
    Point { across, down }
}

/// The sides between corners in turn.
fn closed(corners: &[Point]) -> Vec<Vec<Point>> {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(from, to)| vec![*from, *to]).collect()
}

fn rectangle(width: Length, length: Length) -> [Point; 4] {
    let none = Length::ZERO;
    [point(none, none), point(width, none), point(width, length), point(none, length)]
}

fn clipped(width: Length, length: Length, clip: Length) -> [Point; 8] {
    let none = Length::ZERO;
    [
        point(clip, none),
        point(width - clip, none),
        point(width, clip),
        point(width, length - clip),
        point(width - clip, length),
        point(clip, length),
        point(none, length - clip),
        point(none, clip),
    ]
}

/// From the top round as the hands of a clock go.
fn circle(diameter: Length) -> Vec<Point> {
    let radius = diameter.half();
    (0..=CIRCLE_STEPS)
        .map(|step| {
            let turn = Turn::part(step, CIRCLE_STEPS);
            point(radius + turn.sine(radius), radius - turn.cosine(radius))
        })
        .collect()
}

/// Equal sides, turned the way that fits the finished size best: nothing says how the quilt lies.
fn regular(sides: Count, side: Length, (width, length): (Length, Length)) -> Vec<Point> {
    let sides = i64::try_from(sides.0).unwrap_or(3).clamp(3, 100);
    // Quarters of a side's angle: a side at the top, a corner at the top, and the same at the right.
    let ways = [2, 0, 2 - sides, -sides].map(|turned| polygon(sides, side, turned));
    let off = |corners: &Vec<Point>| {
        let (across, down) = reach(corners);
        (across - width).abs() + (down - length).abs()
    };
    ways.into_iter().min_by_key(off).unwrap_or_default()
}

/// Equal sides; the first corner is so many quarters of a side's angle before the top.
fn polygon(sides: i64, side: Length, turned: i64) -> Vec<Point> {
    let radius = Turn::part(1, sides * 2).radius_over(side.half());
    let corner = |number: i64| {
        let turn = Turn::part(number * 4 - turned, sides * 4);
        point(turn.sine(radius), -turn.cosine(radius))
    };
    let corners: Vec<Point> = (0..sides).map(corner).collect();
    let least = |of: fn(&Point) -> Length| corners.iter().map(of).min().unwrap_or_default();
    let (left, top) = (least(|point| point.across), least(|point| point.down));
    corners.iter().map(|corner| point(corner.across - left, corner.down - top)).collect()
}

/// How far points reach across and down.
pub fn reach(points: &[Point]) -> (Length, Length) {
    let span = |of: fn(&Point) -> Length| {
        let ends = (points.iter().map(of).min(), points.iter().map(of).max());
        ends.1.unwrap_or_default() - ends.0.unwrap_or_default()
    };
    (span(|point| point.across), span(|point| point.down))
}

/// Scallops whose tips touch the finished rectangle; the corners between them lie as deep inside it as they rise.
fn scalloped((width, length): (Length, Length), (across, down): (Count, Count), depth: Length) -> Vec<Vec<Point>> {
    // Where nothing would be left between the tips, the scallops stand on the rectangle itself.
    let inner = |side: Length| if side > depth * 2 { side - depth * 2 } else { side };
    let (inner_width, inner_length) = (inner(width), inner(length));
    let (left, top) = ((width - inner_width).half(), (length - inner_length).half());
    let corners = rectangle(inner_width, inner_length).map(|corner| point(corner.across + left, corner.down + top));
    let mut runs = Vec::new();
    for (number, count) in [across, down, across, down].into_iter().enumerate() {
        let (from, to) = (corners[number], corners[(number + 1) % 4]);
        let count = i64::try_from(count.0).unwrap_or(1).clamp(1, 100);
        let part = |place: i64| {
            let share = |from: Length, to: Length| {
                Length::from_ticks(from.ticks() + (to - from).ticks() * i128::from(place) / i128::from(count))
            };
            point(share(from.across, to.across), share(from.down, to.down))
        };
        runs.extend((0..count).map(|place| scallop(part(place), part(place + 1), depth)));
    }
    runs
}

fn is_clockwise(sides: &[PlacedSide]) -> bool {
    let points: Vec<Point> = sides.iter().flat_map(|side| side.points.iter().copied()).collect();
    let next = points.iter().cycle().skip(1);
    // Twice the area; down is positive, so going round as a clock does gives a positive sum.
    let twice: i128 = points
        .iter()
        .zip(next)
        .map(|(one, other)| one.across.ticks() * other.down.ticks() - other.across.ticks() * one.down.ticks())
        .sum();
    twice >= 0
}
