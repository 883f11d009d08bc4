//! Outlines other than a rectangle: how far round, how many corners, where the opening and the joins come, and what
//! cannot be.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, inches, mended, of_rule, one, outcome, rules_of};

/// A size with an outline and a binding that is taken at its word.
fn shaped(finished: &str, outline: &str, binding: &str, requires: &str) -> String {
    inches(&format!("{finished}, outline: {outline}"), &format!("strip_width: 2 1/2\n{binding}"), requires)
}

const HEXAGON: &str = "{ sides: 6, side: 20 }";
const ELL: &str = "{ points: [0 x 0, 40 x 0, 40 x 20, 20 x 20, 20 x 40, 0 x 40] }";
const SCALLOPS: &str = "{ scallops_across: 5, scallops_down: 6, depth: 2 }";

/// How far round and how much for the corners, half an inch each, by hand: in the working of a binding that is short.
#[rstest]
#[case::rectangle("40 x 50", "rectangle", "2 x (40 in + 50 in) = 180 in + 2 in at the corners")]
// 4 x 30 + 4 x 10 + 4 x 7.0711 = 188.284, and 8 corners.
#[case::clipped("50 x 30", "{ clipped: 5 }", "clipped by 5 in, 148 3/8 in + 4 in at the corners")]
#[case::hexagon("40 x 34 5/8", HEXAGON, "6 sides x 20 in = 120 in + 3 in at the corners")]
#[case::triangle("40 x 34 5/8", "{ sides: 3, side: 40 }", "3 sides x 40 in = 120 in + 1 1/2 in at the corners")]
#[case::ell("40 x 40", ELL, "the 6 sides, 160 in + 3 in at the corners")]
// 3-4-5: 30 + 40 + 50.
#[case::right_angle("30 x 40", "{ points: [0 x 0, 30 x 40, 0 x 40] }", "the 3 sides, 120 in + 1 1/2 in at")]
fn perimeter_and_corners(#[case] finished: &str, #[case] outline: &str, #[case] working: &str) {
    let finding = one(&shaped(finished, outline, "opening: 3", "strips: 1"), "binding-short");
    assert!(finding.help.contains(working), "{working:?} is not in: {}", finding.help);
}

/// Round edges, on the bias. A circle of 40 is 125.66 round and has no corner. A scallop 2 deep on a chord of 10 is
/// 29 x atan(0.4) = 11.0347; 22 of them are 242.76, with 22 inner corners.
#[rstest]
#[case::circle(
    "40 x 40",
    "circle",
    "a circle 40 in across, 125 3/4 in + 10 in and 10 in tails - 3 in opening = 142 3/4 in."
)]
#[case::scallops("50 x 60", SCALLOPS, "2 x (5 + 6) scallops 2 in deep, 242 7/8 in + 11 in at the corners")]
fn curved_perimeters(#[case] finished: &str, #[case] outline: &str, #[case] working: &str) {
    let finding = one(&shaped(finished, outline, "grain: bias\nopening: 3", "square: 5"), "square-too-small");
    assert!(finding.help.contains(working), "{working:?} is not in: {}", finding.help);
}

#[test]
fn the_opening_may_be_the_whole_of_a_round_edge() {
    // 12 in across is 37.699 in.
    let open = |opening: &str| shaped("12 x 12", "circle", &format!("grain: bias\nopening: {opening}"), "square: 30");
    assert_eq!(of_rule(&open("37 11/16"), "opening-too-long"), []);
    let finding = one(&open("37 3/4"), "opening-too-long");
    assert_says(&finding, &["the perimeter of lap is", "in, which has room for", "1/16 in too long"]);
    assert!(!finding.message.contains("corner"), "{}", finding.message);
}

