//! Blocks: `block-does-not-sum`.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, mended, one, outcome, rules_of};

const UNITS: &str = "
  plain: { make: patch, finished: 4, cut: { patch: 4 1/2 } }
  geese: { make: flying_geese, finished: 4 x 2, cut: { goose: 5 1/4, sky: 2 7/8 } }
  small: { make: patch, finished: 2, cut: { patch: 2 1/2 } }
  slim: { make: patch, finished: 1 x 4, cut: { patch: 1 1/2 x 4 1/2 } }
  wide: { make: patch, finished: 3 x 4, cut: { patch: 3 1/2 x 4 1/2 } }
  broken: { make: patch, finished: wide, cut: { patch: 3 1/2 } }
  sides: { make: side_triangle, finished: 12, cut: { square: 18 1/4 } }
";

fn block_in(measure: &str, units: &str, finished: &str, rows: &[&str]) -> String {
    let rows: Vec<String> = rows.iter().map(|row| format!("      - [{row}]\n")).collect();
    format!(
        "pattern: Test Meadow\nmeasure: {measure}\nsizes: {{ lap: {{ finished: 60 x 72 }} }}\nunits:{units}blocks:\n  star:\n    \
         finished: {finished}\n    rows:\n{}",
        rows.concat()
    )
}

/// A block of units that are all right, without the one that is broken on purpose.
fn block(finished: &str, rows: &[&str]) -> String {
    let units: Vec<&str> = UNITS.lines().filter(|line| !line.contains("broken")).collect();
    block_in("inch", &format!("{}\n", units.join("\n")), finished, rows)
}

#[rstest]
#[case::one_unit("4", &["plain"])]
#[case::square("8", &["plain, plain", "plain, plain"])]
#[case::long("8 x 4", &["plain, plain"])]
#[case::turned("6 x 6", &["small, geese", "geese turned, plain"])]
#[case::a_turned_square_is_the_same("8", &["plain turned, plain", "plain, plain turned"])]
#[case::fewer_in_one_row("8", &["plain, plain", "plain, slim, wide"])]
#[case::a_name_of_two_words("8 x 4", &["plain  turned, plain"])]
fn a_block_that_sums_is_silent(#[case] finished: &str, #[case] rows: &[&str]) {
    assert_silent(&block(finished, rows));
}

/// Rows that are not as wide as the block, each pointed at.
#[rstest]
#[case("12", &["plain, plain, plain", "plain, wide, plain", "plain, plain, plain"],
    &["Row 2 of block star comes to 11 in; 12 in needed: 1 in short."])]
#[case("12", &["plain, plain, plain", "plain, plain, slim, plain", "plain, plain"],
    &["Row 2 of block star comes to 13 in; 12 in needed: 1 in too much.", "Row 3 of block star comes to 8 in; 12 in needed: 4 in short."])]
fn a_row_that_does_not_sum_is_pointed_at(#[case] finished: &str, #[case] rows: &[&str], #[case] says: &[&str]) {
    let text = block(finished, rows);
    let found = outcome(&text).findings;
    assert_eq!(found.iter().map(|finding| finding.message.as_str()).collect::<Vec<_>>(), says);
    for finding in found {
        assert_eq!((finding.rule, finding.level), ("block-does-not-sum", Level::Error));
        let row = finding.at.at.text(&text);
        assert!(row.starts_with('[') && rows.contains(&row.trim_matches(['[', ']'])), "{row}");
    }
}

#[test]
fn the_working_names_each_unit() {
    let text = block("12 x 4", &["plain, slim, plain"]);
    let finding = one(&text, "block-does-not-sum");
    let says = "Across: plain 4 in x 4 in + slim 1 in x 4 in + plain 4 in x 4 in, together 9 in.";
    assert!(finding.help.contains(says), "{}", finding.help);
}

