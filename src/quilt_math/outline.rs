//! Outlines: the edge that a binding goes round, whatever the shape of the quilt.

use super::fixed_point::{Side, arc, circumference, diagonal, hypotenuse};
use crate::quantity::{Count, Length};

/// The edge of a quilt: its sides in turn, the longest first, with a corner after each where it has corners.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// The sides in turn. A round edge is one side.
    pub sides: Vec<Length>,
    /// Whether there is a corner between the sides.
    pub cornered: bool,
    /// Whether the edge is curved anywhere.
    pub curved: bool,
    /// Which of the outline's own sides, in the order in which it goes round, is the longest and so the first here.
    pub first: usize,
    /// How many sides in turn, from the first on, make up its longest stretch without a corner of the quilt: all the
    /// scallops on one side of it, and otherwise one side.
    pub stretch: usize,
}

/// A point of an outline: across from the left, down from the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Point {
    /// Across.
    pub across: Length,
    /// Down.
    pub down: Length,
}

impl Edge {
    /// Four square corners.
    pub fn rectangle(width: Length, length: Length) -> Edge {
        let (longer, shorter) = (width.max(length), width.min(length));
        let sides = vec![longer, shorter, longer, shorter];
        Edge { sides, cornered: true, curved: false, first: usize::from(width < length), stretch: 1 }
    }

    /// A rectangle whose corners are cut off at 45 degrees, so much along each side.
    pub fn clipped(width: Length, length: Length, clip: Length) -> Edge {
        let (across, down, slope) = (width - clip * 2, length - clip * 2, diagonal(clip, Side::Above));
        Edge::straight(vec![across, slope, down, slope, across, slope, down, slope])
    }

    /// A circle.
    pub fn circle(diameter: Length) -> Edge {
        Edge { sides: vec![circumference(diameter)], cornered: false, curved: true, first: 0, stretch: 1 }
    }

    /// Equal sides all round.
    pub fn regular(sides: Count, side: Length) -> Edge {
        Edge::straight((0..sides.0).map(|_| side).collect())
    }

    /// Scallops along all four sides, each an arc that rises `depth`; they meet in inner corners. Those of the longer
    /// side of the edge are first.
    pub fn scalloped(width: Length, length: Length, across: Count, down: Count, depth: Length) -> Edge {
        let part = |side: Length, count: Count| {
            // A chord that is no whole number of ticks is taken a tick longer.
            let ticks = side.ticks() / i128::from(count.0.max(1));
            arc(Length::from_ticks(ticks + 1), depth)
        };
        let (top, side) = (part(width, across), part(length, down));
        let run = |arc: Length, count: Count| (0..count.0).map(move |_| arc);
        let sides = run(top, across).chain(run(side, down)).chain(run(top, across)).chain(run(side, down));
        let mut sides: Vec<Length> = sides.collect();
        let number = |count: Count| usize::try_from(count.0).unwrap_or_default();
        let (first, stretch) =
            if top * across >= side * down { (0, number(across)) } else { (number(across), number(down)) };
        sides.rotate_left(first);
        Edge { sides, cornered: true, curved: true, first, stretch }
    }

    /// Straight lines between points. A point on the straight line between its neighbours is no corner.
    pub fn points(points: &[Point]) -> Edge {
        let points = turning_points(points);
        let next = points.iter().cycle().skip(1);
        let side = |(from, to): (&Point, &Point)| hypotenuse(to.across - from.across, to.down - from.down, Side::Above);
        Edge::straight(points.iter().zip(next).map(side).collect())
    }

    /// Straight sides, turned so that the longest is first.
    fn straight(mut sides: Vec<Length>) -> Edge {
        let longest = sides.iter().copied().max();
        let first = sides.iter().position(|side| Some(*side) == longest).unwrap_or(0);
        sides.rotate_left(first);
        Edge { sides, cornered: true, curved: false, first, stretch: 1 }
    }

    /// All the way round.
    pub fn perimeter(&self) -> Length {
        self.sides.iter().copied().sum()
    }

    /// How many corners there are.
    pub fn corners(&self) -> Count {
        Count(if self.cornered { self.sides.len() as u64 } else { 0 })
    }

    /// How long an opening may be that stays so far from the corners: on a round edge, all of it.
    pub fn room_for_opening(&self, clear: Length) -> Length {
        self.longest_side() - if self.cornered { clear * 2 } else { Length::ZERO }
    }

    /// The longest stretch without a corner of the quilt, the one that the opening is on.
    pub fn longest_side(&self) -> Length {
        self.sides.iter().take(self.stretch).copied().sum()
    }

    /// Whether its sides are scallops.
    pub const fn scallops(&self) -> bool {
        self.cornered && self.curved
    }
}

/// The points at which an outline turns: all but those on the straight line between their neighbours.
pub fn turning_points(points: &[Point]) -> Vec<Point> {
    let turns = |index: usize| {
        let (before, at) = (points[(index + points.len() - 1) % points.len()], points[index]);
        let after = points[(index + 1) % points.len()];
        let way = |from: Point, to: Point| ((to.across - from.across).ticks(), (to.down - from.down).ticks());
        let ((across, down), (next_across, next_down)) = (way(before, at), way(at, after));
        let straight_on = across * next_down == down * next_across;
        let back = across * next_across + down * next_down < 0;
        !straight_on || back
    };
    let turning: Vec<Point> = (0..points.len()).filter(|index| turns(*index)).map(|index| points[index]).collect();
    if turning.len() < 3 { points.to_vec() } else { turning }
}
