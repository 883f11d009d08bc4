//! How much backing, and in how many panels.

use rstest::rstest;
use sparestrip::check::{Outcome, check};
use sparestrip::manuscript::Source;
use sparestrip::manuscript::model::PanelsRun;
use sparestrip::quantity::{Count, Length, Yardage};
use sparestrip::quilt_math::backing::{Cloth, Panels, panels, sewn};
use sparestrip::quilt_math::rectangle::Rectangle;
use sparestrip::rule_book::Settings;

use crate::against_handbooks::length;

fn cloth(usable_width: &str) -> Cloth {
    Cloth { usable_width: length(usable_width), seam: length("1/2"), insert: Length::ZERO }
}

/// The way that needs the least fabric.
fn least(backing: Rectangle, cloth: Cloth) -> Panels {
    let ways = [PanelsRun::Along, PanelsRun::Across].map(|run| panels(run, backing, cloth).unwrap());
    if ways[0].fabric <= ways[1].fabric { ways[0] } else { ways[1] }
}

/// A quilt with so much more, both sides together, as the sources print the overage.
fn backing(width: &str, depth: &str, overage: &str) -> Rectangle {
    Rectangle::new(length(width), length(depth)).with_overhang(length(overage).half())
}

fn sold(fabric: Yardage) -> Length {
    fabric.up_to(Yardage(length("1/8 yd"))).0
}

#[rstest]
// Garden Gems pattern (Cotton + Joy), printed requirements; the overage is not printed, so 8 in is taken. The
// amounts are printed to the quarter yard.
#[case::garden_gems_crib("45", "45", "8", "40", 2, "106", "3 yd")]
#[case::garden_gems_queen_at_40("90", "105", "8", "40", 3, "294", "8 1/4 yd")]
#[case::garden_gems_queen_at_42("90", "105", "8", "42", 3, "294", "8 1/4 yd")]
#[case::garden_gems_king_at_40("105", "105", "8", "40", 3, "339", "9 1/2 yd")]
#[case::garden_gems_king_at_42("105", "105", "8", "42", 3, "339", "9 1/2 yd")]
// Martingale / That Patchwork Place, "Corrections available": batting 4 1/2 in larger, and so the backing.
#[case::martingale("45.5", "54.5", "4.5", "42", 2, "100", "3 yd")]
// Australian Homespun magazine, "Measure twice, cut once" and "Atelier".
#[case::homespun_measure_twice("59.5", "57.5", "6.5", "42", 2, "128", "3 5/8 yd")]
#[case::homespun_atelier("70.5", "70.5", "7.5", "42", 2, "156", "4 3/8 yd")]
// Quilting Board, post 7400852-21: a backing of 65 x 78 is printed as 2 x 65 = 130 in, 3 5/8 yd.
#[case::quilting_board_7400852("65", "78", "0", "42", 2, "130", "3 5/8 yd")]
// A copied question-and-answer page (teacherscollegesj.org): a backing of 103 x 110 from 108 in fabric, 3.05 yd.
#[case::wide_fabric("103", "110", "0", "108", 1, "110", "3 1/8 yd")]
fn printed_yardage_is_what_the_panels_take(
    #[case] width: &str,
    #[case] depth: &str,
    #[case] overage: &str,
    #[case] usable: &str,
    #[case] count: u64,
    #[case] taken: &str,
    #[case] printed: &str,
) {
    let least = least(backing(width, depth, overage), cloth(usable));
    assert_eq!(least.count, Count(count));
    assert_eq!(least.fabric.0, length(taken));
    assert!(sold(least.fabric) <= length(printed), "{printed} is not enough");
    assert!(
        length(printed) - sold(least.fabric) <= length("1/8 yd"),
        "{printed} is more than a quarter yard step asks"
    );
}

/// The other way round the same post prints 2 x 78 = 156 in, 4 1/3 yd.
#[test]
fn the_same_backing_takes_more_the_other_way() {
    let along = panels(PanelsRun::Along, backing("65", "78", "0"), cloth("42")).unwrap();
    assert_eq!((along.count, along.fabric.0), (Count(2), length("156")));
    assert_eq!(length("156"), length("4 1/3 yd"));
}

/// American Patchwork & Quilting, August 2019 p. 96: three rectangles of 34 x 91 with 1/2 in seams make 91 x 100.
#[test]
fn two_seams_take_two_inches() {
    assert_eq!(sewn(Count(3), cloth("34")), length("100"));
}

