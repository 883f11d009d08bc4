//! Shapes cut from strips, and repeats of a print, as they are printed.
//!
//! What a source prints that is no shape here, such as a triangle that is not equilateral, is left out.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::choices::{CutAngle, CutShape};
use sparestrip::manuscript::Source;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::shapes::{ShapeWay, StripShape};
use sparestrip::rule_book::Settings;

use crate::against_handbooks::length;

fn seam() -> Length {
    Length::inch_fraction(1, 4)
}

fn by_height(shape: CutShape, height: &str, seam: Length) -> StripShape {
    StripShape { by_height: true, ..StripShape::new(shape, (length(height), Length::ZERO), seam) }
}

fn by_side(shape: CutShape, side: &str, seam: Length) -> StripShape {
    StripShape::new(shape, (length(side), Length::ZERO), seam)
}

fn way(shape: StripShape) -> ShapeWay {
    shape.ways().next().unwrap()
}

/// Whether a length is another, as a source rounds it.
#[track_caller]
fn assert_about(stated: &str, computed: Length, rounding: &str) {
    let off = (length(stated) - computed).abs();
    assert!(off <= length(rounding), "{stated} is printed, and {} ticks are computed", computed.ticks());
}

/// The rules that find something in a fabric.
fn rules(fabric: &str, cut: &str) -> Vec<&'static str> {
    let text = format!(
        "pattern: Print\nmeasure: inch\nsizes: {{ one: {{ finished: 60 x 72 }} }}\nfabrics:\n  ink:\n    {fabric}\n    cut: [{{ {cut} }}]\n"
    );
    let outcome = check(&Source::from_text("print.pattern.yaml", text), &Settings::default());
    outcome.findings.iter().map(|finding| finding.rule).collect()
}

#[rstest]
// Linda Clements, The Quilter's Bible, shapes chapter: the finished height and 3/4 in.
#[case::rule_small("2", "2 3/4")]
#[case::rule_large("6", "6 3/4")]
// Mythic Seam, "How to cut equilateral triangles".
#[case::mythic_seam("4 1/4", "5")]
// Sewn by Leila, "Equilateral triangles" (2012).
#[case::leila("3", "3 3/4")]
fn strips_for_triangles(#[case] height: &str, #[case] strip: &str) {
    assert_eq!(way(by_height(CutShape::Triangle60, height, seam())).width(), length(strip));
}

/// Mythic Seam prints a side of 4.91 in, finished, for that height; Blotch & Thrum, "Triangle tips and inspiration" (2013), a
/// cut side of 7.8 in for a strip of 6 3/4 in.
#[rstest]
#[case("4 1/4", Length::ZERO, "4.91")]
#[case("6", seam(), "7.8")]
fn sides_of_triangles(#[case] height: &str, #[case] seam: Length, #[case] side: &str) {
    assert_about(side, way(by_height(CutShape::Triangle60, height, seam)).edge(), "0.01");
}

/// Blotch & Thrum takes 1/2 in off a cut side of 7.8 in and prints 7.3 in finished. A side loses two seams times the root of
/// three, 0.866 in: a triangle that finishes 7.3 in does not come of a strip of 6 3/4 in.
#[test]
fn a_side_loses_more_than_two_seams() {
    let strip = "strip_width: 6 3/4, pieces: { one: 4 }";
    let requires = "requires: { one: 1/2 yd }";
    let found = rules(requires, &format!("piece: T, shape: triangle_60, size: 7.3, {strip}"));
    assert!(found.contains(&"piece-longer-than-strip"), "{found:?}");
    let found = rules(requires, &format!("piece: T, shape: triangle_60, size: 6.92, {strip}"));
    assert!(!found.contains(&"piece-longer-than-strip"), "{found:?}");
}

