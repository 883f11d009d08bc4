//! The width of the strip: `fold-short`, `fold-barely-covers`, `hollow-edge` and `not-on-ruler`.

use rstest::rstest;

use crate::desk::{assert_says, centimetres, inches, mended, of_rule, one, one_by, with_length};

const FOLD_RULES: [&str; 3] = ["fold-short", "fold-barely-covers", "hollow-edge"];

fn bound(binding: &str) -> String {
    inches("60 x 76", binding, "strips: 12")
}

fn fold_rules_of(text: &str) -> Vec<&'static str> {
    FOLD_RULES.into_iter().filter(|rule| !of_rule(text, rule).is_empty()).collect()
}

/// Handbook widths with a seam of 1/4 and a thin sandwich (1/16): half the width, less 3/4, less 1/16.
/// "Six times the finished width plus ease": All-in-One Quilter's Reference Tool (C&T) has 1 5/8 for a finished 1/4.
#[rstest]
#[case("2 1/2", "hollow-edge", "reaches 7/16 in past the stitching")]
#[case("2 1/4", "hollow-edge", "reaches 5/16 in past the stitching")]
#[case("2", "hollow-edge", "reaches 3/16 in past the stitching")]
#[case("1 3/4", "hollow-edge", "reaches 1/16 in past the stitching")]
#[case("1 5/8", "fold-barely-covers", "only just meets the stitching")]
#[case("1 1/2", "fold-short", "falls 1/16 in short of the stitching")]
fn handbook_widths_reach_so_far(#[case] width: &str, #[case] rule: &str, #[case] says: &str) {
    // A house that calls any reach hollow is told the reach of every width.
    let settings = with_length("most_reach", "0 in");
    let finding = one_by(&bound(&format!("strip_width: {width}\nseam: 1/4\nloft: low")), rule, &settings);
    assert_says(&finding, &[&format!("Strips {width} in wide stated"), says]);
}

#[rstest]
#[case::machine_meets("strip_width: 1 5/8\nfinish: machine", &["fold-barely-covers"])]
#[case::machine_covers("strip_width: 1 3/4\nfinish: machine", &[])]
#[case::hand_meets("strip_width: 1 5/8\nfinish: hand", &["fold-barely-covers"])]
#[case::hand_covers("strip_width: 1 3/4\nfinish: hand", &[])]
#[case::ditch_hardly_covers("strip_width: 1 3/4\nfinish: ditch", &["fold-barely-covers"])]
#[case::ditch_covers("strip_width: 1 7/8\nfinish: ditch", &[])]
#[case::medium_loft("strip_width: 1 3/4\nloft: medium", &["fold-barely-covers"])]
#[case::medium_loft_measured("strip_width: 1 3/4\nloft: 1/8", &["fold-barely-covers"])]
#[case::high_loft("strip_width: 1 3/4\nloft: high", &["fold-short"])]
#[case::wide_seam("strip_width: 2 1/2\nseam: 3/8", &[])] // 1 1/4 - 1 1/8 - 1/16 = 1/16
#[case::wider_seam("strip_width: 2 1/2\nseam: 1/2", &["fold-short"])]
#[case::filled_to_the_last("strip_width: 2 5/8", &[])] // 1 5/16 - 3/4 - 1/16 = 1/2
#[case::hollow("strip_width: 2 3/4", &["hollow-edge"])] // 9/16
fn each_finish_asks_for_its_own_cover(#[case] binding: &str, #[case] rules: &[&str]) {
    assert_eq!(fold_rules_of(&bound(binding)), rules);
}

/// Single fold: the width, less four seams, less the loft. The same handbook has 1 1/8 for a finished 1/4.
#[rstest]
#[case("1", &["fold-short"])]
#[case("1 1/16", &["fold-barely-covers"])]
#[case("1 1/8", &[])]
#[case("1 9/16", &[])] // 1 9/16 - 1 1/16 = 1/2
#[case("1 5/8", &["hollow-edge"])]
fn a_single_fold_has_one_layer(#[case] width: &str, #[case] rules: &[&str]) {
    assert_eq!(fold_rules_of(&bound(&format!("strip_width: {width}\nfold: single"))), rules);
}

