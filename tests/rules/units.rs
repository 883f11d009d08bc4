//! The cut sizes of units: `unit-cut-short`, `seam-left-out`, `unit-cut-generous`, `trim-size-wrong`, `yield-wrong`.
//!
//! The exact sizes below were worked out to forty decimals from the geometry; 1/64 in is 0.015625 in or 0.0396875 cm.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, mended, one, outcome, rules_of};

/// A manuscript of one unit.
fn unit(measure: &str, unit: &str) -> String {
    format!(
        "pattern: Test Meadow\nmeasure: {measure}\nsizes: {{ lap: {{ finished: 60 x 72 }} }}\nunits:\n  corner: {{ {unit} }}\n"
    )
}

fn inches(of: &str) -> String {
    unit("inch", of)
}

const HALF_SQUARE: &str = "make: half_square_triangle, finished: 3";

/// The least size that is right by four decimals, and one ten-thousandth less.
#[rstest]
// A seam of 1/4 in.
#[case::half_square(
    "inch",
    "half_square_triangle, finished: 3, cut: { first: SIZE, second: 3 7/8 }",
    "3.8380",
    "3.8379"
)]
#[case::half_square_four(
    "inch",
    "half_square_triangle, method: four_at_a_time, finished: 3, cut: { first: SIZE, second: 5 1/2 }",
    "5.4342",
    "5.4341"
)]
#[case::half_square_eight(
    "inch",
    "half_square_triangle, method: eight_at_a_time, finished: 3, cut: { first: 7 3/4, second: SIZE }",
    "7.6915",
    "7.6914"
)]
#[case::quarter_square(
    "inch",
    "quarter_square_triangle, finished: 3, cut: { first: SIZE, second: 4 1/4 }",
    "4.1915",
    "4.1914"
)]
#[case::side("inch", "side_triangle, finished: 3, cut: { square: SIZE }", "5.4342", "5.4341")]
#[case::corner("inch", "corner_triangle, finished: 3, cut: { square: SIZE }", "2.9593", "2.9592")]
#[case::centre(
    "inch",
    "square_in_a_square, method: pieced, finished: 3, cut: { centre: SIZE, corner: 2 3/8 }",
    "2.6057",
    "2.6056"
)]
#[case::half_rectangle(
    "inch",
    "half_rectangle_triangle, finished: 3 x 6, cut: { first: 3.6389 x SIZE, second: 3 3/4 x 7 3/8 }",
    "7.2934",
    "7.2933"
)]
// A seam of 3/8 in.
#[case::half_square_wide_seam(
    "inch",
    "half_square_triangle, finished: 3, seam: 3/8, cut: { first: SIZE, second: 4 3/8 }",
    "4.2648",
    "4.2647"
)]
#[case::goose_wide_seam(
    "inch",
    "flying_geese, finished: 3 x 1 1/2, seam: 3/8, cut: { goose: SIZE, sky: 2 7/8 }",
    "4.7951",
    "4.7950"
)]
#[case::sky_wide_seam(
    "inch",
    "flying_geese, finished: 3 x 1 1/2, seam: 3/8, cut: { goose: 4 7/8, sky: SIZE }",
    "2.7648",
    "2.7647"
)]
#[case::side_wide_seam("inch", "side_triangle, finished: 4 1/2, seam: 3/8, cut: { square: SIZE }", "8.1590", "8.1589")]
#[case::corner_wide_seam(
    "inch",
    "corner_triangle, finished: 4 1/2, seam: 3/8, cut: { square: SIZE }",
    "4.4467",
    "4.4466"
)]
#[case::half_rectangle_wide_seam(
    "inch",
    "half_rectangle_triangle, finished: 9 x 4 1/2, seam: 3/8, cut: { first: SIZE x 5.4662, second: 11 x 5 1/2 }",
    "10.9480",
    "10.9479"
)]
// A seam of 1 cm, and of 7.5 mm.
#[case::half_square_metric(
    "cm",
    "half_square_triangle, finished: 8, seam: 1, cut: { first: SIZE, second: 11.5 }",
    "11.3746",
    "11.3745"
)]
#[case::half_square_four_metric(
    "cm",
    "half_square_triangle, method: four_at_a_time, finished: 8, seam: 1 cm, cut: { first: SIZE, second: 16.2 }",
    "16.1025",
    "16.1024"
)]
#[case::quarter_square_metric(
    "cm",
    "quarter_square_triangle, finished: 8, seam: 1 cm, cut: { first: SIZE, second: 12.9 }",
    "12.7888",
    "12.7887"
)]
#[case::half_rectangle_metric(
    "cm",
    "half_rectangle_triangle, finished: 8 x 16, seam: 1, cut: { first: SIZE x 21.3, second: 10.7 x 21.3 }",
    "10.5784",
    "10.5783"
)]
#[case::side_metric("cm", "side_triangle, finished: 10, seam: 7.5 mm, cut: { square: SIZE }", "17.7238", "17.7237")]
#[case::corner_metric("cm", "corner_triangle, finished: 10, seam: 7.5 mm, cut: { square: SIZE }", "9.5921", "9.5920")]
#[case::patch("inch", "patch, finished: 4, cut: { patch: SIZE }", "4.4844", "4.4843")] // 4 31/64 is 4.484375
fn within_a_sixty_fourth_is_right(#[case] measure: &str, #[case] of: &str, #[case] least: &str, #[case] short: &str) {
    assert_silent(&unit(measure, &format!("make: {}", of.replace("SIZE", least))));
    let text = unit(measure, &format!("make: {}", of.replace("SIZE", short)));
    let finding = one(&text, "unit-cut-short");
    assert_eq!(finding.level, Level::Error);
    assert!(finding.at.at.text(&text).contains(short), "{}", finding.at.at.text(&text));
    mended(&text, &finding);
}

