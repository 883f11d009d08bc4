//! Shapes cut from strips against polygons that are drawn and laid with `geo`: as many as are said come of a strip lie
//! there without one over another, and one more does not.
//!
//! The finished polygon is drawn by its angles and moved out by the seam, edge by edge; nothing is taken from the formulas
//! of the program.

use geo::{Area, BooleanOps, BoundingRect, Coord, LineString, Polygon, Rotate, Translate};
use rstest::rstest;
use sparestrip::choices::{CutAngle, CutShape, Tips};
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::shapes::StripShape;

use super::inches;
use crate::support::rng::Rng;

const SIZES: usize = 1_000;

/// What floating point may be off.
const FLOAT: f64 = 1e-7;

/// Lines from corner to corner, counterclockwise.
fn polygon(corners: &[(f64, f64)]) -> Polygon {
    Polygon::new(LineString::from(corners.to_vec()), Vec::new())
}

fn corners(polygon: &Polygon) -> Vec<Coord> {
    let exterior = &polygon.exterior().0;
    exterior[..exterior.len() - 1].to_vec()
}

/// A convex polygon with each edge moved out by so much.
fn moved_out(of: &[(f64, f64)], by: f64) -> Vec<(f64, f64)> {
    // Each edge as a line: the normal that points out, and its distance from the origin.
    let count = of.len();
    let line = |index: usize| {
        let ((x0, y0), (x1, y1)) = (of[index % count], of[(index + 1) % count]);
        let (dx, dy) = (x1 - x0, y1 - y0);
        let long = dx.hypot(dy);
        let normal = (dy / long, -dx / long);
        (normal, normal.0 * x0 + normal.1 * y0 + by)
    };
    let meet = |index: usize| {
        let ((one, by_one), (other, by_other)) = (line(index + count - 1), line(index));
        let over = one.0 * other.1 - one.1 * other.0;
        ((by_one * other.1 - one.1 * by_other) / over, (one.0 * by_other - by_one * other.0) / over)
    };
    (0..count).map(meet).collect()
}

/// What of a convex polygon lies below a height.
fn below(of: &[(f64, f64)], height: f64) -> Vec<(f64, f64)> {
    let mut kept = Vec::new();
    for (index, from) in of.iter().enumerate() {
        let to = of[(index + 1) % of.len()];
        if from.1 <= height {
            kept.push(*from);
        }
        if (from.1 <= height) != (to.1 <= height) {
            kept.push((from.0 + (to.0 - from.0) * (height - from.1) / (to.1 - from.1), height));
        }
    }
    kept
}

/// The finished shape with its base on y = 0.
fn finished(shape: CutShape, side: f64, height: f64, degrees: f64) -> Vec<(f64, f64)> {
    let angle = degrees.to_radians();
    let sixty = 60_f64.to_radians();
    let (slant, tall) = (height / angle.tan(), height);
    match shape {
        CutShape::Triangle60 => vec![(0.0, 0.0), (side, 0.0), (side / 2.0, side * sixty.sin())],
        CutShape::HalfTriangle60 => vec![(0.0, 0.0), (side / 2.0, 0.0), (0.0, side * sixty.sin())],
        CutShape::Hexagon => (0..6)
            .map(|corner| (side * (sixty * f64::from(corner)).cos(), side * (sixty * f64::from(corner)).sin()))
            .collect(),
        CutShape::HalfHexagon => {
            vec![(0.0, 0.0), (2.0 * side, 0.0), (1.5 * side, side * sixty.sin()), (side / 2.0, side * sixty.sin())]
        }
        CutShape::Diamond60 | CutShape::Diamond45 => {
            let angle = if shape == CutShape::Diamond60 { sixty } else { 45_f64.to_radians() };
            let (x, y) = (side * angle.cos(), side * angle.sin());
            vec![(0.0, 0.0), (side, 0.0), (side + x, y), (x, y)]
        }
        CutShape::Parallelogram => vec![(0.0, 0.0), (side, 0.0), (side + slant, tall), (slant, tall)],
        CutShape::Trapezoid => vec![(0.0, 0.0), (side, 0.0), (side - slant, tall), (slant, tall)],
        CutShape::Template => Vec::new(),
    }
}

/// The shape as it is cut, on y = 0: with its seams, and a triangle with its tip cut off where the strip ends.
fn cut_polygon(of: &StripShape) -> Polygon {
    let (side, height, seam) = (inches(of.side), inches(of.height), inches(of.seam));
    let degrees = if of.angle == CutAngle::Sixty { 60.0 } else { 45.0 };
    let outline = finished(of.shape, side, height, degrees);
    let top = outline.iter().map(|corner| corner.1).fold(0.0, f64::max);
    let cut = moved_out(&outline, seam);
    // Of triangles a strip of the height and three seams, or two, keeps what lies in it.
    let strip = match (of.shape, of.tips) {
        (CutShape::Triangle60 | CutShape::HalfTriangle60, Tips::Sharp) => top + 2.0 * seam,
        (CutShape::Triangle60 | CutShape::HalfTriangle60, Tips::Blunt) => top + seam,
        _ => f64::INFINITY,
    };
    let cut = polygon(&below(&cut, strip));
    let low = cut.bounding_rect().unwrap().min().y;
    cut.translate(0.0, -low)
}