#[rstest]
#[case("finish: machine", "folded over to the front", "stitched by machine")]
#[case("finish: hand", "folded over to the back", "stitched by hand")]
#[case("finish: ditch", "folded over to the back", "stitched in the ditch")]
#[case("finish: machine\nsewn_first_to: front", "folded over to the back", "stitched by machine")]
fn the_message_names_the_side_and_the_finish(#[case] finish: &str, #[case] side: &str, #[case] how: &str) {
    let finding = one(&bound(&format!("strip_width: 1 5/8\n{finish}")), "fold-barely-covers");
    assert_says(&finding, &[side, how]);
}

#[test]
fn the_working_is_shown_and_the_seam_and_loft_pointed_at() {
    let text = bound("strip_width: 1 1/2\nseam: 1/4\nloft: low");
    let finding = one(&text, "fold-short");
    assert_says(&finding, &["Strips 1 1/2 in wide stated; 1 3/4 in needed"]);
    let working =
        "1 1/2 in / 2 = 3/4 in folded; less 3 x 1/4 in seam and 1/16 in loft: 1/16 in short of the stitching.";
    assert!(finding.help.contains(working), "{}", finding.help);
    let seen: Vec<&str> = finding.related.iter().map(|label| label.at.text(&text)).collect();
    assert_eq!(seen, ["1/4", "low"]);
    assert_eq!(finding.size, None, "it is said once for the pattern");
}

#[test]
fn a_reach_too_small_to_print_is_not_printed_as_nothing() {
    // 20 mm - 3 x 6 mm - 1.5875 mm leaves 0.4 mm.
    let text = centimetres("150 x 190", "strip_width: 4\nseam: 0.6", "strips: 12");
    assert_says(&one(&text, "fold-barely-covers"), &["Strips 4 cm wide stated", "only just meets the stitching"]);
}

#[rstest]
#[case::fits("30 x 36", "strips: 5", Some("1 3/4"))]
// 5 x 1 3/4 = 8 3/4 leaves 1/4 of 9 in, too little for squaring up: a wider strip would bring another finding.
#[case::fabric_is_tight("30 x 36", "strips: 5, fabric: 1/4 yd", None)]
fn a_wider_strip_is_offered_where_it_does_no_harm(
    #[case] finished: &str,
    #[case] requires: &str,
    #[case] width: Option<&str>,
) {
    let text = inches(finished, "strip_width: 1 1/2", requires);
    let finding = one(&text, "fold-short");
    assert_eq!(finding.correction.as_ref().map(|correction| correction.replacement.as_str()), width);
    if width.is_some() {
        mended(&text, &finding);
    }
}

#[rstest]
#[case::eighths("2 1/8", None)]
#[case::decimal("2.5", None)]
#[case::sixteenth("2 3/16", Some(("2 3/16 in", "1/8 in", "2 1/8 in and 2 1/4 in")))]
#[case::tenths("2.3", Some(("2.3 in", "1/8 in", "2 1/4 in and 2 3/8 in")))]
#[case::marked("2 3/16 in", Some(("2 3/16 in", "1/8 in", "2 1/8 in and 2 1/4 in")))]
#[case::millimetres("63 mm", None)]
#[case::half_a_millimetre("63.5 mm", Some(("63.5 mm", "1 mm", "63 mm and 64 mm")))]
#[case::quoted("'2 3/16'", Some(("2 3/16 in", "1/8 in", "2 1/8 in and 2 1/4 in")))]
fn a_ruler_shows_eighths_and_millimetres(#[case] width: &str, #[case] told: Option<(&str, &str, &str)>) {
    let text = bound(&format!("strip_width: {width}"));
    let Some((stated, step, marks)) = told else {
        assert!(of_rule(&text, "not-on-ruler").is_empty());
        return;
    };
    let finding = one(&text, "not-on-ruler");
    assert_says(&finding, &[&format!("Strips {stated} wide stated."), &format!("it is marked every {step}.")]);
    assert!(finding.help.contains(marks), "{}", finding.help);
}

#[rstest]
#[case("6.4", true)]
#[case("6.35", false)]
#[case("2 1/2 in", true)]
#[case("2 3/16 in", false)]
fn a_metric_manuscript_has_a_metric_ruler(#[case] width: &str, #[case] on_ruler: bool) {
    let text = centimetres("150 x 190", &format!("strip_width: {width}"), "strips: 12");
    assert_eq!(of_rule(&text, "not-on-ruler").is_empty(), on_ruler);
}
