//! Snowballs, log cabins, quarter squares of up to four fabrics, and other makes.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, of_rule, one};

/// A manuscript of one unit in blocks of that unit alone, 3 across and 3 down, with the pieces of one fabric.
fn quilt(finished: &str, side: u32, unit: &str, pieces: &str) -> String {
    format!(
        "\
pattern: Test Bridge
measure: inch
sizes: {{ lap: {{ finished: {side} x {side} }} }}
fabrics:
  ink:
    requires: {{ lap: 3 yd }}
    cut:
{pieces}units:
  one: {{ {unit} }}
blocks:
  block: {{ finished: {finished}, rows: [[one]] }}
layout:
  lap: {{ across: 3, down: 3, blocks: block }}
accepted:
  - {{ rule: fabric-generous, size: lap, fabric: ink, stated: 3 yd, because: scraps are wanted }}
"
    )
}

fn piece(name: &str, size: &str, count: u32) -> String {
    format!("      - {{ piece: {name}, size: {size}, pieces: {{ lap: {count} }} }}\n")
}

const SNOWBALL: &str = "make: snowball, finished: 6, corner: 2, cut: { base: A, corner: B }";

/// 6 in finished with corners of 2 in: base 6 1/2, corners 2 1/2; nine units take 9 and 36.
#[rstest]
#[case::right("6 1/2 x 6 1/2", 9, "2 1/2 x 2 1/2", 36, None)]
#[case::base("6 3/8 x 6 1/2", 9, "2 1/2 x 2 1/2", 36, Some(("unit-cut-short", "6 1/2 in square needed")))]
#[case::corner("6 1/2 x 6 1/2", 9, "2 3/8 x 2 3/8", 36, Some(("unit-cut-short", "2 1/2 in square needed")))]
#[case::corner_without_seams("6 1/2 x 6 1/2", 9, "2 x 2", 36, Some(("seam-left-out", "the seam allowance is left out")))]
#[case::corners("6 1/2 x 6 1/2", 9, "2 1/2 x 2 1/2", 35, Some(("pieces-short", "36 needed")))]
fn a_snowball(
    #[case] base: &str,
    #[case] bases: u32,
    #[case] corner: &str,
    #[case] corners: u32,
    #[case] found: Option<(&str, &str)>,
) {
    let text = quilt("6", 18, SNOWBALL, &(piece("A", base, bases) + &piece("B", corner, corners)));
    match found {
        None => assert_silent(&text),
        Some((rule, says)) => {
            let finding = one(&text, rule);
            assert_says(&finding, &[says]);
            assert_eq!(finding.level, Level::Error);
        }
    }
}

#[rstest]
#[case::three("corner: 2, corners: 3, cut: { base: 6 1/2, corner: B }", 27)]
#[case::each("corner: [2, 2], cut: { base: 6 1/2, corner_1: B, corner_2: B }", 18)]
fn fewer_corners(#[case] words: &str, #[case] needed: u32) {
    let text =
        |count| quilt("6", 18, &format!("make: snowball, finished: 6, {words}"), &piece("B", "2 1/2 x 2 1/2", count));
    assert_silent(&text(needed));
    assert_says(&one(&text(needed - 1), "pieces-short"), &[&format!("{needed} needed")]);
}

#[test]
fn unlike_corners_are_each_cut_by_their_own_size() {
    let unit = |second: &str| {
        let words = "make: snowball, finished: 6 x 4, corner: [2, 1 1/2], cut: { base: 6 1/2 x 4 1/2, corner_1: 2 1/2, corner_2: ";
        quilt("6 x 4", 18, &format!("{words}{second} }}"), &piece("Z", "2 x 2", 0)).replace("18 x 18", "18 x 12")
    };
    assert!(of_rule(&unit("2"), "unit-cut-short").is_empty());
    assert_says(&one(&unit("1 7/8"), "unit-cut-short"), &["corner 2 of unit one", "2 in square needed"]);
}

