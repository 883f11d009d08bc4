//! Cut sizes of units against `geo`: the finished shapes are drawn as polygons, a seam is laid round each by moving its
//! sides out and crossing them anew, and the sides and areas are measured. For units that are sewn before they are cut,
//! the pieces are drawn, sewn and cut, and what is left inside the seams is measured.
//!
//! Nothing here uses a formula for a cut size.

use geo::{Area, BooleanOps, Coord, LineString, Polygon, coord};
use proptest::prelude::*;
use sparestrip::manuscript::design::{Make, Method};
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::log_cabin::{LogOrder, log_cabin};
use sparestrip::quilt_math::makes::UnitMeasures;
use sparestrip::quilt_math::rectangle::Rectangle;
use sparestrip::quilt_math::units::{Part, Side, plain};

use crate::against_libraries::inches;

/// How far a cut size may be off, in inches.
const CLOSE: f64 = 1e-6;

/// How many units of each make.
const UNITS: u32 = 1000;

fn polygon(corners: &[Coord<f64>]) -> Polygon<f64> {
    Polygon::new(LineString::from(corners.to_vec()), Vec::new())
}

/// Where two lines cross, each by a point and a direction.
fn crossing(a: (Coord<f64>, Coord<f64>), b: (Coord<f64>, Coord<f64>)) -> Coord<f64> {
    let cross = |u: Coord<f64>, v: Coord<f64>| u.x * v.y - u.y * v.x;
    let along = cross(b.0 - a.0, b.1) / cross(a.1, b.1);
    a.0 + a.1 * along
}

/// The corners of a shape, counter-clockwise, with each side moved out by a distance (in, where it is negative).
fn moved_out(corners: &[Coord<f64>], distance: f64) -> Vec<Coord<f64>> {
    let count = corners.len();
    let side = |index: usize| {
        let (from, to) = (corners[index % count], corners[(index + 1) % count]);
        let along = to - from;
        let length = along.x.hypot(along.y);
        let out = coord! { x: along.y / length, y: -along.x / length };
        (from + out * distance, along)
    };
    (0..count).map(|index| crossing(side(index + count - 1), side(index))).collect()
}

fn sides(corners: &[Coord<f64>]) -> Vec<f64> {
    let next = |index: usize| corners[(index + 1) % corners.len()];
    (0..corners.len()).map(|index| (next(index) - corners[index]).x.hypot((next(index) - corners[index]).y)).collect()
}

fn area(corners: &[Coord<f64>]) -> f64 {
    polygon(corners).unsigned_area()
}

fn rectangle(width: f64, height: f64) -> Vec<Coord<f64>> {
    vec![
        coord! { x: 0.0, y: 0.0 },
        coord! { x: width, y: 0.0 },
        coord! { x: width, y: height },
        coord! { x: 0.0, y: height },
    ]
}

/// A right triangle with its right angle at the origin.
fn right_triangle(width: f64, height: f64) -> Vec<Coord<f64>> {
    vec![coord! { x: 0.0, y: 0.0 }, coord! { x: width, y: 0.0 }, coord! { x: 0.0, y: height }]
}

/// A quarter of a square: its long side below, half as high as long.
fn quarter_triangle(long: f64) -> Vec<Coord<f64>> {
    vec![coord! { x: 0.0, y: 0.0 }, coord! { x: long, y: 0.0 }, coord! { x: long / 2.0, y: long / 2.0 }]
}

#[track_caller]
fn close(ours: f64, truly: f64, what: &str) {
    assert!((ours - truly).abs() < CLOSE, "{what}: {ours} is not {truly}");
}

/// The cut side, and that it is held between two ticks.
fn cut(side: Side) -> f64 {
    assert!(side.cut.above - side.cut.below <= Length::from_ticks(4), "{side:?}");
    close(inches(side.finished.above) + inches(side.allowance.above), inches(side.cut.above), "the sum");
    inches(side.cut.above)
}

/// A finished width, a finished height and a seam, in inches or in millimetres, each in both forms.
fn measured() -> impl Strategy<Value = (Length, Length, Length)> {
    let inches = (32_i64..=1536, 32_i64..=1536, 4_i64..=40)
        .prop_map(|(w, h, s)| (w, h, s))
        .prop_map(|(w, h, s)| [w, h, s].map(|count| Length::inch_fraction(count, 64)));
    let millimetres = (20_i64..=600, 20_i64..=600, 2_i64..=15).prop_map(|(w, h, s)| [w, h, s].map(Length::millimetres));
    prop_oneof![inches, millimetres].prop_map(|[w, h, s]| (w, h, s))
}

/// Runs a comparison on many random units.
fn each_unit(compare: impl Fn(Length, Length, Length)) {
    let config = ProptestConfig { cases: UNITS, ..ProptestConfig::default() };
    proptest!(config, |((w, h, s) in measured())| compare(w, h, s));
}

