//! The backing: `backing-short`, `backing-panels`, `backing-generous`, `backing-smaller-than-batting`, and its pairs.
//!
//! A lap quilt of 54 x 72 with 4 in at each side has a backing of 62 x 80. From fabric with 42 in usable, two panels
//! across the width are 83 in long and take 124 in; two along the length take 160 in. At 40 in the two across are
//! only 79 in, so the way along needs least.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, mended, of_rule, of_rule_by, one, rules_of, with_length};

/// A lap quilt of 54 x 72 with a backing.
fn lap(method: &str, requires: &str) -> String {
    quilt("inch", "54 x 72", method, requires)
}

fn quilt(measure: &str, finished: &str, method: &str, requires: &str) -> String {
    let method: String = method.lines().map(|line| format!("  {}\n", line.trim())).collect();
    format!(
        "pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  lap: {{ finished: {finished} }}\nbacking:\n{method}  \
         requires:\n    lap: {requires}\n"
    )
}

#[rstest]
#[case::to_the_thread("124 in", &[])]
#[case::a_hair_short("123 63/64 in", &["backing-short"])]
#[case::as_sold("3 1/2 yd", &[])]
#[case::a_step_short("3 3/8 yd", &["backing-short"])]
#[case::less_than_a_step_more("130 in", &[])]
#[case::a_step_more("3 5/8 yd", &["backing-generous"])]
#[case::metric("3.15 m", &[])] // 124 in is 3.1496 m
#[case::metric_short("3.14 m", &["backing-short"])]
#[case::both_halves("3 1/2 yd (3.2 m)", &[])]
#[case::one_half_short("3 1/2 yd (3.1 m)", &["pair-disagrees"])]
#[case::both_halves_short("3 yd (3.1 m)", &["backing-short"])]
#[case::halves_apart("3 1/2 yd (3.4 m)", &["pair-disagrees"])]
fn the_boundaries_are_exact(#[case] fabric: &str, #[case] rules: &[&str]) {
    let text = lap("usable_width: 42", fabric);
    assert_eq!(rules_of(&text), rules);
    assert_eq!(rules_of(&text.replace(fabric, &format!("{{ fabric: {fabric} }}"))), rules);
    for finding in crate::desk::outcome(&text).findings {
        mended(&text, &finding);
    }
}

#[rstest]
#[case::half_short("3 1/2 yd (3.1 m)", Level::Error, "3.1 m", "so 3 1/2 yd is enough, and 3.1 m is 5 cm short")]
#[case::half_apart("3 1/2 yd (3.4 m)", Level::Query, "3 1/2 yd", "both are enough, but they differ by 7 7/8 in")]
fn each_half_of_a_pair_is_looked_at(#[case] fabric: &str, #[case] level: Level, #[case] at: &str, #[case] says: &str) {
    let text = lap("usable_width: 42", fabric);
    let finding = one(&text, "pair-disagrees");
    assert_eq!(finding.level, level);
    assert_eq!(finding.at.at.text(&text), at);
    assert_says(&finding, &[says]);
}

#[test]
fn nothing_is_added_for_squaring_up() {
    // 88 in each way, one panel of 108: 88 in, and 2 1/2 yd is 90 in.
    assert_silent(&quilt("inch", "80 x 80", "usable_width: 108", "88 in"));
    let text = quilt("inch", "80 x 80", "usable_width: 108", "87 in");
    let finding = one(&text, "backing-short");
    assert_says(
        &finding,
        &["87 in stated; 2 1/2 yd (90 in) needed: 1 panel along the length, 88 in long", "1 in short"],
    );
    assert!(mended(&text, &finding).contains("lap: 90 in"));
}

#[rstest]
#[case::least(
    "{ fabric: 3 yd }",
    "2 panels across the width, each 62 in long = 124 in, so what is stated is 16 in short"
)]
#[case::least(
    "{ fabric: 3 yd }",
    "No other way needs less: the other is 2 panels along the length, which take 160 in."
)]
#[case::printed_along(
    "{ fabric: 3 1/2 yd, panels_run: along }",
    "3 1/2 yd (126 in) stated; 4 1/2 yd (162 in) needed: 2 panels along the length, each 80 in long = 160 in, so what is \
     stated is 34 in short. The least is needed with 2 panels across the width, which take 124 in: what is stated is \
     enough for that."
)]
#[case::neither(
    "{ fabric: 3 yd, panels_run: along }",
    "The least is needed with 2 panels across the width, which take 124 in: what is stated is not enough for that either."
)]
#[case::three_panels("{ fabric: 3 1/2 yd, panels: 3 }", "3 panels across the width, each 62 in long = 186 in")]
fn the_message_says_which_way_needs_least(#[case] requires: &str, #[case] says: &str) {
    assert_says(&one(&lap("usable_width: 42", requires), "backing-short"), &[says]);
}

