//! The bed that a size is for: `bed-not-covered`.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, one, rules_of};

fn quilt(measure: &str, entries: &str) -> String {
    format!("pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  big: {{ {entries} }}\n")
}

/// A mattress of 60 x 80, or as named; a drop at both sides and at the foot.
#[rstest]
#[case::top("60 x 80", "queen bed", "", None)]
#[case::top_too_small(
    "59 x 79 1/2",
    "queen bed",
    "",
    Some(
        "59 x 79 1/2 in stated for a queen bed; 60 x 80 in needed to cover its top alone: the quilt is 1 in short in the width and 1/2 in short in the length."
    )
)]
#[case::drop("80 x 90", "queen bed", "10", None)]
#[case::drop_at_the_sides(
    "79 x 90",
    "queen bed",
    "10",
    Some(
        "79 x 90 in stated for a queen bed; 80 x 90 in needed to cover it and hang down 10 in: the quilt is 1 in short in the width."
    )
)]
#[case::drop_at_the_foot("80 x 89", "queen bed", "10", Some("the quilt is 1 in short in the length."))]
#[case::twin("38 x 75", "twin bed", "", None)]
#[case::twin_too_small("37 x 75", "twin bed", "", Some("for a twin bed"))]
#[case::full("54 x 75", "full bed", "", None)]
#[case::full_too_small("53 x 75", "full bed", "", Some("54 x 75 in needed"))]
#[case::king("76 x 80", "king bed", "", None)]
#[case::king_too_small("76 x 79", "king bed", "", Some("for a king bed"))]
#[case::crib("28 x 52 3/8", "crib", "", None)]
#[case::crib_too_small("28 x 52", "crib", "", Some("the quilt is 3/8 in short in the length."))]
fn a_bed_is_covered(#[case] finished: &str, #[case] bed: &str, #[case] drop: &str, #[case] says: Option<&str>) {
    let drop = if drop.is_empty() { String::new() } else { format!(", drop: {drop}") };
    let text = quilt("inch", &format!("finished: {finished}, for: {bed}{drop}"));
    let Some(says) = says else {
        assert_silent(&text);
        return;
    };
    let finding = one(&text, "bed-not-covered");
    assert_eq!(finding.level, Level::Query);
    assert_eq!(finding.at.at.text(&text), finished);
    assert_eq!(finding.size.as_deref(), Some("big"));
    assert_says(&finding, &[says]);
}

#[test]
fn a_metric_quilt_is_told_in_centimetres() {
    // 60 x 80 in is 152.4 x 203.2 cm.
    assert_silent(&quilt("cm", "finished: 202.4 x 228.2, for: queen bed, drop: 25"));
    let finding = one(&quilt("cm", "finished: 200 x 228.2, for: queen bed, drop: 25"), "bed-not-covered");
    assert_says(&finding, &["202.4 x 228.2 cm needed", "2.4 cm short in the width"]);
}

#[rstest]
#[case("finished: 60 x 80, drop: 10", "missing-entry")]
#[case("finished: 60 x 80, for: queen", "unknown-word")]
#[case("finished: 60 x 80, for: queen bed, drop: ten", "unreadable-quantity")]
fn a_slip_is_told_once(#[case] entries: &str, #[case] rule: &str) {
    assert_eq!(rules_of(&quilt("inch", entries)), [rule]);
}

#[test]
fn the_page_says_that_loose_bedding_is_a_hazard() {
    let page = sparestrip::rule_book::page("bed-not-covered").expect("its page");
    let working = page.working.replace('\n', " ");
    assert!(
        working.contains("a hazard to infants under one year") && working.contains("safe-sleep advice"),
        "{working}"
    );
}
