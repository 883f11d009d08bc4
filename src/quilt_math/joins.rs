//! Where the joins of a binding land on the edge, and how far to move the start so that none lands on a corner.
//!
//! Everything is measured along the binding from its first stitch, which is in the middle of the longest side, or
//! as far past it as the opening behind it needs to clear the corner. A corner takes up some of the binding, so it
//! is a short stretch there, not a point.

use super::outline::Edge;
use crate::quantity::{Count, Length};

/// How the binding lies on the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Course<'e> {
    /// The edge.
    pub edge: &'e Edge,
    /// How long each strip is.
    pub strip_length: Length,
    /// What a join takes from the strips.
    pub join_loss: Length,
    /// What a corner takes up.
    pub take_up: Length,
    /// The tail before the first stitch.
    pub start_tail: Length,
    /// The edge between the last and the first stitch.
    pub opening: Length,
    /// How near to a corner the opening may not come.
    pub opening_clear: Length,
    /// How far the start is moved along its side from where it would be, onward where positive.
    pub moved: Length,
}

/// Where the binding reaches a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reached {
    /// Which side of the edge the corner ends, the first being 1.
    pub side: usize,
    /// How far along the binding the corner starts, from the first stitch on.
    pub at: Length,
}

/// A join that lands too near a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NearCorner {
    /// Which join, the first being 1.
    pub join: Count,
    /// Which corner after the start, the first being 1.
    pub corner: Count,
    /// How far the middle of the join is from the corner; nothing where it is in it.
    pub distance: Length,
}

/// The joins that are sewn to the edge: which, how far one lies from the next, and how far the first stitch is from where
/// they are counted.
#[derive(Clone, Copy, Debug)]
struct SewnJoins {
    first: u64,
    end: u64,
    pace: Length,
    before: Length,
    sewn: Length,
}

impl SewnJoins {
    /// Each of them with where its middle lies.
    fn each(self) -> impl Iterator<Item = (Count, Length)> + Clone {
        let SewnJoins { first, end, pace, before, sewn } = self;
        let mut middle = pace * Count(first) - before;
        (first..end).map_while(move |join| {
            let here = middle;
            middle = middle + pace;
            (here <= sewn).then_some((Count(join), here))
        })
    }
}

/// How many joins are looked at: no binding has more, and the search would only cost time.
const MAX_JOINS: u64 = 2_000;

/// How many other starts are tried one by one each way.
const MAX_STARTS: i64 = 400;