fn square_parts(make: Make, method: Option<Method>, f: Length, s: Length) -> Vec<Part> {
    let all = parts(make, method, Rectangle::new(f, f), s);
    for part in &all {
        assert_eq!(part.width, part.height);
    }
    all
}

fn parts(make: Make, method: Option<Method>, finished: Rectangle, seam: Length) -> Vec<Part> {
    make.way(method).cut_parts(&UnitMeasures::new(finished, seam))
}

fn gives(make: Make, method: Option<Method>) -> Option<Count> {
    make.way(method).gives
}

/// A part is a square that is cut into so many of a triangle: the square's area is that of so many, and its side that of
/// the triangle's. How many units that makes is compared as areas.
#[track_caller]
fn square_of(part: &Part, side: f64, triangle: &[Coord<f64>], from_each: f64, in_unit: f64, gives: Option<Count>) {
    let square = cut(part.width);
    close(square, side, part.name);
    close(square * square, from_each * area(triangle), "the area of the triangles");
    let units = part.pieces.0 as f64 * from_each / in_unit;
    close(gives.unwrap().0 as f64, units, "the units of a set");
}

#[test]
fn patches() {
    each_unit(|w, h, s| {
        let all = parts(Make::Patch, None, Rectangle::new(w, h), s);
        let drawn = moved_out(&rectangle(inches(w), inches(h)), inches(s));
        let (width, height) = (cut(all[0].width), cut(all[0].height));
        close(width, sides(&drawn)[0], "width");
        close(height, sides(&drawn)[1], "height");
        close(width * height, area(&drawn), "area");
        assert_eq!(gives(Make::Patch, None), Some(Count(1)));
    });
}

#[test]
fn half_square_triangles_two_at_a_time() {
    each_unit(|f, _, s| {
        let method = Some(Method::TwoAtATime);
        let drawn = moved_out(&right_triangle(inches(f), inches(f)), inches(s));
        for part in square_parts(Make::HalfSquareTriangle, method, f, s) {
            // A unit has one triangle of either fabric.
            square_of(&part, sides(&drawn)[0], &drawn, 2.0, 1.0, gives(Make::HalfSquareTriangle, method));
        }
    });
}

#[test]
fn half_square_triangles_eight_at_a_time() {
    each_unit(|f, _, s| {
        let method = Some(Method::EightAtATime);
        let drawn = moved_out(&right_triangle(inches(f), inches(f)), inches(s));
        for part in square_parts(Make::HalfSquareTriangle, method, f, s) {
            square_of(&part, 2.0 * sides(&drawn)[0], &drawn, 8.0, 1.0, gives(Make::HalfSquareTriangle, method));
        }
    });
}

#[test]
fn half_square_triangles_four_at_a_time() {
    each_unit(|f, _, s| {
        let method = Some(Method::FourAtATime);
        for part in square_parts(Make::HalfSquareTriangle, method, f, s) {
            // Two squares are sewn around the edge and cut along both diagonals. What lies inside the seam is half of a
            // unit, and opens to a square.
            let square = cut(part.width);
            let quarter = polygon(&quarter_triangle(square));
            let inside = moved_out(&rectangle(square, square), -inches(s));
            let half = quarter.intersection(&polygon(&inside));
            let unit = (2.0 * half.unsigned_area()).sqrt();
            let finished = moved_out(&rectangle(unit, unit), -inches(s));
            close(sides(&finished)[0], inches(f), "the finished unit");
            close(4.0 * quarter.unsigned_area(), square * square, "the square");
            assert_eq!(gives(Make::HalfSquareTriangle, method), Some(Count(4)));
        }
    });
}

#[test]
fn quarter_square_triangles_of_four_fabrics() {
    each_unit(|f, _, s| {
        let (make, method) = (Make::QuarterSquareTriangle, Some(Method::Pieced));
        let drawn = moved_out(&quarter_triangle(inches(f)), inches(s));
        for part in square_parts(make, method, f, s) {
            // A unit has one triangle of each.
            square_of(&part, sides(&drawn)[0], &drawn, 4.0, 1.0, gives(make, method));
        }
    });
}

#[test]
fn quarter_squares_with_a_plain_half() {
    each_unit(|f, _, s| {
        let make = Make::SplitQuarterSquareTriangle;
        let half = moved_out(&right_triangle(inches(f), inches(f)), inches(s));
        let quarter = moved_out(&quarter_triangle(inches(f)), inches(s));
        let all = square_parts(make, None, f, s);
        // The plain triangle's legs are the square's sides; a quarter lies with its long side along one of them.
        square_of(&all[0], sides(&half)[0], &half, 2.0, 1.0, gives(make, None));
        for part in &all[1..] {
            square_of(part, sides(&quarter)[0], &quarter, 4.0, 1.0, gives(make, None));
        }
    });
}