/// Quilt It, "Wanna tri? Cutting the triangles" (2012): cut height 8 in, seven triangles and both halves from a strip; a strip
/// from 1/4 yd and two from 1/2 yd. At 42 in there are eight without the halves.
#[test]
fn triangles_of_a_strip() {
    let triangle = way(by_height(CutShape::Triangle60, "7 1/4", seam()));
    assert_eq!([length("40"), length("42")].map(|strip| triangle.in_row(strip)), [Count(7), Count(8)]);
    // A half fills the slant at each end, and a seam more.
    assert!(triangle.reach(Count(7)) + seam() * 2 <= length("40"));
    for (pieces, amount) in [(7, "1/4 yd"), (14, "1/2 yd")] {
        let cut = format!("piece: T, shape: triangle_60, height: 7 1/4, pieces: {{ one: {pieces} }}");
        let found = rules(&format!("requires: {{ one: {amount} }}"), &cut);
        assert!(!found.contains(&"fabric-short"), "{pieces}: {found:?}");
        let cut = format!("piece: T, shape: triangle_60, height: 7 1/4, pieces: {{ one: {} }}", pieces + 1);
        let found = rules(&format!("requires: {{ one: {amount} }}"), &cut);
        assert!(found.contains(&"fabric-short"), "{pieces}: {found:?}");
    }
}

/// The same prints 59 in for a row of thirteen triangles and two halves that are 7 1/4 in high: 58.6 in.
#[test]
fn a_row_of_triangles() {
    let finished = way(by_height(CutShape::Triangle60, "7 1/4", Length::ZERO));
    assert_about("59", finished.reach(Count(13)), "1/2");
}

#[rstest]
// Slaney Quilting Studio, "How to cut the hexagon shape".
#[case::slaney("2 3/4", "3 1/4")]
// Debby Kratovil, "Twisted hexagons" (2020): a center of 7 1/2 in by a template of 8 in.
#[case::kratovil("7 1/2", "8")]
fn strips_for_hexagons(#[case] height: &str, #[case] strip: &str) {
    assert_eq!(way(by_height(CutShape::Hexagon, height, seam())).width(), length(strip));
}

/// Love Laugh Quilt, "Half hexagons" (2013), cuts strips of 2 3/4 in for half hexagons with sides of 3 in. They take 3 1/8 in.
#[rstest]
#[case::as_printed("2 3/4", true)]
#[case::as_it_must_be("3 1/8", false)]
fn strips_for_half_hexagons(#[case] strip: &str, #[case] is_found: bool) {
    let cut = format!("piece: T, shape: half_hexagon, size: 3, strip_width: {strip}, pieces: {{ one: 4 }}");
    let found = rules("requires: { one: 1/4 yd }", &cut);
    assert_eq!(found.contains(&"piece-longer-than-strip"), is_found, "{found:?}");
}

/// Faeries and Fibres, "What size of hexagon should I use?" (2015): a rosette of 3 in hexagons with two rounds is 26 1/4 in by
/// 24 in as measured; five hexagons from flat to flat, and eight sides.
#[test]
fn a_rosette_of_hexagons() {
    let hexagon = way(by_side(CutShape::Hexagon, "3", Length::ZERO));
    assert_about("26 1/4", hexagon.width() * 5, "3/8");
    assert_eq!(hexagon.edge() * 8, length("24"));
}

/// Quilting Readers Garden (2018): a hexagon with sides of 2 1/2 in covers 16.24 square inches. Splendid Minta, "Cutting x 600"
/// (2010): about 600 that are cut 3 1/2 in from flat to flat for 60 x 80 in, without parts of any.
#[test]
fn areas_of_hexagons() {
    let inch = Length::TICKS_PER_INCH;
    let hundredths = |shape: StripShape| shape.area_below() * 100 / inch / inch;
    assert_eq!(hundredths(by_side(CutShape::Hexagon, "2 1/2", Length::ZERO)), 1623);
    let of_one = hundredths(by_height(CutShape::Hexagon, "3", Length::ZERO));
    assert!((590..630).contains(&(60 * 80 * 100 / of_one)), "{of_one}");
}

/// The Quilter's Bible prints, twice, that hexagons are cut from strips that are first cut into 45-degree diamonds. They are
/// 60-degree diamonds, of twice the side, from strips as wide.
#[test]
fn hexagons_come_of_60_degree_diamonds() {
    let hexagon = way(by_side(CutShape::Hexagon, "3", seam())).width();
    assert_eq!(way(by_side(CutShape::Diamond60, "6", seam())).width(), hexagon);
    assert!(way(by_side(CutShape::Diamond45, "6", seam())).width() < hexagon);
}

