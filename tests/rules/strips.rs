//! Whether the stated strips reach: `binding-short` and `spare-strip`.
//!
//! With strips 2 1/2 wide and 40 long, joined on the diagonal, n strips make 37 1/2 n + 2 1/2. With tails of 10, an
//! opening of 12 and 1/2 at each corner, the length asked for is the perimeter and 10; the bare minimum is the
//! perimeter, 2 and 2 1/2.

use rstest::rstest;

use crate::desk::{
    assert_says, assert_silent, centimetres, inches, mended, of_rule, of_rule_by, one, one_by, with_spares,
};

const WIDE: &str = "strip_width: 2 1/2";

fn stated(finished: &str, strips: u32) -> String {
    inches(finished, WIDE, &format!("strips: {strips}"))
}

/// 70 x 76 1/4 is 292 1/2 round and asks for 302 1/2, which is 8 strips to the last thread.
#[rstest]
#[case::short("70 x 76 1/4", 7, &["binding-short"])]
#[case::exactly_enough("70 x 76 1/4", 8, &["spare-strip"])]
#[case::one_to_spare("70 x 76 1/4", 9, &[])]
#[case::more_than_needed("70 x 76 1/4", 12, &[])]
#[case::an_eighth_longer("70 x 76 3/8", 8, &["binding-short"])]
#[case::an_eighth_longer_and_no_spare("70 x 76 3/8", 9, &["spare-strip"])]
#[case::an_eighth_longer_with_a_spare("70 x 76 3/8", 10, &[])]
#[case::no_strips("70 x 76 1/4", 0, &["binding-short"])]
fn the_boundary_is_exact(#[case] finished: &str, #[case] strips: u32, #[case] rules: &[&str]) {
    let text = stated(finished, strips);
    let found = ["binding-short", "spare-strip"].into_iter().filter(|rule| !of_rule(&text, rule).is_empty());
    assert_eq!(found.collect::<Vec<_>>(), rules, "{text}");
}

/// 8 strips make 302 1/2.
#[rstest]
// 296 round: 300 1/2 to close, 306 with the tails.
#[case::goes_round("70 x 78", "8 strips can go around the quilt, but cannot leave the tails: 3 1/2 in short.")]
// 298 round: 302 1/2 to close, 308 with the tails.
#[case::only_just("70 x 79", "8 strips can go around the quilt, but cannot leave the tails: 5 1/2 in short.")]
// 298 1/4 round: 302 3/4 to close.
#[case::just_not(
    "70 x 79 1/8",
    "8 strips cannot go around the quilt at all: 1/4 in short of the 302 3/4 in that can just be closed."
)]
// 310 round: 314 1/2 to close.
#[case::not_at_all(
    "75 x 80",
    "8 strips cannot go around the quilt at all: 12 in short of the 314 1/2 in that can just be closed."
)]
fn a_short_binding_is_told_in_two_ways(#[case] finished: &str, #[case] ending: &str) {
    let text = stated(finished, 8);
    let finding = one(&text, "binding-short");
    assert_says(&finding, &["8 strips stated; 10 needed: 9 to go around with the tails, and 1 to spare.", ending]);
    assert_eq!(finding.at.at.text(&text), "8");
    assert_eq!(finding.size.as_deref(), Some("lap"));
    assert_eq!(finding.related[0].at.text(&text), finished, "the size is shown beside it");
    assert_eq!((finding.stated.as_deref(), finding.needed.as_deref()), (Some("8 strips"), Some("10 strips")));
}

#[test]
fn the_working_and_the_smallest_purchase_are_shown() {
    // 10 strips x 2 1/2 = 25, with 1/2 to square up 25 1/2: 27 in is 3/4 yd.
    let help = one(&stated("70 x 78", 8), "binding-short").help;
    for line in [
        "Length: perimeter 2 x (70 in + 78 in) = 296 in + 2 in at the corners + 10 in and 10 in tails - 12 in opening = 306 in.",
        "Strips: 9 x 40 in - 8 diagonal joins x 2 1/2 in = 340 in.",
        "Print 10 strips: 10 strips x 2 1/2 in = 25 in; with 1/2 in for squaring up, buy 3/4 yd (27 in).",
    ] {
        assert!(help.lines().any(|found| found == line), "{line:?} is not in:\n{help}");
    }
}

/// 70 x 76 is 292 round; closing takes 4 1/2 of it in any case.
#[rstest]
#[case::extra_as_stated("extra_length: 10 1/2", 8, None)] // 302 1/2
#[case::extra_beyond("extra_length: 12", 8, Some("cannot leave the extra length: 1 1/2 in short"))]
#[case::less_than_closing_takes("extra_length: 2", 7, Some("cannot go around the quilt at all: 31 1/2 in short"))] // 296 1/2 - 265
fn a_plain_extra_length_is_taken_at_its_word(#[case] extra: &str, #[case] strips: u32, #[case] says: Option<&str>) {
    let text = inches("70 x 76", &format!("{WIDE}\n{extra}"), &format!("strips: {strips}"));
    match says {
        Some(fragment) => assert_says(&one(&text, "binding-short"), &[fragment]),
        None => assert!(of_rule(&text, "binding-short").is_empty()),
    }
}

