//! Angles for drawing curves, in whole numbers: sine and cosine by their series, to far below what a line shows.

use crate::quantity::Length;
use crate::quilt_math::fixed_point::{ONE, arctangent};
use crate::quilt_math::outline::Point;

/// The ratio of a circle's edge to its width, in fixed point.
const PI: i128 = 226_375_608_064_910_088;

/// An angle, by its sine and cosine in fixed point.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turn {
    sine: i128,
    cosine: i128,
}

impl Turn {
    /// A part of the way round: `part` of `whole`.
    pub(super) fn part(part: i64, whole: i64) -> Turn {
        let whole = i128::from(whole.max(1));
        Turn::of(PI * 2 * i128::from(part).rem_euclid(whole) / whole)
    }

    /// An angle in fixed point, of which one is the angle whose arc is as long as the radius.
    fn of(angle: i128) -> Turn {
        // Brought near nothing, where the series are short.
        let angle = (angle + PI).rem_euclid(PI * 2) - PI;
        let square = angle * angle / ONE;
        let series = |first: i128, from: i128| {
            let (mut term, mut sum) = (first, first);
            for step in 0..16 {
                let next = from + 2 * step;
                term = -term * square / ONE / (next * (next + 1));
                sum += term;
            }
            sum
        };
        Turn { sine: series(angle, 2), cosine: series(ONE, 1) }
    }

    /// The sine times a length.
    pub(super) fn sine(self, radius: Length) -> Length {
        Length::from_ticks(radius.ticks() * self.sine / ONE)
    }

    /// The cosine times a length.
    pub(super) fn cosine(self, radius: Length) -> Length {
        Length::from_ticks(radius.ticks() * self.cosine / ONE)
    }

    /// The radius whose sine at this angle is so long.
    pub(super) fn radius_over(self, sine: Length) -> Length {
        Length::from_ticks(sine.ticks() * ONE / self.sine.max(1))
    }
}

/// Into how many straight lines a scallop is drawn.
const SCALLOP_STEPS: i64 = 12;

/// A scallop over the chord from one point to another, rising to the left of the way, at equal steps along its arc.
pub(super) fn scallop(from: Point, to: Point, depth: Length) -> Vec<Point> {
    let (way_across, way_down) = ((to.across - from.across).ticks(), (to.down - from.down).ticks());
    let chord = way_across.abs().max(way_down.abs()).max(1);
    // Chords run straight across or down, so the longer of the two is the chord.
    let depth = depth.ticks().min(chord / 2).max(1);
    let half_angle = 2 * arctangent((2 * depth * ONE / chord).min(ONE));
    let radius = Length::from_ticks((chord * chord + 4 * depth * depth) / (8 * depth));
    let middle = Turn::of(half_angle).cosine(radius);
    let place = |step: i64| {
        if step == 0 {
            return from;
        }
        if step == SCALLOP_STEPS {
            return to;
        }
        let turn = Turn::of(half_angle * i128::from(2 * step - SCALLOP_STEPS) / i128::from(SCALLOP_STEPS));
        let along = chord / 2 + turn.sine(radius).ticks();
        let rise = (turn.cosine(radius) - middle).ticks();
        let on = |from: Length, way: i128, side: i128| {
            Length::from_ticks(from.ticks() + way * along / chord + side * rise / chord)
        };
        Point { across: on(from.across, way_across, way_down), down: on(from.down, way_down, -way_across) }
    };
    (0..=SCALLOP_STEPS).map(place).collect()
}

#[cfg(test)]
mod tests {
    use super::Turn;
    use crate::quantity::Length;

    #[test]
    fn quarters_and_thirds_are_where_they_belong() {
        let radius = Length::inches(1000);
        let near = |length: Length, inches: i64| (length - Length::inches(inches)).abs() < Length::from_ticks(1000);
        for (part, whole, sine, cosine) in [
            (0, 4, 0, 1000),
            (1, 4, 1000, 0),
            (2, 4, 0, -1000),
            (3, 4, -1000, 0),
            (1, 6, 866, 500),
            (-1, 12, -500, 866),
        ] {
            let turn = Turn::part(part, whole);
            let (up, over) = (turn.sine(radius), turn.cosine(radius));
            // The root of three quarters is 0.8660254.
            let root = |told: i64, length: Length| {
                if told.abs() == 866 {
                    (length.abs() - Length::inches(866)).abs() < Length::inches(1)
                } else {
                    near(length, told)
                }
            };
            assert!(root(sine, up) && root(cosine, over), "{part}/{whole}: {up:?} {over:?}");
        }
    }
}
