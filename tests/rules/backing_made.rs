//! A backing that is stated as a size, reaches further one way than the other, has a strip sewn in, or is cut from a
//! listed fabric.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one};

/// A manuscript of one size with what stands in its backing.
fn backing(finished: &str, backing: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: {finished} }}\nbacking: {{ {backing} }}\n"
    )
}

/// 84 x 92 in with 4 in at each side is 92 x 100 in.
#[rstest]
#[case("92 x 100", None)]
#[case("100 x 92", None)]
#[case("96 x 104", None)]
#[case("92 x 98", Some("it is 2 in short in the length."))]
#[case("90 x 98", Some("it is 2 in short in the width and 2 in short in the length."))]
#[case("91 x 100 in (231 x 254 cm)", Some("it is 1 in short in the width."))]
fn a_size_is_as_large_as_the_quilt_with_its_overhang(#[case] size: &str, #[case] says: Option<&str>) {
    let text = backing("84 x 92", &format!("requires: {{ lap: {size} }}"));
    let Some(says) = says else { return assert_silent(&text) };
    let found = one(&text, "backing-short");
    assert_eq!(found.at.at.text(&text), size);
    assert_says(&found, &["92 x 100 in needed: ", says]);
    mended(&text, &found);
}

/// Published backings. 84 x 92 in for a queen bed from 7 1/2 yd: three panels of 90 in with 3 in at each side, and with 4 in
/// 276 in (copied texts on backing). 54 x 62 in from 3 yd with seams of 1 in (Janice Averil, In Bethlehem, Quilting
/// Treasures). 66 x 72 in with a batting of 74 x 80 in: the 4 yd that are printed give a backing of 72 in (Pam & Nicky
/// Lintott, Diamond stars, Today's Quilter, 2024). 59 x 75 in with 5 in at each end: two lengths of 85 in (Quilting Board).
/// 60 in wide, one length: up to 56 in (Marcus Fabrics).
#[rstest]
#[case("84 x 92", "overhang: 3, requires: { lap: { fabric: 7 1/2 yd, size: 90 x 98 } }", "")]
#[case("84 x 92", "overhang: 4, requires: { lap: { fabric: 7 1/2 yd } }", "7 1/2 yd")]
#[case("46 x 54", "seam: 1, usable_width: 42, requires: { lap: { fabric: 3 yd, size: 54 x 62, panels: 2 } }", "")]
#[case("66 x 72", "requires: { lap: { size: 74 x 80, fabric: 4 yd } }", "4 yd")]
#[case("59 x 75", "overhang: 5, usable_width: 42, requires: { lap: 4 3/4 yd }", "")]
#[case("59 x 75", "overhang: 5, usable_width: 42, requires: { lap: 4 5/8 yd }", "4 5/8 yd")]
#[case("56 x 70", "overhang: 2, usable_width: 60, requires: { lap: { panels: 1, panels_run: along } }", "")]
fn published_backings(#[case] finished: &str, #[case] stated: &str, #[case] short: &str) {
    let text = backing(finished, stated);
    let found = of_rule(&text, "backing-short");
    let places: Vec<&str> = found.iter().map(|found| found.at.at.text(&text)).collect();
    assert_eq!(places, if short.is_empty() { vec![] } else { vec![short] }, "{text}");
}

/// 57 in and 2 in at each side are more than 60 in.
#[test]
fn one_length_of_60_in_does_not_cover_57() {
    let text = backing("57 x 70", "overhang: 2, usable_width: 60, requires: { lap: { panels: 1, panels_run: along } }");
    assert_eq!(one(&text, "backing-panels").at.at.text(&text), "1");
}

/// The panels make the size that is stated: 100 in long instead of the 80 that are needed, 200 in in two panels.
#[test]
fn panels_make_the_stated_size() {
    let text = |fabric: &str| {
        backing("54 x 72", &format!("requires: {{ lap: {{ size: 62 x 100, fabric: {fabric}, panels_run: along }} }}"))
    };
    assert_silent(&text("5 5/8 yd"));
    let short = text("5 1/2 yd");
    assert_says(&one(&short, "backing-short"), &["2 panels along the length, each 100 in long = 200 in"]);
}

