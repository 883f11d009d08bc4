//! Pieces that come out of strips of two widths: the told strips are read by one width for all sizes of the pattern.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, of_rule, one, outcome, told};

const NAMES: [&str; 5] = ["a", "b", "c", "d", "e"];

/// Sashes of 2 x 6 3/4 in from 41 in, or of 5 x 17 cm from 104 cm: strips as wide as a sash give 6 of them, strips as wide as
/// a sash is long give 20.
fn sashes(metric: bool, more: &str, counts: &[u64], strips: &[u64], amounts: &[&str]) -> String {
    let by_size = |values: Vec<String>| -> String {
        let words: Vec<String> = NAMES.iter().zip(values).map(|(name, value)| format!("{name}: {value}")).collect();
        words.join(", ")
    };
    let texts = |values: &[u64]| by_size(values.iter().map(u64::to_string).collect());
    let (head, size, unit) = if metric {
        ("measure: cm\nassumes: { usable_width: 104, sold_by: 10 cm }", "5 x 17", "cm")
    } else {
        ("measure: inch\nassumes: { usable_width: 41, sold_by: 1/8 yd }", "2 x 6 3/4", "yd")
    };
    let sizes: String =
        NAMES[..counts.len()].iter().map(|name| format!("  {name}: {{ finished: 60 x 60 }}\n")).collect();
    format!(
        "pattern: Sluice Gate\n{head}\nsizes:\n{sizes}fabrics:\n  rope:\n    requires: {{ {} }}\n    cut:\n      - {{ piece: \
         sash, size: {size}, strips: {{ {} }}, pieces: {{ {} }}{more} }}\n",
        by_size(amounts.iter().map(|amount| format!("{amount} {unit}")).collect()),
        texts(strips),
        texts(counts),
    )
}

/// Counts of sashes, the strips that they take, and their widths and 1/2 in for squaring up as the shop sells them.
#[rstest]
#[case::one_narrow(false, &[22], &[4], &["1/4"])]
#[case::one_wide(false, &[22], &[2], &["1/2"])]
#[case::two_narrow(false, &[22, 60], &[4, 10], &["1/4", "5/8"])]
#[case::two_wide(false, &[22, 60], &[2, 3], &["1/2", "5/8"])]
#[case::five_narrow(false, &[12, 22, 40, 60, 90], &[2, 4, 7, 10, 15], &["1/8", "1/4", "1/2", "5/8", "7/8"])]
#[case::five_wide(false, &[12, 22, 40, 60, 90], &[1, 2, 2, 3, 5], &["1/4", "1/2", "1/2", "5/8", "1"])]
#[case::one_narrow_cm(true, &[22], &[4], &["30"])]
#[case::one_wide_cm(true, &[22], &[2], &["40"])]
#[case::two_narrow_cm(true, &[22, 60], &[4, 10], &["30", "60"])]
#[case::two_wide_cm(true, &[22, 60], &[2, 3], &["40", "60"])]
#[case::five_narrow_cm(true, &[12, 22, 40, 60, 90], &[2, 4, 7, 10, 15], &["20", "30", "40", "60", "80"])]
#[case::five_wide_cm(true, &[12, 22, 40, 60, 90], &[1, 2, 2, 3, 5], &["20", "40", "40", "60", "90"])]
fn a_strip_too_few_is_told_whichever_side_is_the_strips_width(
    #[case] metric: bool,
    #[case] counts: &[u64],
    #[case] strips: &[u64],
    #[case] amounts: &[&str],
) {
    assert_silent(&sashes(metric, "", counts, strips, amounts));
    for size in (0..strips.len()).filter(|size| strips[*size] > 1) {
        let mut fewer = strips.to_vec();
        fewer[size] -= 1;
        let text = sashes(metric, "", counts, &fewer, amounts);
        let found = one(&text, "strips-short");
        assert_says(&found, &[&format!("{} needed", strips[size])]);
        assert_eq!(found.size.as_deref(), Some(NAMES[size]));
        assert!(of_rule(&text, "fabric-short").is_empty(), "{:#?}", told(&text, &outcome(&text)));
    }
}

/// Where the text says the strip's width, or the fabric is directional, only that way is meant.
#[rstest]
#[case::narrow("2", 3, Some("4 needed"))]
#[case::narrow_enough("2", 4, None)]
#[case::wide("6 3/4", 1, Some("2 needed"))]
#[case::wide_enough("6 3/4", 2, None)]
fn a_stated_strip_width_is_the_one_that_is_meant(#[case] width: &str, #[case] strips: u64, #[case] says: Option<&str>) {
    let stated = sashes(false, &format!(", strip_width: {width}"), &[22], &[strips], &["1/2"]);
    // The height of a piece of directional fabric is along the bolt: it is the strip's width.
    let size = if width == "2" { "6 3/4 x 2" } else { "2 x 6 3/4" };
    let directional = sashes(false, "", &[22], &[strips], &["1/2"])
        .replace("size: 2 x 6 3/4", &format!("size: {size}"))
        .replace("    requires:", "    directional: yes\n    requires:");
    for text in [stated, directional] {
        match says {
            Some(says) => assert_says(&one(&text, "strips-short"), &[says]),
            None => assert!(of_rule(&text, "strips-short").is_empty(), "{:#?}", told(&text, &outcome(&text))),
        }
    }
}

/// Strips 6 3/4 in wide give 20 sashes laid across, and 18 laid along in three rows: for 19 one strip is enough.
#[test]
fn of_two_ways_out_of_one_strip_the_one_that_gives_more_counts() {
    assert_silent(&sashes(false, ", strip_width: 6 3/4", &[19], &[1], &["1/4"]));
    assert_says(&one(&sashes(false, ", strip_width: 6 3/4", &[61], &[3], &["5/8"]), "strips-short"), &["4 needed"]);
}

/// A strip 17 cm wide gives 12 sashes, and 20 cm are bought: by that way nothing is short or generous.
#[test]
fn strips_and_fabric_that_are_right_one_way_are_right() {
    assert_silent(&sashes(true, "", &[12], &[1], &["20"]));
    // With less fabric than that strip takes, the other way is meant: two strips of 5 cm.
    assert_says(&one(&sashes(true, "", &[12], &[1], &["10"]), "strips-short"), &["2 needed"]);
}
