//! Sashing between rows and columns of blocks: how long rows come out, and how many sashes they take.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, of_rule, one, outcome, rules_of, told};

/// Bricks of 8 x 4 in with halves of a size, sashing of 2 in, and the pieces for the sashing.
fn sashed(finished: &str, half: &str, layout: &str, fabrics: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: {finished} }}\nunits:\n  brick: {{ make: patch, \
         finished: 8 x 4 }}\n  half: {{ make: patch, finished: {half} }}\nblocks:\n  brick: {{ finished: 8 x 4, rows: \
         [[brick]] }}\n  half: {{ finished: {half}, rows: [[half]] }}\nlayout:\n  lap: {{ {layout}, sashing: 2 }}\n{fabrics}"
    )
}

/// The pieces of a fabric, each with its cut size and how many.
fn sand(pieces: &[(&str, &str, u64)]) -> String {
    let piece = |(name, size, count): &(&str, &str, u64)| {
        format!("      - {{ piece: {name}, size: {size}, pieces: {{ lap: {count} }} }}\n")
    };
    let pieces: String = pieces.iter().map(piece).collect();
    format!("fabrics:\n  sand:\n    requires: {{ lap: 3 yd }}\n    cut:\n{pieces}")
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    let ours = |rule: &&str| *rule != "fabric-generous";
    let found: Vec<&str> = rules_of(text).into_iter().filter(ours).collect();
    assert_eq!(found, rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

const BRICKS: &str = "rows: [[6 brick], [half, 5 brick, half]]";

/// Two halves and the sash between them are as long as a whole: (8 - 2) / 2 = 3 in. Six bricks and five sashes are 6 x 8 +
/// 5 x 2 = 58 in; two halves, five bricks and six sashes 3 + 5 x 8 + 3 + 6 x 2 = 58 in. Four rows and three sashes between
/// them are 4 x 4 + 3 x 2 = 22 in; with sashing around, 62 x 26 in.
#[rstest]
#[case::right("58 x 22", "3 x 4", BRICKS, "times: 2", &[])]
#[case::around("62 x 26", "3 x 4", BRICKS, "times: 2, sashing_round: yes", &[])]
#[case::columns("22 x 58", "3 x 4", "columns: [[6 brick turned], [half turned, 5 brick turned, half turned]]", "times: 2", &[])]
#[case::halves_not_turned("22 x 58", "3 x 4", "columns: [[6 brick turned], [half, 5 brick turned, half]]", "times: 2", &["rows-do-not-fit"])]
#[case::half_as_without_sashing("58 x 22", "4 x 4", BRICKS, "times: 2", &["rows-do-not-fit"])]
#[case::without_sashing_between_rows("58 x 16", "3 x 4", BRICKS, "times: 2", &["finished-size-wrong"])]
#[case::a_row_more("58 x 22", "3 x 4", BRICKS, "times: 3", &["finished-size-wrong"])]
fn rows_with_sashing_come_to_one_length(
    #[case] finished: &str,
    #[case] half: &str,
    #[case] rows: &str,
    #[case] more: &str,
    #[case] expected: &[&str],
) {
    assert_rules(&sashed(finished, half, &format!("{rows}, {more}"), ""), expected);
}

#[test]
fn a_row_that_is_too_long_is_told_with_its_sashes() {
    let text = sashed("58 x 22", "4 x 4", &format!("{BRICKS}, times: 2"), "");
    let finding = one(&text, "rows-do-not-fit");
    assert_says(&finding, &["Row 2 comes to 60 in; the others are 58 in long: 2 in too long."]);
    assert!(finding.help.contains("1 x 4 in + 5 x 8 in + 1 x 4 in + 6 sashes x 2 in = 60 in"), "{}", finding.help);
}

#[test]
fn the_size_is_worked_out_with_the_sashes_of_rows() {
    let finding = one(&sashed("58 x 21", "3 x 4", &format!("{BRICKS}, times: 2"), ""), "finished-size-wrong");
    assert!(finding.help.contains("Width: 6 x 8 in + 5 sashes x 2 in = 58 in."), "{}", finding.help);
    assert!(finding.help.contains("Length: 4 rows x 4 in + 3 sashes x 2 in = 22 in."), "{}", finding.help);
}

/// Counted on a drawing: 2 x 5 + 2 x 6 = 22 sashes of 4 in and 3 as long as a row; around, 2 x 7 + 2 x 8 = 30 and 5.
/// Six bricks four times over with cornerstones: 4 x 5 sashes of 4 in, 3 x 6 of 8 in, and 3 x 5 squares.
#[rstest]
#[case::right("58 x 22", "", (22, 3), &[])]
#[case::a_sash_short("58 x 22", "", (21, 3), &["pieces-short"])]
#[case::a_long_sash_short("58 x 22", "", (22, 2), &["pieces-short"])]
#[case::two_sashes_too_many("58 x 22", "", (24, 3), &["pieces-generous"])]
#[case::around("62 x 26", ", sashing_round: yes", (30, 5), &[])]
#[case::around_and_one_short("62 x 26", ", sashing_round: yes", (29, 5), &["pieces-short"])]
fn sashes_of_rows_are_counted(
    #[case] finished: &str,
    #[case] more: &str,
    #[case] counts: (u64, u64),
    #[case] expected: &[&str],
) {
    // Each long sash is one piece of a length of the fabric.
    let long = if more.is_empty() { "2 1/2 x 58 1/2" } else { "2 1/2 x 62 1/2" };
    let fabrics = sand(&[("S", "2 1/2 x 4 1/2", counts.0), ("L", long, counts.1)]);
    let layout = format!("{BRICKS}, times: 2{more}, sash: S, long_sash: L");
    let text = sashed(finished, "3 x 4", &layout, &fabrics)
        .replace("patch, finished: 8 x 4", "patch, finished: 8 x 4, cut: { patch: 8 1/2 x 4 1/2 }")
        .replace("patch, finished: 3 x 4", "patch, finished: 3 x 4, cut: { patch: 3 1/2 x 4 1/2 }");
    assert_rules(&text, expected);
    for finding in of_rule(&text, "pieces-short") {
        assert_rules(&finding.correction.expect("how many to cut").apply(&text), &[]);
    }
}

#[rstest]
#[case::right("2 1/2 x 8 1/2", (38, 15), &[])]
#[case::a_sash_short("2 1/2 x 8 1/2", (37, 15), &["pieces-short"])]
#[case::a_square_short("2 1/2 x 8 1/2", (38, 14), &["pieces-short"])]
#[case::as_long_as_the_shorter("2 1/2 x 4 1/2", (38, 15), &["sash-short"])]
fn cornerstones_between_rows_that_are_alike_are_counted(
    #[case] sash: &str,
    #[case] counts: (u64, u64),
    #[case] expected: &[&str],
) {
    let fabrics = sand(&[("S", sash, counts.0), ("K", "2 1/2 x 2 1/2", counts.1)]);
    let layout = "rows: [[6 brick]], times: 4, cornerstones: yes, sash: S, cornerstone: K";
    let text =
        sashed("58 x 22", "3 x 4", layout, &fabrics).replace("  half: { finished: 3 x 4, rows: [[half]] }\n", "");
    let text = text.replace("  half: { make: patch, finished: 3 x 4 }\n", "");
    assert_rules(&text, expected);
}

#[test]
fn cornerstones_between_rows_that_are_not_alike_are_refused() {
    let text = sashed("58 x 22", "3 x 4", &format!("{BRICKS}, times: 2, cornerstones: yes"), "");
    assert_says(&one(&text, "not-checked"), &["cornerstones between rows that are not alike"]);
    // Where rows do not fit one another, that is what is said.
    assert_rules(&text.replace("3 x 4", "4 x 4"), &["rows-do-not-fit"]);
}

/// Rows of 12 in and of 6 in: one piece for the sashes of both is cut as long as the longer.
#[test]
fn sashes_of_unlike_rows_are_cut_as_long_as_the_longest() {
    let text = |size: &str, sashes: u64| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 40 x 34 }}\nunits:\n  big: {{ make: patch, \
             finished: 12 }}\n  low: {{ make: patch, finished: 12 x 6 }}\nblocks:\n  big: {{ finished: 12, rows: [[big]] \
             }}\n  low: {{ finished: 12 x 6, rows: [[low]] }}\nlayout:\n  lap: {{ rows: [[3 big], [3 low], [3 big]], \
             sashing: 2, sash: S }}\n{}",
            sand(&[("S", size, sashes)])
        )
    };
    assert_rules(&text("2 1/2 x 12 1/2", 6), &[]);
    assert_rules(&text("2 1/2 x 6 1/2", 6), &["sash-short"]);
    assert_rules(&text("2 1/2 x 12 1/2", 5), &["pieces-short"]);
}

