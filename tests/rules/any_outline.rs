//! Whatever stands in an outline is read, or told as a mistake; nothing panics and no sum overflows.

use proptest::prelude::*;

use crate::desk::{inches, outcome};

/// The smallest and the largest lengths that a manuscript may state, and what lies between and beyond.
fn length() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("1/64".to_string()),
        Just("0.0001".to_string()),
        Just("0.0001 mm".to_string()),
        Just("2000".to_string()),
        Just("1999 63/64".to_string()),
        Just("50.8 m".to_string()),
        Just("2001".to_string()),
        Just("0".to_string()),
        Just("-4".to_string()),
        Just(String::new()),
        (1..2000_u32).prop_map(|whole| whole.to_string()),
        (1..60_u32, 1..64_u32).prop_map(|(whole, top)| format!("{whole} {top}/64")),
        "[a-z0-9 /.½-]{0,8}",
    ]
}

fn count() -> impl Strategy<Value = String> {
    prop_oneof![
        (0..120_u32).prop_map(|count| count.to_string()),
        Just("100000".to_string()),
        Just("99999999999999999999".to_string()),
        Just("-1".to_string()),
        "[a-z]{0,3}"
    ]
}

fn outline() -> impl Strategy<Value = String> {
    let point = (length(), length()).prop_map(|(across, down)| format!("{across} x {down}"));
    let entry = prop_oneof![
        length().prop_map(|clip| format!("clipped: {clip}")),
        count().prop_map(|sides| format!("sides: {sides}")),
        length().prop_map(|side| format!("side: {side}")),
        count().prop_map(|across| format!("scallops_across: {across}")),
        count().prop_map(|down| format!("scallops_down: {down}")),
        length().prop_map(|depth| format!("depth: {depth}")),
        prop::collection::vec(point, 0..110).prop_map(|points| format!("points: [{}]", points.join(", "))),
        "[a-z]{1,8}: [a-z0-9]{0,4}",
    ];
    prop_oneof![
        Just("circle".to_string()),
        Just("rectangle".to_string()),
        "[a-z{}\\[\\],: 0-9x]{0,20}",
        prop::collection::vec(entry, 0..4).prop_map(|entries| format!("{{ {} }}", entries.join(", "))),
        (length(), count()).prop_map(|(side, sides)| format!("{{ sides: {sides}, side: {side} }}")),
        (count(), count(), length()).prop_map(|(across, down, depth)| {
            format!("{{ scallops_across: {across}, scallops_down: {down}, depth: {depth} }}")
        }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn any_outline_is_read_or_told(
        width in length(),
        depth in length(),
        round in any::<bool>(),
        outline in outline(),
        strip_width in length(),
        grain in prop::sample::select(vec!["bias", "crosswise", "lengthwise"]),
        numbers in (length(), count(), length(), length()),
    ) {
        let depth = if round { width.clone() } else { depth };
        let (square, strips, fabric, strip_length) = numbers;
        let text = inches(
            &format!("{width} x {depth}, outline: {outline}"),
            &format!("strip_width: {strip_width}\ngrain: {grain}\nstrip_length: {strip_length}"),
            &format!("strips: {strips}, fabric: {fabric}, square: {square}"),
        );
        for finding in outcome(&text).findings {
            prop_assert!(text.get(finding.at.at.start..finding.at.at.end).is_some());
            prop_assert!(!finding.message.is_empty());
        }
    }
}

/// The largest of everything at once, and the smallest: each is computed, and none overflows.
#[test]
fn the_largest_and_the_smallest() {
    let most = "2000 x 2000";
    let zigzag: Vec<&str> = (0..100).map(|index| ["0 x 0", "2000 x 2000", "2000 x 0", "0 x 2000"][index % 4]).collect();
    let outlines = [
        (most, "circle".to_string()),
        (most, "{ clipped: 999 63/64 }".to_string()),
        (most, "{ sides: 100, side: 80 }".to_string()),
        (most, "{ scallops_across: 100, scallops_down: 100, depth: 10 }".to_string()),
        (most, "{ scallops_across: 1, scallops_down: 1, depth: 0.0001 }".to_string()),
        (most, "{ scallops_across: 1, scallops_down: 1, depth: 1000 }".to_string()),
        (most, format!("{{ points: [{}] }}", zigzag.join(", "))),
        ("1/64 x 1/64", "circle".to_string()),
        ("1/64 x 1/64", "{ clipped: 0.0001 }".to_string()),
        ("1/64 x 1/64", "{ sides: 4, side: 1/64 }".to_string()),
        ("1/64 x 1/64", "{ scallops_across: 100, scallops_down: 100, depth: 0.0001 mm }".to_string()),
    ];
    for (finished, outline) in outlines {
        for (strip_width, usable) in [("1/64", "1/64"), ("1/64", "2000"), ("2000", "1/64"), ("2000", "2000")] {
            for (requires, rules) in [
                ("square: 1/64", ["square-too-small"]),
                ("strips: 1, strip_length: 0.0001", ["bias-short"]),
                ("fabric: 1/64 in", ["bias-short"]),
            ] {
                let lines = format!("strip_width: {strip_width}\ngrain: bias\nusable_width: {usable}");
                let text = inches(&format!("{finished}, outline: {outline}"), &lines, requires);
                let found: Vec<&str> = outcome(&text).findings.iter().map(|finding| finding.rule).collect();
                assert!(rules.iter().all(|rule| found.contains(rule)), "{found:?} in:\n{text}");
            }
        }
    }
}
