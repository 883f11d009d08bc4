//! Blocks on point with sashing around them, sashes that are sewn from units, and borders whose sides differ.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, one, outcome, rules_of, told};

/// Blocks of 9 1/2 in with sashing of 2 in, 2 across and 3 down, with the pieces that they take.
fn on_point(finished: &str, edge: &str, sides: &str, corners: &str, counts: (u64, u64)) -> String {
    let (sashes, stones) = counts;
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: {finished} }}\nunits:\n  nine: {{ make: patch, \
         finished: 9 1/2 }}\n  side: {{ make: side_triangle, finished: {sides} }}\n  tip: {{ make: corner_triangle, \
         finished: {corners} }}\nblocks:\n  nine: {{ finished: 9 1/2, rows: [[nine]] }}\nlayout:\n  lap:\n    set: \
         on_point\n    across: 2\n    down: 3\n    blocks: nine\n    sashing: 2\n    sashing_round: yes\n    cornerstones: \
         yes\n    {edge}\n    sash: sash\n    cornerstone: stone\n    side_triangles: side\n    corner_triangles: tip\nfabrics:\n  \
         clay:\n    requires: {{ lap: 3 yd }}\n    cut:\n      - {{ piece: sash, size: 2 1/2 x 10, pieces: {{ lap: {sashes} }} }}\n      \
         - {{ piece: stone, size: 2 1/2 x 2 1/2, pieces: {{ lap: {stones} }} }}\n"
    )
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    let ours = |rule: &&str| !["fabric-generous"].contains(rule);
    let found: Vec<&str> = rules_of(text).into_iter().filter(ours).collect();
    assert_eq!(found, rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Whole squares at the edge: (2 x 11 1/2 + 2) and (3 x 11 1/2 + 2) in, times the root of two, are 35.355 and 51.619 in;
/// cut in half by it, 32.527 and 48.790 in. Counted on a drawing: 8 blocks, 24 sashes and 17 squares. The triangles of a
/// block of 9 1/2 in with sashing of 2 in are made for 11 1/2 in ("Diagonal set quilts with sashing", a published rule:
/// add the sashing to the block), the corners for two sashes more.
#[rstest]
#[case::whole("35 3/8 x 51 5/8", "edge_squares: whole", "11 1/2", "13 1/2", (24, 17), &[])]
#[case::halves("32 1/2 x 48 3/4", "edge_squares: halves", "9 1/2", "9 1/2", (24, 17), &[])]
#[case::other_edge("32 1/2 x 48 3/4", "edge_squares: whole", "11 1/2", "13 1/2", (24, 17), &["finished-size-wrong"])]
#[case::triangles_of_the_block("35 3/8 x 51 5/8", "edge_squares: whole", "9 1/2", "13 1/2", (24, 17), &["block-does-not-sum"])]
#[case::corners_of_one_sash("35 3/8 x 51 5/8", "edge_squares: whole", "11 1/2", "11 1/2", (24, 17), &["block-does-not-sum"])]
#[case::a_sash_short("35 3/8 x 51 5/8", "edge_squares: whole", "11 1/2", "13 1/2", (23, 17), &["pieces-short"])]
#[case::a_square_short("35 3/8 x 51 5/8", "edge_squares: whole", "11 1/2", "13 1/2", (24, 16), &["pieces-short"])]
#[case::not_said("20 x 20", "", "9 1/2", "9 1/2", (24, 17), &["not-checked"])]
fn blocks_on_point_with_sashing(
    #[case] finished: &str,
    #[case] edge: &str,
    #[case] sides: &str,
    #[case] corners: &str,
    #[case] counts: (u64, u64),
    #[case] rules: &[&str],
) {
    let text = on_point(finished, edge, sides, corners, counts);
    assert_rules(&text, rules);
}

#[test]
fn the_size_is_worked_out_with_the_sashing() {
    let text = on_point("36 x 52", "edge_squares: whole", "11 1/2", "13 1/2", (24, 17));
    let finding = one(&text, "finished-size-wrong");
    let working = "Width: 2 blocks x (9 1/2 in + 2 in) + 2 in = 25 in; on point, 1.4142 times as wide: 35.355 in.";
    assert!(finding.help.contains(working), "{}", finding.help);
}

/// A quilt of 24 x 30 in with a border of which each side is a piece by itself.
fn bordered(finished: &str, width: &str, pieces: [&str; 3], corner: &str) -> String {
    let [sides, top, bottom] = pieces;
    let (corners, stone, piece) = match corner {
        "" => ("butted", "", String::new()),
        size => (
            "cornerstones",
            ", cornerstone: K",
            format!("      - {{ piece: K, size: {size}, pieces: {{ lap: 4 }} }}\n"),
        ),
    };
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: {finished} }}\nunits:\n  p: {{ make: patch, finished: \
         6 }}\nblocks:\n  p: {{ finished: 6, rows: [[p]] }}\nlayout:\n  lap:\n    across: 4\n    down: 5\n    blocks: p\n    \
         borders: [{{ width: {width}, corners: {corners}, pieced: no, piece: side, piece_across: top, piece_bottom: \
         low{stone} }}]\nfabrics:\n  clay:\n    requires: {{ lap: 5/8 yd }}\n    cut:\n      - {{ piece: side, size: {sides}, \
         pieces: {{ lap: 2 }} }}\n      - {{ piece: top, size: {top}, pieces: {{ lap: 1 }} }}\n      - {{ piece: low, size: \
         {bottom}, pieces: {{ lap: 1 }} }}\n{piece}"
    )
}

const WIDTHS: &str = "{ sides: 3, top: 4, bottom: 6 }";