/// 3 in stay sewn at each corner of the longest side.
#[rstest]
#[case::hexagon("40 x 34 5/8", HEXAGON, "14", "14 1/64")]
// The slopes are the longest: 14.142 in.
#[case::clipped("30 x 30", "{ clipped: 10 }", "8 9/64", "8 5/32")]
#[case::ell("40 x 40", ELL, "34", "34 1/64")]
// Six scallops of 11.0347 in are 66.208 in, and their inner corners may be in the opening.
#[case::scallops("50 x 60", SCALLOPS, "60 13/64", "60 7/32")]
// A point on a straight line is no corner.
#[case::split_sides(
    "40 x 40",
    "{ points: [0 x 0, 20 x 0, 40 x 0, 40 x 20, 40 x 40, 20 x 40, 0 x 40, 0 x 20] }",
    "34",
    "34 1/64"
)]
#[case::runner("14 x 50", "rectangle", "44", "44 1/64")]
fn the_opening_is_on_the_longest_side(
    #[case] finished: &str,
    #[case] outline: &str,
    #[case] fits: &str,
    #[case] too_long: &str,
) {
    let open = |opening: &str| shaped(finished, outline, &format!("opening: {opening}"), "strips: 9");
    assert_eq!(of_rule(&open(fits), "opening-too-long"), []);
    let text = open(too_long);
    assert_eq!(one(&text, "opening-too-long").at.at.text(&text), too_long);
}

/// Six sides of 20, strips of 40 and 2 1/2 wide, tails of 10, 12 in open. Behind the start there must be 15 in, so the
/// corners come at 5, 25 1/2, 46, 66 1/2, 87 and 107 1/2. The joins come at 28 3/4, 66 1/4 and 103 3/4: the second is
/// 1/4 in from the fourth corner. Two inches on it is past it; there is no room to go back.
#[test]
fn a_join_at_a_corner_of_a_hexagon() {
    let text = shaped("40 x 34 5/8", HEXAGON, "", "strips: 5, fabric: 3/8 yd");
    assert_eq!(rules_of(&text), ["join-near-corner"]);
    let finding = one(&text, "join-near-corner");
    assert_says(&finding, &["The second join lands 1/4 in from the fourth corner after the start."]);
    assert!(!finding.message.contains("first join") && !finding.message.contains("third join"), "{}", finding.message);
    assert!(finding.help.contains("15 in past its corner"), "{}", finding.help);
    assert!(finding.help.contains("Move the start 2 in onward"), "{}", finding.help);
}

/// With 6 in open the start is in the middle: corners at 10, 30 1/2, 51, 71 1/2, 92 and 112 1/2; with tails of 8 the
/// joins come at 30 3/4 and more: in the second corner.
#[test]
fn a_join_in_a_corner_of_a_hexagon() {
    let text = shaped("40 x 34 5/8", HEXAGON, "opening: 6\ntails: 8", "strips: 5, fabric: 3/8 yd");
    let finding = one(&text, "join-near-corner");
    assert_says(&finding, &["The first join lands in the second corner after the start."]);
    assert!(finding.help.contains("in the middle of the longest side"), "{}", finding.help);
}

#[test]
fn a_curved_edge_needs_bias_where_the_grain_is_stated() {
    for (grain, cut) in [("crosswise", "across the fabric"), ("lengthwise", "along the fabric")] {
        for (finished, outline) in [("40 x 40", "circle"), ("50 x 60", SCALLOPS)] {
            let lines = format!("grain: {grain}\nopening: 4\nstrip_length: 40");
            let text = shaped(finished, outline, &lines, "strips: 12");
            let finding = one(&text, "curved-edge-needs-bias");
            assert_eq!((finding.at.at.text(&text), finding.level.word()), (grain, "error"));
            assert_says(
                &finding,
                &[&format!("Binding strips that are cut {cut} are stated; strips on the bias are needed")],
            );
            assert_eq!(finding.related[0].at.text(&text), outline);
        }
    }
}

#[test]
fn a_curved_edge_needs_bias_where_no_grain_is_stated() {
    let text = shaped("40 x 40", "circle", "", "strips: 5");
    let finding = one(&text, "curved-edge-needs-bias");
    assert_eq!((finding.at.at.text(&text), finding.size.as_deref()), ("circle", Some("lap")));
    assert_says(&finding, &["No grain stated, so binding strips that are cut across the fabric are taken"]);
}

