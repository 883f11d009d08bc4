//! Lengths that are no fraction lie on the side that is asked for, and as near as a tick.

use proptest::prelude::*;
use sparestrip::quantity::Length;
use sparestrip::quilt_math::fixed_point::{Side, arc, circumference, diagonal, hypotenuse, root};
use std::f64::consts::PI;

use crate::against_libraries::inches;

const LONGEST: i128 = Length::LONGEST.ticks();

fn ticks(ticks: i128) -> Length {
    Length::from_ticks(ticks)
}

/// The whole number below a root squares to no more, and the one after it to more.
#[track_caller]
fn assert_brackets(square: i128, below: Length, above: Length) {
    let (below, above) = (below.ticks(), above.ticks());
    assert!(below * below <= square && (below + 1) * (below + 1) > square, "{below} below the root of {square}");
    assert!(above * above >= square && (above - 1).pow(2) < square, "{above} above the root of {square}");
}

proptest! {
    #[test]
    fn roots_lie_on_the_side_asked_for(square in 1..LONGEST * LONGEST * 2) {
        assert_brackets(square, root(square, Side::Below), root(square, Side::Above));
    }

    #[test]
    fn a_root_that_is_whole_is_itself(side in 1..LONGEST) {
        for rounded in [Side::Below, Side::Above] {
            prop_assert_eq!(root(side * side, rounded), ticks(side));
        }
        prop_assert_eq!(root(side * side + 1, Side::Above), ticks(side + 1));
        prop_assert_eq!(root(side * side - 1, Side::Below), ticks(side - 1));
    }

    #[test]
    fn diagonals_and_hypotenuses(across in 1..LONGEST, along in 1..LONGEST) {
        let (a, b) = (ticks(across), ticks(along));
        assert_brackets(2 * across * across, diagonal(a, Side::Below), diagonal(a, Side::Above));
        let square = across * across + along * along;
        assert_brackets(square, hypotenuse(a, b, Side::Below), hypotenuse(a, b, Side::Above));
        // Which way it goes is nothing to its length.
        prop_assert_eq!(hypotenuse(-a, b, Side::Above), hypotenuse(a, b, Side::Above));
    }

    #[test]
    fn circles(diameter in 1..LONGEST) {
        let (ours, truly) = (inches(circumference(ticks(diameter))), PI * inches(ticks(diameter)));
        prop_assert!(ours >= truly * (1.0 - 1e-12) && ours <= truly + 1.0 / 64.0, "{ours} and {truly}");
    }

    #[test]
    fn an_arc_is_longer_than_its_chord_and_shorter_than_the_way_round_it(chord in 4..LONGEST, depth in 1..LONGEST) {
        let depth = depth % (chord / 2) + 1;
        let one = arc(ticks(chord), ticks(depth));
        // Between the two straight lines over the arc's middle and the three sides of the box round it.
        let inner = hypotenuse(ticks(chord), ticks(depth * 2), Side::Below);
        prop_assert!(one >= inner && one.ticks() <= chord + 2 * depth + 2, "{chord} {depth}: {one:?}");
        // Deeper is longer.
        prop_assert!(depth * 4 > chord || arc(ticks(chord), ticks(depth * 2)) >= one);
    }
}

/// 3-4-5, and half a circle: an arc half as deep as its chord is 355/226 of it at most.
#[test]
fn plain_values() {
    assert_eq!(hypotenuse(Length::inches(3), Length::inches(4), Side::Above), Length::inches(5));
    assert_eq!(hypotenuse(Length::inches(3), Length::inches(4), Side::Below), Length::inches(5));
    assert_eq!(root(0, Side::Above), Length::ZERO);
    assert_eq!(root(-4, Side::Above), Length::ZERO);
    assert_eq!(arc(Length::inches(10), Length::ZERO), Length::inches(10));
    let half = inches(arc(Length::inches(10), Length::inches(5)));
    assert!((half - 5.0 * PI).abs() < 1e-8, "{half}");
    assert!(half >= 5.0 * PI - 1e-12, "{half}");
}
