//! Where the edge lies on its figure: how large it is drawn, which way is out, and which side has the start.

use super::label_placement::{LabelPlacement, Taken};
use super::scale::{PlacedScale, Scale, along, toward};
use super::scene::{At, LINE, UNIT, WIDTH};
use super::words::wide;
use crate::drawing::edge::EdgeDrawing;
use crate::drawing::outline::{PlacedOutline, PlacedSide, Spot, reach};
use crate::quantity::Length;
use crate::quilt_math::outline::Point;

/// How far outside the edge the start tail is drawn, and the end tail.
pub(super) const START_TAIL: i64 = 44 * UNIT;
pub(super) const END_TAIL: i64 = 74 * UNIT;

/// How high the edge is drawn at most.
const HIGH: i64 = 720 * UNIT;

/// How wide the words beside it are at most; longer ones go on below.
const WORDS: i64 = 300 * UNIT;

/// What is kept free round it: half of the band, and a little air.
const AIR: i64 = 30 * UNIT;

/// Where the words about the start and the tails stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Beside {
    Right,
    Left,
    Above,
    Below,
}

/// The edge on its figure.
pub(super) struct Frame<'d> {
    pub(super) outline: &'d PlacedOutline,
    pub(super) placed: PlacedScale,
    pub(super) beside: Beside,
    pub(super) box_of: Taken,
    pub(super) room: LabelPlacement,
}

