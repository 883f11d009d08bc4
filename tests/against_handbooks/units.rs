//! Cut sizes of units. Each row: what is printed is right, and a quarter of an inch less is an error.
//!
//! The sources add 7/8 in and 1 1/4 in for a seam of 1/4 in, where the exact allowances are 0.854 in and 1.207 in, and
//! then round up to 1/8 in. What comes of that is right.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::finding::{Finding, Level};
use sparestrip::manuscript::Source;
use sparestrip::quantity::{Measure, Round};
use sparestrip::rule_book::Settings;

use crate::against_handbooks::length;

fn findings(units: &str) -> Vec<Finding> {
    let text = format!("pattern: Print\nmeasure: inch\nsizes: {{ one: {{ finished: 60 x 72 }} }}\nunits:\n{units}");
    check(&Source::from_text("print.pattern.yaml", text), &Settings::default()).findings
}

/// A unit whose parts are cut to what is printed.
fn unit(make: &str, finished: &str, parts: &[(&str, &str)]) -> String {
    let parts: Vec<String> = parts.iter().map(|(part, size)| format!("{part}: {size}")).collect();
    format!("  unit: {{ make: {make}, finished: {finished}, cut: {{ {} }} }}\n", parts.join(", "))
}

fn less(size: &str, by: &str) -> String {
    (length(size) - length(by)).show(Measure::Inch, Round::Down).replace(" in", "")
}

/// What is printed is right in all parts, and each part is an error where it is 1/4 in less.
#[track_caller]
fn printed(make: &str, finished: &str, parts: &[(&str, &str)]) {
    let right = findings(&unit(make, finished, parts));
    assert_eq!(right, Vec::new(), "{make} {finished}: {parts:?}");
    for place in 0..parts.len() {
        let smaller = less(parts[place].1, "1/4");
        let mut parts = parts.to_vec();
        parts[place].1 = &smaller;
        let found = findings(&unit(make, finished, &parts));
        assert_eq!(found.len(), 1, "{make} {finished}: {parts:?}: {found:#?}");
        assert_eq!(found[0].level, Level::Error);
    }
}

/// `AllPeopleQuilt` (Meredith), "Cutting Half- and Quarter-Square Triangles"; North Hampshire Quilters, "Half Square
/// and Quarter Square Triangles"; Quiltmaker, "Quilt Blocks, Easy Math Part 4" (2013).
#[rstest]
#[case("half_square_triangle", "3", "3 7/8")]
#[case("quarter_square_triangle", "3", "4 1/4")]
fn triangles_from_squares(#[case] make: &str, #[case] finished: &str, #[case] square: &str) {
    printed(make, finished, &[("first", square), ("second", square)]);
}

/// Quiltmaker, "Quilt Blocks, Easy Math Part 4" (2013): a triangle of 3 is 3 1/2 before it is sewn in, a plain square
/// of 6 is cut 6 1/2, and a block of 12 has four of 3 or two of 6 across.
#[test]
fn a_block_of_twelve() {
    printed("patch", "6", &[("patch", "6 1/2")]);
    let units =
        "  corner: { make: half_square_triangle, finished: 3, cut: { first: 3 7/8, second: 3 7/8 }, trim: 3 1/2 }
  plain: { make: patch, finished: 6, cut: { patch: 6 1/2 } }
  small: { make: patch, finished: 3, cut: { patch: 3 1/2 } }
blocks:
  four: { finished: 12, rows: [[corner, small, small, corner], [small, small, small, small],
                               [small, small, small, small], [corner, small, small, corner]] }
  two: { finished: 12, rows: [[plain, plain], [plain, plain]] }
";
    assert_eq!(findings(units), Vec::new());
    assert_eq!(findings(&units.replace("trim: 3 1/2", "trim: 3 3/8"))[0].rule, "trim-size-wrong");
    assert_eq!(findings(&units.replace("two: { finished: 12", "two: { finished: 9"))[0].rule, "block-does-not-sum");
}

/// North Hampshire Quilters: 1/4 in more, to trim. That is a choice, and what it makes of the unit is told.
#[rstest]
#[case("half_square_triangle", "4 1/8", "0.271 in")] // 4.125 - 3.8536
#[case("quarter_square_triangle", "4 1/2", "0.292 in")] // 4.5 - 4.2071
fn oversize_is_a_choice(#[case] make: &str, #[case] square: &str, #[case] trim: &str) {
    let found = findings(&unit(make, "3", &[("first", square), ("second", square)]));
    assert_eq!(found.len(), 2);
    for finding in found {
        assert_eq!((finding.rule, finding.level), ("unit-cut-generous", Level::Note));
        let says = format!("The unit comes out {trim} too large: trim that off, to 3 1/2 in square.");
        assert!(finding.message.contains(&says), "{}", finding.message);
    }
}

/// Craftsy, "How to make half-square triangles" (2014), eight at a time.
#[test]
fn eight_at_a_time() {
    printed("half_square_triangle, method: eight_at_a_time", "3", &[("first", "7 3/4"), ("second", "7 3/4")]);
}