/// Rows that agree with one another: the finished size is what does not.
#[rstest]
#[case::width("9 x 8", &["plain, plain", "plain, plain"], "9 in x 8 in finished stated; its rows come to 8 in across, 1 in short.", "8 x 8")]
#[case::too_wide("7 x 8", &["plain, plain", "plain, plain"], "its rows come to 8 in across, 1 in too much.", "8 x 8")]
#[case::height("8 x 9", &["plain, plain", "plain, plain"], "8 in x 9 in finished stated; its rows come to 8 in down, 1 in short.", "8 x 8")]
#[case::a_row_missing("8", &["plain, plain"], "8 in x 8 in finished stated; its rows come to 4 in down, 4 in short.", "8 x 4")]
#[case::both("9", &["plain, plain", "plain, plain"], "its rows come to 8 in across, 1 in short, and its rows come to 8 in down, 1 in short.", "8")]
fn a_finished_size_that_the_rows_do_not_make(
    #[case] finished: &str,
    #[case] rows: &[&str],
    #[case] says: &str,
    #[case] right: &str,
) {
    let text = block(finished, rows);
    let finding = one(&text, "block-does-not-sum");
    assert_eq!(finding.level, Level::Error);
    assert_eq!(finding.at.at.text(&text), finished);
    assert_says(&finding, &[says]);
    assert_eq!(
        mended(&text, &finding),
        text.replace(&format!("    finished: {finished}\n"), &format!("    finished: {right}\n"))
    );
}

/// The units of a row must be of one height; where turning one mends it, that is said.
#[test]
fn a_unit_that_should_be_turned() {
    let text = block("6 x 6", &["small, geese", "geese, plain"]);
    let finding = one(&text, "block-does-not-sum");
    assert_says(&finding, &["Row 2 of block star has units of different heights"]);
    assert_eq!(finding.at.at.text(&text), "[geese, plain]");
    let text = block("8 x 6", &["small, small, geese", "plain, geese, plain"]);
    let finding = one(&text, "block-does-not-sum");
    assert_says(&finding, &["geese is 2 in high, and the row 4 in."]);
    assert!(finding.help.contains("Turned a quarter, it fits: write geese turned."), "{}", finding.help);
    let text = block("10 x 4", &["plain, slim turned, plain"]);
    assert!(one(&text, "block-does-not-sum").help.contains("it fits: write slim."));
}

/// Rows that sum, with seams that do not meet: that may be meant.
#[test]
fn a_column_that_does_not_meet_is_a_query() {
    let text = block("8", &["wide, slim, plain", "slim, wide, plain"]);
    let finding = one(&text, "block-does-not-sum");
    assert_eq!(finding.level, Level::Query);
    assert_says(&finding, &["its seams do not meet: in column 1, slim is 1 in wide and wide 3 in."]);
    assert_eq!(finding.at.at.text(&text), "[slim, wide, plain]");
}

/// What could not be read says nothing about the rest.
#[test]
fn a_unit_that_could_not_be_read_is_no_row_that_does_not_sum() {
    let text = block_in("inch", UNITS, "8", &["broken, plain", "plain, plain"]);
    assert_eq!(rules_of(&text), ["unreadable-quantity"]);
    let text = block_in("inch", UNITS, "9", &["broken, plain", "plain, plain"]);
    assert_eq!(rules_of(&text), ["unreadable-quantity", "block-does-not-sum"]);
}

#[rstest]
#[case("plain, plaine", "\"plaine\" is not one of the pattern's units.", Some("plain, plain"))]
#[case("plain, gees turned", "\"gees\" is not one of the pattern's units.", None)]
#[case("plain, Q", "\"Q\" is not one of the pattern's units.", None)]
fn an_unknown_unit_is_told_with_the_nearest(#[case] row: &str, #[case] says: &str, #[case] right: Option<&str>) {
    let text = block("8 x 4", &[row]);
    let finding = one(&text, "unknown-word");
    assert_eq!(rules_of(&text), ["unknown-word"]);
    assert_says(&finding, &[says]);
    if let Some(right) = right {
        assert_eq!(mended(&text, &finding), block("8 x 4", &[right]));
    }
}

