//! Layouts that are sewn in rows or columns of blocks, which need not be alike.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one, outcome, rules_of, told};

/// Bricks of 8 x 4 in and halves of a size, laid as `rows` say, with what else the layout states.
fn bricks(finished: &str, half: &str, rows: &str, more: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: {finished} }}\nunits:\n  \
         brick: {{ make: patch, finished: 8 x 4 }}\n  half: {{ make: patch, finished: {half} }}\n\
         blocks:\n  brick: {{ finished: 8 x 4, rows: [[brick]] }}\n  half: {{ finished: {half}, rows: [[half]] }}\n\
         layout:\n  lap:\n    {rows}\n    {more}\n"
    )
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// A row that begins and ends with a half is as long as one of whole bricks where a half finishes half as long: 6 x 8 in
/// = 48 in. Cut as half of a cut brick (8 1/2 in / 2 = 4 1/4 in) it finishes 3 3/4 in, and the row comes out 1/2 in short
/// (common practice).
#[rstest]
#[case::right("48 x 24", "4 x 4", "rows: [[6 brick], [half, 5 brick, half]]", "times: 3", &[])]
#[case::odd_rows("48 x 12", "4 x 4", "rows: [[6 brick], [half, 5 brick, half], [6 brick]]", "", &[])]
#[case::half_of_the_cut_brick("48 x 24", "3 3/4 x 4", "rows: [[6 brick], [half, 5 brick, half]]", "times: 3", &["rows-do-not-fit"])]
#[case::not_so_high("48 x 24", "4 x 3 1/2", "rows: [[6 brick], [half, 5 brick, half]]", "times: 3", &["rows-do-not-fit"])]
#[case::a_brick_left_out("48 x 24", "4 x 4", "rows: [[6 brick], [half, 4 brick, half]]", "times: 3", &["rows-do-not-fit"])]
#[case::a_row_more("48 x 24", "4 x 4", "rows: [[6 brick], [half, 5 brick, half]]", "times: 4", &["finished-size-wrong"])]
#[case::with_borders("54 x 34", "4 x 4", "rows: [[6 brick], [half, 5 brick, half]]", "times: 3\n    borders: [{ width: { sides: 3, top: 4, bottom: 6 } }]", &[])]
#[case::columns("24 x 48", "4 x 4", "columns: [[6 brick turned], [half, 5 brick turned, half]]", "times: 3", &[])]
#[case::columns_not_turned("24 x 48", "4 x 4", "columns: [[6 brick], [half, 5 brick turned, half]]", "times: 3", &["rows-do-not-fit"])]
fn rows_come_to_one_length(
    #[case] finished: &str,
    #[case] half: &str,
    #[case] rows: &str,
    #[case] more: &str,
    #[case] expected: &[&str],
) {
    assert_rules(&bricks(finished, half, rows, more), expected);
}

#[test]
fn a_short_row_is_told_with_its_sum() {
    let text = bricks("48 x 24", "3 3/4 x 4", "rows: [[6 brick], [half, 5 brick, half]]", "times: 3");
    let finding = one(&text, "rows-do-not-fit");
    assert_says(&finding, &["Row 2 comes to 47 1/2 in; the others are 48 in long: 1/2 in too short."]);
    assert!(finding.help.contains("1 x 3 3/4 in + 5 x 8 in + 1 x 3 3/4 in = 47 1/2 in"), "{}", finding.help);
    assert_eq!(finding.at.at.text(&text), "[");
}

#[test]
fn a_block_of_another_height_is_told_at_its_place() {
    let text = bricks("48 x 24", "4 x 3 1/2", "rows: [[6 brick], [half, 5 brick, half]]", "times: 3");
    let finding = one(&text, "rows-do-not-fit");
    assert_eq!(finding.at.at.text(&text), "half");
    assert_says(&finding, &["Block half finishes 3 1/2 in high; the other blocks of row 2 are 4 in high."]);
}

