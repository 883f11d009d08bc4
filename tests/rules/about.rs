//! Finished sizes that are rounded in print, and those that are measured with raw edges.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, of_rule, one};

/// Four blocks of 13 1/2 in across and five down are 54 x 67 1/2 in. Around that, 2 x (54 + 67 1/2) = 243 in, 2 in at the
/// corners and 8 in for the ends are 253 in.
fn quilt(assumes: &str, finished: &str, binding: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nassumes: {{ {assumes} }}\nsizes:\n  lap: {{ finished: {finished} }}\nbinding:\n  \
         strip_width: 2 1/2\n  grain: bias\n  requires: {{ lap: {{ length: {binding} }} }}\nunits:\n  square: {{ make: patch, \
         finished: 13 1/2, cut: {{ patch: 14 }} }}\nblocks:\n  plain: {{ finished: 13 1/2, rows: [[square]] }}\nlayout:\n  lap: {{ \
         across: 4, down: 5, blocks: plain }}\n"
    )
}

#[rstest]
#[case("54 x 67 1/2", true)]
#[case("about 54 x 68", true)]
#[case("about 54 x 67", true)]
#[case("about 54 x 68 in (137 x 172 cm)", true)]
#[case("54 x 68", false)]
#[case("about 54 x 69", false)]
#[case("about 55 x 68", false)]
fn a_size_that_is_rounded_in_print_is_within_half_an_inch(#[case] finished: &str, #[case] is_right: bool) {
    let text = quilt("seam: 1/4", finished, "300");
    let found = of_rule(&text, "finished-size-wrong");
    assert_eq!(found.is_empty(), is_right, "{found:#?}");
    assert!(found.iter().all(|found| found.at.at.text(&text) == finished), "{found:#?}");
}

/// 253 in go around what the layout makes; the printed 54 x 67 would take 252, and 54 x 68 would take 254.
#[rstest]
#[case("about 54 x 67", "253", true)]
#[case("about 54 x 67", "252", false)]
#[case("about 54 x 68", "253", true)]
fn the_rest_is_computed_with_what_the_layout_makes(
    #[case] finished: &str,
    #[case] length: &str,
    #[case] is_enough: bool,
) {
    let text = quilt("seam: 1/4", finished, length);
    if is_enough {
        return assert_silent(&text);
    }
    let found = one(&text, "bias-short");
    assert_says(&found, &["253 in needed"]);
    assert!(found.help.contains("2 x (54 in + 67 1/2 in)"), "{}", found.help);
}

/// With its seam allowances the top is 54 1/2 x 68 in.
#[rstest]
#[case("measured: raw_edges", "54 1/2 x 68", true)]
#[case("measured: raw_edges", "54 x 67 1/2", false)]
#[case("measured: sewn", "54 1/2 x 68", false)]
#[case("measured: sewn", "54 x 67 1/2", true)]
fn a_size_with_raw_edges_has_a_seam_more_at_each_edge(
    #[case] assumes: &str,
    #[case] finished: &str,
    #[case] is_right: bool,
) {
    let text = quilt(assumes, finished, "300");
    if is_right {
        return assert_silent(&text);
    }
    let found = one(&text, "finished-size-wrong");
    assert_eq!(found.at.at.text(&text), finished);
    if assumes.contains("raw") {
        assert_says(&found, &["the layout makes 54 1/2 x 68 in"]);
        let working = "With 1/2 in for the seam allowances at two edges: 54 1/2 x 68 in.";
        assert!(found.help.contains(working), "{}", found.help);
    }
}
