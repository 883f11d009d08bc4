//! How large the text says that blocks and tops measure with their seams: `unfinished-size-wrong`.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, mended, one};

/// 3 x 4 blocks of 12 in, borders of 1 1/2 and 4 in, seams of 1/4 in: 36 1/2 x 48 1/2, 39 1/2 x 51 1/2 and
/// 47 1/2 x 59 1/2 in with their seams.
fn straight(block: &str, center: &str, first: &str, second: &str) -> String {
    format!(
        "\
pattern: Test Osier
measure: inch
sizes: {{ crib: {{ finished: 47 x 59 }} }}
units: {{ plain: {{ make: patch, finished: 12 }} }}
blocks: {{ plain: {{ finished: 12, unfinished: {block}, rows: [[plain]] }} }}
layout:
  crib:
    across: 3
    down: 4
    blocks: plain
    measures: {center}
    borders: [{{ width: 1 1/2, measures: {first} }}, {{ width: 4, measures: {second} }}]
"
    )
}

const RIGHT: [&str; 4] = ["12 1/2", "36 1/2 x 48 1/2", "39 1/2 x 51 1/2", "47 1/2 x 59 1/2"];

#[test]
fn each_step_with_its_seams_is_right() {
    assert_silent(&straight(RIGHT[0], RIGHT[1], RIGHT[2], RIGHT[3]));
}

#[rstest]
#[case::block(
    0,
    "12",
    "Block plain: 12 x 12 in stated, with its seams; the design makes 12 1/2 x 12 1/2 in. What is stated is the finished size"
)]
#[case::a_little_less(0, "12 3/8", "the design makes 12 1/2 x 12 1/2 in.")]
#[case::center(
    1,
    "36 x 48 1/2",
    "The top before borders: 36 x 48 1/2 in stated, with its seams; the design makes 36 1/2 x 48 1/2 in."
)]
#[case::finished_center(1, "36 x 48", "the seam allowance is left out")]
#[case::one_seam_forgotten(2, "39 1/2 x 51 1/4", "The top with border 1: 39 1/2 x 51 1/4 in stated")]
#[case::too_large(
    3,
    "48 1/2 x 59 1/2",
    "The top with border 2: 48 1/2 x 59 1/2 in stated, with its seams; the design makes 47 1/2 x 59 1/2 in."
)]
fn another_size_is_found_at_its_place(#[case] place: usize, #[case] size: &str, #[case] says: &str) {
    let mut all = RIGHT;
    all[place] = size;
    let text = straight(all[0], all[1], all[2], all[3]);
    let finding = one(&text, "unfinished-size-wrong");
    assert_says(&finding, &[says]);
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Error, size));
    assert_silent(&mended(&text, &finding));
}

/// 3 x 4 blocks of 12 in on point are 3 x 16.9706 = 50.912 in and 67.882 in, with seams 51.412 and 68.382 in.
#[rstest]
#[case::to_eighths("51 3/8 x 68 3/8", None)]
#[case::to_halves("51 1/2 x 68 1/2", Some(Level::Note))]
#[case::another("52 1/2 x 68 1/2", Some(Level::Error))]
fn a_size_on_point_may_be_rounded(#[case] size: &str, #[case] level: Option<Level>) {
    let text = format!(
        "pattern: Test\nmeasure: inch\nsizes: {{ lap: {{ finished: 50 7/8 x 67 7/8 }} }}\nunits:\n  plain: {{ make: patch, \
         finished: 12 }}\nblocks:\n  plain: {{ finished: 12, rows: [[plain]] }}\nlayout:\n  lap: {{ set: on_point, across: \
         3, down: 4, blocks: plain, measures: {size} }}\n"
    );
    match level {
        None => assert_silent(&text),
        Some(level) => assert_eq!(one(&text, "unfinished-size-wrong").level, level),
    }
}

/// Blocks of 30 cm with seams of 7.5 mm: 31.5 cm; two across 61.5 cm.
#[test]
fn in_centimeters() {
    let text = |block: &str, center: &str| {
        format!(
            "pattern: Test\nmeasure: cm\nassumes: {{ seam: 7.5 mm }}\nsizes: {{ mat: {{ finished: 60 x 90 }} }}\nunits:\n  \
             plain: {{ make: patch, finished: 30 }}\nblocks:\n  plain: {{ finished: 30, unfinished: {block}, rows: [[plain]] \
             }}\nlayout:\n  mat: {{ across: 2, down: 3, blocks: plain, measures: {center} }}\n"
        )
    };
    assert_silent(&text("31.5", "61.5 x 91.5"));
    assert_says(&one(&text("31", "61.5 x 91.5"), "unfinished-size-wrong"), &["the design makes 31.5 x 31.5 cm"]);
    assert_says(&one(&text("31.5", "61 x 91.5"), "unfinished-size-wrong"), &["the design makes 61.5 x 91.5 cm"]);
}