/// 54 x 72 in with 2 and 3 in is 58 x 78 in: two panels across of 58 in, 116 in of 117 in in 3 1/4 yd.
#[test]
fn an_overhang_of_two_lengths_counts_against_its_own_sides() {
    let text = |fabric: &str| {
        backing("54 x 72", &format!("overhang: {{ across: 2, down: 3 }}, requires: {{ lap: {fabric} }}"))
    };
    assert_silent(&text("3 1/4 yd"));
    let short = text("3 1/8 yd");
    let found = one(&short, "backing-short");
    assert_eq!(found.at.at.text(&short), "3 1/8 yd");
    let working = "width 54 in + 2 x 2 in = 58 in; length 72 in + 2 x 3 in = 78 in";
    assert!(found.help.contains(working), "{}", found.help);
    assert_silent(&backing("54 x 72", "overhang: { across: 2, down: 3 }, requires: { lap: 58 x 78 }"));
}

/// Each size may have its own overhang; the batting goes by it too.
#[test]
fn an_overhang_by_size() {
    let text = |batting: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 \
             }}\nbacking:\n  overhang: {{ crib: 3, lap: {{ across: 4, down: 5 }} }}\n  requires: {{ crib: 42 x 54, lap: 68 x 86 \
             }}\nbatting:\n  requires: {{ crib: 42 x 54, lap: {batting} }}\n"
        )
    };
    assert_silent(&text("68 x 86"));
    let short = text("68 x 84");
    let found = one(&short, "batting-short");
    assert_eq!((found.size.as_deref(), found.at.at.text(&short)), (Some("lap"), "68 x 84"));
}

/// A batting must lie on the backing that is made: 70 x 88 in on one of 68 x 86 in does not.
#[test]
fn a_batting_larger_than_the_stated_size_is_found() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 60 x 76 }\nbacking:\n  requires: { lap: 68 x 84 \
                }\nbatting:\n  requires: { lap: 70 x 88 }\n";
    assert_eq!(one(text, "backing-smaller-than-batting").at.at.text(text), "70 x 88");
}

/// 90 x 80 in is 98 x 88 in. Two panels of 40 in and a strip of 20 in, less two seams of 1 in each, are 98 in: 2 x 88 in.
#[test]
fn a_strip_that_is_sewn_in_helps_the_panels_to_cover() {
    let text = |insert: &str, fabric: &str| {
        let requires = format!("{{ lap: {{ panels: 2, panels_run: along, fabric: {fabric} }} }}");
        backing("90 x 80", &format!("insert: {insert}, requires: {requires}"))
    };
    assert_silent(&text("20", "5 yd"));
    let narrow = text("19", "5 yd");
    let found = one(&narrow, "backing-panels");
    assert_says(&found, &["sewn together, they are 97 in wide, and the backing must be 98 in, so 1 in short"]);
    assert_eq!(one(&text("20", "4 7/8 yd"), "backing-short").size.as_deref(), Some("lap"));
}

/// 62 x 80 in from two panels: one of 40 in, and one of 62 - 39 = 23 in, beside which 17 in are left over 80 in: four of
/// 3 1/2 in across and 22 along, 88. So it takes 160 in, and more pieces than 88 take a strip more.
#[test]
fn a_backing_counts_in_the_fabric_that_it_is_cut_from() {
    let text = |pieces: u64, fabric: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 54 x 72 }}\nfabrics:\n  ink:\n    requires: {{ \
             lap: {fabric} }}\n    cut:\n      - {{ piece: A, size: 3 1/2 x 3 1/2, pieces: {{ lap: {pieces} }} }}\nbacking:\n  \
             from: ink\n  requires: {{ lap: {{ panels: 2, panels_run: along }} }}\n"
        )
    };
    assert_silent(&text(88, "4 1/2 yd"));
    let short = text(88, "4 3/8 yd");
    let found = one(&short, "fabric-short");
    assert_eq!(found.at.at.text(&short), "4 3/8 yd");
    assert!(found.related.iter().any(|label| label.text == "the backing is cut from it too"), "{found:#?}");
    // 12 more than fit beside the panel are a strip and a little more: 163 1/2 in.
    assert_eq!(one(&text(99, "4 1/2 yd"), "fabric-short").at.at.text(&text(99, "4 1/2 yd")), "4 1/2 yd");
}

/// An amount beside the fabric that it is cut from would be a second answer to one question.
#[test]
fn an_amount_beside_from_is_refused() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 54 x 72 }\nfabrics:\n  ink: { requires: { lap: 5 yd \
                } }\nbacking: { from: ink, requires: { lap: { fabric: 4 1/2 yd, panels: 2 } } }\n";
    assert_eq!(one(text, "repeated-key").at.at.text(text), "4 1/2 yd");
}