#[rstest]
#[case::none(
    "make: snowball, finished: 6, cut: { base: 6 1/2, corner: 2 1/2 }",
    "missing-entry",
    "\"corner\" is missing"
)]
#[case::five(
    "make: snowball, finished: 6, corner: 2, corners: 5, cut: { base: 6 1/2, corner: 2 1/2 }",
    "out-of-range",
    "1 to 4"
)]
#[case::two_counts(
    "make: snowball, finished: 6, corner: [2, 2], corners: 4, cut: { base: 6 1/2, corner_1: 2 1/2, corner_2: 2 1/2 }",
    "out-of-range",
    "2 corners are listed with their sizes, and 4 stated"
)]
#[case::too_large(
    "make: snowball, finished: 6, corner: 6 1/2, cut: { base: 6 1/2, corner: 7 }",
    "out-of-range",
    "This corner is larger than its unit"
)]
#[case::no_center("make: log_cabin, finished: 6, logs: [1]", "missing-entry", "\"center\" is missing")]
#[case::no_logs("make: log_cabin, finished: 6, center: 2", "missing-entry", "\"logs\" is missing")]
#[case::a_word_of_another("make: patch, finished: 6, corner: 2", "unknown-word", "corner")]
#[case::parts_of_other("make: other, finished: 6, cut: { patch: 6 1/2 }", "unknown-word", "cut")]
#[case::unknown_piece("make: other, finished: 6, takes: { Q: 1 }", "piece-not-cut", "\"Q\"")]
fn what_cannot_be_is_found(#[case] unit: &str, #[case] rule: &str, #[case] says: &str) {
    let text = quilt("6", 18, unit, &piece("A", "2 x 2", 0));
    let found = of_rule(&text, rule);
    assert!(found.iter().any(|finding| finding.message.contains(says)), "{found:?}");
}

/// A center of 2 in and eight logs of 1 in make 6 in; the logs are 2, 3, 3, 4, 4, 5, 5 and 6 in long, with seams.
fn cabin(finished: &str, last: &str) -> String {
    let unit = format!(
        "make: log_cabin, finished: {finished}, center: 2, logs: [1, 1, 1, 1, 1, 1, 1, 1], cut: {{ center: 2 1/2, log_1: 1 1/2 x \
         2 1/2, log_2: 1 1/2 x 3 1/2, log_3: 1 1/2 x 3 1/2, log_4: 1 1/2 x 4 1/2, log_5: 1 1/2 x 4 1/2, log_6: 1 1/2 x 5 1/2, \
         log_7: 1 1/2 x 5 1/2, log_8: {last} }}"
    );
    quilt("6", 18, &unit, &piece("Z", "2 x 2", 0))
}

#[test]
fn a_log_cabin() {
    let quiet = |text: &str| {
        ["unit-cut-short", "block-does-not-sum", "seam-left-out"].iter().all(|rule| of_rule(text, rule).is_empty())
    };
    assert!(quiet(&cabin("6", "1 1/2 x 6 1/2")));
    assert_says(
        &one(&cabin("6", "1 1/2 x 6 3/8"), "unit-cut-short"),
        &["log 8 of unit one", "1 1/2 in x 6 1/2 in needed"],
    );
    assert_says(&one(&cabin("6", "1 3/8 x 6 1/2"), "unit-cut-short"), &["log 8 of unit one"]);
    assert_says(&one(&cabin("6", "1 x 6"), "seam-left-out"), &["the seam allowance is left out"]);
    let text = cabin("7", "1 1/2 x 6 1/2");
    // The block is of another size as well.
    let found = of_rule(&text, "block-does-not-sum");
    let finding = found.into_iter().find(|finding| finding.message.starts_with("Log cabin one")).unwrap();
    assert_says(
        &finding,
        &["Log cabin one does not add up: 7 x 7 in finished stated; its center and its logs make 6 x 6 in."],
    );
    assert!(finding.help.starts_with("Across: center 2 in + 1 in + 1 in + 1 in + 1 in = 6 in."), "{}", finding.help);
    let corrected = finding.correction.unwrap().apply(&text);
    assert!(quiet(&corrected), "{corrected}");
}