#[test]
fn the_message_says_what_is_stated_and_needed() {
    let text = inches(&format!("{HALF_SQUARE}, cut: {{ first: 3 3/4, second: 3 7/8 }}"));
    let finding = one(&text, "unit-cut-short");
    let says = "3 3/4 in square stated for the first of unit corner; 3 7/8 in square (exactly 3.854 in) needed: 0.104 in short.";
    assert_says(&finding, &[says]);
    assert!(finding.help.contains("3 in finished + 0.854 in for its seams = 3.854 in."), "{}", finding.help);
    assert_eq!(finding.at.at.text(&text), "3 3/4");
    assert_eq!(mended(&text, &finding), text.replace("3 3/4", "3 7/8"));
}

/// The finished size, one seam less than is needed, and the cut size of a patch.
#[rstest]
#[case::patch(
    "make: patch, finished: 4, cut: { patch: 4 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::patch_one_side(
    "make: patch, finished: 4 x 6, cut: { patch: 4 1/2 x 6 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::patch_one_seam("make: patch, finished: 4, cut: { patch: 4 1/4 }", "It lacks exactly one seam allowance")]
#[case::wide_seam("make: patch, finished: 4, seam: 3/8, cut: { patch: 4 3/8 }", "It lacks exactly one seam allowance")]
#[case::half_square(
    "make: half_square_triangle, finished: 3, cut: { first: 3, second: 3 7/8 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::half_square_as_a_patch(
    "make: half_square_triangle, finished: 3, cut: { first: 3 1/2, second: 3 7/8 }",
    "It is the cut size of a plain patch: the allowance for the seam across is left out"
)]
#[case::half_square_one_seam( // 3.854 - 0.25 = 3.604, on the ruler 3 5/8
    "make: half_square_triangle, finished: 3, cut: { first: 3 5/8, second: 3 7/8 }",
    "It lacks exactly one seam allowance"
)]
#[case::eight_at_a_time( // twice 3
    "make: half_square_triangle, method: eight_at_a_time, finished: 3, cut: { first: 6, second: 7 3/4 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::eight_at_a_time_as_patches( // twice 3 1/2
    "make: half_square_triangle, method: eight_at_a_time, finished: 3, cut: { first: 7, second: 7 3/4 }",
    "It is the cut size of a plain patch: the allowance for the seam across is left out"
)]
#[case::side_triangle( // 12 x 1.4142 = 16.97, on the ruler 17
    "make: side_triangle, finished: 12, cut: { square: 17 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::flipped_corner(
    "make: square_in_a_square, finished: 4, cut: { centre: 4 1/2, corner: 2 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::segment(
    "make: strip_set, finished: 4 x 2, segment: 2, cut: { dark: 2 1/2 x 40, light: 2 1/2 x 40 }",
    "What is stated is the finished size: the seam allowance is left out"
)]
#[case::all_strips(
    "make: strip_set, finished: 4 x 2, cut: { dark: 2 x 40, light: 2 x 40 }",
    "The strips are as wide as they finish: the seam allowance is left out"
)]
#[case::one_strip(
    "make: strip_set, finished: 6 x 2, cut: { dark: 2 1/2 x 40, light: 2 x 40, grey: 2 1/2 x 40 }",
    "One strip lacks its seam allowance"
)]
#[case::half_of_one_strip(
    "make: strip_set, finished: 6 x 2, cut: { dark: 2 1/2 x 40, light: 2 1/4 x 40, grey: 2 1/2 x 40 }",
    "They lack exactly one seam allowance"
)]
fn a_seam_that_was_left_out_is_called_so(#[case] of: &str, #[case] says: &str) {
    let text = inches(of);
    let finding = one(&text, "seam-left-out");
    assert_eq!(finding.level, Level::Error);
    assert_says(&finding, &[says]);
    assert_eq!(rules_of(&text), ["seam-left-out"]);
}