/// Sashes of a unit beside blocks that are all as high.
#[test]
fn sashes_of_rows_may_be_sewn_from_units() {
    let layout = format!("{BRICKS}, times: 2, sash_of: rail");
    let unit = "  rail: { make: patch, finished: 2 x 4, makes: 22 }\nblocks:";
    let text = sashed("58 x 22", "3 x 4", &layout, "").replace("blocks:", unit);
    assert_silent(&text);
    assert_rules(&text.replace("2 x 4, makes", "2 x 5, makes"), &["sash-short"]);
    assert_says(&one(&text.replace("makes: 22", "makes: 20"), "make-count-wrong"), &["22 needed: 2 too few"]);
}

/// Four blocks of 8 in below each other have three sashes between them, 2 1/2 x 8 1/2 in cut: as long as a block is wide,
/// whichever of the two names the writer gives them.
#[rstest]
#[case::sash("sash: S", 3, &[])]
#[case::long_sash("long_sash: S", 3, &[])]
#[case::short("sash: S", 2, &["pieces-short"])]
fn sashes_between_blocks_of_one_column_go_by_either_name(
    #[case] named: &str,
    #[case] count: u64,
    #[case] rules: &[&str],
) {
    let text = format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 8 x 38 }}\nunits:\n  plain: {{ make: patch, \
         finished: 8 }}\nblocks:\n  plain: {{ finished: 8, rows: [[plain]] }}\nlayout:\n  lap: {{ across: 1, down: 4, \
         blocks: plain, {named}, sashing: 2 }}\n{}",
        sand(&[("S", "2 1/2 x 8 1/2", count)])
    );
    assert_rules(&text, rules);
}