/// No-waste flying geese, four at a time.
#[rstest]
// Living in Stitches, "Geese, method three" (2009).
#[case("3 x 1 1/2", "4 1/4", "2 3/8")]
// Sylvia's Quilt Depot, "Fast flying geese".
#[case("4 x 2", "5 1/4", "2 7/8")]
// Christa Watson, "Quilty Math".
#[case("6 x 3", "7 1/4", "3 7/8")]
// Beverly's quilting page; A-Line Quilts, "Fast, easy flying geese" (2011).
#[case("2 x 1", "3 1/4", "1 7/8")]
#[case("3 x 1 1/2", "4 1/4", "2 3/8")]
#[case("4 x 2", "5 1/4", "2 7/8")]
#[case("5 x 2 1/2", "6 1/4", "3 3/8")]
#[case("6 x 3", "7 1/4", "3 7/8")]
// Beverly's quilting page.
#[case("8 x 4", "9 1/4", "4 7/8")]
fn geese(#[case] finished: &str, #[case] goose: &str, #[case] sky: &str) {
    printed("flying_geese", finished, &[("goose", goose), ("sky", sky)]);
}

/// "Lesson 5, Square in a Square" (class handout): a unit of 12 has a centre of 9 (8.984 in), and a finished centre of
/// 3 1/2 takes corners of 3 3/8; such a unit finishes at 3 1/2 x 1.4142 = 4.95 in.
#[test]
fn square_in_a_square() {
    let method = "square_in_a_square, method: pieced";
    printed(method, "4.95", &[("centre", "4"), ("corner", "3 3/8")]);
    printed(method, "12", &[("centre", "9"), ("corner", "6 7/8")]);
}

/// Setting triangles: side f x 1.414 + 1 1/4, corner f / 1.414 + 7/8, both up to the next 1/8.
#[rstest]
// Christa Watson, "Quilty Math"; Quilt Notes, "Triangle cutting chart".
#[case("3", "5 1/2", "3")]
// Marcia Hohn, Quilter's Cache (2002); Christa Watson; Quilt Notes.
#[case("4", "7", "3 3/4")]
// The same three, and an unsigned on-point chart.
#[case("5", "8 3/8", "4 1/2")]
// The same four; Moonlight Quilters, "On-Point Settings".
#[case("6", "9 3/4", "5 1/8")]
// Marcia Hohn; Christa Watson; the unsigned chart.
#[case("7", "11 1/4", "5 7/8")]
// All four.
#[case("8", "12 5/8", "6 5/8")]
#[case("9", "14", "7 1/4")]
// Marcia Hohn; Christa Watson; the unsigned chart.
#[case("10", "15 1/2", "8")]
// Christa Watson; the unsigned chart; Quilt Notes.
#[case("11", "16 7/8", "8 3/4")]
// All four; Marcia Hohn works it out as 18.218 and 9.364.
#[case("12", "18 1/4", "9 3/8")]
// The unsigned chart; Quilt Notes.
#[case("13", "19 3/4", "10 1/8")]
// Marcia Hohn; the unsigned chart; Quilt Notes.
#[case("14", "21 1/8", "10 7/8")]
// Marcia Hohn; the unsigned chart. With 1.414 and 1 1/4 the side is 23.874, with the root of two 23.877, and by exact
// geometry 23.835: 23 7/8 is right by all of them that a ruler shows.
#[case("16", "23 7/8", "12 1/4")]
// FreeSpirit Fabrics, "In the Garden": 18.7509 and 9.6254 by the rule of thumb, rounded to the nearest and not up. By
// exact geometry these are 18.708 and 9.604, so what is printed is enough.
#[case("12 3/8", "18 3/4", "9 5/8")]
fn setting_triangles(#[case] block: &str, #[case] side: &str, #[case] corner: &str) {
    printed("side_triangle", block, &[("square", side)]);
    printed("corner_triangle", block, &[("square", corner)]);
}

/// Moonlight Quilters, "On-Point Settings": the plain block of 6 beside them is cut 6 1/2.
#[test]
fn the_plain_block_between() {
    printed("patch", "6", &[("patch", "6 1/2")]);
}

/// Simply Put, "Figuring setting and corner triangles" (2012): for 4 1/2 the side is right, and the corner, 4.057 by its
/// own rule and 4.036 in exactly, is printed as 4: a published slip.
#[test]
fn a_corner_that_is_rounded_down_is_short() {
    printed("side_triangle", "4 1/2", &[("square", "7 5/8")]);
    printed("corner_triangle", "4 1/2", &[("square", "4 1/8")]);
    let found = findings(&unit("corner_triangle", "4 1/2", &[("square", "4")]));
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!((found[0].rule, found[0].level), ("unit-cut-short", Level::Error));
    assert!(found[0].message.contains("4 in square stated"), "{}", found[0].message);
    assert!(
        found[0].message.contains("4 1/8 in square (exactly 4.036 in) needed: 0.036 in short."),
        "{}",
        found[0].message
    );
}

/// A length within 1/64 in of the exact one is right, whatever is printed: 23.877 is 23 7/8.
#[test]
fn within_a_sixty_fourth_is_right() {
    // 3 27/32 is 0.0098 in below 3.8536, and 3 53/64 is 0.0254 below.
    assert_eq!(findings(&unit("half_square_triangle", "3", &[("first", "3 27/32"), ("second", "3 7/8")])), Vec::new());
    let found = findings(&unit("half_square_triangle", "3", &[("first", "3 53/64"), ("second", "3 7/8")]));
    assert_eq!(found[0].rule, "unit-cut-short");
}
