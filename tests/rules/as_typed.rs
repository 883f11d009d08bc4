//! What people type, where it can mean one thing and where it cannot: `fraction-run-together`, spellings, pairs.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_silent, inches, of_rule, one, rules_of};

fn manuscript(strip_width: &str, fabric: &str) -> String {
    inches("60 x 76", &format!("strip_width: {strip_width}\nopening: 12"), &format!("strips: 9, fabric: {fabric}"))
}

/// At the place of the fraction: alone, as either half of a pair, and in a width and a length.
#[rstest]
#[case::a_length("opening: 12", "opening: 21/2", "21/2", r#""21/2" is read as 10 1/2; 2 1/2 may be meant."#)]
#[case::an_amount("3/4 yd", "11/8 yd", "11/8", r#""11/8" is read as 1 3/8; 1 1/8 may be meant."#)]
#[case::the_second_half("3/4 yd", "60 cm (11/8 yd)", "11/8", r#""11/8" is read as 1 3/8; 1 1/8 may be meant."#)]
#[case::a_size("60 x 76", "60 x 1511/2", "1511/2", r#""1511/2" is read as 755 1/2; 151 1/2 may be meant."#)]
fn a_fraction_that_runs_together_is_asked_about(
    #[case] before: &str,
    #[case] after: &str,
    #[case] at: &str,
    #[case] message: &str,
) {
    let text = manuscript("2 1/2", "3/4 yd");
    assert!(of_rule(&text, "fraction-run-together").is_empty());
    assert!(text.contains(before), "{text}");
    let text = text.replace(before, after);
    let finding = one(&text, "fraction-run-together");
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Query, at));
    assert_eq!(finding.message, message);
    // Both ways of writing it clear are silent.
    for clear in finding.help.trim_start_matches("Write ").trim_end_matches('.').split(" with a space, or ") {
        assert!(of_rule(&text.replace(at, clear), "fraction-run-together").is_empty(), "{clear}");
    }
}

#[rstest]
#[case("3/4 yd / 70 cm")]
#[case("\"3/4 yd, 70 cm\"")]
#[case("3/4yd/70cm")]
#[case("¾ y (70 cm)")]
#[case("２７ in")]
#[case("2 1/4 ft")]
fn amounts_are_read_as_they_are_typed(#[case] fabric: &str) {
    assert_silent(&manuscript("2 1/2", fabric));
}

#[rstest]
#[case("2–1/2")]
#[case("\"2 1/2''\"")]
#[case("2 ¹⁄₂ in")]
#[case("2½-inch")]
fn lengths_are_read_as_they_are_typed(#[case] width: &str) {
    assert_silent(&manuscript(width, "3/4 yd"));
}

/// Each half is pointed at alone, however the halves are set apart.
#[rstest]
#[case("3/4 yd (55 cm)")]
#[case("3/4 yd / 55 cm")]
#[case("\"3/4 yd, 55 cm\"")]
fn the_short_half_is_pointed_at(#[case] fabric: &str) {
    let text = manuscript("2 1/2", fabric);
    let finding = one(&text, "pair-disagrees");
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Error, "55 cm"));
}

/// Nine strips of 2 1/2 in take 22 1/2 in, so that each half of these is enough.
#[rstest]
#[case::to_the_nearest_ten("1 1/8 yd (1 m)", true)] // 102.87 cm
#[case::a_nought_says_no_more("1 1/8 yd (1.0 m)", true)]
#[case::the_metric_half_first("1 m (1 1/8 yd)", true)]
#[case::up_to_a_tenth("1 1/8 yd (1.1 m)", true)]
#[case::up_to_a_quarter("1 1/8 yd (1.25 m)", true)]
#[case::down_by_more_than_half_a_tenth("1 1/8 yd (0.9 m)", false)]
#[case::beyond_the_next_quarter("1 1/8 yd (1.3 m)", false)]
#[case::half_a_metre_off("4 1/2 yd (4 m)", false)] // 411.48 cm
#[case::the_same("4 1/2 yd (4.1 m)", true)]
#[case::up_to_the_next_eighth("4 3/8 yd (4 m)", true)] // 4 m is 4.374 yd
#[case::to_the_last_digit("4 1/2 yd (411 cm)", true)]
#[case::to_no_digit("4 5/8 yd (4.02 m)", false)]
#[case::exactly("1 yd (91.44 cm)", true)]
fn a_pair_is_judged_by_how_amounts_are_rounded(#[case] fabric: &str, #[case] right: bool) {
    let text = manuscript("2 1/2", fabric);
    let found = of_rule(&text, "pair-disagrees");
    assert_eq!(found.is_empty(), right, "{found:#?}");
    assert!(found.iter().all(|finding| finding.level == Level::Query));
}