#[rstest]
#[case::none_asked_and_none_there(0, 8, None)]
#[case::one_there(
    2,
    9,
    Some(
        "10 needed: 8 to go around with the tails, and 2 to spare. What is stated is enough, with 1 to spare, which is 1 short."
    )
)]
#[case::none_there(
    2,
    8,
    Some(
        "10 needed: 8 to go around with the tails, and 2 to spare. What is stated is enough, with none to spare: one bad cut"
    )
)]
#[case::both_there(2, 10, None)]
fn a_house_sets_its_own_spares(#[case] spares: u64, #[case] strips: u32, #[case] says: Option<&str>) {
    let text = stated("70 x 76 1/4", strips);
    match says {
        Some(fragment) => assert_says(&one_by(&text, "spare-strip", &with_spares(spares)), &[fragment]),
        None => assert!(of_rule_by(&text, "spare-strip", &with_spares(spares)).is_empty()),
    }
}

#[test]
fn a_house_without_spares_is_not_told_of_any() {
    let finding = one_by(&stated("70 x 76 1/4", 7), "binding-short", &with_spares(0));
    assert_says(&finding, &["7 strips stated; 8 needed: 8 to go around with the tails. 7 strips"]);
}

/// 200 x 230 cm is 860 round, asking for 860 + 2 at the corners' 5.08, 50 for the tails, less 30: 885.08.
#[rstest]
// Straight joins of 2 x 6.35 mm: n x 101.6 - (n - 1) x 1.27 = 100.33 n + 1.27; 9 make 904.24, 8 make 803.91.
#[case::straight("join: straight", 8, "8 strips stated; 10 needed: 9 to go around")]
// Diagonal: n x 101.6 - (n - 1) x 6.5 = 95.1 n + 6.5; 9 make 862.4, 10 make 957.5.
#[case::diagonal("join: diagonal", 9, "9 strips stated; 11 needed: 10 to go around")]
fn the_kind_of_join_counts(#[case] join: &str, #[case] strips: u32, #[case] says: &str) {
    let binding = format!("strip_width: 6.5\n{join}\ntails: 25\nopening: 30");
    let text = centimetres("200 x 230", &binding, &format!("strips: {strips}"));
    assert_says(&one(&text, "binding-short"), &[says]);
}

#[test]
fn one_strip_is_one_strip() {
    // 8 x 10 is 36 round: 36 + 2 + 20 - 4 = 54, and two strips make 77 1/2. 36 + 2 + 2 1/2 - 40 = 1/2.
    let text = inches("8 x 10", "strip_width: 2 1/2\nopening: 4", "strips: 1");
    let finding = one(&text, "binding-short");
    assert_says(
        &finding,
        &["1 strip stated; 3 needed: 2 to go around", "1 strip cannot go around the quilt at all: 1/2 in"],
    );
}

#[test]
fn strips_along_the_fabric_are_as_long_as_stated() {
    // 5 x 65 - 4 x 2 1/2 = 315 reaches 302 1/2; 4 make 252 1/2.
    let binding = "strip_width: 2 1/2\ngrain: lengthwise\nstrip_length: 65";
    let text = inches("70 x 76 1/4", binding, "strips: 4");
    assert_says(&one(&text, "binding-short"), &["4 strips stated; 6 needed: 5 to go around"]);
    assert!(of_rule(&inches("70 x 76 1/4", binding, "strips: 6"), "spare-strip").is_empty());
}

#[test]
fn a_size_may_have_strips_of_its_own_length() {
    // 38-in strips: 35 1/2 n + 2 1/2; 8 make 286 1/2, 9 make 322.
    let text = inches("70 x 76 1/4", WIDE, "strips: 8, strip_length: 38");
    assert_says(&one(&text, "binding-short"), &["10 needed: 9 to go around"]);
}

#[rstest]
// 10 x 2 1/2 = 25, with squaring 25 1/2: 3/4 yd.
#[case::fabric_follows("strips: 8, fabric: 5/8 yd", "strips: 10, fabric: 3/4 yd")]
#[case::fabric_stands("strips: 8, fabric: 3/4 yd", "strips: 10, fabric: 3/4 yd")]
#[case::fabric_first("fabric: 5/8 yd, strips: 8", "fabric: 3/4 yd, strips: 10")]
// 25 1/2 in = 64.8 cm: 70 cm.
#[case::both_halves("strips: 8, fabric: 5/8 yd (60 cm)", "strips: 10, fabric: 3/4 yd (70 cm)")]
#[case::no_fabric("strips: 8", "strips: 10")]
fn the_correction_mends_strips_and_fabric_together(#[case] before: &str, #[case] after: &str) {
    // 69 x 78 is 294 round and asks for 304: 9 strips and one to spare.
    let text = inches("69 x 78", WIDE, before);
    let mended = mended(&text, &one(&text, "binding-short"));
    assert_eq!(mended, text.replace(before, after));
}

#[test]
fn the_spare_is_mended_too() {
    let text = inches("69 x 78", WIDE, "strips: 9, fabric: 3/4 yd");
    assert_eq!(mended(&text, &one(&text, "spare-strip")), text.replace("strips: 9", "strips: 10"));
    assert_silent(&inches("69 x 78", WIDE, "strips: 10, fabric: 3/4 yd"));
}

#[test]
fn nothing_is_offered_that_a_manuscript_may_not_state() {
    // Strips 39 wide gain 1 in each. Closing takes 280 + 2 + 39 = 321: 282 strips and a spare, 306 yards and more.
    let text = inches("60 x 80", "strip_width: 39", "strips: 9, fabric: 1 yd");
    let finding = one(&text, "binding-short");
    assert_says(&finding, &["283 needed: 282 to go around"]);
    assert!(finding.correction.is_none());
}