#[test]
fn straight_sides_and_a_grain_that_cannot_be_read_are_not_blamed_for_a_curve() {
    for (finished, outline) in [("40 x 40", "{ clipped: 3 }"), ("40 x 34 5/8", HEXAGON), ("40 x 40", ELL)] {
        assert_eq!(of_rule(&shaped(finished, outline, "", "strips: 9"), "curved-edge-needs-bias"), []);
    }
    assert_eq!(rules_of(&shaped("40 x 40", "circle", "grain: sideways", "strips: 5")), ["unknown-word"]);
}

/// One finding for each, at the number or the word that cannot be; and nothing is made up about the binding.
#[rstest]
#[case::egg(
    "40 x 50",
    "circle",
    "out-of-range",
    "circle",
    "A circle is as wide as it is long, and 40 in x 50 in is stated."
)]
#[case::clips_meet(
    "40 x 30",
    "{ clipped: 15 }",
    "out-of-range",
    "15",
    "Corners clipped by 15 in leave nothing of a side of 30 in"
)]
#[case::too_deep(
    "50 x 60",
    "{ scallops_across: 5, scallops_down: 6, depth: 5 1/64 }",
    "out-of-range",
    "5 1/64",
    "each of 5 across a side of 50 in can be 5 in deep"
)]
#[case::too_deep_down(
    "50 x 60",
    "{ scallops_across: 1, scallops_down: 60, depth: 1 }",
    "out-of-range",
    "1",
    "each of 60 down a side of 60 in can be 1/2 in deep"
)]
#[case::no_scallops(
    "50 x 60",
    "{ scallops_across: 0, scallops_down: 6, depth: 1 }",
    "out-of-range",
    "0",
    "There may be 1 to 100 scallops on a side, and 0 are stated."
)]
#[case::many_scallops(
    "50 x 60",
    "{ scallops_across: 5, scallops_down: 101, depth: 1 }",
    "out-of-range",
    "101",
    "and 101 are stated"
)]
#[case::two_sides(
    "40 x 40",
    "{ sides: 2, side: 40 }",
    "out-of-range",
    "2",
    "An outline has 3 to 100 equal sides, and 2 are stated."
)]
#[case::long_sides(
    "40 x 34 5/8",
    "{ sides: 6, side: 25 }",
    "out-of-range",
    "25",
    "6 sides of 25 in have a perimeter of 150 in, and a quilt of 40 in x 34 5/8 in has one of 80 in to 149 1/4 in."
)]
#[case::short_sides(
    "40 x 34 5/8",
    "{ sides: 6, side: 13 }",
    "out-of-range",
    "13",
    "6 sides of 13 in have a perimeter of 78 in"
)]
#[case::narrow_points(
    "40 x 40",
    "{ points: [0 x 0, 39 x 0, 39 x 40] }",
    "out-of-range",
    "points",
    "The points reach 39 in across and 40 in down, and 40 in x 40 in is stated."
)]
#[case::two_points(
    "40 x 40",
    "{ points: [0 x 0, 40 x 40] }",
    "out-of-range",
    "points",
    "An outline has 3 to 100 points, and 2 are stated."
)]
#[case::closed(
    "40 x 40",
    "{ points: [0 x 0, 40 x 0, 40 x 40, 0 x 0] }",
    "out-of-range",
    "points",
    "Two points in turn are the same place."
)]
#[case::one_value_for_points("40 x 40", "{ points: 40 x 40 }", "wrong-shape", "4", "A list of places is expected here")]
#[case::unreadable_point(
    "40 x 40",
    "{ points: [0 x 0, 40 x, 40 x 40] }",
    "unreadable-quantity",
    "",
    "\"40 x\" cannot be read"
)]
#[case::two_at_once(
    "40 x 40",
    "{ clipped: 4, sides: 4, side: 40 }",
    "repeated-key",
    "outline",
    "\"outline\" says again"
)]
#[case::no_depth(
    "50 x 60",
    "{ scallops_across: 5, scallops_down: 6 }",
    "missing-entry",
    "outline",
    "\"depth\" is missing from outline."
)]
#[case::no_side("40 x 40", "{ sides: 6 }", "missing-entry", "outline", "\"side\" is missing from outline.")]
#[case::unknown_shape("40 x 40", "oval", "unknown-word", "oval", "\"oval\" is not a word that is known in `outline`.")]
#[case::unknown_entry(
    "40 x 40",
    "{ clippd: 4 }",
    "unknown-word",
    "clippd",
    "\"clippd\" is not a word that is known in outline."
)]
#[case::nothing("40 x 40", "", "wrong-shape", "outline", "A word or a list of entries is expected for \"outline\"")]
#[case::empty("40 x 40", "{}", "wrong-shape", "outline", "A word or a list of entries is expected for \"outline\"")]
#[case::list("40 x 40", "[4, 4]", "wrong-shape", "outline", "A word or a list of entries is expected for \"outline\"")]
#[case::no_clip("40 x 40", "{ clipped: 0 }", "out-of-range", "0", "it must be more than 0")]
fn an_outline_that_cannot_be_is_one_finding_at_its_place(
    #[case] finished: &str,
    #[case] outline: &str,
    #[case] rule: &str,
    #[case] place: &str,
    #[case] says: &str,
) {
    let text = shaped(finished, outline, "grain: bias", "square: 2, fabric: 1/8 yd");
    assert_eq!(rules_of(&text), [rule], "{text}");
    let finding = one(&text, rule);
    assert_eq!(finding.at.at.text(&text), place);
    assert_says(&finding, &[says]);
}