impl Course<'_> {
    /// How much of the binding is sewn to the edge.
    pub fn sewn(&self) -> Length {
        let corners =
            self.edge.corners().less(Count(self.inner_corners().filter(|at| self.is_open(*at)).count() as u64));
        self.edge.perimeter() - self.opening + self.take_up * corners
    }

    /// How much each strip but the first adds.
    pub fn pace(&self) -> Length {
        self.strip_length - self.join_loss
    }

    /// Where the middle of a join lies, the first being 1: before the first stitch it is less than nothing.
    ///
    /// Strip i + 1 starts where strip i ends less one join loss, and the join lies across that loss.
    pub fn join(&self, join: Count) -> Length {
        self.pace() * join - self.before()
    }

    /// How far the first stitch is from where the joins are counted.
    fn before(&self) -> Length {
        self.start_tail - self.join_loss.half()
    }

    /// Where the middle of each join lies that is sewn to the edge, in order, with its number, the first being 1.
    pub fn joins(&self) -> impl Iterator<Item = (Count, Length)> + use<> {
        self.sewn_joins().each()
    }

    fn sewn_joins(&self) -> SewnJoins {
        let (pace, before) = (self.pace(), self.before());
        // The joins before the first of these are in the tail.
        let first = before.covered_by(pace).map_or(1, |joins| joins.0.max(1));
        let most = if pace.is_positive() { MAX_JOINS } else { 0 };
        SewnJoins { first, end: first.saturating_add(most), pace, before, sewn: self.sewn() }
    }

    /// How far the first stitch is from the corner of the quilt behind it.
    pub fn start(&self) -> Length {
        self.edge.longest_side().half().max(self.opening + self.opening_clear) + self.moved
    }

    /// Which side the first stitch is on, the first being 0, and how far along it.
    pub fn start_spot(&self) -> (usize, Length) {
        let passed = self.inner_corners().take_while(|at| *at <= self.start()).last();
        let side = self.inner_corners().take_while(|at| *at <= self.start()).count();
        (side, self.start() - passed.unwrap_or_default())
    }

    /// Where the scallops meet on the stretch that the start is on, from the corner of the quilt behind it.
    fn inner_corners(&self) -> impl Iterator<Item = Length> {
        let inside = self.edge.stretch.saturating_sub(1);
        self.edge.sides.iter().take(inside).scan(Length::ZERO, |at, side| {
            *at = *at + *side;
            Some(*at)
        })
    }

    /// Whether a place on the stretch of the start is in the opening.
    fn is_open(&self, at: Length) -> bool {
        at >= self.start() - self.opening && at <= self.start()
    }

    /// Where the binding reaches each corner, in order. One in the opening is passed after the ends are joined.
    pub fn corners(&self) -> impl Iterator<Item = Reached> {
        let (edge, start) = (self.edge, self.start());
        let inner = move || (1..).zip(self.inner_corners());
        let ahead = inner().filter(move |(_, at)| *at > start).map(move |(side, at)| (side, at - start));
        let first = edge.longest_side() - start;
        let sides = (1..).zip(&edge.sides).skip(edge.stretch);
        let others = sides.scan(first, |along, (side, length)| {
            *along = *along + *length;
            Some((side, *along))
        });
        let behind = inner().filter(move |(_, at)| *at < start - self.opening);
        let behind = behind.map(move |(side, at)| (side, edge.perimeter() - start + at));
        let corners = ahead.chain([(edge.stretch, first)]).chain(others).chain(behind);
        let reached = corners.scan(Length::ZERO, |taken_up, (side, along)| {
            let at = along + *taken_up;
            *taken_up = *taken_up + self.take_up;
            Some(Reached { side, at })
        });
        reached.take(if edge.cornered { usize::MAX } else { 0 })
    }

    /// The joins whose middle is nearer to a corner than `clear`, or just as near.
    pub fn near_corners(&self, clear: Length) -> Vec<NearCorner> {
        // Corners are passed in turn, so none is near a join that lies before the one passed last.
        let (mut joins, mut near) = (self.sewn_joins().each().peekable(), Vec::new());
        for (corner, Reached { at: start, .. }) in (1..).map(Count).zip(self.corners()) {
            let end = start + self.take_up;
            while joins.next_if(|(_, middle)| *middle < start - clear).is_some() {}
            for (join, middle) in joins.clone().take_while(|(_, middle)| *middle <= end + clear) {
                let distance = (start - middle).max(middle - end).max(Length::ZERO);
                near.push(NearCorner { join, corner, distance });
            }
        }
        near.sort_unstable_by_key(|near| (near.join, near.corner));
        near
    }

    /// The smallest shift of the start along its side, onward where positive and in whole steps, that keeps every
    /// join farther from the corners than `clear`, and the opening clear of them; `None` where there is none.
    pub fn shift(&self, clear: Length, step: Length) -> Option<Length> {
        if self.edge.stretch > 1 {
            return self.shift_past_scallops(clear, step);
        }
        let barred = self.barred_shifts(clear);
        let onward = first_clear(&barred, step, |shift| shift);
        let back = -first_clear(&barred, step, |shift| -shift);
        [onward, back].into_iter().filter(|shift| self.has_room_for(*shift)).min_by_key(|shift| shift.abs())
    }

    /// Whether the start can be moved so far with the opening behind it clear of the corners.
    fn has_room_for(&self, shift: Length) -> bool {
        let start = self.start() + shift;
        start >= self.opening + self.opening_clear && start + self.opening_clear <= self.edge.longest_side()
    }

    /// The same where scallops meet in the opening: which do changes with the start, so each start is tried.
    fn shift_past_scallops(&self, clear: Length, step: Length) -> Option<Length> {
        let steps = self.edge.longest_side().ticks() / step.ticks().max(1);
        let steps = i64::try_from(steps).unwrap_or_default().min(MAX_STARTS);
        let shifts = (1..=steps).flat_map(|count| [step * count, -(step * count)]);
        let is_clear = |shift: Length| Course { moved: self.moved + shift, ..*self }.near_corners(clear).is_empty();
        shifts.into_iter().find(|shift| self.has_room_for(*shift) && is_clear(*shift))
    }

    /// The shifts that would bring a join too near a corner, as closed stretches; those for which the start has no room
    /// are left out. Moving the start onward brings every corner nearer by as much.
    fn barred_shifts(&self, clear: Length) -> Vec<(Length, Length)> {
        let corners: Vec<Reached> = self.corners().collect();
        let stretch = |middle: Length, start: Length| (start - clear - middle, start + self.take_up + clear - middle);
        let least = self.opening + self.opening_clear - self.start();
        let most = self.edge.longest_side() - self.opening_clear - self.start();
        let stretches =
            self.joins().flat_map(|(_, middle)| corners.iter().map(move |corner| stretch(middle, corner.at)));
        stretches.filter(|(from, to)| *to >= least && *from <= most).collect()
    }
}

/// The smallest shift in one direction that is in no barred stretch, in whole steps. `turn` turns the other
/// direction into this one.
fn first_clear(barred: &[(Length, Length)], step: Length, turn: impl Fn(Length) -> Length) -> Length {
    let mut stretches: Vec<(Length, Length)> = barred
        .iter()
        .map(|(from, to)| (turn(*from).min(turn(*to)), turn(*from).max(turn(*to))))
        .filter(|(_, to)| !to.is_negative())
        .collect();
    stretches.sort_unstable();
    let mut shift = Length::ZERO;
    for (from, to) in stretches {
        if from <= shift && shift <= to {
            // The end of the stretch is barred too, so go on to the next whole step beyond it.
            let on_step = to.up_to(step);
            shift = if on_step > to { on_step } else { to + step };
        }
    }
    shift
}