/// "The brick wall quilt pattern", Blue Striped Room (2010-08-16): 9 rows of a half, five bricks and a half, and 8 rows of
/// six bricks. It prints 94 bricks and 16 halves; 9 x 5 + 8 x 6 = 93 and 9 x 2 = 18.
#[rstest]
#[case::printed(94, 16, &["pieces-short"])]
#[case::right(93, 18, &[])]
#[case::a_brick_short(92, 18, &["pieces-short"])]
fn a_published_brick_wall_is_counted(#[case] whole: u64, #[case] halves: u64, #[case] rules: &[&str]) {
    let row = |number: usize| if number.is_multiple_of(2) { "[half, 5 brick, half]" } else { "[6 brick]" };
    let rows: Vec<&str> = (0..17).map(row).collect();
    let text = bricks("48 x 68", "4 x 4", &format!("rows: [{}]", rows.join(", ")), "");
    let fabric = format!(
        "fabrics:\n  clay:\n    requires: {{ lap: 3 yd }}\n    cut:\n      - {{ piece: B, size: 8 1/2 x 4 1/2, pieces: \
         {{ lap: {whole} }} }}\n      - {{ piece: H, size: 4 1/2 x 4 1/2, pieces: {{ lap: {halves} }} }}\n"
    );
    let with_piece = |text: String, size: &str, piece: &str| {
        text.replacen(&format!("finished: {size} }}"), &format!("finished: {size}, cut: {{ patch: {piece} }} }}"), 1)
    };
    let text = with_piece(with_piece(text, "8 x 4", "B"), "4 x 4", "H") + &fabric;
    let found: Vec<&str> = rules_of(&text).into_iter().filter(|rule| *rule == "pieces-short").collect();
    assert_eq!(found, rules, "{:#?}", told(&text, &outcome(&text)));
    for finding in of_rule(&text, "pieces-short") {
        mended(&text, &finding);
    }
}

/// Blocks that stand in a grid and in rows at once, or in neither.
#[rstest]
#[case::both("rows: [[6 brick]]", "across: 6", "out-of-range", "across is one answer too many")]
#[case::two_ways("rows: [[6 brick]]", "columns: [[6 brick]]", "out-of-range", "columns is one answer too many")]
#[case::neither("times: 3", "", "missing-entry", "\"across\" is missing")]
#[case::not_a_list("rows: 6 brick", "", "wrong-shape", "rows")]
#[case::none_of_it("rows: [[0 brick]]", "", "out-of-range", "1 to 200 of a block")]
#[case::unknown("rows: [[6 brik]]", "", "unknown-word", "brik")]
fn what_does_not_go_together_is_told(#[case] rows: &str, #[case] more: &str, #[case] rule: &str, #[case] says: &str) {
    let text = bricks("48 x 4", "4 x 4", rows, more);
    let outcome = outcome(&text);
    let finding = outcome.findings.iter().find(|finding| finding.rule == rule);
    let finding = finding.unwrap_or_else(|| panic!("{:#?}", told(&text, &outcome)));
    assert_says(finding, &[says]);
}

/// Two projects on one sheet are two sizes, each with a layout of its own and pieces of its own.
#[test]
fn two_projects_are_two_sizes() {
    assert_silent(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  throw: { finished: 48 x 60 }\n  pillow: { finished: 16 x 16 }\n\
         units:\n  big: { make: patch, finished: 12, cut: { patch: B } }\n  small: { make: patch, finished: 8, cut: { \
         patch: S } }\nblocks:\n  big: { finished: 12, rows: [[big]] }\n  small: { finished: 8, rows: [[small]] }\n\
         layout:\n  throw: { across: 4, down: 5, blocks: big }\n  pillow: { across: 2, down: 2, blocks: small }\n\
         fabrics:\n  sand:\n    requires: { throw: 2 1/2 yd, pillow: 1/4 yd }\n    cut:\n      - { piece: B, size: 12 1/2 x \
         12 1/2, pieces: { throw: 20, pillow: 0 } }\n      - { piece: S, size: 8 1/2 x 8 1/2, pieces: { throw: 0, pillow: \
         4 } }\n",
    );
}
