//! The two ends of the binding and its joins: `tails-too-short`, `opening-too-long`, `join-near-corner`.

use rstest::rstest;

use crate::desk::{assert_says, centimetres, inches, mended, of_rule, one};

fn lap(binding: &str) -> String {
    inches("60 x 76", &format!("strip_width: 2 1/2\n{binding}"), "strips: 12")
}

/// The tails must bridge an opening of 12 and overlap for the join: 2 1/2 diagonal, 1/2 straight.
#[rstest]
#[case::diagonal_enough("tails: 7 1/4", None)]
#[case::diagonal_short(
    "tails: 7",
    Some(
        "14 1/2 in needed: 12 in to bridge the opening, and 2 1/2 in to overlap for the join. They are 1/2 in short."
    )
)]
#[case::straight_enough("tails: 6 1/4\njoin: straight", None)]
#[case::straight_short("tails: 6\njoin: straight", Some("12 1/2 in needed: 12 in to bridge the opening, and 1/2 in"))]
#[case::uneven_enough("tails: { start: 10, end: 4 1/2 }", None)]
#[case::uneven_short(
    "tails: { start: 10, end: 4 }",
    Some("Tails of 10 in and 4 in stated, 14 in together; 14 1/2 in needed")
)]
// Tucked, 1 in instead of the join.
#[case::tucked_enough("tails: 6 1/2\nends: tucked", None)]
#[case::tucked_short(
    "tails: 6 3/8\nends: tucked",
    Some("13 in needed: 12 in to bridge the opening, and 1 in to overlap where one is tucked into the other.")
)]
#[case::no_tails_wanted("extra_length: 10", None)]
fn tails_must_bridge_the_opening_and_overlap(#[case] tails: &str, #[case] says: Option<&str>) {
    let text = lap(&format!("{tails}\nopening: 12"));
    match says {
        Some(fragment) => assert_says(&one(&text, "tails-too-short"), &[fragment]),
        None => assert!(of_rule(&text, "tails-too-short").is_empty()),
    }
}

#[test]
fn tails_that_are_not_stated_are_not_called_stated() {
    // 10 and 10 make 20; an opening of 20 and an overlap of 2 1/2 need 22 1/2.
    let text = lap("opening: 20");
    let finding = one(&text, "tails-too-short");
    assert_says(&finding, &["No tails stated, so 10 in and 10 in are taken, 20 in together; 22 1/2 in needed"]);
    assert_eq!(finding.at.at.text(&text), "20");
    assert!(finding.correction.is_none());
    assert!(finding.help.contains("make the opening 17 1/2 in at most"), "{}", finding.help);
}

#[test]
fn no_opening_is_advised_that_is_less_than_nothing() {
    let finding = one(&lap("tails: 1\nopening: 12"), "tails-too-short");
    assert_eq!(finding.help, "Leave tails of 7 1/4 in each.");
}

#[rstest]
#[case::both_at_once("tails: 6", "tails: 7 1/4")]
#[case::the_end("tails: { start: 9, end: 4 }", "tails: { start: 9, end: 5 1/2 }")]
fn tails_are_mended(#[case] before: &str, #[case] after: &str) {
    let text = inches("40 x 52", &format!("strip_width: 2 1/2\n{before}\nopening: 12"), "strips: 8");
    let finding = one(&text, "tails-too-short");
    let correction = finding.correction.as_ref().expect("a correction");
    assert_eq!(correction.apply(&text), text.replace(before, after));
    assert!(of_rule(&text.replace(before, after), "tails-too-short").is_empty());
}

/// The opening and 3 in at either end lie on the longest side.
#[rstest]
#[case::just_room("10 x 18", None)]
#[case::an_eighth_too_short(
    "10 x 17 7/8",
    Some(
        "An opening of 12 in stated; the longest side of lap is 17 7/8 in, which has room for 11 7/8 in at most: 3 in must stay sewn at each corner. The opening is 1/8 in too long."
    )
)]
#[case::turned("17 7/8 x 10", Some("the longest side of lap is 17 7/8 in"))]
#[case::a_coaster(
    "5 x 5",
    Some(
        "the longest side of lap is 5 in, which has room for none at all: 3 in must stay sewn at each corner. The opening is 12 in too long."
    )
)]
fn the_opening_must_fit_the_longest_side(#[case] finished: &str, #[case] says: Option<&str>) {
    let text = inches(finished, "strip_width: 2 1/2\nopening: 12", "strips: 4");
    match says {
        Some(fragment) => {
            let finding = one(&text, "opening-too-long");
            assert_says(&finding, &[fragment]);
            assert_eq!(finding.at.at.text(&text), "12");
        }
        None => assert!(of_rule(&text, "opening-too-long").is_empty()),
    }
}

#[test]
fn an_opening_that_is_not_stated_points_at_the_size() {
    let text = inches("12 x 16", "strip_width: 2 1/2", "strips: 4");
    let finding = one(&text, "opening-too-long");
    assert_says(&finding, &["No opening stated, so 12 in is taken; the longest side of lap is 16 in"]);
    assert_eq!(finding.at.at.text(&text), "12 x 16");
    assert!(finding.correction.is_none(), "nothing is stated that could be replaced");
}