/// Where a polygon begins and ends at a height.
fn between(polygon: &Polygon, y: f64) -> Option<(f64, f64)> {
    let corners = corners(polygon);
    let mut found: Vec<f64> = Vec::new();
    for (index, from) in corners.iter().enumerate() {
        let to = corners[(index + 1) % corners.len()];
        let (low, high) = (from.y.min(to.y), from.y.max(to.y));
        if y < low - 1e-12 || y > high + 1e-12 {
            continue;
        }
        if high - low < 1e-12 {
            found.extend([from.x, to.x]);
        } else {
            found.push(from.x + (to.x - from.x) * ((y - from.y) / (to.y - from.y)).clamp(0.0, 1.0));
        }
    }
    let least = found.iter().copied().reduce(f64::min)?;
    Some((least, found.iter().copied().reduce(f64::max)?))
}

/// How far behind one polygon another of the same strip begins at least.
fn behind(one: &Polygon, other: &Polygon) -> f64 {
    let heights = corners(one).into_iter().chain(corners(other)).map(|corner| corner.y);
    // Between corners all sides are straight, so that the widest place is at one.
    let at = heights.filter_map(|y| Some(between(one, y)?.1 - between(other, y)?.0));
    at.fold(f64::NEG_INFINITY, f64::max)
}

fn overlap(one: &Polygon, other: &Polygon) -> f64 {
    one.intersection(other).unsigned_area()
}

/// How far so many reach along a strip in whichever order of the orientations, each as near to the last as it can be.
fn reaches(ways: &[Polygon], most: u64) -> Vec<f64> {
    let apart: Vec<Vec<f64>> = ways.iter().map(|one| ways.iter().map(|other| behind(one, other)).collect()).collect();
    let bounds: Vec<(f64, f64)> =
        ways.iter().map(|way| way.bounding_rect().unwrap()).map(|bounds| (bounds.min().x, bounds.max().x)).collect();
    // Each begins with its left end at the end of the strip.
    let mut at: Vec<f64> = bounds.iter().map(|(left, _)| -left).collect();
    let mut reaches = Vec::new();
    for _ in 0..most {
        let ends = at.iter().zip(&bounds).map(|(at, (_, right))| at + right);
        reaches.push(ends.fold(f64::INFINITY, f64::min));
        at = (0..ways.len())
            .map(|way| at.iter().zip(&apart).map(|(at, apart)| at + apart[way]).fold(f64::INFINITY, f64::min))
            .zip(&bounds)
            .map(|(at, (left, _))| at.max(-left))
            .collect();
    }
    reaches
}

fn random(rng: &mut Rng, shape: CutShape) -> StripShape {
    let eighths = |rng: &mut Rng, least: i64, most: i64| Length::inch_fraction(rng.between(least, most), 8);
    let angle = rng.pick(&[CutAngle::Sixty, CutAngle::FortyFive]);
    let side = eighths(rng, 8, 64);
    let height = match shape {
        CutShape::Parallelogram => eighths(rng, 8, 48),
        // Less than half of its base, so that something of the shorter edge is left.
        CutShape::Trapezoid => Length::inch_fraction(rng.between(4, side.ticks() as i64 * 8 / 731_520_000 * 3), 64),
        _ => Length::ZERO,
    };
    let tips = rng.pick(&[Tips::Sharp, Tips::Blunt]);
    let seam = rng.pick(&[Length::inch_fraction(1, 4), Length::inch_fraction(3, 8), Length::millimetres(7)]);
    StripShape { angle, tips, turns: !rng.one_in(4), ..StripShape::new(shape, (side, height), seam) }
}

/// Lays one shape and compares; how many were said.
fn assert_fits(shape: &StripShape, strip: Length, is_drawn: bool) -> u64 {
    let what = format!("{shape:?} in {} in", inches(strip));
    let cut = cut_polygon(shape);
    let bounds = cut.bounding_rect().unwrap();
    let way = shape.ways().next().unwrap();
    let height = inches(way.width());
    assert!((height - bounds.height()).abs() < FLOAT, "{what}: {height} wide, drawn {}", bounds.height());
    assert!((inches(way.width_below()) - height).abs() < FLOAT, "{what}");
    // Turned by half a turn around the middle of the strip.
    let turned = cut.rotate_around_point(180.0, geo::point! { x: 0.0, y: height / 2.0 });
    let ways = if shape.turns { vec![cut, turned] } else { vec![cut] };
    let said = way.in_row(strip).0;
    let reaches = reaches(&ways, said + 1);
    let last = |count: u64| usize::try_from(count).ok().and_then(|count| reaches.get(count.checked_sub(1)?)).copied();
    if said > 0 {
        let reach = last(said).unwrap();
        assert!(reach <= inches(strip) + FLOAT, "{what}: {said} reach {reach}");
        assert!((inches(way.reach(Count(said))) - reach).abs() < FLOAT, "{what}: {said} reach {reach}");
    }
    let one_more = last(said + 1).unwrap();
    assert!(one_more > inches(strip) - FLOAT, "{what}: {said} said, and {} reach {one_more}", said + 1);
    if is_drawn {
        assert_drawn(&ways, &what);
    }
    assert_area(shape, &ways[0], &what);
    said
}

