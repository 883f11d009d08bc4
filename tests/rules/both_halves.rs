//! A finding about an amount that is stated in two units tells both halves, that of the manuscript's own measure first.

use rstest::rstest;

use crate::desk::{assert_says, centimetres, inches, one};

/// 9 strips x 2 1/2 in = 22 1/2 in or 57.15 cm; with 1/2 in for squaring up 23 in or 58.42 cm, sold as 3/4 yd or 60 cm.
#[rstest]
#[case(
    "1/2 yd (40 cm)",
    "binding-fabric-short",
    "1/2 yd (40 cm) stated; 3/4 yd (60 cm) needed: ",
    "so 1/2 yd is 4 1/2 in short, and 40 cm is 17.2 cm short."
)]
#[case(
    "40 cm (1/2 yd)",
    "binding-fabric-short",
    "1/2 yd (40 cm) stated; 3/4 yd (60 cm) needed: ",
    "so 1/2 yd is 4 1/2 in short"
)]
#[case(
    "3/4 yd (55 cm)",
    "pair-disagrees",
    "3/4 yd (55 cm) stated: 9 strips x 2 1/2 in = 22 1/2 in, ",
    "so 3/4 yd is enough, and 55 cm is 2.2 cm short."
)]
#[case(
    "3/4 yd (85 cm)",
    "pair-disagrees",
    "3/4 yd (85 cm) stated: both are enough, but they differ by 6 1/2 in (16.5 cm), ",
    ""
)]
#[case(
    "5/8 yd (60 cm)",
    "no-squaring-room",
    "5/8 yd (60 cm) stated; 3/4 yd (60 cm) needed: ",
    "and of 5/8 yd nothing is left for squaring up the cut edge, which takes 1/2 in (1.3 cm)."
)]
#[case(
    "5/8 yd (58 cm)",
    "no-squaring-room",
    "and of 5/8 yd nothing and of 58 cm only 0.8 cm is left for squaring up",
    ""
)]
#[case(
    "1 yd (90 cm)",
    "binding-fabric-generous",
    "1 yd (90 cm) stated; 3/4 yd (60 cm) is enough: ",
    "The reader buys 1/4 yd (30 cm) more than is needed."
)]
fn both_halves_of_binding_fabric_are_told(
    #[case] fabric: &str,
    #[case] rule: &str,
    #[case] says: &str,
    #[case] and: &str,
) {
    let text = inches("60 x 76", "strip_width: 2 1/2", &format!("strips: 9, fabric: {fabric}"));
    assert_says(&one(&text, rule), &[says, and]);
}

/// 7 strips x 6.5 cm = 45.5 cm. The metric half stands first, whichever is written first.
#[rstest]
#[case("40 cm (3/8 yd)")]
#[case("3/8 yd (40 cm)")]
fn the_metric_half_stands_first_in_a_metric_manuscript(#[case] fabric: &str) {
    let binding = "strip_width: 6.5\nseam: 0.7\ntails: 25\nopening: 30\nusable_width: 102";
    let text = centimetres("100 x 160", binding, &format!("strips: 7, fabric: {fabric}"));
    let finding = one(&text, "binding-fabric-short");
    assert_says(
        &finding,
        &["40 cm (3/8 yd) stated; 50 cm (5/8 yd) needed: ", "so 40 cm is 5.5 cm short, and 3/8 yd is "],
    );
    assert_eq!(
        finding.correction.map(|correction| correction.apply(&text).contains("50 cm (5/8 yd)")),
        Some(fabric.starts_with("40"))
    );
}

const LAYERS: &str = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 60 x 76 }\n";

/// 68 x 84 in takes two panels of 84 in: 168 in or 426.72 cm, sold as 4 3/4 yd or 430 cm.
#[rstest]
#[case("4 yd (370 cm)", "backing-short", &["4 yd (370 cm) stated; 4 3/4 yd (430 cm) needed: ", "so 4 yd is 24 in short, and 370 cm is 56.8 cm short."])]
#[case("6 yd (550 cm)", "backing-generous", &["6 yd (550 cm) stated; 4 3/4 yd (430 cm) is enough: ", "The reader buys 1 1/4 yd (120 cm) more"])]
#[case("4 3/4 yd (4 m)", "pair-disagrees", &["4 3/4 yd (4 m) stated: 2 panels along the length, each 84 in long = 168 in, ", "and 4 m is 26.8 cm short."])]
fn both_halves_of_a_backing_are_told(#[case] fabric: &str, #[case] rule: &str, #[case] says: &[&str]) {
    let text = format!("{LAYERS}backing: {{ requires: {{ lap: {{ fabric: {fabric} }} }} }}\n");
    assert_says(&one(&text, rule), says);
}

/// A square of 27 in; with 1/2 in for squaring up 7/8 yd or 70 cm.
#[rstest]
#[case("5/8 yd (60 cm)", "bias-short", &["5/8 yd (60 cm) stated; 7/8 yd (70 cm) needed: ", "so 5/8 yd is 4 1/2 in short, and 60 cm is 8.6 cm short."])]
#[case("3/4 yd (70 cm)", "no-squaring-room", &["3/4 yd (70 cm) stated; 7/8 yd (70 cm) needed: ", "of 3/4 yd nothing is left"])]
fn both_halves_of_fabric_for_a_bias_square_are_told(#[case] fabric: &str, #[case] rule: &str, #[case] says: &[&str]) {
    let text = inches("60 x 76", "strip_width: 2 1/4\ngrain: bias", &format!("square: 27, fabric: {fabric}"));
    assert_says(&one(&text, rule), says);
}

/// Two sizes that state the same pair, and of which one needs more.
#[test]
fn both_halves_are_told_where_sizes_are_out_of_order() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 40 x 50 }\n  twin: { finished: 60 x 76 }\n\
                binding:\n  strip_width: 2 1/2\n  requires:\n    lap: { strips: 7, fabric: 3/4 yd (65 cm) }\n    twin: { strips: \
                9, fabric: 3/4 yd (60 cm) }\n";
    let finding = one(text, "sizes-out-of-order");
    assert_says(&finding, &["3/4 yd (60 cm) stated for twin"]);
}