/// Debby Kratovil, star blocks (2015): a 45-degree diamond from a strip of 4 1/2 in is as large as four from strips of 2 1/2
/// in. Lace and Quilts, "The Lone Star" (2021): a star of three by three diamonds from strips of 2 1/2 in is about 29 in wide,
/// its side times 2 + root 2.
#[test]
fn diamonds_of_stars() {
    let [single, of_four] = ["4", "2"].map(|height| way(by_height(CutShape::Diamond45, height, seam())));
    assert_eq!([single.width(), of_four.width()], [length("4 1/2"), length("2 1/2")]);
    let [single, of_four] = ["4", "2"].map(|height| way(by_height(CutShape::Diamond45, height, Length::ZERO)).edge());
    assert!((single - of_four * 2).abs() <= Length::from_ticks(2));
    let point = of_four * 3;
    // Its diagonal is the side times the root of two.
    let wide = point * 2
        + sparestrip::quilt_math::fixed_point::diagonal(point, sparestrip::quilt_math::fixed_point::Side::Above);
    assert_about("29", wide, "1/8");
}

/// Sewquilty, block of February 2000: a 45-degree parallelogram 2 1/2 in high with a base of 2 1/2 in from a strip of 3 in: the
/// second cut 2 1/4 in from the first. It is 2.268 in, which is printed to the nearest eighth.
#[test]
fn the_second_cut_of_a_parallelogram() {
    let shape = StripShape::new(CutShape::Parallelogram, (length("2 1/2"), length("2 1/2")), seam());
    let widths: Vec<Length> =
        StripShape { angle: CutAngle::FortyFive, ..shape }.ways().map(|way| way.width()).collect();
    assert_eq!(widths[0], length("3"));
    assert_about("2 1/4", widths[1], "1/16");
    assert_about("2.268", widths[1], "0.001");
}

/// Pam and Nicky Lintott, "Diamond stars", Today's Quilter (2024): six strips of 3 in from a fat quarter, for 60-degree diamonds.
/// Five come of each strip of 21 in, and of 20 in.
#[test]
fn diamonds_of_a_fat_quarter() {
    let diamond = way(by_height(CutShape::Diamond60, "2 1/2", seam()));
    assert_eq!(diamond.width(), length("3"));
    assert_eq!([length("21"), length("20")].map(|strip| diamond.in_row(strip)), [Count(5), Count(5)]);
    let found = |pieces: u64| {
        let cut = format!("piece: D, shape: diamond_60, height: 2 1/2, pieces: {{ one: {pieces} }}");
        rules("sold_as: fat_quarters\n    usable_width: 21\n    requires: { one: 1 }", &cut)
    };
    assert!(found(30).is_empty(), "{:?}", found(30));
    assert_eq!(found(31), ["fabric-short"]);
}

#[rstest]
// Petals and Pins, "One block wonder" (2016): six repeats of 24 in are 144 in, 4 yd.
#[case::six_repeats("24", 1, 6, "4 yd", &[])]
// Of the last repeat no more than the piece may be needed: 5 x 24 + 8 1/2 in = 128 1/2 in, and 3 3/4 yd are 135 in.
#[case::part_of_the_last("24", 1, 6, "3 3/4 yd", &["fabric-tight"])]
#[case::one_more("24", 1, 7, "4 yd", &["fabric-short"])]
// Geta's Quilting Studio, "Kaleidoscope quilt patterns" (2022): 1 yd has three repeats of 12 in.
#[case::three_repeats("12", 4, 12, "1 yd", &[])]
#[case::three_repeats_short("12", 4, 17, "1 yd", &["fabric-short"])]
fn repeats_of_a_print(
    #[case] repeat: &str,
    #[case] per_repeat: u64,
    #[case] pieces: u64,
    #[case] amount: &str,
    #[case] expected: &[&str],
) {
    let cut =
        format!("piece: C, size: 8 1/2 x 8 1/2, centered: yes, per_repeat: {per_repeat}, pieces: {{ one: {pieces} }}");
    let found = rules(&format!("repeat: {repeat}\n    requires: {{ one: {amount} }}"), &cut);
    let found: Vec<&str> = found.into_iter().filter(|rule| *rule != "no-squaring-room").collect();
    assert_eq!(found, expected);
}
