//! Every outline's perimeter against `geo`, and arcs against floating-point trigonometry.

use geo::{Euclidean, Length as _, LineString, Polygon};
use proptest::prelude::*;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::outline::{Edge, Point};
use std::f64::consts::{PI, TAU};

use crate::against_libraries::inches;

/// What floating point itself loses, relative to the length.
const FLOAT: f64 = 1e-12;

fn sixty_fourths(count: i64) -> Length {
    Length::inch_fraction(count, 64)
}

/// Asks for a perimeter that is never below the true one, and at most 1/64 in above it.
#[track_caller]
fn assert_agrees(edge: &Edge, truly: f64, what: &str) {
    let ours = inches(edge.perimeter());
    let float = truly * FLOAT;
    assert!(ours >= truly - float, "{what}: {ours} is below {truly}");
    assert!(ours <= truly + 1.0 / 64.0 + float, "{what}: {ours} is more than 1/64 in above {truly}");
    // The sides are the perimeter in turn, the longest first.
    assert_eq!(edge.sides.iter().copied().sum::<Length>(), edge.perimeter(), "{what}");
    // Of scallops, those of one side of the quilt in turn.
    let stretches = edge.sides.iter().copied().max();
    assert!(edge.scallops() || stretches == Some(edge.longest_side()), "{what}");
}

/// All the way round, by `geo`.
fn round(points: Vec<(f64, f64)>) -> f64 {
    Euclidean.length(Polygon::new(LineString::from(points), Vec::new()).exterior())
}

/// An arc as very many chords, by `geo`: below the true length by less than one part in a hundred million.
fn arc_by_chords(chord: f64, depth: f64) -> f64 {
    let radius = (chord * chord / 4.0 + depth * depth) / (2.0 * depth);
    let half = (chord / 2.0).atan2(radius - depth);
    let at = |step: i32| {
        let angle = half * (f64::from(step) / 10_000.0 - 1.0);
        (radius * angle.sin(), radius * angle.cos())
    };
    Euclidean.length(&LineString::from((0..=20_000).map(at).collect::<Vec<_>>()))
}

/// An arc by its angle: 2 r atan((c / 2) / (r - h)).
fn arc_by_angle(chord: f64, depth: f64) -> f64 {
    let radius = (chord * chord / 4.0 + depth * depth) / (2.0 * depth);
    2.0 * radius * (chord / 2.0).atan2(radius - depth)
}

#[test]
fn clipped_rectangles_agree_with_geo() {
    for width in (256..=128_000).step_by(8_191) {
        for depth in (256..=128_000).step_by(9_377) {
            let shortest = width.min(depth);
            for clip in [1, shortest / 5, shortest / 3, shortest / 2 - 1] {
                let edge = Edge::clipped(sixty_fourths(width), sixty_fourths(depth), sixty_fourths(clip));
                let [w, d, c] = [width, depth, clip].map(|count| count as f64 / 64.0);
                let corners =
                    vec![(c, 0.0), (w - c, 0.0), (w, c), (w, d - c), (w - c, d), (c, d), (0.0, d - c), (0.0, c)];
                assert_agrees(&edge, round(corners), &format!("{width}/64 x {depth}/64 clipped by {clip}/64"));
                assert_eq!((edge.corners(), edge.curved), (Count(8), false));
            }
        }
    }
}

#[test]
fn regular_polygons_agree_with_geo() {
    for sides in 3..=100_u32 {
        for side in [1, 64, 777, 4_000, 128_000] {
            let edge = Edge::regular(Count(u64::from(sides)), sixty_fourths(side));
            let radius = side as f64 / 64.0 / (2.0 * (PI / f64::from(sides)).sin());
            let at = |corner: u32| {
                let angle = TAU * f64::from(corner) / f64::from(sides);
                (radius * angle.cos(), radius * angle.sin())
            };
            assert_agrees(&edge, round((0..sides).map(at).collect()), &format!("{sides} sides of {side}/64"));
            assert_eq!((edge.corners(), edge.curved), (Count(u64::from(sides)), false));
        }
    }
}

#[test]
fn circles_agree_with_pi() {
    for diameter in (256..=128_000).step_by(61) {
        let edge = Edge::circle(sixty_fourths(diameter));
        assert_agrees(&edge, PI * diameter as f64 / 64.0, &format!("circle of {diameter}/64"));
        assert_eq!((edge.corners(), edge.curved), (Count(0), true));
    }
}

