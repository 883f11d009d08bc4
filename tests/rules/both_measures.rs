//! Lengths and sizes that are stated in inches and in metric: the one half is computed with, and the other is the same,
//! rounded.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, one};

/// A manuscript whose one size is stated in both measures.
fn finished(measure: &str, size: &str) -> String {
    format!("pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  lap: {{ finished: '{size}' }}\n")
}

/// Published pairs that are right. 1/2, 3/4, 5/8 and 1 1/4 in: The Quilter's Bible (David & Charles), shapes chapter.
/// 12, 12 1/2, 28, 3 1/2 in: a thread maker's project sheet of an envelope-back pillow. 60 in: Pam & Nicky Lintott
/// (David & Charles). 80 cm: pksmokey, 2024. 36 x 39 in: Handled Carefully, 2009.
#[rstest]
#[case("inch", "1/2 x 3/4 in (1.3 x 1.9 cm)")]
#[case("inch", "5/8 x 1 1/4 in (1.6 x 3.2 cm)")]
#[case("inch", "12 x 12 1/2 in (30.48 x 31.75 cm)")]
#[case("inch", "28 x 3 1/2 in (71.12 x 8.89 cm)")]
#[case("inch", "60 x 4 in (152.5 x 10.16 cm)")]
#[case("cm", "80 x 80 cm (31 1/2 x 31 1/2 in)")]
#[case("inch", "36 x 39 in (91 x 99 cm)")]
#[case("inch", "4 1/2 x 60 1/2\" (11.5 x 153.5 cm)")]
#[case("inch", "11.5 x 153.5 cm (4 1/2 x 60 1/2 in)")]
#[case("cm", "6.5 x 6.5 cm (2 1/2 x 2 1/2 in)")]
#[case("inch", "4 1/2 x 4 1/2 in / 11.5 x 11.5 cm")]
fn roundings_are_right(#[case] measure: &str, #[case] size: &str) {
    assert_silent(&finished(measure, size));
}

/// Published slips. 13 x 14 and 4 x 14 in: a magazine's house block projects, 2018. 70 in: Stash Buster Sampler 1, of an
/// Australian magazine, which rounds 70.87 in down.
#[rstest]
#[case(
    "inch",
    "13 x 14 in (33 x 35 cm)",
    "33 x 35 cm",
    "error",
    "14 in is about 35.56 cm, so 35 cm is 0.56 cm too small"
)]
#[case("inch", "4 x 14 in (10.5 x 38 cm)", "10.5 x 38 cm", "error", "so 38 cm is 2.44 cm too large")]
#[case(
    "inch",
    "4 x 12 1/2 in (10.5 x 35 cm)",
    "10.5 x 35 cm",
    "error",
    "12 1/2 in is about 31.75 cm, so 35 cm is 3.25 cm"
)]
#[case(
    "cm",
    "180 x 15 cm (70 x 6 in)",
    "70 x 6 in",
    "error",
    "180 cm is about 70.866 in, so 70 in is 0.866 in too small"
)]
#[case("inch", "35.2 x 33 cm (14 x 13 in)", "35.2 x 33 cm", "query", "so 35.2 cm is 0.36 cm too small")]
fn what_is_no_rounding_is_found_at_the_other_half(
    #[case] measure: &str,
    #[case] size: &str,
    #[case] place: &str,
    #[case] level: &str,
    #[case] says: &str,
) {
    let text = finished(measure, size);
    let found = one(&text, "pair-disagrees");
    assert_eq!((found.at.at.text(&text), found.level.word()), (place, level));
    assert_says(&found, &[says]);
}

/// One correction writes both halves, and what it writes is right.
#[test]
fn a_correction_writes_both_halves() {
    let text = finished("inch", "4 1/2 x 60 1/2 in (11.5 x 150 cm)");
    let corrected = mended(&text, &one(&text, "pair-disagrees"));
    assert!(corrected.contains("4 1/2 in x 60 1/2 in (11.5 cm x 153.5 cm)"), "{corrected}");
}

/// A batting of 54 x 72 in with 4 in at each side is 62 x 80 in, 157.48 x 203.2 cm.
#[test]
fn another_correction_writes_both_halves_too() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 54 x 72 }\nbatting:\n  overhang: 4 in (10 \
                cm)\n  requires: { lap: 62 x 76 in (157.5 x 193 cm) }\n";
    let corrected = mended(text, &one(text, "batting-short"));
    assert!(corrected.contains("62 in x 80 in (157.5 cm x 203 cm)"), "{corrected}");
}

/// In `sold_by` each half is the step of its own measure: 23 in is sold as 5/8 yd by eighths, and as 60 cm by 20 cm.
#[test]
fn each_half_of_what_a_shop_sells_by_counts_for_its_own_measure() {
    let text = |amount: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nassumes: {{ sold_by: 1/8 yd (20 cm) }}\nsizes:\n  lap: {{ finished: 54 x \
             72 }}\nbinding:\n  strip_width: 2 1/2\n  requires: {{ lap: {{ strips: 8, fabric: {amount} }} }}\n"
        )
    };
    assert_silent(&text("5/8 yd (60 cm)"));
    // A whole step of 20 cm more than is needed.
    one(&text("80 cm"), "binding-fabric-generous");
}