#[test]
fn a_seam_that_was_left_out_in_metric() {
    let text = unit("cm", "make: half_square_triangle, finished: 8, seam: 1, cut: { first: 8, second: 10 }");
    let told: Vec<String> = outcome(&text).findings.into_iter().map(|finding| finding.message).collect();
    assert_eq!(
        told,
        [
            "8 cm square stated for the first of unit corner; 11.5 cm square needed. What is stated is the finished size: the seam allowance is left out.",
            "10 cm square stated for the second of unit corner; 11.5 cm square needed. It is the cut size of a plain patch: the allowance for the seam across is left out.",
        ]
    );
}

/// What the extra makes of the unit: exact sizes 3.8536, 5.4497, 7.7071, 2.9749.
#[rstest]
#[case::two(
    "half_square_triangle, finished: 3, cut: { first: 4, second: 3 7/8 }",
    "0.146 in too large: trim that off, to 3 1/2 in square"
)]
#[case::four( // 0.5503 over the root of two
    "half_square_triangle, method: four_at_a_time, finished: 3, cut: { first: 6, second: 5 1/2 }",
    "0.389 in too large: trim that off, to 3 1/2 in square"
)]
#[case::eight( // half of 0.2929
    "half_square_triangle, method: eight_at_a_time, finished: 3, cut: { first: 8, second: 7 3/4 }",
    "0.146 in too large: trim that off, to 3 1/2 in square"
)]
#[case::patch(
    "patch, finished: 4 x 2, cut: { patch: 5 x 2 1/2 }",
    "1/2 in too large: trim that off, to 4 1/2 in x 2 1/2 in"
)]
#[case::flipped( // half an inch over the root of two
    "flying_geese, method: stitch_and_flip, finished: 4 x 2, cut: { goose: 4 1/2 x 2 1/2, sky: 3 }",
    "The seam across it lies 0.353 in too far in."
)]
#[case::side( // half of 0.5503
    "side_triangle, finished: 3, cut: { square: 6 }",
    "The triangles reach 0.275 in beyond the blocks"
)]
#[case::corner( // 0.2751 over the root of two
    "corner_triangle, finished: 3, cut: { square: 3 1/4 }",
    "The triangles reach 0.194 in beyond the blocks"
)]
#[case::strips(
    "strip_set, finished: 4 x 2, cut: { dark: 2 1/2 x 40, light: 3 x 40 }",
    "come to 4 1/2 in when they are sewn; 4 in is enough. Trim 1/2 in off the outer strips."
)]
fn larger_is_a_choice(#[case] of: &str, #[case] says: &str) {
    let text = inches(&format!("make: {of}"));
    let finding = one(&text, "unit-cut-generous");
    assert_eq!(finding.level, Level::Note);
    assert_says(&finding, &[says]);
    assert_eq!(rules_of(&text), ["unit-cut-generous"]);
}

/// A handbook's size is right although it is more than 1/64 in above the exact one; beyond it is a note.
#[rstest]
#[case::handbook("3 7/8", true)]
#[case::beyond("3.8751", false)]
#[case::exact("3.8536", true)]
fn the_handbooks_size_is_no_more_than_is_needed(#[case] size: &str, #[case] silent: bool) {
    let text = inches(&format!("{HALF_SQUARE}, cut: {{ first: {size}, second: 3 7/8 }}"));
    assert_eq!(rules_of(&text).is_empty(), silent, "{size}");
}