#[test]
fn scallops_agree_with_arcs_of_many_chords() {
    for (width, depth) in [(256, 256), (3_200, 3_840), (5_001, 6_007), (128_000, 127_999)] {
        for (across, down) in [(1, 1), (5, 6), (7, 3), (100, 99)] {
            let [w, d] = [width, depth].map(|count| f64::from(count) / 64.0);
            let chords = (w / f64::from(across), d / f64::from(down));
            let deepest = (width / across).min(depth / down) / 2;
            for rise in [1, deepest / 100, deepest / 10, deepest / 2, deepest].into_iter().filter(|rise| *rise > 0) {
                let h = f64::from(rise) / 64.0;
                let edge = Edge::scalloped(
                    sixty_fourths(width.into()),
                    sixty_fourths(depth.into()),
                    Count(across.try_into().unwrap()),
                    Count(down.try_into().unwrap()),
                    sixty_fourths(rise.into()),
                );
                let sum = |arc: fn(f64, f64) -> f64| {
                    2.0 * (f64::from(across) * arc(chords.0, h) + f64::from(down) * arc(chords.1, h))
                };
                let what = format!("{width}/64 x {depth}/64, {across} by {down} scallops {rise}/64 deep");
                assert_agrees(&edge, sum(arc_by_angle), &what);
                let (by_angle, by_chords) = (sum(arc_by_angle), sum(arc_by_chords));
                assert!((by_angle - by_chords).abs() <= by_angle * 1e-8, "{what}: {by_angle} and {by_chords}");
                assert_eq!(edge.corners(), Count(u64::try_from(2 * (across + down)).unwrap()), "{what}");
                let sides = [chords.0, chords.1].map(|chord| arc_by_angle(chord, h));
                let longest = (f64::from(across) * sides[0]).max(f64::from(down) * sides[1]);
                // Never less, and more by no more than the perimeter is.
                let ours = inches(edge.longest_side());
                assert!(longest * (1.0 - 1e-8) <= ours && ours <= longest + 1.0 / 64.0, "{what}: {ours}, {longest}");
                assert!(edge.curved);
            }
        }
    }
}

proptest! {
    /// A polygon whose corners go once round a middle crosses itself nowhere.
    #[test]
    fn drawn_outlines_agree_with_geo(radii in prop::collection::vec(0.05..1.0_f64, 3..=100), reach in 128..64_000_i32) {
        let reach = f64::from(reach);
        let corners = f64::from(u32::try_from(radii.len()).unwrap());
        let mut places: Vec<(i64, i64)> = (0_u32..)
            .zip(&radii)
            .map(|(corner, radius)| {
                let angle = TAU * f64::from(corner) / corners;
                let on_mark = |part: f64| 64_000 + (reach * radius * part).round() as i64;
                (on_mark(angle.cos()), on_mark(angle.sin()))
            })
            .collect();
        // A manuscript may not state a corner twice, and one on a straight line is no corner.
        places.dedup();
        while places.len() > 1 && places.first() == places.last() {
            places.pop();
        }
        prop_assume!(places.len() > 2);
        let turns = (0..places.len())
            .filter(|index| {
                let at = |step: usize| places[(index + step) % places.len()];
                let ((a, b), (c, d), (e, f)) = (at(0), at(1), at(2));
                (c - a) * (f - d) != (d - b) * (e - c)
            })
            .count();
        prop_assume!(turns > 2);
        let points: Vec<Point> = places
            .iter()
            .map(|(across, down)| Point { across: sixty_fourths(*across), down: sixty_fourths(*down) })
            .collect();
        let drawn = places.iter().map(|(across, down)| (*across as f64 / 64.0, *down as f64 / 64.0)).collect();
        let edge = Edge::points(&points);
        assert_agrees(&edge, round(drawn), &format!("{places:?}"));
        prop_assert_eq!(edge.corners(), Count(turns as u64));
    }

    #[test]
    fn any_circle_or_scallop_agrees(chord in 1..128_000_i32, part in 1..=1000_i32) {
        let rise = (i64::from(chord) * i64::from(part) / 2000).max(1);
        prop_assume!(2 * rise <= i64::from(chord));
        let one = sparestrip::quilt_math::fixed_point::arc(sixty_fourths(chord.into()), sixty_fourths(rise));
        let truly = arc_by_angle(f64::from(chord) / 64.0, rise as f64 / 64.0);
        prop_assert!(inches(one) >= truly * (1.0 - FLOAT), "{} below {truly}", inches(one));
        // One arc is far nearer than 1/64 in: a hundred of them must be within it.
        prop_assert!(inches(one) <= truly * (1.0 + FLOAT) + 1e-6, "{} above {truly}", inches(one));
    }
}
