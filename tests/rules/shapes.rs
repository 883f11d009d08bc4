//! Shapes that are cut from strips, and templates by their boxes.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, one, outcome, rules_of, told};

/// A manuscript with one fabric: what it states, and its pieces.
fn ink(fabric: &str, cuts: &[&str]) -> String {
    let cuts: String = cuts.iter().map(|cut| format!("      - {{ {cut} }}\n")).collect();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 56 x 72 }}\nfabrics:\n  ink:\n    {fabric}\n    \
         cut:\n{cuts}"
    )
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

// What is needed is the trade's formula on paper, at a seam of 1/4 in and 40 in of usable width:
// a triangle of 4 in is cut 4 + 0.866 = 4.866 in along a side from strips of 3.464 + 0.75 = 4.214 in, and 2 x 40 / 4.866 - 1
// is 15; a hexagon of 3 in from strips of 5.696 in, 2 x 3 + 0.577 = 6.577 in point to point: 6; a half hexagon from strips
// of 3.098 in: long edge 6.866, short edge 3.289, 6.866 + 5.077 n <= 40: 7; a 60-degree diamond of 3 in from strips of
// 3.098 in, 3.577 in apart after 1.789 in: 10; a 45-degree diamond from strips of 2.621 in, 3.707 in apart after 2.621 in:
// 10; a half triangle of 4 in is 2.683 in at its base, two of them make 2.933 in: 13 pairs are
// 38.13 in, 26 pieces; a parallelogram of 6 x 3 in at 60
// degrees from strips of 3 1/2 in, 6.577 in apart after 2.021 in: 5; a trapezoid of 6 x 2 in from strips of 2 1/2 in: edges
// of 6.866 and 3.979 in, 5.423 in apart: 7.
const SHAPES: [(&str, u64, &str); 8] = [
    ("shape: triangle_60, size: 4", 15, "4 1/4"),
    ("shape: half_triangle_60, size: 4", 26, "4 1/4"),
    ("shape: hexagon, size: 3", 6, "5 3/4"),
    ("shape: half_hexagon, size: 3", 7, "3 1/8"),
    ("shape: diamond_60, size: 3", 10, "3 1/8"),
    ("shape: diamond_45, size: 3", 10, "2 5/8"),
    ("shape: parallelogram, size: 6 x 3, angle: 60", 5, "3 1/2"),
    ("shape: trapezoid, size: 6 x 2, angle: 60", 7, "2 1/2"),
];

/// Four full strips give four times as many, and no more: five are needed for one piece more.
#[test]
fn strips_for_shapes_are_counted() {
    for (shape, each, width) in SHAPES {
        let text = |pieces: u64, strips: u64| {
            let cut = format!(
                "piece: T, {shape}, strip_width: {width}, strips: {{ lap: {strips} }}, pieces: {{ lap: {pieces} }}"
            );
            ink("requires: { lap: 1 yd }", &[&cut])
        };
        let short = |pieces, strips| rules_of(&text(pieces, strips)).contains(&"strips-short");
        assert!(!short(4 * each, 4), "{shape}: {}", told(&text(4 * each, 4), &outcome(&text(4 * each, 4))).join("\n"));
        assert!(short(4 * each + 1, 4), "{shape}");
        assert!(!short(4 * each + 1, 5), "{shape}");
        let finding = one(&text(4 * each + 1, 4), "strips-short");
        assert_eq!((finding.at.at.text(&text(4 * each + 1, 4)), finding.level), ("4", Level::Error));
    }
}

/// Where the text leaves the strips open, so many are planned: 61 triangles take five strips of 4.214 in, 21 1/16 in.
#[rstest]
#[case::enough("triangle_60, size: 4", 61, "5/8 yd", &[])]
#[case::short("triangle_60, size: 4", 61, "1/2 yd", &["fabric-short"])]
#[case::four_strips("triangle_60, size: 4", 60, "1/2 yd", &[])]
// Five strips of 5.696 in are 28 1/2 in.
#[case::hexagons("hexagon, size: 3", 30, "7/8 yd", &[])]
#[case::hexagons_short("hexagon, size: 3", 30, "3/4 yd", &["fabric-short"])]
#[case::hexagons_by_height("hexagon, height: 2 3/4", 7, "1/4 yd", &[])]
// With the print one way up 8 come of a strip: 4.866 in each.
#[case::parallelogram("parallelogram, size: 6 x 3, angle: 45", 5, "1/8 yd", &[])]
fn fabric_for_shapes_is_checked(
    #[case] shape: &str,
    #[case] pieces: u64,
    #[case] amount: &str,
    #[case] rules: &[&str],
) {
    let cut = format!("piece: T, shape: {shape}, pieces: {{ lap: {pieces} }}");
    let text = ink(&format!("requires: {{ lap: {amount} }}"), &[&cut]);
    let found: Vec<&str> =
        rules_of(&text).into_iter().filter(|rule| !matches!(*rule, "no-squaring-room" | "fabric-generous")).collect();
    assert_eq!(found, rules, "{:#?}\n{text}", told(&text, &outcome(&text)));
}