/// Sides of 3 in, a top of 4 in and a bottom of 6 in: 24 + 6 = 30 in wide, 30 + 10 = 40 in long. The sides are cut 3 1/2 x
/// 30 1/2 in; top and bottom, butted, 30 1/2 in long.
#[rstest]
#[case::right("30 x 40", ["3 1/2 x 30 1/2", "4 1/2 x 30 1/2", "6 1/2 x 30 1/2"], "", &[])]
#[case::size("32 x 40", ["3 1/2 x 30 1/2", "4 1/2 x 30 1/2", "6 1/2 x 30 1/2"], "", &["finished-size-wrong"])]
#[case::narrow_bottom("30 x 40", ["3 1/2 x 30 1/2", "4 1/2 x 30 1/2", "4 1/2 x 30 1/2"], "", &["border-short"])]
#[case::narrow_side("30 x 40", ["3 x 30 1/2", "4 1/2 x 30 1/2", "6 1/2 x 30 1/2"], "", &["border-short"])]
#[case::short_top("30 x 40", ["3 1/2 x 30 1/2", "4 1/2 x 30", "6 1/2 x 30 1/2"], "", &["border-short"])]
#[case::corners("30 x 40", ["3 1/2 x 30 1/2", "4 1/2 x 24 1/2", "6 1/2 x 24 1/2"], "3 1/2 x 6 1/2", &[])]
#[case::corner_short("30 x 40", ["3 1/2 x 30 1/2", "4 1/2 x 24 1/2", "6 1/2 x 24 1/2"], "3 1/2 x 4", &["border-short"])]
fn a_border_may_differ_from_side_to_side(
    #[case] finished: &str,
    #[case] pieces: [&str; 3],
    #[case] corner: &str,
    #[case] rules: &[&str],
) {
    let text = bordered(finished, WIDTHS, pieces, corner);
    assert_rules(&text, rules);
    if let Some(finding) = outcome(&text).findings.iter().find(|finding| finding.rule == "border-short") {
        mended(&text, finding);
    }
}

#[test]
fn the_sides_of_a_border_are_added_up_one_by_one() {
    let text = bordered("30 x 38", WIDTHS, ["3 1/2 x 30 1/2", "4 1/2 x 30 1/2", "6 1/2 x 30 1/2"], "");
    let finding = one(&text, "finished-size-wrong");
    assert!(finding.help.contains("with the border 4 in + 6 in = 40 in"), "{}", finding.help);
    assert_says(&finding, &["the layout makes 30 x 40 in"]);
    assert_silent(&text.replace("30 x 38", "30 x 40"));
}

#[test]
fn a_side_that_is_left_out_is_asked_for() {
    let text = bordered("30 x 40", "{ sides: 3, top: 4 }", ["3 1/2 x 30 1/2"; 3], "");
    assert_says(&one(&text, "missing-entry"), &["\"bottom\" is missing"]);
}

/// Blocks of 6 in, 3 across and 4 down, with sashes of three patches of 2 in: 2 x 4 beside the blocks of the rows, and with
/// cornerstones 3 x 3 between the rows.
#[rstest]
#[case::plain_rows("2 x 6", "", 8, &[])]
#[case::cornerstones("6 x 2", "cornerstones: yes, ", 17, &[])]
#[case::one_short("2 x 6", "cornerstones: yes, ", 16, &["make-count-wrong"])]
#[case::too_long("2 x 6 1/2", "", 8, &["sash-short"])]
#[case::too_wide("2 1/2 x 6", "", 8, &["sash-short"])]
fn sashes_may_be_units(#[case] unit: &str, #[case] cornerstones: &str, #[case] makes: u64, #[case] rules: &[&str]) {
    let height = 4 * 6 + 3 * 2;
    assert_rules(
        &format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 22 x {height} }}\nunits:\n  p: {{ make: patch, \
             finished: 6 }}\n  rail: {{ make: patch, finished: {unit}, makes: {{ lap: {makes} }} }}\nblocks:\n  p: {{ finished: 6, \
             rows: [[p]] }}\nlayout:\n  lap: {{ across: 3, down: 4, blocks: p, sashing: 2, {cornerstones}sash_of: rail }}\n"
        ),
        rules,
    );
}

#[test]
fn sashes_are_cut_from_a_piece_or_sewn_from_a_unit() {
    let text = on_point("35 3/8 x 51 5/8", "edge_squares: whole", "11 1/2", "13 1/2", (24, 17));
    let both = text.replace("    sash: sash\n", "    sash: sash\n    sash_of: nine\n");
    assert_says(&one(&both, "out-of-range"), &["sash_of is one answer too many"]);
}

/// A medallion is a block within rounds of other blocks, each round a block: the middle of 12 in, rounds of 4 in and of 2 in.
#[rstest]
#[case::right("24", &[])]
#[case::wrong("26", &["finished-size-wrong"])]
fn a_medallion_is_a_block_within_blocks(#[case] finished: &str, #[case] rules: &[&str]) {
    assert_rules(
        &format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  wall: {{ finished: {finished} x {finished} }}\nunits:\n  \
             p: {{ make: patch, finished: 12 }}\n  small: {{ make: patch, finished: 4 }}\n  strip: {{ make: patch, finished: 2 x \
             20 }}\n  corner: {{ make: patch, finished: 2 }}\nblocks:\n  center: {{ finished: 12, rows: [[p]] }}\n  \
             row: {{ finished: 12 x 4, rows: [[small, small, small]] }}\n  first: {{ finished: 20, rows: [[small, row, small], \
             [row turned, center, row turned], [small, row, small]] }}\n  second: {{ finished: 24, rows: [[corner, strip turned, \
             corner], [strip, first, strip], [corner, strip turned, corner]] }}\nlayout:\n  wall: {{ across: 1, down: 1, \
             blocks: second }}\n"
        ),
        rules,
    );
}
