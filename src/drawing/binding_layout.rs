//! How a binding lies on an edge: its strips in turn, its joins, its corners, its opening and its tails.
//!
//! Everything is measured along the binding from its first stitch, the way that it is sewn; what lies in the tail
//! before that is less than nothing. The places are those of [`Course`], by which the rules judge.

use serde::Serialize;

use super::outline::Spot;
use super::{MAX_SHOWN, ShownLength};
use crate::quantity::{Count, Length, Measure};
use crate::quilt_math::joins::Course;

/// The two loose ends of a binding.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tails {
    pub(super) start: Length,
    pub(super) end: Length,
    pub(super) opening: Option<Length>,
    /// Whether nothing states them.
    pub(super) assumed: bool,
}

/// How a binding lies.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BindingLayout {
    /// How far the first stitch is past the corner of the quilt behind it; nothing on a round edge.
    pub start: Option<ShownLength>,
    /// Whether the tails are not stated and are drawn as half of what is beyond the edge each.
    pub assumed: bool,
    /// The tail before the first stitch.
    pub start_tail: ShownLength,
    /// The tail after the last stitch.
    pub end_tail: ShownLength,
    /// The edge between the last stitch and the first, where one is left open.
    pub opening: Option<ShownLength>,
    /// How much is sewn on: to the last stitch.
    pub sewn: ShownLength,
    /// Where the binding ends, where that is before it should.
    pub ends: Option<ShownLength>,
    /// What is cut off its end.
    pub cut_off: Option<ShownLength>,
    /// The corners in turn.
    pub corners: Vec<Corner>,
    /// The strips in turn.
    pub strips: Vec<PlacedStrip>,
    /// The joins in turn.
    pub joins: Vec<PlacedJoin>,
    /// How many strips more are not shown, and as many joins.
    pub more: u64,
    #[serde(skip)]
    sides: Vec<Length>,
    /// The side that the first stitch is on, the first being 0, and how far along it.
    #[serde(skip)]
    first: (usize, Length),
    #[serde(skip)]
    take_up: Length,
}

/// A corner.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Corner {
    /// Its number: that of the side that it ends.
    pub corner: usize,
    /// Where it begins.
    pub at: ShownLength,
}

/// A strip on the edge, from the middle of the join before it to the middle of the join after it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlacedStrip {
    /// Its number, the first being 1.
    pub strip: u64,
    /// Where it begins.
    pub begins: ShownLength,
    /// Where it ends.
    pub ends: ShownLength,
}

/// A join.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlacedJoin {
    /// Its number, the first being 1: it joins the strip of that number to the next.
    pub join: u64,
    /// Where its middle lies.
    pub at: ShownLength,
    /// What it lies on.
    pub on: On,
    /// The side, where it lies on one.
    pub side: Option<usize>,
    /// The corner that it lies in, or that is behind it; nothing on a round edge.
    pub corner: Option<usize>,
    /// How far it is past that corner, along the side.
    pub past_corner: Option<ShownLength>,
}

/// What a join lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum On {
    /// A side.
    Side,
    /// The take-up of a corner.
    Corner,
    /// The tail before the first stitch.
    StartTail,
    /// The tail after the last stitch.
    EndTail,
}

/// A place on the sewn edge.
struct Place {
    on: On,
    /// The side, the first being 0.
    side: usize,
    /// How far along the side, from the corner behind.
    along: Length,
}

impl BindingLayout {
    /// So many strips laid on a course.
    pub(super) fn new(course: &Course<'_>, count: Count, tails: Tails, measure: Measure) -> BindingLayout {
        let up = |length| ShownLength::up(length, measure);
        let sewn = course.sewn();
        let (first, last) = (-tails.start, sewn + tails.end);
        let had = crate::quilt_math::binding::joined(count, course.strip_length, course.join_loss);
        let end = first + had;
        let mut laid = BindingLayout {
            start: course.edge.cornered.then(|| up(course.start())),
            assumed: tails.assumed,
            start_tail: up(tails.start),
            end_tail: up(tails.end),
            opening: tails.opening.map(up),
            sewn: up(sewn),
            ends: (end < last).then(|| ShownLength::down(end, measure)),
            cut_off: (end > last).then(|| ShownLength::down(end - last, measure)),
            corners: course.corners().map(|corner| Corner { corner: corner.side, at: up(corner.at) }).collect(),
            strips: Vec::new(),
            joins: Vec::new(),
            more: 0,
            sides: course.edge.sides.clone(),
            first: course.start_spot(),
            take_up: course.take_up,
        };
        laid.place_strips(course, count, (first, end.min(last)), measure);
        laid
    }