/// A print with a way up is not turned: eight triangles of 4.866 in come of a strip, and not fifteen.
#[test]
fn shapes_are_not_turned_where_the_print_has_a_way_up() {
    let cut = "piece: T, shape: triangle_60, size: 4, strips: { lap: 4 }, pieces: { lap: 33 }";
    let text = ink("directional: yes\n    requires: { lap: 1 yd }", &[cut]);
    assert_says(&one(&text, "strips-short"), &["5 needed", "each strip gives 8"]);
    let enough = cut.replace("33", "32");
    assert_rules(&ink("directional: yes\n    requires: { lap: 1/2 yd }", &[&enough]), &[]);
}

/// Strips that are too narrow are blamed at their width.
#[rstest]
#[case::hexagon("hexagon, size: 3, strip_width: 5 5/8", "5 5/8", "5 45/64 in")]
#[case::half_hexagon("half_hexagon, size: 3, strip_width: 2 3/4", "2 3/4", "3 7/64 in")]
#[case::triangle("triangle_60, size: 4, strip_width: 4", "4", "4 7/32 in")]
#[case::trapezoid("trapezoid, size: 6 x 2, angle: 45, strip_width: 2", "2", "2 1/2 in")]
fn strips_that_are_too_narrow_are_found(#[case] shape: &str, #[case] at: &str, #[case] needed: &str) {
    let cut = format!("piece: T, shape: {shape}, pieces: {{ lap: 6 }}");
    let text = ink("requires: { lap: 1 yd }", &[&cut]);
    let finding = one(&text, "piece-longer-than-strip");
    assert_eq!((finding.at.at.text(&text), finding.level), (at, Level::Error));
    assert_says(&finding, &[&format!("cut from strips {needed} wide")]);
}

/// With the tips cut off at the seam strips of the height and two seams are enough, and no narrower ones.
#[rstest]
#[case::sharp("", "4", false)]
#[case::blunt(", tips: blunt", "4", true)]
#[case::blunt_too_narrow(", tips: blunt", "3 7/8", false)]
#[case::half(", tips: blunt", "4", true)]
fn tips_may_be_cut_off(#[case] tips: &str, #[case] width: &str, #[case] is_right: bool) {
    let cut = format!("piece: T, shape: triangle_60, size: 4, strip_width: {width}{tips}, pieces: {{ lap: 6 }}");
    let text = ink("requires: { lap: 1/4 yd }", &[&cut]);
    assert_eq!(!rules_of(&text).contains(&"piece-longer-than-strip"), is_right, "{:#?}", told(&text, &outcome(&text)));
}

/// A template is taken as the box that holds it: enough by boxes is right, and less is asked about and is no error.
#[rstest]
// 5 x 4 in boxes: 8 or 10 to a strip; 40 from 5 strips of 4 in, in any case from 20 in.
#[case::enough("requires: { lap: 5/8 yd }", "pieces: { lap: 40 }", &[])]
#[case::less("requires: { lap: 1/2 yd }", "pieces: { lap: 40 }", &[("fabric-tight", Level::Query)])]
#[case::much_less("requires: { lap: 1/8 yd }", "pieces: { lap: 40 }", &[("fabric-tight", Level::Query)])]
#[case::strips("requires: { lap: 5/8 yd }", "strip_width: 4, strips: { lap: 4 }, pieces: { lap: 40 }", &[("strips-short", Level::Query)])]
#[case::too_large("requires: { lap: 5/8 yd }", "strip_width: 3, pieces: { lap: 40 }", &[("piece-longer-than-strip", Level::Query)])]
#[case::fat_quarters("sold_as: fat_quarters\n    requires: { lap: 1 }", "pieces: { lap: 40 }", &[("fabric-tight", Level::Query)])]
#[case::fat_quarters_enough("sold_as: fat_quarters\n    requires: { lap: 3 }", "pieces: { lap: 40 }", &[])]
fn templates_are_judged_by_their_boxes(#[case] fabric: &str, #[case] counts: &str, #[case] rules: &[(&str, Level)]) {
    let text = ink(fabric, &[&format!("piece: T, shape: template, size: 5 x 4, {counts}")]);
    let found: Vec<(&str, Level)> = outcome(&text)
        .findings
        .iter()
        .filter(|finding| !matches!(finding.rule, "no-squaring-room" | "fabric-generous"))
        .map(|finding| (finding.rule, finding.level))
        .collect();
    assert_eq!(found, rules, "{:#?}\n{text}", told(&text, &outcome(&text)));
}