/// Pieces are turned as they fit.
#[rstest]
#[case("make: patch, finished: 4 x 2, cut: { patch: 2 1/2 x 4 1/2 }")]
#[case("make: flying_geese, method: stitch_and_flip, finished: 4 x 2, cut: { goose: 2 1/2 x 4 1/2, sky: 2 1/2 }")]
#[case("make: half_rectangle_triangle, finished: 3 x 6, cut: { first: 7 3/8 x 3 3/4, second: 3 3/4 x 7 3/8 }")]
#[case("make: strip_set, finished: 4 x 2, cut: { dark: 40 x 2 1/2, light: 2 1/2 x 40 }")]
#[case("make: patch, finished: 4 x 2, cut: { patch: 2 1/2 x 4 1/2 }, trim: 2 1/2 x 4 1/2")]
fn either_side_may_be_named_first(#[case] of: &str) {
    assert_silent(&inches(of));
}

#[rstest]
#[case::finished("3", &["Unit corner is trimmed to 3 in square; 3 1/2 in square needed.", "What is stated is the finished size: the seam allowance is left out."])]
#[case::small("3 3/8", &["trimmed to 3 3/8 in square; 3 1/2 in square needed."])]
#[case::large("3 5/8 x 3 1/2", &["trimmed to 3 5/8 in x 3 1/2 in; 3 1/2 in square needed."])]
fn the_trim_size_is_finished_and_two_seams(#[case] trim: &str, #[case] says: &[&str]) {
    let text = inches(&format!("{HALF_SQUARE}, cut: {{ first: 3 7/8, second: 3 7/8 }}, trim: {trim}"));
    let finding = one(&text, "trim-size-wrong");
    assert_says(&finding, says);
    assert_eq!(finding.level, Level::Error);
    assert_eq!(finding.at.at.text(&text), trim);
    mended(&text, &finding);
}

#[rstest]
#[case("inch", "finished: 3, seam: 3/8, cut: { first: 4 3/8, second: 4 3/8 }, trim: 3 3/4")]
#[case("cm", "finished: 8, seam: 1, cut: { first: 11.5, second: 11.5 }, trim: 10")]
#[case("cm", "finished: 8, cut: { first: 10.2, second: 10.2 }, trim: 9.3")] // 8 cm and 1/2 in are 9.27 cm
fn a_right_trim_size_is_silent(#[case] measure: &str, #[case] of: &str) {
    assert_silent(&unit(measure, &format!("make: half_square_triangle, {of}")));
}

/// What one set of pieces gives, and one more and one less than that.
#[rstest]
#[case("half_square_triangle, finished: 3, cut: { first: 3 7/8, second: 3 7/8 }", 2)]
#[case("half_square_triangle, method: four_at_a_time, finished: 3, cut: { first: 5 1/2, second: 5 1/2 }", 4)]
#[case("half_square_triangle, method: eight_at_a_time, finished: 3, cut: { first: 7 3/4, second: 7 3/4 }", 8)]
#[case("quarter_square_triangle, finished: 3, cut: { first: 4 1/4, second: 4 1/4 }", 2)]
#[case("flying_geese, finished: 4 x 2, cut: { goose: 5 1/4, sky: 2 7/8 }", 4)]
#[case("half_rectangle_triangle, finished: 3 x 6, cut: { first: 3 3/4 x 7 3/8, second: 3 3/4 x 7 3/8 }", 2)]
#[case("side_triangle, finished: 12, cut: { square: 18 1/4 }", 4)]
#[case("corner_triangle, finished: 12, cut: { square: 9 3/8 }", 2)]
// 40 in / 2 1/2 in, 31 in / 2 1/2 in, and the shorter of two strips.
#[case("strip_set, finished: 4 x 2, cut: { dark: 2 1/2 x 40, light: 2 1/2 x 40 }", 16)]
#[case("strip_set, finished: 4 x 2, segment: 2 1/2, cut: { dark: 2 1/2 x 31, light: 2 1/2 x 40 }", 12)]
fn yields(#[case] of: &str, #[case] gives: u64) {
    let text = |yields: u64| inches(&format!("make: {of}, yields: {yields}"));
    assert_silent(&text(gives));
    let more = one(&text(gives + 1), "yield-wrong");
    assert_eq!(more.level, Level::Error);
    assert_says(&more, &[&format!("this method makes {gives}, not {}.", gives + 1)]);
    assert_eq!(mended(&text(gives + 1), &more), text(gives));
    let less = one(&text(gives - 1), "yield-wrong");
    assert_eq!(less.level, if of.starts_with("strip_set") { Level::Note } else { Level::Query });
    assert_says(&less, &[&format!("this method makes {gives}, and 1 would be left over.")]);
}

