//! Unit conversion against `uom`, and perimeters against `geo`.

// `geo` computes in floating point. Here it is a reference only, and decides no finding.
#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::cast_possible_truncation)]
mod fixed_point;
mod outlines;
mod shapes;
mod units;

use geo::{Area, BoundingRect, Euclidean, Length as _, Rect, coord};
use sparestrip::quantity::{Length, Measure, Unit, read_length};
use sparestrip::quilt_math::outline::Edge;
use uom::si::length::{centimeter, foot, inch, meter, millimeter, yard};
use uom::si::rational64::Length as Reference;

type Ratio = uom::num_rational::Ratio<i64>;

const UNITS: [Unit; 6] = [Unit::Inch, Unit::Foot, Unit::Yard, Unit::Mm, Unit::Cm, Unit::Metre];

fn reference(value: Ratio, unit: Unit) -> Reference {
    match unit {
        Unit::Inch => Reference::new::<inch>(value),
        Unit::Foot => Reference::new::<foot>(value),
        Unit::Yard => Reference::new::<yard>(value),
        Unit::Mm => Reference::new::<millimeter>(value),
        Unit::Cm => Reference::new::<centimeter>(value),
        Unit::Metre => Reference::new::<meter>(value),
    }
}

fn in_unit(length: Reference, unit: Unit) -> Ratio {
    match unit {
        Unit::Inch => length.get::<inch>(),
        Unit::Foot => length.get::<foot>(),
        Unit::Yard => length.get::<yard>(),
        Unit::Mm => length.get::<millimeter>(),
        Unit::Cm => length.get::<centimeter>(),
        Unit::Metre => length.get::<meter>(),
    }
}

/// How many of a unit a length is, as the program has it.
fn ours(length: Length, unit: Unit) -> Ratio {
    Ratio::new(i64::try_from(length.ticks()).unwrap(), i64::try_from(unit.one().ticks()).unwrap())
}

/// Whole numbers, 64ths and decimals, as far as the bounds of a manuscript go.
fn numbers() -> Vec<(String, Ratio)> {
    let mut numbers: Vec<(String, Ratio)> =
        (1..=55).map(|whole| (whole.to_string(), Ratio::from_integer(whole))).collect();
    numbers.extend((1..64).map(|top| (format!("{top}/64"), Ratio::new(top, 64))));
    numbers.extend((1..64).map(|top| (format!("7 {top}/64"), Ratio::from_integer(7) + Ratio::new(top, 64))));
    numbers.extend((1..100).map(|top| (format!("3.{top:04}"), Ratio::new(30_000 + top, 10_000))));
    numbers.extend([("1/3".to_string(), Ratio::new(1, 3)), ("2/3".to_string(), Ratio::new(2, 3))]);
    numbers
}

#[test]
fn every_pair_of_units_converts_as_uom_does() {
    let mut compared = 0;
    for (text, value) in numbers() {
        for from in UNITS {
            let Ok(written) = read_length(&format!("{text} {}", from.mark()), Measure::Inch) else {
                // 50 m and more are beyond what a manuscript may state.
                assert!(from == Unit::Metre && value > Ratio::from_integer(50), "{text} {}", from.mark());
                continue;
            };
            for to in UNITS {
                let theirs = in_unit(reference(value, from), to);
                assert_eq!(ours(written.length, to), theirs, "{text} {} in {}", from.mark(), to.mark());
                compared += 1;
            }
        }
    }
    assert!(compared > 5000, "{compared}");
}

fn inches(length: Length) -> f64 {
    length.ticks() as f64 / Length::TICKS_PER_INCH as f64
}

#[test]
fn perimeters_and_longest_sides_agree_with_geo() {
    for width in (64..=7680).step_by(97) {
        for depth in (64..=7680).step_by(101) {
            let edge = Edge::rectangle(Length::inch_fraction(width, 64), Length::inch_fraction(depth, 64));
            let corner = coord! { x: width as f64 / 64.0, y: depth as f64 / 64.0 };
            let quilt = Rect::new(coord! { x: 0.0, y: 0.0 }, corner).to_polygon();
            let round = Euclidean.length(quilt.exterior());
            assert!((inches(edge.perimeter()) - round).abs() < 1e-9, "{width}/64 x {depth}/64");
            let longest = quilt.exterior().lines().map(|side| Euclidean.length(&side)).fold(0.0, f64::max);
            assert!((inches(edge.longest_side()) - longest).abs() < 1e-9, "{width}/64 x {depth}/64");
            let shortest = quilt.exterior().lines().map(|side| Euclidean.length(&side)).fold(f64::MAX, f64::min);
            assert!((inches(edge.sides[1]) - shortest).abs() < 1e-9, "{width}/64 x {depth}/64");
            // The reference is a rectangle of that size, and not a line.
            assert!(quilt.unsigned_area() > 0.0 && quilt.bounding_rect().is_some());
        }
    }
}
