//! How many units and blocks the text says to make: `make-count-wrong`.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one};

/// Blocks within blocks: each `four` has two `small` and two `half`, each `small` four `quarter`. The crib has
/// 3 x 4 = 12 `four`, the throw 5 x 6 = 30.
fn quilt(quarter: &str, half: &str, small: &str, four: &str) -> String {
    format!(
        "\
pattern: Test Lantern
measure: inch
sizes:
  crib: {{ finished: 36 x 48 }}
  throw: {{ finished: 60 x 72 }}
units:
  quarter: {{ make: patch, finished: 3, makes: {quarter} }}
  half: {{ make: half_square_triangle, finished: 6, makes: {half} }}
blocks:
  small: {{ finished: 6, rows: [[quarter, quarter], [quarter, quarter]], makes: {small} }}
  four: {{ finished: 12, rows: [[small, half], [half, small]], makes: {four} }}
layout:
  crib: {{ across: 3, down: 4, blocks: four }}
  throw: {{ across: 5, down: 6, blocks: four }}
"
    )
}

const RIGHT: [&str; 4] =
    ["{ crib: 96, throw: 240 }", "{ crib: 24, throw: 60 }", "{ crib: 24, throw: 60 }", "{ crib: 12, throw: 30 }"];

fn with(place: usize, makes: &'static str) -> String {
    let mut all = RIGHT;
    all[place] = makes;
    quilt(all[0], all[1], all[2], all[3])
}

#[test]
fn what_the_layout_takes_is_right() {
    assert_silent(&quilt(RIGHT[0], RIGHT[1], RIGHT[2], RIGHT[3]));
}

#[rstest]
#[case::units_of_a_block_within(
    0,
    "{ crib: 96, throw: 239 }",
    "unit quarter stated for throw; 240 needed: 1 too few",
    "30 four x 8 = 240 quarter",
    Level::Error
)]
#[case::units(
    1,
    "{ crib: 22, throw: 60 }",
    "unit half stated for crib; 24 needed: 2 too few",
    "12 four x 2 = 24 half",
    Level::Error
)]
#[case::a_set_too_many(
    1,
    "{ crib: 26, throw: 60 }",
    "24 needed: 2 too many",
    "They are made 2 at a time.",
    Level::Query
)]
#[case::blocks_within(
    2,
    "{ crib: 24, throw: 40 }",
    "block small stated for throw; 60 needed: 20 too few",
    "The blocks of the layout have 60 small in them",
    Level::Error
)]
#[case::blocks(
    3,
    "{ crib: 11, throw: 30 }",
    "block four stated for crib; 12 needed: 1 too few",
    "3 across x 4 down = 12 blocks",
    Level::Error
)]
#[case::more_blocks(
    3,
    "{ crib: 12, throw: 31 }",
    "block four stated for throw; 30 needed: 1 too many",
    "5 across x 6 down = 30 blocks",
    Level::Query
)]
fn another_number_is_found_at_its_place(
    #[case] place: usize,
    #[case] makes: &'static str,
    #[case] says: &str,
    #[case] help: &str,
    #[case] level: Level,
) {
    let text = with(place, makes);
    let finding = one(&text, "make-count-wrong");
    assert_says(&finding, &[says]);
    assert!(finding.help.contains(help), "{}", finding.help);
    assert_eq!(finding.level, level);
    assert_silent(&mended(&text, &finding));
}

/// Two at a time: of 23 that are needed 24 are made.
#[test]
fn the_rest_of_a_set_is_not_too_many() {
    let text = |makes: &str| {
        format!(
            "pattern: Test\nmeasure: inch\nsizes: {{ mat: {{ finished: 9 x 3 }} }}\nunits:\n  half: {{ make: \
             half_square_triangle, finished: 3, makes: {makes} }}\nblocks:\n  one: {{ finished: 9 x 3, rows: [[half, \
             half, half]] }}\nlayout:\n  mat: {{ across: 1, down: 1, blocks: one }}\n"
        )
    };
    assert_silent(&text("3"));
    assert_silent(&text("4"));
    assert_eq!(one(&text("5"), "make-count-wrong").level, Level::Query);
    assert_eq!(one(&text("2"), "make-count-wrong").level, Level::Error);
}

/// Where a block could not be read, nothing is said of its units.
#[test]
fn nothing_is_judged_by_what_could_not_be_read() {
    let text =
        with(0, "{ crib: 1, throw: 1 }").replace("[[small, half], [half, small]]", "[[small, halff], [half, small]]");
    assert!(of_rule(&text, "make-count-wrong").iter().all(|finding| finding.message.contains("block four")));
}

#[rstest]
#[case::itself("[[four]]", "Block four cannot stand in its own rows.")]
#[case::round("[[ring]]", "so that it cannot stand in the rows of")]
fn a_block_is_never_within_itself(#[case] rows: &str, #[case] says: &str) {
    let text = with(0, RIGHT[0])
        .replace("[[small, half], [half, small]]", rows)
        .replace("layout:\n", "  ring: { finished: 12, rows: [[four]] }\nlayout:\n");
    let finding = one(&text, "out-of-range");
    assert_says(&finding, &[says]);
    assert!(of_rule(&text, "not-checked").is_empty(), "what is not read is no unused block");
}