/// The longest clip, the deepest scallop, sides that just go around the finished size.
#[rstest]
#[case("40 x 30", "{ clipped: 14 63/64 }")]
#[case("50 x 60", "{ scallops_across: 5, scallops_down: 6, depth: 5 }")]
#[case("50 x 60", "{ scallops_across: 1, scallops_down: 1, depth: 25 }")]
#[case("50 x 60", "{ scallops_across: 100, scallops_down: 100, depth: 1/4 }")]
#[case("40 x 40", "{ sides: 4, side: 40 }")]
#[case("40 x 34 5/8", "{ sides: 3, side: 40 }")]
#[case("40 x 40", "{ points: [5 x 5, 45 x 5, 45 x 45] }")]
fn an_outline_that_just_can_be_is_read(#[case] finished: &str, #[case] outline: &str) {
    let text = shaped(finished, outline, "grain: bias", "square: 2");
    assert_eq!(of_rule(&text, "out-of-range"), []);
    assert_eq!(one(&text, "square-too-small").at.at.text(&text), "2", "it is checked");
}

/// Said in a word, the usual outline is checked as if nothing were said.
#[test]
fn a_rectangle_said_in_a_word_is_checked() {
    let said = shaped("40 x 50", "rectangle", "", "strips: 3");
    assert_eq!(one(&said, "binding-short").at.at.text(&said), "3");
    let unsaid = said.replace(", outline: rectangle", "");
    let messages = |text: &str| outcome(text).findings.into_iter().map(|finding| finding.message).collect::<Vec<_>>();
    assert_eq!(messages(&said), messages(&unsaid));
}

/// A small round mat: 10 in across is 31.42 in round, and one strip does it.
#[test]
fn small_mats() {
    // 31.42 + 6 + 6 - 6 = 37.42; two seams off a side, and its area in strips of 2 1/2: sqrt(93.54) + 1/2 = 10.172.
    let mat =
        |square: &str| shaped("10 x 10", "circle", "grain: bias\ntails: 6\nopening: 6", &format!("square: {square}"));
    assert_silent(&mat("10 1/4"));
    let text = mat("10 1/8");
    let finding = one(&text, "square-too-small");
    assert_says(&finding, &["A square of 10 1/8 in stated; 10 1/4 in needed"]);
    assert!(finding.help.contains("Length: perimeter of a circle 10 in across"), "{}", finding.help);
    assert_eq!(mended(&text, &finding), mat("10 1/4"));
}