/// Neighbors as near as that do not lie over one another, and nearer they do.
fn assert_drawn(ways: &[Polygon], what: &str) {
    for one in ways {
        for other in ways {
            let by = behind(one, other);
            assert!(overlap(one, &other.translate(by, 0.0)) < 1e-6, "{what}");
            assert!(overlap(one, &other.translate(by - 0.05, 0.0)) > 1e-9, "{what}");
        }
    }
}

fn assert_area(shape: &StripShape, cut: &Polygon, what: &str) {
    let ticks = 731_520_000_f64;
    let said = shape.area_below() as f64 / ticks / ticks;
    assert!(said <= cut.unsigned_area() + FLOAT, "{what}: {said} square inches, drawn {}", cut.unsigned_area());
    assert!(said >= cut.unsigned_area() - FLOAT, "{what}: {said} square inches, drawn {}", cut.unsigned_area());
}

#[rstest]
#[case::triangle_60(CutShape::Triangle60)]
#[case::half_triangle_60(CutShape::HalfTriangle60)]
#[case::hexagon(CutShape::Hexagon)]
#[case::half_hexagon(CutShape::HalfHexagon)]
#[case::diamond_60(CutShape::Diamond60)]
#[case::diamond_45(CutShape::Diamond45)]
#[case::parallelogram(CutShape::Parallelogram)]
#[case::trapezoid(CutShape::Trapezoid)]
fn as_many_as_are_said_fit_a_strip_and_one_more_does_not(#[case] shape: CutShape) {
    let mut rng = Rng::new(shape as u64 + 77);
    let mut several = 0;
    for round in 0..SIZES {
        let shape = random(&mut rng, shape);
        let strip = Length::inch_fraction(rng.between(80, 480), 8);
        several += usize::from(assert_fits(&shape, strip, round % 10 == 0) > 1);
    }
    assert!(several > SIZES / 2, "only {several} strips gave several");
}

/// However it is turned, a shape is no lower than its strip is wide, so that no other way round comes of the strip; but for
/// a parallelogram, which may lie on its other side.
#[rstest]
#[case::triangle_60(CutShape::Triangle60)]
#[case::hexagon(CutShape::Hexagon)]
#[case::half_hexagon(CutShape::HalfHexagon)]
#[case::diamond_60(CutShape::Diamond60)]
#[case::diamond_45(CutShape::Diamond45)]
#[case::parallelogram(CutShape::Parallelogram)]
fn no_way_round_is_lower(#[case] shape: CutShape) {
    let mut rng = Rng::new(shape as u64 + 5);
    for _ in 0..50 {
        let shape = StripShape { tips: Tips::Sharp, turns: true, ..random(&mut rng, shape) };
        let cut = cut_polygon(&shape);
        let lowest = shape.ways().map(|way| inches(way.width())).fold(f64::INFINITY, f64::min);
        for step in 0..360 {
            let turned = cut.rotate_around_point(f64::from(step) / 2.0, geo::point! { x: 0.0, y: 0.0 });
            let height = turned.bounding_rect().unwrap().height();
            assert!(height > lowest - FLOAT, "{shape:?} turned by {} degrees is {height} high", f64::from(step) / 2.0);
        }
    }
}

/// The same by how high a shape finishes as by its side, where that is a plain length.
#[test]
fn a_height_is_as_good_as_a_side() {
    for shape in [CutShape::Triangle60, CutShape::HalfTriangle60, CutShape::Hexagon, CutShape::HalfHexagon] {
        // Within a tick of the side whose height it is.
        let by_side = StripShape::new(shape, (Length::inches(4), Length::ZERO), Length::inch_fraction(1, 4));
        let height = by_side.ways().next().unwrap().width_below()
            - Length::inch_fraction(1, 4)
                * if matches!(shape, CutShape::Triangle60 | CutShape::HalfTriangle60) { 3 } else { 2 };
        let by_height = StripShape { side: height, by_height: true, ..by_side };
        let edges = [by_side, by_height].map(|shape| inches(shape.ways().next().unwrap().edge()));
        assert!((edges[0] - edges[1]).abs() < FLOAT, "{shape:?}: {edges:?}");
    }
    let diamonds = [CutShape::Diamond60, CutShape::Diamond45];
    for shape in diamonds {
        let by_side = StripShape::new(shape, (Length::inches(4), Length::ZERO), Length::ZERO);
        let height = by_side.ways().next().unwrap().width_below();
        let by_height = StripShape { side: height, by_height: true, ..by_side };
        let edges = [by_side, by_height].map(|shape| inches(shape.ways().next().unwrap().edge()));
        assert!((edges[0] - edges[1]).abs() < FLOAT, "{shape:?}: {edges:?}");
    }
}