/// Homespun prints 3.3 m beside 3 5/8 yd, and 4 m beside 4 3/8 yd: each half is enough by itself.
#[rstest]
#[case("59.5", "57.5", "6.5", "3.3 m", "3 5/8 yd")]
#[case("70.5", "70.5", "7.5", "4 m", "4 3/8 yd")]
fn both_halves_of_a_printed_pair_are_enough(
    #[case] width: &str,
    #[case] depth: &str,
    #[case] overage: &str,
    #[case] metres: &str,
    #[case] yards: &str,
) {
    let least = least(backing(width, depth, overage), cloth("42"));
    for half in [metres, yards] {
        assert!(length(half) >= least.fabric.0, "{half}");
    }
}

fn checked(finished: &str, backing: &str, batting: &str) -> (String, Outcome) {
    let text = format!(
        "pattern: Two Piers\nmeasure: inch\nsizes:\n  queen: {{ finished: {finished} }}\nbacking:\n  {backing}\n{batting}"
    );
    let outcome = check(&Source::from_text("two-piers.pattern.yaml", text.as_str()), &Settings::default());
    (text, outcome)
}

/// What is found, each as its rule and the place it points at.
fn told(text: &str, outcome: &Outcome) -> Vec<(&'static str, String)> {
    outcome.findings.iter().map(|finding| (finding.rule, finding.at.at.text(text).to_string())).collect()
}

/// Australian Homespun magazine, "Sparkle": a quilt of 84 x 84 with a batting of 96 x 96 and 2.2 m (2 1/2 yd) of extra
/// wide backing. 2.2 m is 86.6 in and 2 1/2 yd is 90 in: the backing is shorter than the batting.
#[test]
fn the_published_slip_is_caught() {
    let batting = "batting:\n  requires: { queen: 96 x 96 }\n";
    let (text, outcome) = checked("84 x 84", "usable_width: 108\n  requires: { queen: 2.2 m (2 1/2 yd) }", batting);
    let place = "2.2 m (2 1/2 yd)".to_string();
    assert_eq!(told(&text, &outcome), [("backing-short", place.clone()), ("backing-smaller-than-batting", place)]);
    let smaller = &outcome.findings[1];
    assert!(smaller.message.starts_with("2 1/2 yd (2.2 m) stated for the backing"), "{}", smaller.message);
    assert!(smaller.message.contains("96 x 96 in"), "{}", smaller.message);
    // With the usual overhang and no more, the fabric is still short of the batting: that alone is told then.
    let (text, outcome) = checked("84 x 84", "usable_width: 108\n  requires: { queen: 2 5/8 yd }", batting);
    assert_eq!(told(&text, &outcome), [("backing-smaller-than-batting", "2 5/8 yd".to_string())]);
    // 2 3/4 yd, 99 in, carries it.
    let (text, outcome) = checked("84 x 84", "usable_width: 108\n  requires: { queen: 2 3/4 yd }", batting);
    assert_eq!(told(&text, &outcome), []);
}

/// The same slip where the pattern does say how far the backing reaches.
#[test]
fn the_published_slip_is_caught_with_an_overhang_too() {
    let batting = "batting:\n  overhang: 6\n  requires: { queen: 96 x 96 }\n";
    let backing = "overhang: 1\n  usable_width: 108\n  requires: { queen: 2.2 m (2 1/2 yd) }";
    let (text, outcome) = checked("84 x 84", backing, batting);
    assert_eq!(told(&text, &outcome), [("backing-smaller-than-batting", "2.2 m (2 1/2 yd)".to_string())]);
    let finding = &outcome.findings[0];
    assert!(finding.message.contains("does not cover the batting of 96 x 96 in"), "{}", finding.message);
}

/// Patterns assume 40 in of usable width (`QUILTsocial`) or 42 in (Better Homes and Gardens Quilts Stylebook). A throw
/// of 54 x 72 with 4 in at each side is 62 x 80: at 42 in two panels across cover it, at 40 in they are 79 in wide.
#[rstest]
#[case("42", &[])]
#[case("40 1/2", &[])] // 2 x 40 1/2 - 1 = 80, to the thread
#[case("40 31/64", &["backing-short"])]
#[case("40", &["backing-short"])]
fn what_holds_at_42_fails_at_40(#[case] usable: &str, #[case] rules: &[&str]) {
    let backing = format!("overhang: 4\n  usable_width: {usable}\n  requires: {{ queen: 3 1/2 yd }}");
    let (_, outcome) = checked("54 x 72", &backing, "");
    let found: Vec<&str> = outcome.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(found, rules);
}