/// A runner with clipped ends: 2 x (14 + 50) less 16 clips of 3 and 4 slopes of 4.243 make 120.97 in.
#[test]
fn runners() {
    let runner = |strips: u32| shaped("14 x 50", "{ clipped: 3 }", "opening: 8", &format!("strips: {strips}"));
    // 120.97 + 4 + 20 - 8 = 136.97; four strips of 40 less three joins of 2 1/2 make 152 1/2, and three make 115.
    assert_eq!(of_rule(&runner(5), "binding-short"), []);
    let text = runner(3);
    let finding = one(&text, "binding-short");
    assert_says(&finding, &["3 strips stated; 5 needed: 4 to go around"]);
    assert!(finding.help.contains(", 121 in + 4 in at the corners"), "{}", finding.help);
}

/// The usual opening of 12 in is longer than any scallop, and shorter than a side of them.
#[rstest]
#[case("inch", "50 x 60", "{ scallops_across: 10, scallops_down: 12, depth: 1 }")]
#[case("cm", "127 x 152", "{ scallops_across: 10, scallops_down: 12, depth: 2.5 }")]
fn an_opening_may_span_scallops(#[case] measure: &str, #[case] finished: &str, #[case] outline: &str) {
    let text =
        shaped(finished, outline, "grain: bias", "square: 40").replace("measure: inch", &format!("measure: {measure}"));
    assert!(text.contains(measure), "{text}");
    assert_eq!(of_rule(&text, "opening-too-long"), []);
}

/// Where nobody could join the ends in the opening that is left, none is advised.
#[rstest]
#[case::room_enough("12 x 12", true)]
#[case::room_on_one_side("12 x 11", true)]
#[case::an_eighth_too_short("11 7/8 x 11", false)]
#[case::a_coaster("8 x 8", false)]
fn no_opening_is_advised_that_is_too_short_to_join_in(#[case] finished: &str, #[case] advised: bool) {
    let text = shaped(finished, "rectangle", "opening: 12", "strips: 3");
    let finding = one(&text, "opening-too-long");
    assert!(advised || finding.correction.is_none());
    assert_eq!(finding.help.contains("State an opening of 6 in at most"), advised, "{}", finding.help);
    assert_eq!(finding.help.contains("can hardly be joined"), !advised, "{}", finding.help);
}

/// 6 in are 15.24 cm, and 3 in stay sewn at each corner: 30.48 cm in all.
#[rstest]
#[case::room_enough("31 x 31", true)]
#[case::a_millimetre_too_short("30.4 x 28", false)]
fn no_metric_opening_is_advised_that_is_too_short(#[case] finished: &str, #[case] advised: bool) {
    let text = shaped(finished, "rectangle", "opening: 30", "strips: 3")
        .replace("measure: inch", "measure: cm")
        .replace("2 1/2", "6.5");
    let finding = one(&text, "opening-too-long");
    assert_eq!(finding.help.contains("State an opening of 157.6 mm at most"), advised, "{}", finding.help);
    assert_eq!(finding.help.contains("can hardly be joined"), !advised, "{}", finding.help);
}

/// Two scallops a side, and 12 in open behind the middle, where two of them meet: that corner is passed after the ends
/// are joined, so seven are reached, each a scallop and a take-up after the one before.
#[test]
fn scallops_are_passed_in_turn_and_the_one_in_the_opening_is_not() {
    use sparestrip::quantity::{Count, Length};
    use sparestrip::quilt_math::joins::Course;
    use sparestrip::quilt_math::outline::Edge;
    let edge = Edge::scalloped(Length::inches(40), Length::inches(40), Count(2), Count(2), Length::inches(2));
    let (scallop, half) = (edge.sides[0], Length::inch_fraction(1, 2));
    let course = Course {
        edge: &edge,
        strip_length: Length::inches(40),
        join_loss: Length::inches(2),
        take_up: half,
        start_tail: Length::inches(10),
        opening: Length::inches(12),
        opening_clear: Length::inches(3),
        moved: Length::ZERO,
    };
    let reached: Vec<(usize, Length)> = course.corners().map(|corner| (corner.side, corner.at)).collect();
    let expected: Vec<(usize, Length)> =
        (0..7).map(|passed| (usize::try_from(passed).unwrap() + 2, scallop * (passed + 1) + half * passed)).collect();
    assert_eq!(reached, expected);
    assert_eq!(course.sewn(), scallop * 8 - Length::inches(12) + half * 7);
}