#[test]
fn the_working_is_shown() {
    let finding = one(&lap("usable_width: 42", "3 yd"), "backing-short");
    let help = "Backing: 54 x 72 in and 4 in more at each side = 62 x 80 in.\n\
                Panels: 2 x 42 in - 1 seam x 1 in = 83 in side by side, for 80 in.\nBuy 3 1/2 yd (126 in).";
    assert_eq!(finding.help, help);
}

/// The same 3 1/2 yd: enough across, and not along, where a print with a way up must run.
#[rstest]
#[case::plain("no", "3 1/2 yd", &[])]
#[case::directional("yes", "3 1/2 yd", &["backing-short"])]
#[case::directional_enough("yes", "4 1/2 yd", &[])]
#[case::across_as_stated("yes", "{ fabric: 3 1/2 yd, panels_run: across }", &[])]
fn a_directional_print_runs_along_the_length(
    #[case] directional: &str,
    #[case] requires: &str,
    #[case] rules: &[&str],
) {
    assert_eq!(rules_of(&lap(&format!("usable_width: 42\ndirectional: {directional}"), requires)), rules);
}

#[rstest]
#[case::enough("{ fabric: 4 1/2 yd, panels: 2, panels_run: along }", 40, None)]
#[case::across(
    "{ fabric: 5 1/4 yd, panels: 2, panels_run: across }",
    40,
    Some(
        "2 panels stated; 3 needed across the width: sewn together, they are 79 in wide, and the backing must be 80 in, so 1 \
     in short. 2 panels along the length would cover it."
    )
)]
#[case::one(
    "{ fabric: 4 1/2 yd, panels: 1 }",
    40,
    Some("1 panel stated; 2 needed along the length: one is 40 in wide")
)]
#[case::none("{ fabric: 4 1/2 yd, panels: 0 }", 40, Some("0 panels stated; 2 needed along the length"))]
#[case::either_way("{ fabric: 4 1/2 yd, panels: 2 }", 40, None)]
#[case::alone("{ panels: 1 }", 61, Some("1 panel stated; 2 needed"))]
#[case::alone_and_enough("{ panels: 1 }", 62, None)]
fn panels_must_cover_the_backing(#[case] requires: &str, #[case] usable: u32, #[case] says: Option<&str>) {
    let text = lap(&format!("usable_width: {usable}"), requires);
    let Some(says) = says else {
        assert_silent(&text);
        return;
    };
    assert_eq!(rules_of(&text), ["backing-panels"]);
    let finding = one(&text, "backing-panels");
    assert_says(&finding, &[says]);
    assert_eq!(finding.at.at.text(&text).len(), 1);
    mended(&text, &finding);
}

#[test]
fn a_wider_seam_takes_more() {
    assert_silent(&lap("usable_width: 42\nseam: 2", "3 1/2 yd")); // 2 x 42 - 4 = 80
    assert_eq!(rules_of(&lap("usable_width: 42\nseam: 2 1/8", "3 1/2 yd")), ["backing-short"]);
}

#[test]
fn the_pattern_says_how_wide_its_fabric_is() {
    let text = lap("overhang: 4", "3 1/2 yd");
    assert_eq!(rules_of(&text), ["backing-short"]);
    assert_silent(&text.replace("sizes:", "assumes: { usable_width: 42 }\nsizes:"));
}

#[test]
fn a_house_has_its_own_overhang() {
    let text = lap("usable_width: 42", "3 1/4 yd"); // 117 in: enough for 58 x 76
    assert_eq!(of_rule(&text, "backing-short").len(), 1);
    assert!(of_rule_by(&text, "backing-short", &with_length("backing_overhang", "2 in")).is_empty());
}

/// 150 x 200 cm with 10 cm at each side: 170 x 220. 110 cm fabric with 1 cm seams: two panels 218 cm wide, so along:
/// 2 x 220; across would take three of 170.
#[rstest]
#[case("4.4 m", &[])]
#[case("4.3 m", &["backing-short"])]
#[case("4.5 m", &["backing-generous"])]
fn a_metric_backing(#[case] fabric: &str, #[case] rules: &[&str]) {
    let text = quilt("cm", "150 x 200", "overhang: 10\nseam: 1\nusable_width: 110", fabric);
    assert_eq!(rules_of(&text), rules);
    for finding in crate::desk::outcome(&text).findings {
        assert!(mended(&text, &finding).contains("4.4 m"));
    }
}

