//! Where the joins of a binding land on the edge, and how far to move the start so that none lands on a corner.
//!
//! Everything is measured along the binding from its first stitch, which is in the middle of the longest side, or
//! as far past it as the opening behind it needs to clear the corner. A corner takes up some of the binding, so it
//! is a short stretch there, not a point.

use super::outline::Edge;
use crate::quantity::{Count, Length};

/// How the binding lies on the edge.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Course {
    /// The edge.
    pub edge: Edge,
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

/// How many joins are looked at: no binding has more, and the search would only cost time.
const MOST_JOINS: u64 = 2_000;

impl Course {
    /// How much of the binding is sewn to the edge.
    pub fn sewn(&self) -> Length {
        self.edge.perimeter() - self.opening + self.take_up * self.edge.corners()
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
        let (sewn, pace, before) = (self.sewn(), self.pace(), self.before());
        // The joins before the first of these are in the tail.
        let first = before.covered_by(pace).map_or(1, |joins| joins.0.max(1));
        let most = if pace.is_positive() { MOST_JOINS } else { 0 };
        (first..first.saturating_add(most))
            .map(move |join| (Count(join), pace * Count(join) - before))
            .take_while(move |(_, middle)| *middle <= sewn)
    }

    /// How far the first stitch is from the corner behind it.
    pub fn start(&self) -> Length {
        self.edge.longest_side().half().max(self.opening + self.opening_clear)
    }

    /// Where each corner starts, from the first stitch on.
    pub fn corners(&self) -> Vec<Length> {
        let mut corners = Vec::with_capacity(self.edge.sides.len());
        if !self.edge.cornered {
            return corners;
        }
        let mut at = self.edge.longest_side() - self.start();
        for next in self.edge.sides.iter().skip(1) {
            corners.push(at);
            at = at + self.take_up + *next;
        }
        corners.push(at);
        corners
    }

    /// The joins whose middle is nearer to a corner than `clear`, or just as near.
    pub fn near_corners(&self, clear: Length) -> Vec<NearCorner> {
        let corners = self.corners();
        let mut near = Vec::new();
        let mut passed = 0;
        for (join, middle) in self.joins() {
            // Joins and corners both come in order, so a corner that is passed stays passed.
            while corners.get(passed).is_some_and(|start| *start + self.take_up + clear < middle) {
                passed += 1;
            }
            for (corner, start) in (1..).zip(&corners).skip(passed) {
                let before = *start - middle;
                if before > clear {
                    break;
                }
                let distance = before.max(middle - (*start + self.take_up)).max(Length::ZERO);
                near.push(NearCorner { join, corner: Count(corner), distance });
            }
        }
        near
    }

    /// The smallest shift of the start along its side, onward where positive and in whole steps, that keeps every
    /// join farther from the corners than `clear`, and the opening clear of them; `None` where there is none.
    pub fn shift(&self, clear: Length, step: Length) -> Option<Length> {
        let barred = self.barred_shifts(clear);
        let onward = first_clear(&barred, step, |shift| shift);
        let back = -first_clear(&barred, step, |shift| -shift);
        let fits = |shift: &Length| {
            let start = self.start() + *shift;
            start >= self.opening + self.opening_clear && start + self.opening_clear <= self.edge.longest_side()
        };
        [onward, back].into_iter().filter(fits).min_by_key(|shift| shift.abs())
    }

    /// The shifts that would bring a join too near a corner, as closed stretches. Moving the start onward brings
    /// every corner nearer by as much.
    fn barred_shifts(&self, clear: Length) -> Vec<(Length, Length)> {
        let corners = self.corners();
        let stretch = |middle: Length, start: Length| (start - clear - middle, start + self.take_up + clear - middle);
        self.joins().flat_map(|(_, middle)| corners.iter().map(move |start| stretch(middle, *start))).collect()
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
