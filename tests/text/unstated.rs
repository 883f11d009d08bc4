//! Right numbers of what a manuscript does not state: nothing of the manuscript says that they are wrong.

use rstest::rstest;
use sparestrip::text::State;

use super::matched_by;

fn differing(manuscript: &str, text: &str) -> Vec<String> {
    let numbers = matched_by(manuscript, "printed.md", text).numbers;
    numbers.into_iter().filter(|number| number.state == State::Differs).map(|number| number.quoted).collect()
}

#[rstest]
#[case::backing("osprey-landing", "Twin: 5½ yd backing.")]
#[case::batting("osprey-landing", "Batting for the lap: 62\" x 74\".")]
#[case::backing_after_a_piece("curlew-flat", "## Twin\n\nFrom mud, cut 195 A. Backing 6 yd.")]
#[case::border_strips(
    "osprey-landing",
    "## Twin\n\nSide strips measure 3½\" x 84½\"; top strips measure 3½\" x 60½\"."
)]
#[case::rows("osprey-landing", "## King\n\nLay out 8 rows of 8 blocks. Each row should measure 12½\" x 96½\".")]
#[case::diagonal_rows(
    "curlew-flat",
    "## Twin\n\nLay out the blocks in diagonal rows of 1, 3, 5, 7, 7, 7, 5, 3 and 1 blocks."
)]
fn what_is_not_stated_is_not_held_against_what_is(#[case] manuscript: &str, #[case] text: &str) {
    assert_eq!(differing(manuscript, text), Vec::<String>::new(), "{text}");
}

/// What is stated is: the same manuscript's own number, a step less.
#[test]
fn what_is_stated_is_held_against_it() {
    assert_eq!(differing("tide-pools", "## Throw\n\nBacking: 3 yd.").len(), 1);
    assert_eq!(differing("osprey-landing", "## Lap\n\nThe top measures 48½\" x 60\".").len(), 1);
}