#[test]
fn a_metric_message_is_in_centimetres_and_metres() {
    let text = quilt("cm", "150 x 200", "overhang: 10\nseam: 1\nusable_width: 110", "4.3 m");
    let says = "4.3 m stated; 4.4 m needed: 2 panels along the length, each 220 cm long = 440 cm, so what is stated is 10 cm short. \
                No other way needs less: the other is 3 panels across the width, which take 510 cm.";
    assert_eq!(one(&text, "backing-short").message, says);
}

fn with_batting(method: &str, fabric: &str, batting: &str) -> String {
    lap(method, fabric) + &format!("batting:\n  requires:\n    lap: {batting}\n")
}

#[rstest]
#[case::same("overhang: 4", "3 1/2 yd", "62 x 80", &[])]
#[case::turned("overhang: 4", "3 1/2 yd", "80 x 62", &[])]
// 126 in are two panels of 63 in across, 83 in when they are sewn: more than the overhang asks for.
#[case::larger_than_the_overhang_and_carried("overhang: 4", "3 1/2 yd", "63 x 83", &[])]
#[case::wider_than_the_fabric("overhang: 4", "3 1/2 yd", "63 1/8 x 83", &["backing-smaller-than-batting"])]
#[case::longer_than_the_panels("overhang: 4", "3 1/2 yd", "63 x 83 1/8", &["backing-smaller-than-batting"])]
#[case::panels_and_an_overhang("overhang: 4", "{ panels: 2 }", "62 x 83", &[])]
#[case::panels_shorter_than_it("overhang: 4", "{ panels: 2 }", "62 1/8 x 80 1/8", &["backing-smaller-than-batting"])]
#[case::larger_and_carried("", "3 1/2 yd", "63 x 83", &[])]
#[case::not_carried("", "3 1/2 yd", "64 x 83", &["backing-smaller-than-batting"])]
#[case::too_long("", "3 1/2 yd", "62 x 84", &["backing-smaller-than-batting"])]
#[case::short_alone("overhang: 4", "3 yd", "62 x 80", &["backing-short"])]
#[case::short_of_both("", "3 yd", "66 x 84", &["backing-short", "backing-smaller-than-batting"])]
#[case::a_package_is_trimmed("overhang: 4", "3 1/2 yd", "packaged twin", &[])]
#[case::panels_alone("", "{ panels: 2 }", "66 x 83", &[])]
#[case::panels_that_do_not_cover_it("", "{ panels: 2 }", "84 x 84", &["backing-smaller-than-batting"])]
fn the_backing_is_no_smaller_than_the_batting(
    #[case] method: &str,
    #[case] fabric: &str,
    #[case] batting: &str,
    #[case] rules: &[&str],
) {
    let text = with_batting(&format!("usable_width: 42\n{method}").trim().replace("\n\n", "\n"), fabric, batting);
    assert_eq!(rules_of(&text), rules);
}

/// The backing is as large as the stated fabric makes it, and not only as large as the overhang asks for: 5 yd of 42 in
/// in two panels are 83 x 90 in.
#[rstest]
#[case::carried("76 x 90", true)]
#[case::to_the_thread("83 x 90", true)]
#[case::too_long("76 x 90 1/8", false)]
#[case::too_wide("83 1/8 x 90", false)]
fn a_batting_is_compared_with_what_the_fabric_gives(#[case] batting: &str, #[case] carried: bool) {
    let method = "usable_width: 42\noverhang: 4";
    let text = quilt("inch", "67 1/2 x 81", method, "{ fabric: 5 yd, panels: 2, panels_run: along }")
        + &format!("batting:\n  overhang: 4\n  requires: {{ lap: {batting} }}\n");
    if carried {
        assert_silent(&text);
        return;
    }
    let finding = one(&text, "backing-smaller-than-batting");
    assert_eq!(finding.at.at.text(&text), "5 yd");
    assert_says(&finding, &["5 yd (180 in) stated for the backing", "2 panels along the length give 83 x 90 in"]);
    assert!(finding.help.contains("or state a batting of 83 x 90 in at most"), "{}", finding.help);
}

/// 10 cm beyond 140 x 180 cm are 160 x 200; 4.2 m in two panels of 110 cm are 217.4 x 210 cm.
#[test]
fn a_metric_batting_is_compared_with_what_the_fabric_gives() {
    let text = |batting: &str| {
        quilt("cm", "140 x 180", "usable_width: 110\noverhang: 10", "{ fabric: 4.2 m, panels: 2, panels_run: along }")
            + &format!("batting:\n  overhang: 10\n  requires: {{ lap: {batting} }}\n")
    };
    assert_silent(&text("170 x 210"));
    assert_eq!(rules_of(&text("170 x 210.1")), ["backing-smaller-than-batting"]);
}