/// What cannot be is said at its place.
#[rstest]
#[case::no_size("shape: hexagon", "missing-entry", "T")]
#[case::two_sides("shape: hexagon, size: 3 x 4", "out-of-range", "3 x 4")]
#[case::one_side("shape: trapezoid, angle: 60, size: 3", "out-of-range", "3")]
#[case::no_angle("shape: trapezoid, size: 6 x 2", "missing-entry", "T")]
#[case::no_shape("size: 3", "unreadable-quantity", "")]
#[case::twice("shape: hexagon, size: 3, height: 4", "out-of-range", "4")]
#[case::meeting_sides("shape: trapezoid, angle: 45, size: 6 x 3", "out-of-range", "6 x 3")]
#[case::angle_of_a_hexagon("shape: hexagon, size: 3, angle: 60", "unknown-word", "angle")]
#[case::height_of_a_rectangle("size: 3 x 3, height: 3", "unknown-word", "height")]
#[case::box_with_one_side("shape: template, size: 3", "unreadable-quantity", "")]
#[case::joined("shape: hexagon, size: 3, joined: straight", "out-of-range", "straight")]
#[case::no_such_shape("shape: circle, size: 3", "unknown-word", "circle")]
fn what_cannot_be_is_said(#[case] shape: &str, #[case] rule: &str, #[case] at: &str) {
    let text = ink("requires: { lap: 1/4 yd }", &[&format!("piece: T, {shape}, pieces: {{ lap: 6 }}")]);
    let found: Vec<_> = outcome(&text)
        .findings
        .into_iter()
        .filter(|finding| !matches!(finding.rule, "fabric-generous" | "no-squaring-room"))
        .collect();
    let said = found.iter().any(|finding| finding.rule == rule && (at == "T" || finding.at.at.text(&text) == at));
    assert!(said && found.len() == 1, "{:#?}\n{text}", told(&text, &outcome(&text)));
}

/// Shapes of several measures for the sizes, of several fabrics, from fat quarters, in metric.
#[test]
fn right_patterns_with_shapes_are_silent() {
    let fat = ink(
        "sold_as: fat_quarters\n    requires: { lap: 2 }",
        // Six strips of 3 in are 18 in: five diamonds each.
        &["piece: D, shape: diamond_60, height: 2 1/2, pieces: { lap: 60 }"],
    );
    assert_rules(&fat, &[]);
    let shared = ink(
        "different: 4\n    requires: { lap: 1/4 yd each }",
        &["piece: T, shape: triangle_60, size: 4, pieces_from_each: { lap: 30 }"],
    );
    assert_rules(&shared, &[]);
    let sizes = "pattern: Test Harbour\nmeasure: cm\nsizes:\n  lap: { finished: 140 x 180 }\n  bed: { finished: 180 x 220 }\n\
                 fabrics:\n  ink:\n    requires: { lap: 0.6 m, bed: 0.9 m }\n    cut:\n      - piece: T\n        shape: hexagon\n        \
                 size: { lap: 6 cm, bed: 7 cm }\n        pieces: { lap: 35, bed: 35 }\n";
    assert_rules(sizes, &[]);
}

/// Several shapes that may share strips are not called short without a proof, and not passed over.
#[test]
fn shapes_that_may_share_strips_are_asked_about() {
    let cuts = [
        "piece: T, shape: triangle_60, size: 4, pieces: { lap: 46 }",
        "piece: E, shape: half_triangle_60, size: 4, pieces: { lap: 2 }",
    ];
    // Four strips and one for the halves; two halves may come of the ends of the others.
    assert_rules(&ink("requires: { lap: 5/8 yd }", &cuts), &[]);
    assert_rules(&ink("requires: { lap: 1/2 yd }", &cuts), &["fabric-tight"]);
    assert_rules(&ink("requires: { lap: 3/8 yd }", &cuts), &["fabric-short"]);
}