/// The usable width decides how many segments come of strips that are left whole.
#[rstest]
#[case("", 16)] // the rule book's 40 in
#[case("assumes: { usable_width: 42 }\n", 16)]
#[case("assumes: { usable_width: 42 1/2 }\n", 17)]
fn segments_from_strips_left_whole(#[case] assumes: &str, #[case] gives: u64) {
    let text = |yields: u64| {
        format!(
            "pattern: Test Meadow\nmeasure: inch\n{assumes}sizes: {{ lap: {{ finished: 60 x 72 }} }}\nfabrics:\n  ink:\n    \
             requires: {{ lap: 3/8 yd }}\n    cut: [{{ piece: S, strip_width: 2 1/2, strips: {{ lap: 5 }} }}]\nunits:\n  \
             bars: {{ make: strip_set, finished: 4 x 2, cut: {{ dark: S, light: S }}, yields: {yields} }}\n"
        )
    };
    assert_silent(&text(gives));
    assert_says(&one(&text(gives + 1), "yield-wrong"), &[&format!("this method makes {gives}, not {}.", gives + 1)]);
}

/// The strips less two seams each must come to the finished width.
#[rstest]
#[case(
    "4 x 2",
    "dark: 2 1/2 x 40, light: 2 3/8 x 40",
    "come to 3 7/8 in when they are sewn; 4 in needed: 1/8 in short."
)]
#[case(
    "8 x 2",
    "dark: 2 1/2 x 40, light: 2 1/2 x 40, grey: 2 x 40",
    "come to 5 1/2 in when they are sewn; 8 in needed: 2 1/2 in short."
)]
fn strips_that_do_not_come_to_the_width(#[case] finished: &str, #[case] strips: &str, #[case] says: &str) {
    let text = inches(&format!("make: strip_set, finished: {finished}, cut: {{ {strips} }}"));
    let found = outcome(&text).findings;
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_says(&found[0], &[says]);
    assert_eq!(found[0].at.at.text(&text), "cut");
}

/// A piece of a cutting list is pointed at there, and the unit's name for it beside it.
#[rstest]
#[case("A", true)]
#[case("ink A", true)]
#[case("3 3/4", false)]
fn a_piece_is_pointed_at_in_its_cutting_list(#[case] first: &str, #[case] in_the_list: bool) {
    let text = format!(
        "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 60 x 72 }} }}\nfabrics:\n  ink:\n    requires: \
         {{ lap: 3/8 yd }}\n    cut: [{{ piece: A, size: 3 3/4 x 3 3/4, pieces: {{ lap: 24 }} }}]\nunits:\n  corner: {{ \
         {HALF_SQUARE}, cut: {{ first: {first}, second: 3 7/8 }} }}\n"
    );
    let finding = one(&text, "unit-cut-short");
    let stated = if in_the_list { "3 3/4 x 3 3/4" } else { "3 3/4" };
    assert_eq!(finding.at.at.text(&text), stated);
    let named = finding.related.iter().any(|label| label.at.text(&text) == first);
    assert_eq!(named, in_the_list);
    mended(&text, &finding);
}