/// Eighths of a yard are printed whatever a shop sells by: 3 m is 3.281 yd, and 3 3/8 yd the next eighth.
#[rstest]
#[case("1/8 yd")]
#[case("1/4 yd")]
#[case("1 yd")]
fn eighths_of_a_yard_are_a_usual_rounding(#[case] sold_by: &str) {
    let text = manuscript("2 1/2", "3 3/8 yd (3 m)");
    let text = text.replacen("sizes:", &format!("assumes: {{ sold_by: {sold_by} }}\nsizes:"), 1);
    assert!(text.contains(sold_by), "{text}");
    assert!(of_rule(&text, "pair-disagrees").is_empty());
}

/// Where metric fabric is sold by the meter, one meter is what 5/8 yd (57.15 cm) rounded up makes.
#[rstest]
#[case::by_the_metre("1 m", "1 1/8 yd (2 m)", true)]
#[case::by_the_half_metre("50 cm", "1 1/8 yd (1.5 m)", true)]
#[case::a_step_more("50 cm", "1 1/8 yd (2 m)", false)]
#[case::less_than_the_yards("1 m", "3 3/8 yd (2 m)", false)]
fn a_half_rounded_up_to_what_is_sold_is_right(#[case] sold_by: &str, #[case] fabric: &str, #[case] right: bool) {
    let text = manuscript("2 1/2", fabric);
    let text = text.replacen("sizes:", &format!("assumes: {{ sold_by: {sold_by} }}\nsizes:"), 1);
    assert_eq!(of_rule(&text, "pair-disagrees").is_empty(), right, "{text}");
}

/// A half that is not enough is short, however well it is rounded: 16 strips take 40 in, which is 101.6 cm.
#[test]
fn a_rounded_half_must_still_be_enough() {
    let text = manuscript("2 1/2", "1 1/8 yd (1 m)").replace("strips: 9", "strips: 16");
    let finding = one(&text, "pair-disagrees");
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Error, "1 m"));
}

const SPELLED: &str = "\
pattern: Buoy Bell
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes: { lap: { finished: 24 x 24 } }
units:
  lamp: { make: square_in_a_square, method: stitch_and_flip, finished: 12, cut: { center: 12 1/2, corner: 6 1/2 } }
blocks: { lantern: { finished: 12, rows: [[lamp]] } }
layout: { lap: { across: 2, down: 2, blocks: lantern, borders: [{ width: 3, corners: mitered }] } }
";

#[test]
fn both_spellings_of_a_word_are_read() {
    let found = rules_of(SPELLED);
    assert!(!found.contains(&"unknown-word") && !found.contains(&"missing-entry"), "{found:?}");
    let british = SPELLED.replace("center", "centre").replace("mitered", "mitred");
    assert_eq!(rules_of(&british), found);
    let short = |text: &str| text.replace("12 1/2", "12");
    let messages = |text: &str| crate::desk::outcome(text).findings.iter().map(|found| found.message.clone()).collect();
    let (us, uk): (Vec<String>, Vec<String>) = (messages(&short(SPELLED)), messages(&short(&british)));
    assert_eq!(us, uk);
    assert!(us.iter().any(|message| message.contains("center of unit lamp")), "{us:?}");
}
