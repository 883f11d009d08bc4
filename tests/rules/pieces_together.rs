//! Pieces of one name that several cutting lists give are counted together.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, of_rule, one, outcome, rules_of, told};

/// Twelve blocks of four patches: 48 A, from three fabrics.
fn scrappy(counts: [u64; 3], patch: &str) -> String {
    let fabrics = ["ink", "sky", "fern"].iter().zip(counts).map(|(name, count)| {
        // 11 come out of a strip.
        let amount = if count > 11 { "1/4 yd" } else { "1/8 yd" };
        format!(
            "  {name}:\n    requires: {{ lap: {amount} }}\n    cut: [{{ piece: A, size: 3 1/2 x 3 1/2, pieces: {{ lap: {count} }} }}]\n"
        )
    });
    let fabrics: String = fabrics.collect();
    format!(
        "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 18 x 24 }} }}\nfabrics:\n{fabrics}units:\n  \
         p: {{ make: patch, finished: 3, cut: {{ patch: {patch} }} }}\nblocks:\n  four: {{ finished: 6, rows: [[p, p], [p, p]] }}\n\
         layout:\n  lap: {{ across: 3, down: 4, blocks: four }}\n"
    )
}

#[rstest]
#[case::as_many([16, 16, 16])]
#[case::unlike([20, 20, 8])]
#[case::one_more([17, 16, 16])]
fn pieces_of_several_fabrics_are_enough_together(#[case] counts: [u64; 3]) {
    assert_silent(&scrappy(counts, "A"));
}

/// 16 + 20 + 11 = 47, where 48 are needed: told at the largest of them, with the others beside it.
#[test]
fn one_too_few_of_all_is_short() {
    let text = scrappy([16, 20, 11], "A");
    let finding = one(&text, "pieces-short");
    assert_eq!(finding.at.at.text(&text), "20");
    assert_says(&finding, &["47 pieces of A stated in ink, sky and fern; 48 needed: 1 short."]);
    let beside: Vec<&str> = finding.related.iter().map(|label| label.at.text(&text)).collect();
    assert!(beside.contains(&"16") && beside.contains(&"11"), "{beside:?}");
    assert!(finding.correction.is_none());
}

#[test]
fn too_many_of_all_is_a_note() {
    let finding = one(&scrappy([20, 20, 20], "A"), "pieces-generous");
    assert_says(&finding, &["60 pieces of A stated in ink, sky and fern; 48 are enough: 12 more"]);
}

/// With the fabric before it, the piece of that fabric alone is meant, and the others are used by nothing.
#[test]
fn the_fabric_before_the_name_means_that_fabric_alone() {
    let text = scrappy([16, 16, 16], "sky A");
    assert_eq!(rules_of(&text).iter().filter(|rule| **rule == "piece-unused").count(), 2);
    assert_says(&one(&text, "pieces-short"), &["16 pieces of A stated; 48 needed"]);
}

/// What a fabric gives alone is no longer there for the others: 12 blocks take 36 of any fabric and 12 of sky.
#[rstest]
#[case::enough([16, 16, 16], &[])]
#[case::sky_short([20, 11, 17], &["pieces-short"])]
#[case::all_short([16, 20, 11], &["pieces-short"])]
fn pieces_named_both_ways_are_counted_once(#[case] counts: [u64; 3], #[case] rules: &[&str]) {
    let text = scrappy(counts, "A");
    let text = text.replace("blocks:\n", "  s: { make: patch, finished: 3, cut: { patch: sky A } }\nblocks:\n");
    let text = text.replace("[[p, p], [p, p]]", "[[p, p], [p, s]]");
    assert_eq!(rules_of(&text), rules, "{:#?}", told(&text, &outcome(&text)));
}

/// Pieces of one name that are not cut alike are not the same piece.
#[test]
fn pieces_that_are_not_cut_alike_are_asked_about() {
    let text = scrappy([16, 16, 16], "A").replacen("3 1/2 x 3 1/2", "3 1/2 x 3 3/4", 1);
    let finding = one(&text, "out-of-range");
    assert_says(&finding, &["Piece A is in more than one cutting list, and not cut alike: ink, sky, fern."]);
}

/// Also two entries of one list: 8 from the strips' ends, and 8 from strips of their own.
#[test]
fn pieces_of_one_name_in_one_list_are_counted_together() {
    let text = |count: u64| {
        let twice = format!(
            "cut: [{{ piece: A, size: 3 1/2 x 3 1/2, pieces: {{ lap: 8 }} }}, {{ piece: A, size: 3 1/2 x 3 1/2, pieces: {{ lap: {count} }} }}]"
        );
        let one = "cut: [{ piece: A, size: 3 1/2 x 3 1/2, pieces: { lap: 16 } }]";
        scrappy([16, 16, 16], "A").replacen(one, &twice, 1)
    };
    assert_silent(&text(8));
    assert_eq!(of_rule(&text(7), "pieces-short").len(), 1);
}