#[rstest]
// A part that the make does not have, one that is missing, and a way that it is not made in.
#[case("make: half_square_triangle, finished: 3, cut: { first: 3 7/8, secnd: 3 7/8 }", &["unknown-word"], "\"secnd\" is not a word that is known in cut of unit corner.")]
#[case("make: patch, finished: 3, cut: { patch: 3 1/2, sky: 2 }", &["unknown-word"], "\"sky\" is not a word that is known in cut of unit corner.")]
#[case("make: flying_geese, finished: 4 x 2, cut: { goose: 5 1/4 }", &["missing-entry"], "\"sky\" is missing from cut of unit corner.")]
#[case("make: flying_geese, method: two_at_a_time, finished: 4 x 2, cut: { goose: 5 1/4, sky: 2 7/8 }", &["unknown-word"], "\"two_at_a_time\" is not a word that is known in `method` of flying_geese.")]
#[case("make: patch, method: pieced, finished: 4, cut: { patch: 4 1/2 }", &["unknown-word"], "\"method\" is not a word that is known in unit corner.")]
#[case("make: half_square, finished: 4, cut: { first: 1, second: 1 }", &["unknown-word"], "\"half_square\" is not a word that is known in `make`.")]
#[case("make: patch, finished: 4, cut: { patch: B }", &["piece-not-cut"], "The design uses a piece \"B\", and no cutting list has it: nobody cuts it.")]
#[case("make: patch, finished: 4, segment: 2, cut: { patch: 4 1/2 }", &["unknown-word"], "\"segment\" is not a word that is known in unit corner.")]
#[case("make: side_triangle, finished: 12, trim: 12, cut: { square: 18 1/4 }", &["unknown-word"], "\"trim\" is not a word that is known in unit corner.")]
#[case("make: patch, cut: { patch: 4 1/2 }", &["missing-entry"], "\"finished\" is missing from unit corner.")]
#[case("finished: 4", &["missing-entry"], "\"make\" is missing from unit corner.")]
#[case("make: strip_set, finished: 4 x 2, cut: {}", &["missing-entry"], "\"strip\" is missing from cut of unit corner.")]
#[case("make: flying_geese, finished: 4 x 3, cut: { goose: 5 1/4, sky: 2 7/8 }", &["out-of-range"], "Flying geese are twice as wide as they are high, and this finished size is not.")]
#[case("make: half_square_triangle, finished: 4 x 3, cut: { first: 5, second: 5 }", &["out-of-range"], "This unit is square, and its finished size is not.")]
#[case("make: corner_triangle, finished: 4 x 3, cut: { square: 5 }", &["out-of-range"], "Only square blocks are set on point, and this finished size is not square.")]
#[case("make: patch, finished: 4, cut: { patch: 4..5 }", &["unreadable-quantity"], "\"4..5\"")]
#[case("make: patch, finished: 4, seam: 0, cut: { patch: 4 1/2 }", &["out-of-range"], "\"0\" is out of range: it must be more than 0.")]
fn a_slip_is_told_once(#[case] of: &str, #[case] rules: &[&str], #[case] says: &str) {
    let text = inches(of);
    let found = outcome(&text).findings;
    assert_eq!(rules_of(&text), rules, "{found:#?}");
    assert_says(&found[0], &[says]);
}

/// A correction of a word keeps what stands beside it.
#[test]
fn a_misspelt_part_is_corrected() {
    let text = inches("make: flying_geese, finished: 4 x 2, cut: { gose: 5 1/4, sky: 2 7/8 }");
    assert_eq!(mended(&text, &one(&text, "unknown-word")), text.replace("gose", "goose"));
}

/// A unit that says nothing of its pieces is no fault: what is left out is not checked.
#[rstest]
#[case("make: half_square_triangle, finished: 3")]
#[case("make: strip_set, finished: 4 x 2")]
#[case("make: flying_geese, finished: 4 x 2, trim: 4 1/2 x 2 1/2")]
fn what_is_left_out_is_not_checked(#[case] of: &str) {
    assert_silent(&inches(of));
}

/// The seam of the pattern holds where the unit states none, and the unit's own otherwise.
#[rstest]
#[case("3/8", "", "4 3/8", true)]
#[case("3/8", "", "3 7/8", false)]
#[case("3/8", "seam: 1/4, ", "3 7/8", true)]
fn the_seam_is_the_units_or_the_patterns(
    #[case] assumes: &str,
    #[case] seam: &str,
    #[case] size: &str,
    #[case] silent: bool,
) {
    let text = inches(&format!("{HALF_SQUARE}, {seam}cut: {{ first: {size}, second: {size} }}"));
    let text = text.replace("sizes:", &format!("assumes: {{ seam: {assumes} }}\nsizes:"));
    assert_eq!(rules_of(&text).is_empty(), silent);
}

