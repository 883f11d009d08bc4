//! Pieces that come out of strips of two widths: the told strips are read by one width for all sizes of the pattern.

use rstest::rstest;

use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, of_rule, one, outcome, rules_of, told};

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

/// One strip 17 cm wide gives 12 sashes of 5 x 17 cm, and two strips 5 cm wide do: 20 cm are what to buy for either.
#[rstest]
#[case::cm(true, "20", "5", "17")]
#[case::inches(false, "1/4", "2", "6 3/4")]
fn a_strip_too_few_that_is_right_the_other_way_is_asked_about(
    #[case] metric: bool,
    #[case] amount: &str,
    #[case] narrow: &str,
    #[case] wide: &str,
) {
    let sashes =
        |more: &str, strips: u64| sashes(metric, more, &[12], &[strips], &[amount]).replace("1/8 yd", "1/4 yd");
    let one_strip = |more: &str| sashes(more, 1);
    let finding = one(&one_strip(""), "strip-width-unclear");
    assert_eq!((finding.level, finding.size.as_deref()), (Level::Query, Some("a")));
    assert_says(&finding, &["1 strip stated for 12 pieces (sash)", "2 would be needed"]);
    for width in [wide, narrow] {
        assert!(finding.help.contains(&format!("strip_width: {width} ")), "{}", finding.help);
    }
    // What is stated answers it, and so do two strips.
    assert_silent(&one_strip(&format!(", strip_width: {wide}")));
    assert_says(&one(&one_strip(&format!(", strip_width: {narrow}")), "strips-short"), &["2 needed"]);
    assert_silent(&sashes("", 2));
    // Without an amount nothing decides either.
    let no_amount = one_strip("").replace(&format!("a: {amount}"), "").replace("requires: {  cm }", "requires: {}");
    let no_amount = no_amount.replace("requires: {  yd }", "requires: {}");
    assert_eq!(rules_of(&no_amount).iter().filter(|rule| **rule == "strip-width-unclear").count(), 1, "{no_amount}");
}

/// With less fabric than the wider strip takes, the narrower ones are meant; with more than the narrower ones take, the wider.
#[test]
fn where_the_amount_decides_between_two_widths_nothing_is_asked() {
    assert_says(&one(&sashes(true, "", &[12], &[1], &["10"]), "strips-short"), &["2 needed"]);
    assert_silent(&sashes(true, "", &[22], &[2], &["40"]));
    // Of two sizes the other decides: one strip for 12 and two for 22 are right by the wider, four by the narrower.
    assert_silent(&sashes(true, "", &[12, 22], &[1, 2], &["20", "40"]));
    assert_eq!(rules_of(&sashes(true, "", &[12, 22], &[1, 4], &["20", "30"])), ["strips-short"]);
}

/// A piece longer than a strip: one strip as wide as it is long is meant only where the fabric is bought for that.
#[test]
fn one_strip_for_a_piece_longer_than_a_strip_is_one_too_few() {
    let rail = |amount: &str, strips: u64| {
        format!(
            "pattern: Lock Keeper\nmeasure: cm\nassumes: {{ usable_width: 106, sold_by: 5 cm }}\nsizes:\n  a: {{ finished: 150 x \
             160 }}\nfabrics:\n  rope:\n    requires: {{ a: {amount} }}\n    cut:\n      - {{ piece: rail, size: 106.5 x 11.5, \
             strips: {{ a: {strips} }}, pieces: {{ a: 1 }} }}\n"
        )
    };
    // Two strips of 11.5 cm are 23 cm, and 1.27 cm for squaring up.
    assert_silent(&rail("25 cm", 2));
    for amount in ["25 cm", "20 cm", "15 cm", "1 m"] {
        assert_says(&one(&rail(amount, 1), "strips-short"), &["2 needed"]);
    }
    // 106.5 cm and 1.27 cm.
    assert_silent(&rail("110 cm", 1));
    // More than either takes decides nothing.
    assert_eq!(rules_of(&rail("1.5 m", 1)), ["fabric-generous", "strip-width-unclear"]);
}