#[test]
fn a_correction_keeps_the_turn() {
    let text = block("6 x 6", &["small, geese", "gees turned, plain"]);
    assert_eq!(mended(&text, &one(&text, "unknown-word")), text.replace("gees turned", "geese turned"));
}

#[rstest]
#[case("    finished: 8\n    rows: plain\n", "wrong-shape")]
#[case("    finished: 8\n    rows: [plain, plain]\n", "wrong-shape")]
#[case("    finished: 8\n    rows: []\n", "missing-entry")]
#[case("    finished: 8\n    rows:\n", "missing-entry")]
#[case("    finished: 8\n", "missing-entry")]
#[case("    rows: [[plain]]\n", "missing-entry")]
#[case("    finished: 8\n    rows: [[plain, { a: 1 }]]\n", "wrong-shape")]
#[case("    finished: 12\n    rows: [[sides]]\n", "out-of-range")]
#[case("    finished: 4\n    rows: [[plain]]\n    colour: ink\n", "unknown-word")]
fn a_slip_in_the_layout_of_the_file(#[case] block: &str, #[case] rule: &str) {
    let units: Vec<&str> = UNITS.lines().filter(|line| !line.contains("broken")).collect();
    let text = format!(
        "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 60 x 72 }} }}\nunits:{}\nblocks:\n  star:\n{block}",
        units.join("\n")
    );
    let found = outcome(&text).findings;
    assert!(found.iter().all(|finding| finding.rule == rule) && !found.is_empty(), "{found:#?}");
}

/// Thirds of a length are printed with decimals: what they lack is no fault.
#[rstest]
#[case("cm", "3.3333", "10", true)]
#[case("cm", "3.3", "10", false)]
#[case("inch", "2.6667", "8", true)]
#[case("inch", "2 5/8", "8", false)]
fn what_decimals_lack_is_no_fault(
    #[case] measure: &str,
    #[case] side: &str,
    #[case] finished: &str,
    #[case] silent: bool,
) {
    let units = format!("\n  third: {{ make: patch, finished: {side} x 2 }}\n");
    let text = block_in(measure, &units, &format!("{finished} x 2"), &["third, third, third"]);
    assert_eq!(rules_of(&text).is_empty(), silent, "{:?}", rules_of(&text));
}

#[test]
fn there_are_bounds() {
    let wide = vec!["small"; 51].join(", ");
    assert_says(&one(&block("102 x 2", &[&wide]), "out-of-range"), &["A row may have 50 units at most"]);
    assert_says(&one(&block("2 x 102", &vec!["small"; 51]), "out-of-range"), &["A block may have 50 rows at most"]);
    let most = vec!["small"; 50].join(", ");
    assert_silent(&block("100", &vec![most.as_str(); 50]));
    let many: Vec<String> = (0..101).map(|block| format!("  b{block}: {{ finished: 4, rows: [[plain]] }}\n")).collect();
    let text = block("4", &["plain"]).replace("blocks:\n", &format!("blocks:\n{}", many.concat()));
    assert_says(&one(&text, "out-of-range"), &["A pattern may list 100 blocks at most"]);
}

#[test]
fn a_name_that_a_unit_and_another_block_have_is_asked_about_where_it_is_used() {
    let other = "  plain:\n    finished: 4\n    rows: [[small, small], [small, small]]\n";
    let text = block("8", &["plain, plain", "plain, plain"]) + other;
    let finding = one(&text, "out-of-range");
    assert_says(&finding, &["A unit and a block are both called plain"]);
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Error, "plain"));
    // A block that is the unit alone is the same.
    let alone = text.replace("[[small, small], [small, small]]", "[[plain]]");
    assert!(!rules_of(&alone).contains(&"out-of-range"));
    let renamed = text.replace("  plain:\n    finished: 4", "  pond:\n    finished: 4");
    assert!(!rules_of(&renamed).contains(&"out-of-range"));
}