#[test]
fn two_pieces_of_one_name_are_told_apart_by_their_fabric() {
    let text = |first: &str| {
        format!(
            "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 60 x 72 }} }}\nfabrics:\n  ink:\n    requires: \
             {{ lap: 3/8 yd }}\n    cut: [{{ piece: A, size: 3 7/8 x 3 7/8, pieces: {{ lap: 24 }} }}]\n  chalk:\n    requires: \
             {{ lap: 3/8 yd }}\n    cut: [{{ piece: A, size: 3 7/8 x 3 7/8, pieces: {{ lap: 24 }} }}]\nunits:\n  corner: {{ \
             {HALF_SQUARE}, cut: {{ first: {first}, second: chalk A }} }}\n"
        )
    };
    assert_silent(&text("ink A"));
    // By its name alone it means both, counted together; cut otherwise, it does not.
    assert_silent(&text("A"));
    let unlike = text("A").replacen("3 7/8 x 3 7/8", "3 7/8 x 4", 1);
    assert_says(
        &one(&unlike, "out-of-range"),
        &["Piece A is in more than one cutting list, and not cut alike: ink, chalk."],
    );
}

#[test]
fn there_are_two_hundred_units_at_most() {
    let units = |count: usize| {
        let units: Vec<String> = (0..count)
            .map(|unit| format!("  u{unit}: {{ make: patch, finished: 3, cut: {{ patch: 3 1/2 }} }}\n"))
            .collect();
        format!(
            "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 60 x 72 }} }}\nunits:\n{}",
            units.concat()
        )
    };
    assert_silent(&units(200));
    assert_says(&one(&units(201), "out-of-range"), &["A pattern may list 200 units at most"]);
}

/// Where the text says to trim, and to the right size, up to 1/4 in (6.35 mm) more than the ruler's size is right.
#[rstest]
#[case::an_eighth("cut: { first: 4, second: 4 }, trim: 3 1/2", &[])]
#[case::just_a_quarter("cut: { first: 4 1/8, second: 4 1/8 }, trim: 3 1/2", &[])]
#[case::more("cut: { first: 4 9/64, second: 4 1/8 }, trim: 3 1/2", &["unit-cut-generous"])]
#[case::not_trimmed("cut: { first: 4, second: 3 7/8 }", &["unit-cut-generous"])]
#[case::trimmed_wrong("cut: { first: 4, second: 3 7/8 }, trim: 3 1/4", &["unit-cut-generous", "trim-size-wrong"])]
fn working_room_is_the_point_of_trimming(#[case] of: &str, #[case] rules: &[&str]) {
    assert_eq!(rules_of(&inches(&format!("{HALF_SQUARE}, {of}"))), rules);
}

/// 8 cm and 2.56 cm are 10.56, on the ruler 10.6: 11.2 is within 6.35 mm of that, and 11.3 is not.
#[rstest]
#[case("11.2", &[])]
#[case("11.3", &["unit-cut-generous"])]
fn a_metric_unit_has_as_much_room(#[case] first: &str, #[case] rules: &[&str]) {
    let text = inches(&format!(
        "make: half_square_triangle, finished: 8, seam: 7.5 mm, cut: {{ first: {first}, second: 10.6 }}, trim: 9.5"
    ));
    assert_eq!(rules_of(&text.replace("measure: inch", "measure: cm")), rules);
}

/// The corner that is flipped lies too far in, and trimming the unit does not move its seam.
#[test]
fn trimming_does_not_mend_a_seam_that_lies_elsewhere() {
    let text = inches(
        "make: flying_geese, method: stitch_and_flip, finished: 4 x 2, cut: { goose: 4 1/2 x 2 1/2, sky: 2 3/4 }, trim: 4 1/2 x 2 1/2",
    );
    assert_eq!(rules_of(&text), ["unit-cut-generous"]);
}

#[test]
fn strips_of_a_set_that_is_trimmed_have_room_too() {
    let set = "make: strip_set, finished: 4 x 2, cut: { dark: 2 1/2 x 40, light: 2 3/4 x 40 }, trim: 4 1/2 x 2 1/2";
    assert_eq!(rules_of(&inches(set)), [] as [&str; 0]);
    assert_eq!(rules_of(&inches(&set.replace("2 3/4 x", "2 7/8 x"))), ["unit-cut-generous"]);
}