impl<'d> Frame<'d> {
    /// Lays the frame out for words beside it.
    pub(super) fn new(drawing: &'d EdgeDrawing, callouts: &[String]) -> Frame<'d> {
        let outline = &drawing.outline;
        let points: Vec<Point> = outline.points().collect();
        let size = reach(&points);
        let beside = beside(drawing);
        let words = callouts.iter().map(|words| wide(words)).max().unwrap_or_default().min(WORDS);
        let rows = i64::try_from(callouts.len()).unwrap_or_default();
        let column = END_TAIL + 70 * UNIT + words;
        let taken = match beside {
            Beside::Right | Beside::Left => column,
            Beside::Above | Beside::Below => 0,
        };
        let scale = Scale::fit(size, (WIDTH - AIR * 2 - 20 * UNIT - taken, HIGH));
        let (across, down) = (scale.of(size.0), scale.of(size.1));
        let free = (WIDTH - across - taken) / 2;
        let left = if beside == Beside::Left { free + taken } else { free };
        let above = END_TAIL + 40 * UNIT + LINE * rows;
        let top = AIR + if beside == Beside::Above { above } else { 0 };
        let box_of = Taken { left, top, right: left + across, bottom: top + down };
        let from = Point {
            across: points.iter().map(|point| point.across).min().unwrap_or_default(),
            down: points.iter().map(|point| point.down).min().unwrap_or_default(),
        };
        let placed = PlacedScale { scale, corner: At { x: left, y: top }, from };
        let page = Taken { left: 0, top: 0, right: WIDTH, bottom: box_of.bottom + AIR };
        let room = LabelPlacement::on_page(box_of, page);
        let mut frame = Frame { outline, placed, beside, box_of, room };
        frame.keep_off_the_edge();
        frame
    }

    /// Where the figure's own edge ends, words below it included.
    pub(super) fn bottom(&self, callouts: usize) -> i64 {
        let rows = i64::try_from(callouts).unwrap_or_default();
        let below = if self.beside == Beside::Below { END_TAIL + 40 * UNIT + LINE * rows } else { 0 };
        self.box_of.bottom + AIR + below
    }

    /// Labels stay off the band all round.
    fn keep_off_the_edge(&mut self) {
        let points: Vec<At> = self.outline.points().map(|point| self.placed.at(point)).collect();
        let next = points.iter().cycle().skip(1);
        for (from, to) in points.iter().zip(next) {
            let far = (to.x - from.x).abs().max((to.y - from.y).abs());
            let steps = (far / (24 * UNIT)).clamp(1, 200);
            for step in 0..steps {
                let share = |from: i64, to: i64| from + (to - from) * step / steps;
                let at = At { x: share(from.x, to.x), y: share(from.y, to.y) };
                self.room.take(Taken::about(at, 36 * UNIT, 36 * UNIT));
            }
        }
    }

    pub(super) fn at(&self, spot: Spot) -> At {
        self.placed.at(self.outline.at(spot))
    }

    /// So far out from the edge at a spot, or in where it is less than nothing. In a corner it is half way between both
    /// sides.
    pub(super) fn out(&self, spot: Spot, far: i64) -> (i64, i64) {
        let one = self.outward(self.outline.way(spot));
        let whole = self.outline.sides.get(spot.side).map(|side| side.length);
        if !self.outline.cornered || whole != Some(spot.along) {
            return along(one, far);
        }
        let next = Spot { side: (spot.side + 1) % self.outline.sides.len(), along: Length::ZERO };
        let other = self.outward(self.outline.way(next));
        along((one.0 + other.0, one.1 + other.1), far)
    }

    /// The direction out from a way along the edge.
    fn outward(&self, way: Point) -> (i64, i64) {
        let (x, y) = (self.placed.scale.of(way.across), self.placed.scale.of(way.down));
        // On a very short line the scale leaves nothing of the way.
        let (x, y) = if (x, y) == (0, 0) { (sign(way.across), sign(way.down)) } else { (x, y) };
        along(if self.outline.clockwise { (y, -x) } else { (-y, x) }, UNIT)
    }

    /// A spot moved out.
    pub(super) fn moved(&self, spot: Spot, far: i64) -> At {
        let (at, (x, y)) = (self.at(spot), self.out(spot, far));
        At { x: at.x + x, y: at.y + y }
    }

    /// A line along the edge moved out, from one spot on to another of the same side. Beside a scallop it is straight.
    pub(super) fn moved_line(&self, from: Spot, to: Spot, far: i64) -> Vec<At> {
        let Some(side) = self.outline.sides.get(from.side) else { return Vec::new() };
        if side.points.len() == 2 {
            return vec![self.moved(from, far), self.moved(to, far)];
        }
        if self.outline.cornered {
            return self.beside_scallop(side, [from, to], far);
        }
        let way = Length::from_ticks((to.along - from.along).ticks().rem_euclid(side.length.ticks().max(1)));
        let steps = 24;
        let spot = |step: i64| {
            let along = from.along.ticks() + way.ticks() * i128::from(step) / i128::from(steps);
            Spot { side: from.side, along: Length::from_ticks(along.rem_euclid(side.length.ticks().max(1))) }
        };
        (0..=steps).map(|step| self.moved(spot(step), far)).collect()
    }

    /// A straight line along the chord of a scallop, beyond its tip where it lies outside.
    fn beside_scallop(&self, side: &PlacedSide, spots: [Spot; 2], far: i64) -> Vec<At> {
        let (Some(first), Some(last)) = (side.points.first(), side.points.last()) else { return Vec::new() };
        let (first, last) = (self.placed.at(*first), self.placed.at(*last));
        let tip = side.points[side.points.len() / 2];
        let tip = self.placed.at(tip);
        let middle = At { x: i64::midpoint(first.x, last.x), y: i64::midpoint(first.y, last.y) };
        let rise = (tip.x - middle.x).abs().max((tip.y - middle.y).abs());
        let out = toward(middle, tip, if far > 0 { far + rise } else { far });
        let place = |spot: Spot| {
            let share = |from: i64, to: i64| {
                let way = i128::from(to - from) * spot.along.ticks() / side.length.ticks().max(1);
                from + i64::try_from(way).unwrap_or_default()
            };
            At { x: share(first.x, last.x) + out.0, y: share(first.y, last.y) + out.1 }
        };
        spots.map(place).to_vec()
    }
}

fn sign(length: Length) -> i64 {
    i64::try_from(length.ticks().signum()).unwrap_or_default()
}

/// Beside the side that has the start.
fn beside(drawing: &EdgeDrawing) -> Beside {
    let outline = &drawing.outline;
    let start = drawing.laid.as_ref().map_or(Spot { side: 0, along: Length::ZERO }, |laid| laid.spot(Length::ZERO));
    let way = outline.way(start);
    let (across, down) = (way.across.ticks(), way.down.ticks());
    let (x, y) = if outline.clockwise { (down, -across) } else { (-down, across) };
    match (x.abs() > y.abs(), x > 0, y > 0) {
        (true, true, _) => Beside::Right,
        (true, false, _) => Beside::Left,
        (false, _, false) => Beside::Above,
        (false, _, true) => Beside::Below,
    }
}
