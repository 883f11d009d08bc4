//! Borders and sashes of squares or other short pieces: no join is counted where one side ends at the end of a piece.

use rstest::rstest;

use crate::desk::{assert_says, of_rule, one, rules_of};

/// Blocks of 8 in, three across and four down, so 24 x 32 in inside a border that finishes 4 in and is cut from S.
fn bordered(size: &str, pieces: u64, corners: &str) -> String {
    let cornerstones = corners.contains("cornerstones");
    let corner = if cornerstones { "      - { piece: K, size: 4 1/2 x 4 1/2, pieces: { lap: 4 } }\n" } else { "" };
    let placed = if cornerstones { ", cornerstone: K" } else { "" };
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 32 x 40 }}\nfabrics:\n  ink:\n    requires: {{ lap: 1 yd }}\n    cut:\n      - {{ piece: \
         S, size: {size}, pieces: {{ lap: {pieces} }} }}\n{corner}units:\n  plain: {{ make: patch, finished: 8, cut: {{ patch: 8 1/2 }} }}\nblocks:\n  plain: {{ \
         finished: 8, rows: [[plain]] }}\nlayout:\n  lap: {{ across: 3, down: 4, blocks: plain, borders: [{{ width: 4, {corners}, \
         piece: S{placed} }}] }}\n"
    )
}

/// A square of 4 1/2 in finishes 4 in: eight to each side of 32 in, and eight to each end of 24 + 2 x 4 in.
#[rstest]
#[case::butted("4 1/2 x 4 1/2", "corners: butted", 32)]
// Eight to each side, and six to each end of 24 in.
#[case::with_corner_squares("4 1/2 x 4 1/2", "corners: cornerstones", 28)]
// Pieces that finish 8 in: four to each side of 32 in.
#[case::oblong("4 1/2 x 8 1/2", "corners: butted", 16)]
#[case::oblong_with_corner_squares("4 1/2 x 8 1/2", "corners: cornerstones", 14)]
fn short_pieces_are_counted_by_the_side(#[case] size: &str, #[case] corners: &str, #[case] needed: u64) {
    let rules = |pieces| of_rule(&bordered(size, pieces, corners), "pieces-short").len();
    assert_eq!((rules(needed), rules(needed - 1)), (0, 1));
    let short = one(&bordered(size, needed - 1, corners), "pieces-short");
    assert_says(&short, &[&format!("{} pieces of S stated; {needed} needed: 1 short.", needed - 1)]);
    assert!(of_rule(&bordered(size, needed, corners), "pieces-generous").is_empty());
    assert_eq!(of_rule(&bordered(size, needed + 2, corners), "pieces-generous").len(), 1);
}

/// In centimetres: squares of 11.2 finish 10 with seams of 0.6; 60 x 80 inside takes eight to each side and eight to each end.
#[rstest]
#[case(32, 0)]
#[case(31, 1)]
fn short_pieces_in_centimetres(#[case] pieces: u64, #[case] short: usize) {
    let text = bordered("11.2 x 11.2", pieces, "corners: butted")
        .replace("measure: inch", "measure: cm\nassumes: { seam: 0.6 }")
        .replace("32 x 40", "80 x 100")
        .replace("finished: 8", "finished: 20")
        .replace("width: 4,", "width: 10,");
    assert_eq!(of_rule(&text, "pieces-short").len(), short, "{:?}", rules_of(&text));
}

/// Pieces of 12 1/2 in do not come out even on a side of 32 1/2 in: three for each side by itself are 12, and 11 are
/// enough where the rest of one side begins the next (11 x 12 + 1/2 = 132 1/2 in, for 130). Neither is too few or too many.
#[rstest]
#[case::too_few(10, &["pieces-short"])]
#[case::joined_on(11, &[])]
#[case::each_side_by_itself(12, &[])]
#[case::one_to_spare(13, &[])]
#[case::too_many(14, &["pieces-generous"])]
fn what_is_left_of_a_piece_may_begin_the_next_side(#[case] pieces: u64, #[case] rules: &[&str]) {
    let text = bordered("4 1/2 x 12 1/2", pieces, "corners: butted");
    let found: Vec<_> = rules_of(&text).into_iter().filter(|rule| rule.starts_with("pieces-")).collect();
    assert_eq!(found, rules);
}

/// Long sashes of squares: blocks of 8 in, three across with sashing of 2, are 28 in to a row; squares of 2 1/2 in finish 2 in,
/// so fourteen to each of three rows.
#[test]
fn sashes_of_squares_are_counted_by_the_row() {
    let text = |pieces: u64| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 28 x 38 }}\nfabrics:\n  ink:\n    requires: {{ lap: 1/2 yd }}\n    cut:\n      - {{ piece: \
             L, size: 2 1/2 x 2 1/2, pieces: {{ lap: {pieces} }} }}\n      - {{ piece: V, size: 2 1/2 x 8 1/2, pieces: {{ lap: 8 }} \
             }}\nunits:\n  plain: {{ make: patch, finished: 8, cut: {{ patch: 8 1/2 }} }}\nblocks:\n  plain: {{ finished: 8, rows: [[plain]] }}\nlayout:\n  lap: {{ \
             across: 3, down: 4, blocks: plain, sashing: 2, sash: V, long_sash: L }}\n"
        )
    };
    assert!(of_rule(&text(42), "pieces-short").is_empty());
    assert_says(&one(&text(41), "pieces-short"), &["41 pieces of L stated; 42 needed"]);
}

/// Strips of 40 in still make more than one side: two for each side by itself would be eight.
#[test]
fn long_strips_are_still_joined_into_one() {
    let text = |strips: u64| {
        bordered("4 1/2 x 4 1/2", 1, "corners: butted")
            .replace(
                "size: 4 1/2 x 4 1/2, pieces: { lap: 1 }",
                &format!("strip_width: 4 1/2, strips: {{ lap: {strips} }}"),
            )
            .replace("across: 3, down: 4", "across: 3, down: 4, sashing: 10")
            .replace("32 x 40", "52 x 70")
    };
    // Inside 44 x 62 in: two sides of 62 1/2 and two ends of 52 1/2 are 230 in, and six strips joined are 237 1/2.
    assert!(of_rule(&text(6), "pieces-short").is_empty());
    assert_says(&one(&text(5), "pieces-short"), &["5 strips of S stated; 6 needed"]);
}
