//! How large the batting must be.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::quilt_math::rectangle::Rectangle;
use sparestrip::rule_book::Settings;

use crate::against_handbooks::length;

/// The printed overhang at each side, and the batting that the source prints for the quilt.
#[rstest]
// Log House Quilting, preparation: 3 in at each side.
#[case::log_house("60 x 80", "3", "66 x 86")]
// Sew Today Clean Tomorrow (2014), "Quilting maths part two": 2 in at each side.
#[case::sew_today("36 x 45", "2", "40 x 49")]
// Martingale / That Patchwork Place, "Corrections available".
#[case::martingale("45.5 x 54.5", "2.25", "50 x 59")]
// Sandy Bonsib, supply list.
#[case::sandy_bonsib("44.5 x 44.5", "2.75", "50 x 50")]
// Flower Patch pattern (Thimble Blossoms), printed requirements.
#[case::flower_patch("73.5 x 73.5", "3.25", "80 x 80")]
// Australian Homespun magazine, "Sparkle".
#[case::homespun_sparkle("84 x 84", "6", "96 x 96")]
// Cutie sampler, requirements.
#[case::cutie("90 x 90", "4", "98 x 98")]
fn printed_batting_is_the_quilt_and_its_overhang(#[case] quilt: &str, #[case] overhang: &str, #[case] printed: &str) {
    let sheet = |text: &str| {
        let (width, depth) = text.split_once(" x ").unwrap();
        Rectangle::new(length(width), length(depth))
    };
    assert_eq!(sheet(quilt).with_overhang(length(overhang)), sheet(printed));
    assert_eq!(rules_of(quilt, overhang, printed), Vec::<&str>::new());
    // A little less each way is short.
    let (width, depth) = printed.split_once(" x ").unwrap();
    assert_eq!(rules_of(quilt, overhang, &format!("{width} x {}", lowered(depth))), ["batting-short"]);
    assert_eq!(rules_of(quilt, overhang, &format!("{} x {depth}", lowered(width))), ["batting-short"]);
}

/// 1/64 in less than a whole number of inches.
fn lowered(inches: &str) -> String {
    format!("{} 63/64", inches.parse::<u32>().unwrap() - 1)
}

fn rules_of(quilt: &str, overhang: &str, batting: &str) -> Vec<&'static str> {
    let text = format!(
        "pattern: Two Piers\nmeasure: inch\nsizes:\n  one: {{ finished: {quilt} }}\nbatting:\n  overhang: {overhang}\n  \
         requires: {{ one: {batting} }}\n"
    );
    let outcome = check(&Source::from_text("two-piers.pattern.yaml", text), &Settings::default());
    outcome.findings.iter().map(|finding| finding.rule).collect()
}