/// The base and what shows of each corner, a triangle of the corner's leg, fill the finished unit.
#[test]
fn snowballs() {
    each_unit(|w, h, s| {
        let leg = w.min(h).half();
        let unit = UnitMeasures { corners: vec![leg], ..UnitMeasures::new(Rectangle::new(w, h), s) };
        let parts = Make::Snowball.way(None).cut_parts(&unit);
        let names: Vec<(&str, Count)> = parts.iter().map(|part| (part.name, part.pieces)).collect();
        assert_eq!(names, [("base", Count(1)), ("corner", Count(4))]);
        let base = moved_out(&rectangle(inches(w), inches(h)), inches(s));
        close(cut(parts[0].width) * cut(parts[0].height), area(&base), "the base");
        // The square holds the finished triangle with its seams, and the seam is its diagonal.
        let corner = moved_out(&rectangle(inches(leg), inches(leg)), inches(s));
        close(cut(parts[1].width), sides(&corner)[0], "the corner");
    });
}

/// The logs, drawn where they are sewn on, and the center fill the finished unit without a gap or an overlap.
#[test]
fn log_cabins_fill_their_rectangle() {
    let config = ProptestConfig { cases: UNITS, ..ProptestConfig::default() };
    let orders = prop_oneof![Just(LogOrder::Round), Just(LogOrder::Opposite), Just(LogOrder::TwoSides)];
    let widths = prop::collection::vec(16_i64..=192, 1..=24);
    proptest!(config, |(order in orders, widths in widths, center in (64_i64..=512, 64_i64..=512))| {
        let sixty_fourths = |count| Length::inch_fraction(count, 64);
        let lengths: Vec<Length> = widths.iter().copied().map(sixty_fourths).collect();
        let middle = Rectangle::new(sixty_fourths(center.0), sixty_fourths(center.1));
        let (logs, made) = log_cabin(middle, &lengths, order);
        // Left, top, right and bottom of what is sewn so far; each log lies along one side of it.
        let (mut left, mut top, mut right, mut bottom) = (0, 0, center.0, center.1);
        let mut filled = center.0 * center.1;
        for (number, (log, width)) in logs.iter().zip(&widths).enumerate() {
            let side = match order {
                LogOrder::Round => number % 4,
                LogOrder::Opposite => [0, 2, 1, 3][number % 4],
                LogOrder::TwoSides => number % 2,
            };
            let meets = if side % 2 == 0 { bottom - top } else { right - left };
            prop_assert_eq!((log.width, log.length), (sixty_fourths(*width), sixty_fourths(meets)));
            filled += width * meets;
            match side {
                0 => right += width,
                1 => bottom += width,
                2 => left -= width,
                _ => top -= width,
            }
        }
        prop_assert_eq!(made, Rectangle::new(sixty_fourths(right - left), sixty_fourths(bottom - top)));
        prop_assert_eq!(filled, (right - left) * (bottom - top));
    });
}

#[test]
fn quarter_square_triangles() {
    each_unit(|f, _, s| {
        let drawn = moved_out(&quarter_triangle(inches(f)), inches(s));
        for part in square_parts(Make::QuarterSquareTriangle, None, f, s) {
            // A unit has two triangles of either fabric.
            square_of(&part, sides(&drawn)[0], &drawn, 4.0, 2.0, gives(Make::QuarterSquareTriangle, None));
        }
    });
}

#[test]
fn flying_geese_four_at_a_time() {
    each_unit(|half, _, s| {
        let (make, method) = (Make::FlyingGeese, Some(Method::FourAtATime));
        let all = parts(make, method, Rectangle::new(half * 2, half), s);
        let goose = moved_out(&quarter_triangle(2.0 * inches(half)), inches(s));
        square_of(&all[0], sides(&goose)[0], &goose, 4.0, 1.0, gives(make, method));
        let sky = moved_out(&right_triangle(inches(half), inches(half)), inches(s));
        square_of(&all[1], sides(&sky)[0], &sky, 2.0, 2.0, gives(make, method));
    });
}

/// A square of a side in the corner of a rectangle, sewn across its diagonal and flipped: the leg of the triangle of the
/// finished rectangle that is not the rectangle's own fabric any more. `geo` crosses shapes on a grid, so that an area
/// is a little less exact than the leg that it comes of.
fn flipped(square: f64, base: &[Coord<f64>], seam: f64) -> f64 {
    let window = polygon(&moved_out(base, -seam));
    let triangle = window.intersection(&polygon(&right_triangle(square, square)));
    (2.0 * triangle.unsigned_area()).sqrt()
}