/// Logs of 1 in from strips left whole, of two lengths: nine units take 18 of 2 1/2 in and 18 of 4 1/2 in, 45 in and 81
/// in, together 126 in: at least 4 strips of 40 in. And 4 are enough: two with 8 long ones and a short one, one with 2
/// and 12, one with the last 4.
#[test]
fn logs_from_strips_left_whole() {
    let unit = "make: log_cabin, finished: 4, center: 2, logs: [1, 1, 1, 1], order: opposite, cut: { center: 2 1/2, log_1: L, \
                log_2: L, log_3: L, log_4: L }";
    let text = |width: &str, strips: u32| {
        let strips = format!("      - {{ piece: L, strip_width: {width}, strips: {{ lap: {strips} }} }}\n");
        quilt("4", 12, unit, &strips)
    };
    let right = text("1 1/2", 4);
    for rule in ["unit-cut-short", "unit-cut-generous", "seam-left-out", "pieces-short", "pieces-generous"] {
        assert!(of_rule(&right, rule).is_empty(), "{rule}: {:?}", of_rule(&right, rule));
    }
    let short = one(&text("1 1/2", 3), "pieces-short");
    assert_says(&short, &["4 needed: 1 short"]);
    assert!(short.help.contains("9 x 2 1/2 in"), "{}", short.help);
    let narrow = one(&text("1 3/8", 4), "unit-cut-short");
    assert_says(&narrow, &["1 1/2 in needed"]);
    assert_eq!(narrow.at.at.text(&text("1 3/8", 4)), "1 3/8");
}

/// Each of four fabrics gives a quarter to each unit: a square, cut twice, is enough for four units; 9 take 3 squares, and
/// of the fabric that is in two quarters 18 triangles, 5 squares.
#[test]
fn an_hourglass_of_four_fabrics() {
    let unit =
        "make: quarter_square_triangle, method: pieced, finished: 6, cut: { first: A, second: B, third: A, fourth: C }";
    let text = |two: u32, side: &str| {
        let pieces = [piece("A", side, two), piece("B", "7 1/4 x 7 1/4", 3), piece("C", "7 1/4 x 7 1/4", 3)];
        quilt("6", 18, unit, &pieces.concat())
    };
    assert_silent(&text(5, "7 1/4 x 7 1/4"));
    assert_says(&one(&text(4, "7 1/4 x 7 1/4"), "pieces-short"), &["5 needed"]);
    assert_says(&one(&text(5, "7 1/8 x 7 1/8"), "unit-cut-short"), &["7 1/4 in square (exactly 7.208 in) needed"]);
}

/// The plain half is a square of 6 7/8 cut once, the others squares of 7 1/4 cut twice: 9 units take 9 halves, 5 squares,
/// and 9 quarters of each, 3 squares.
#[test]
fn a_quarter_square_with_a_plain_half() {
    let unit = "make: split_quarter_square_triangle, finished: 6, cut: { plain: A, first: B, second: C }";
    let text = |plain: u32, side: &str| {
        let pieces = [piece("A", side, plain), piece("B", "7 1/4 x 7 1/4", 3), piece("C", "7 1/4 x 7 1/4", 3)];
        quilt("6", 18, unit, &pieces.concat())
    };
    assert_silent(&text(5, "6 7/8 x 6 7/8"));
    assert_says(&one(&text(4, "6 7/8 x 6 7/8"), "pieces-short"), &["5 needed"]);
    assert_says(&one(&text(5, "6 3/4 x 6 3/4"), "unit-cut-short"), &["6 7/8 in square (exactly 6.854 in) needed"]);
}

#[test]
fn what_another_make_takes_is_counted() {
    let unit = "make: other, finished: 6, takes: { A: 1, B: 2 }";
    let text = |second: u32| quilt("6", 18, unit, &(piece("A", "7 x 7", 9) + &piece("B", "4 x 4", second)));
    assert_silent(&text(18));
    assert_says(&one(&text(17), "pieces-short"), &["17 pieces of B stated; 18 needed"]);
    assert_eq!(one(&text(21), "pieces-generous").level, Level::Note);
}