#[test]
fn a_mat_whose_pattern_states_an_extra_length_needs_no_opening() {
    let text = inches("12 x 16", "strip_width: 2 1/2\nextra_length: 10", "strips: 3");
    assert!(of_rule(&text, "opening-too-long").is_empty());
}

#[test]
fn a_metric_mat_is_mended_to_a_whole_centimetre() {
    // 40.5 - 2 x 7.62 = 25.26.
    let text = centimetres("30 x 40.5", "strip_width: 6\nopening: 30", "strips: 3, fabric: 20 cm");
    let finding = one(&text, "opening-too-long");
    assert_says(&finding, &["An opening of 30 cm stated", "room for 252.6 mm at most"]);
    assert_eq!(mended(&text, &finding), text.replace("opening: 30", "opening: 25"));
}

/// Strips of 42 with straight joins of 1/2: each is 41 1/2 farther on, and the middle of join i lies
/// 41 1/2 i + 1/4 - tail from the first stitch, in the middle of the side of 64.
///   tail 10: 31 3/4, 73 1/4, 114 3/4, 156 1/4, 197 3/4.
///   corners: 32 to 32 1/2, then + 54: 86 1/2 to 87, then + 64: 151 to 151 1/2, then + 54: 205 1/2 to 206.
/// So the first join lies 1/4 before the first corner, and every other join at least 4 3/4 from any.
fn beacon(tails: &str) -> String {
    let binding = format!("strip_width: 2 1/2\njoin: straight\nusable_width: 42\nopening: 12\n{tails}");
    inches("54 x 64", &binding, "strips: 7")
}

#[test]
fn a_join_at_a_corner_is_named() {
    let text = beacon("tails: 10");
    let finding = one(&text, "join-near-corner");
    assert_eq!(
        finding.message,
        "The first join lands 1/4 in from the first corner after the start. That makes a lump at the corner."
    );
    assert_eq!(finding.at.at.text(&text), "54 x 64");
    assert!(finding.help.contains("which is in the middle of the longest side."), "{}", finding.help);
}

/// Moving the start back moves every corner on by as much, which is the same as a longer start tail. The join must
/// be more than 1 from the corner: 3/4 back is not enough, 1 is the next half inch.
#[test]
fn the_advised_shift_clears_the_corner_and_none_smaller_does() {
    let finding = one(&beacon("tails: 10"), "join-near-corner");
    assert!(
        finding.help.ends_with("Move the start 1 in back, against the way you sew, and every join clears the corners.")
    );
    assert_eq!(of_rule(&beacon("tails: { start: 10 1/2, end: 10 }"), "join-near-corner").len(), 1);
    assert!(of_rule(&beacon("tails: { start: 11, end: 10 }"), "join-near-corner").is_empty());
}

#[rstest]
#[case::in_the_corner("{ start: 9 1/2, end: 10 }", Some("The first join lands in the first corner after the start."))] // 32 1/4
#[case::an_inch_before("{ start: 10 3/4, end: 10 }", Some("lands 1 in from the first corner"))] // 31
#[case::clear_before("{ start: 10 7/8, end: 10 }", None)]
#[case::an_inch_after("{ start: 8 1/4, end: 10 }", Some("lands 1 in from the first corner"))] // 33 1/2
#[case::clear_after("{ start: 8 1/8, end: 10 }", None)]
fn an_inch_is_too_near(#[case] tails: &str, #[case] says: Option<&str>) {
    let text = beacon(&format!("tails: {tails}"));
    match says {
        Some(fragment) => assert_says(&one(&text, "join-near-corner"), &[fragment]),
        None => assert!(of_rule(&text, "join-near-corner").is_empty()),
    }
}

/// On 20 x 22 the middle of the side has no room for the opening behind it, so the first stitch is 12 + 3 past the
/// corner and 7 before the next. The first join lies 37 1/2 + 1 1/4 - 10 = 28 3/4 on; the second corner ends at
/// 7 + 1/2 + 20 + 1/2 = 28. With the start 1/2 onward it ends at 27 1/2, and the join is clear by 1 1/4.
#[test]
fn on_a_small_piece_the_start_is_not_in_the_middle() {
    let finding = one(&inches("20 x 22", "strip_width: 2 1/2", "strips: 4"), "join-near-corner");
    assert_says(&finding, &["The first join lands 3/4 in from the second corner after the start."]);
    assert!(finding.help.contains("on the longest side, 15 in past its corner"), "{}", finding.help);
    assert!(finding.help.contains("Move the start 1/2 in onward, the way you sew"), "{}", finding.help);
}

#[test]
fn without_tails_joins_are_not_placed() {
    let text = inches("54 x 64", "strip_width: 2 1/2\njoin: straight\nusable_width: 42\nextra_length: 10", "strips: 7");
    assert!(of_rule(&text, "join-near-corner").is_empty());
}