#[test]
fn flying_geese_by_stitching_and_flipping() {
    each_unit(|half, _, s| {
        let (make, method) = (Make::FlyingGeese, Some(Method::StitchAndFlip));
        let all = parts(make, method, Rectangle::new(half * 2, half), s);
        let base = moved_out(&rectangle(2.0 * inches(half), inches(half)), inches(s));
        close(cut(all[0].width), sides(&base)[0], "goose width");
        close(cut(all[0].height), sides(&base)[1], "goose height");
        // The square's own corner lies on the rectangle's: seen from there.
        let base = rectangle(sides(&base)[0], sides(&base)[1]);
        let sky = flipped(cut(all[1].width), &base, inches(s));
        close(sky, inches(half), "the sky of one corner");
        assert_eq!(gives(make, method), Some(Count(1)));
    });
}

#[test]
fn squares_in_a_square_by_stitching_and_flipping() {
    each_unit(|half, _, s| {
        let (make, method) = (Make::SquareInASquare, Some(Method::StitchAndFlip));
        let f = half * 2;
        let all = square_parts(make, method, f, s);
        let base = moved_out(&rectangle(inches(f), inches(f)), inches(s));
        close(cut(all[0].width), sides(&base)[0], "centre");
        let base = rectangle(sides(&base)[0], sides(&base)[1]);
        let corner = flipped(cut(all[1].width), &base, inches(s));
        // From the corner to the middle of the side, where it meets the next: what is seen of the centre is a square.
        close(corner, inches(half), "one corner");
        assert_eq!(gives(make, method), Some(Count(1)));
    });
}

#[test]
fn squares_in_a_square_that_are_pieced() {
    each_unit(|half, _, s| {
        let (make, method) = (Make::SquareInASquare, Some(Method::Pieced));
        let all = square_parts(make, method, half * 2, s);
        let half = inches(half);
        let on_point = [
            coord! { x: half, y: 0.0 },
            coord! { x: 2.0 * half, y: half },
            coord! { x: half, y: 2.0 * half },
            coord! { x: 0.0, y: half },
        ];
        let centre = moved_out(&on_point, inches(s));
        close(cut(all[0].width), sides(&centre)[0], "centre");
        close(cut(all[0].width).powi(2), area(&centre), "the area of the centre");
        let corner = moved_out(&right_triangle(half, half), inches(s));
        square_of(&all[1], sides(&corner)[0], &corner, 2.0, 4.0, gives(make, method));
    });
}

#[test]
fn half_rectangle_triangles() {
    each_unit(|w, h, s| {
        let make = Make::HalfRectangleTriangle;
        let all = parts(make, None, Rectangle::new(w, h), s);
        let drawn = moved_out(&right_triangle(inches(w), inches(h)), inches(s));
        for part in all {
            let (width, height) = (cut(part.width), cut(part.height));
            close(width, sides(&drawn)[0], "width");
            close(height, sides(&drawn)[2], "height");
            // The areas are so large that the sides' last digits show in them.
            let close_enough = (width * height / 2.0 - area(&drawn)).abs() < CLOSE * (width + height);
            assert!(close_enough, "{} is not {}", width * height / 2.0, area(&drawn));
            assert_eq!(gives(make, None), Some(Count(2)));
        }
    });
}

#[test]
fn side_triangles() {
    each_unit(|f, _, s| {
        let part = square_parts(Make::SideTriangle, None, f, s).remove(0);
        // The block on its point: a triangle fills the space between two of them at the edge.
        let block = moved_out(&rectangle(inches(f), inches(f)), 0.0);
        let diagonal = (block[2] - block[0]).x.hypot((block[2] - block[0]).y);
        let drawn = moved_out(&quarter_triangle(diagonal), inches(s));
        square_of(&part, sides(&drawn)[0], &drawn, 4.0, 1.0, gives(Make::SideTriangle, None));
    });
}

#[test]
fn corner_triangles() {
    each_unit(|f, _, s| {
        let part = square_parts(Make::CornerTriangle, None, f, s).remove(0);
        // Its long side is a side of the block.
        let finished = [
            coord! { x: 0.0, y: 0.0 },
            coord! { x: inches(f), y: 0.0 },
            coord! { x: inches(f) / 2.0, y: inches(f) / 2.0 },
        ];
        let drawn = moved_out(&finished, inches(s));
        square_of(&part, sides(&drawn)[1], &drawn, 2.0, 1.0, gives(Make::CornerTriangle, None));
    });
}

#[test]
fn strips_and_segments() {
    each_unit(|w, h, s| {
        let drawn = moved_out(&rectangle(inches(w), inches(h)), inches(s));
        close(cut(plain(w, s)), sides(&drawn)[0], "a strip");
        close(cut(plain(h, s)), sides(&drawn)[1], "a segment");
        assert_eq!(parts(Make::StripSet, None, Rectangle::new(w, h), s), Vec::new());
        assert_eq!(gives(Make::StripSet, None), None);
    });
}