    /// Lays the strips and the joins between them.
    fn place_strips(&mut self, course: &Course<'_>, count: Count, (first, end): (Length, Length), measure: Measure) {
        let mut begins = first;
        for strip in 1..=count.0 {
            if self.strips.len() >= MAX_SHOWN {
                self.more = count.0 - (strip - 1);
                break;
            }
            let join = (strip < count.0).then(|| course.join(Count(strip)));
            let ends = join.unwrap_or(end);
            let told = |length| ShownLength::up(length, measure);
            self.strips.push(PlacedStrip { strip, begins: told(begins), ends: told(ends) });
            if let Some(at) = join {
                let join = self.join(strip, at, measure);
                self.joins.push(join);
            }
            begins = ends;
        }
    }

    fn join(&self, join: u64, at: Length, measure: Measure) -> PlacedJoin {
        let mut laid = PlacedJoin {
            join,
            at: ShownLength::up(at, measure),
            on: On::Side,
            side: None,
            corner: None,
            past_corner: None,
        };
        if at.is_negative() {
            return PlacedJoin { on: On::StartTail, ..laid };
        }
        if at > self.sewn.length {
            return PlacedJoin { on: On::EndTail, ..laid };
        }
        let place = self.place(at);
        laid.on = place.on;
        if self.corners.is_empty() {
            return PlacedJoin { side: Some(1), ..laid };
        }
        if place.on == On::Corner {
            return PlacedJoin { corner: Some(place.side + 1), ..laid };
        }
        PlacedJoin {
            side: Some(place.side + 1),
            corner: Some(if place.side == 0 { self.sides.len() } else { place.side }),
            past_corner: Some(ShownLength::up(place.along, measure)),
            ..laid
        }
    }

    /// What a place on the sewn edge lies on.
    fn place(&self, at: Length) -> Place {
        let (first, behind) = self.first;
        if self.corners.is_empty() {
            // Round and round: the start is so far past the point at which the outline begins.
            let whole = self.sides.first().map_or(1, |side| side.ticks()).max(1);
            let along = Length::from_ticks((behind + at).ticks().rem_euclid(whole));
            return Place { on: On::Side, side: 0, along };
        }
        let before = self.corners.partition_point(|corner| corner.at.length <= at);
        let Some(last) = before.checked_sub(1).and_then(|index| self.corners.get(index)) else {
            return Place { on: On::Side, side: first, along: behind + at };
        };
        let past = at - last.at.length;
        if past <= self.take_up {
            let side = last.corner - 1;
            return Place { on: On::Corner, side, along: self.sides.get(side).copied().unwrap_or_default() };
        }
        Place { on: On::Side, side: last.corner % self.sides.len().max(1), along: past - self.take_up }
    }

    /// The spot on the outline of a place on the sewn edge; of what is in a tail, where that tail is fastened.
    pub fn spot(&self, at: Length) -> Spot {
        let place = self.place(at.max(Length::ZERO).min(self.sewn.length));
        Spot { side: place.side, along: place.along }
    }

    /// The spot on the edge that is so far behind the first stitch, on the same side of the quilt.
    pub fn spot_before(&self, before: Length) -> Spot {
        let (mut side, behind) = self.first;
        let mut along = behind - before;
        if let (true, Some(round)) = (self.corners.is_empty(), self.sides.first()) {
            return Spot { side: 0, along: Length::from_ticks(along.ticks().rem_euclid(round.ticks().max(1))) };
        }
        while along.is_negative() && side > 0 {
            side -= 1;
            along = along + self.sides[side];
        }
        Spot { side, along: along.max(Length::ZERO) }
    }
}