#[test]
fn a_batting_beyond_the_stated_overhang_is_told_where_the_number_is() {
    // The fabric does not cover 66 x 84: the fabric is to blame, and what carries both is advised.
    let text = with_batting("usable_width: 42\noverhang: 4", "3 1/2 yd", "66 x 84");
    let finding = one(&text, "backing-smaller-than-batting");
    assert_eq!(finding.at.at.text(&text), "3 1/2 yd");
    assert_says(
        &finding,
        &["3 1/2 yd (126 in) stated for the backing, which does not cover the batting of 66 x 84 in"],
    );
    assert!(finding.help.contains("or state a batting of 63 x 83 in at most"), "{}", finding.help);
    // Fabric that is less than the overhang asks for is no measure of a batting.
    let text = with_batting("usable_width: 42\noverhang: 4", "3 yd", "66 x 84");
    let finding = one(&text, "backing-smaller-than-batting");
    assert!(finding.help.contains("or state a batting of 62 x 80 in at most"), "{}", finding.help);
    // No fabric is stated, so the overhang says how long the panels are.
    let text = with_batting("usable_width: 42\noverhang: 4", "{ panels: 2 }", "63 x 81");
    let finding = one(&text, "backing-smaller-than-batting");
    assert_eq!(finding.at.at.text(&text), "63 x 81");
    assert_says(&finding, &["Batting of 63 x 81 in stated, and the backing with 4 in at each side is 62 x 80 in"]);
    assert!(finding.help.contains("State an overhang of 4 1/2 in for the backing"), "{}", finding.help);
}

#[rstest]
#[case::fabric("lap: 3 1/2 yd", "lap: 3 1/2 yf", "unreadable-quantity")]
#[case::panels("{ fabric: 3 1/2 yd }", "{ fabric: 1 yd, panels: two }", "unreadable-quantity")]
#[case::run("{ fabric: 3 1/2 yd }", "{ fabric: 1 yd, panels_run: down }", "unknown-word")]
#[case::nothing("{ fabric: 3 1/2 yd }", "{ panels_run: along }", "missing-entry")]
#[case::overhang("overhang: 4", "overhang: four", "unreadable-quantity")]
#[case::word("overhang: 4", "overlap: 4", "unknown-word")]
#[case::directional("overhang: 4", "directional: maybe", "unknown-word")]
fn what_cannot_be_read_is_told_once(#[case] right: &str, #[case] wrong: &str, #[case] rule: &str) {
    let text = if right.starts_with('{') {
        lap("overhang: 4\nusable_width: 42", "{ fabric: 3 1/2 yd }")
    } else {
        lap("overhang: 4\nusable_width: 42", "3 1/2 yd")
    };
    let text = text.replace(right, wrong);
    assert!(text.contains(wrong));
    assert_eq!(rules_of(&text), [rule]);
}

#[rstest]
#[case("seam: 20", "20")]
#[case("usable_width: 1", "1")]
fn seams_that_use_up_the_panels_are_told(#[case] method: &str, #[case] at: &str) {
    let text = lap(method, "3 1/2 yd");
    assert_eq!(rules_of(&text), ["out-of-range"]);
    let finding = one(&text, "out-of-range");
    assert_eq!(finding.at.at.text(&text), at);
    assert_says(&finding, &["joining two of them takes as much width as one adds"]);
}

/// Along the quilt two panels are wide enough for the batting and, of 4 m, each 200 cm long: 10 cm short of it. That
/// a batting turned across the quilt would fit helps nobody.
#[test]
fn the_batting_lies_as_the_quilt_does() {
    let text = quilt("cm", "140 x 180", "usable_width: 110", "{ fabric: 4.1 m, panels: 2, panels_run: along }")
        + "batting:\n  requires: { lap: 170 x 210 }\n";
    let finding = one(&text, "backing-smaller-than-batting");
    assert_says(&finding, &["4.1 m stated for the backing, which does not cover the batting of 170 x 210 cm"]);
    assert_silent(&text.replace("4.1 m", "4.2 m"));
    let text = text.replace("4.1 m", "4 m");
    let says = "Buy 4.2 m: 2 panels along the length, each 210 cm long = 420 cm, for the batting of 170 x 210 cm lies on it too.";
    assert!(one(&text, "backing-short").help.ends_with(says));
}
