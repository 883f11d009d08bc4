//! Words of a cutting list and a fabric: what a piece is for, squares cut again, scraps, fabric that shrinks, and choices.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one, outcome, rules_of, told};

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Twelve blocks of four patches, and a piece that the layout does not use.
fn with_sleeve(sleeve: &str) -> String {
    format!(
        "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 18 x 24 }} }}\nfabrics:\n  ink:\n    requires: {{ lap: 3/4 yd }}\n    \
         cut:\n      - {{ piece: A, size: 3 1/2 x 3 1/2, pieces: {{ lap: 48 }} }}\n      - {{ piece: sleeve, size: 8 1/2 x 17, pieces: \
         {{ lap: 1 }}{sleeve} }}\nunits:\n  p: {{ make: patch, finished: 3, cut: {{ patch: A }} }}\nblocks:\n  four: {{ finished: 6, rows: \
         [[p, p], [p, p]] }}\nlayout:\n  lap: {{ across: 3, down: 4, blocks: four }}\n"
    )
}

/// What is for something else is not called unused, and the fabric is bought for it: four strips of 3 1/2 in and
/// one of 8 1/2 in, whose end holds the rest.
#[test]
fn what_is_cut_for_something_else_is_not_called_unused() {
    assert_silent(&with_sleeve(", for: hanging sleeve"));
    assert_rules(&with_sleeve(""), &["piece-unused"]);
    let less = with_sleeve(", for: hanging sleeve").replace("3/4 yd", "1/2 yd");
    assert_eq!(of_rule(&less, "fabric-short").len() + of_rule(&less, "fabric-tight").len(), 1);
}

/// Blocks on point, whose side triangles come from squares cut twice and corners from squares cut once.
fn on_point(sides: &str, corners: &str) -> String {
    format!(
        "pattern: Test Meadow\nmeasure: inch\nsizes: {{ lap: {{ finished: 25 1/2 x 34 }} }}\nfabrics:\n  ink:\n    requires: {{ lap: 7/8 yd }}\n    \
         cut:\n      - {{ piece: K, size: 6 1/2 x 6 1/2, pieces: {{ lap: 18 }} }}\n      - {{ piece: S, size: 9 3/4 x 9 3/4, pieces: {{ lap: 3 \
         }}{sides} }}\n      - {{ piece: C, size: 5 1/8 x 5 1/8, pieces: {{ lap: 2 }}{corners} }}\nunits:\n  k: {{ make: patch, finished: 6, \
         cut: {{ patch: K }} }}\n  side: {{ make: side_triangle, finished: 6, cut: {{ square: S }} }}\n  corner: {{ make: corner_triangle, \
         finished: 6, cut: {{ square: C }} }}\nblocks:\n  b: {{ finished: 6, rows: [[k]] }}\nlayout:\n  lap: {{ set: on_point, across: 3, \
         down: 4, blocks: b, side_triangles: side, corner_triangles: corner }}\n"
    )
}

#[rstest]
#[case::as_they_are(", cut_again: twice", ", cut_again: once", 0)]
#[case::sides_once(", cut_again: once", ", cut_again: once", 1)]
#[case::corners_twice(", cut_again: twice", ", cut_again: twice", 1)]
#[case::nothing_said("", "", 0)]
fn squares_are_cut_again_as_the_units_take_them(#[case] sides: &str, #[case] corners: &str, #[case] wrong: usize) {
    let text = on_point(sides, corners);
    assert_eq!(of_rule(&text, "yield-wrong").len(), wrong, "{:#?}", told(&text, &outcome(&text)));
    assert_eq!(rules_of(&text).len(), wrong, "{:#?}", told(&text, &outcome(&text)));
    if wrong == 1 {
        let finding = one(&text, "yield-wrong");
        assert_says(&finding, &["diagonally, into", "triangles from each"]);
        mended(&text, &finding);
    }
}

/// Scraps have no amount, and nothing is called short for them; what the design uses of them is still counted.
#[test]
fn scraps_have_no_amount() {
    let text = |count: u64| {
        with_sleeve(", for: hanging sleeve")
            .replace("requires: { lap: 3/4 yd }", "sold_as: scraps")
            .replace("lap: 48", &format!("lap: {count}"))
    };
    assert_silent(&text(48));
    assert_rules(&text(47), &["pieces-short"]);
    let stated = text(48).replace("sold_as: scraps", "sold_as: scraps\n    requires: { lap: 1 yd }");
    assert_says(&one(&stated, "out-of-range"), &["Nobody says how many scraps are bought"]);
}

/// So many strips of 10 in from a fabric that shrinks by so much.
fn shrinking(shrinks: &str, amount: &str, strips: u64) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 57 }}\nfabrics:\n  ink:\n    shrinks: {shrinks}\n    requires: {{ \
         lap: {amount} }}\n    cut: [{{ piece: A, size: 10 x 10, pieces: {{ lap: {} }} }}]\n",
        strips * 4
    )
}

/// 90 in after washing are 100 in before, where it shrinks by 10 %: divided by what is left, not 90 x 1.1 = 99 (S319,
/// Anything but Boring, January 2020).
#[rstest]
#[case::published("10 %", "100 1/2 in", &[])]
#[case::to_the_thread("10 %", "100 in", &["no-squaring-room"])]
#[case::ten_percent_added("10 %", "99 in", &["fabric-short"])]
#[case::unwashed("0 %", "90 1/2 in", &[])]
#[case::three("3 %", "93 3/8 in", &[])]
#[case::three_short("3 %", "92 3/4 in", &["fabric-short"])]
fn amounts_are_divided_by_what_is_left(#[case] shrinks: &str, #[case] amount: &str, #[case] rules: &[&str]) {
    let text = shrinking(shrinks, amount, 9);
    assert_rules(&text, rules);
    if let Some(finding) = of_rule(&text, "fabric-short").first() {
        assert!(finding.message.contains("before washing"), "{}", finding.message);
    }
}

#[test]
fn precut_fabric_does_not_shrink_here() {
    let text = shrinking("3 %", "12", 2).replace("shrinks", "sold_as: fat_quarters\n    shrinks");
    assert_says(&one(&text, "out-of-range"), &["How much smaller precut fabric is after washing is not computed"]);
}

/// A fabric of which one or the other is bought.
fn choice(fabric: &str, pieces: u64) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 57 }}\nfabrics:\n  ink:\n    {fabric}\n    \
         cut: [{{ piece: A, size: 4 x 4, pieces: {{ lap: {pieces} }} }}]\n"
    )
}

/// Twenty squares of 4 in: two strips of ten, 8 in of the bolt, and one fat quarter of 18 x 20 in, 4 x 5. A
/// twenty-first takes a third strip, and another fat quarter.
#[rstest]
#[case::both("requires: { lap: 1/4 yd or 1 fat quarter }", 20, &[])]
#[case::neither("requires: { lap: 1/4 yd or 1 fat quarter }", 21, &["fabric-short", "fabric-short"])]
#[case::fat_quarter_short("requires: { lap: 3/8 yd or 1 fat quarter }", 21, &["fabric-short"])]
#[case::two("requires: { lap: 3/8 yd or 2 fat quarters }", 21, &[])]
#[case::the_other_first("sold_as: fat_quarters\n    requires: { lap: 1 fat quarter or 1/4 yd }", 20, &[])]
#[case::yardage_short("sold_as: fat_quarters\n    requires: { lap: 2 or 1/4 yd }", 21, &["fabric-short"])]
#[case::small_first("requires: { lap: 1 fat quarter or 1/4 yd }", 20, &[])]
#[case::small_first_short("requires: { lap: 1 fat quarter or 3/8 yd }", 21, &["fabric-short"])]
#[case::each_or_in_all("different: 3\n    requires: { lap: 9 in each or 3 fat quarters }", 60, &[])]
#[case::each_or_too_few("different: 3\n    requires: { lap: 3/8 yd each or 4 fat quarters }", 61, &["fabric-short"])]
#[case::each_or_enough("different: 3\n    requires: { lap: 3/8 yd each or 6 fat quarters }", 61, &[])]
#[case::of_each("different: 3\n    requires: { lap: 1/4 yd or 1 fat quarter each }", 60, &[])]
#[case::of_each_short("different: 3\n    requires: { lap: 3/8 yd or 1 fat quarter each }", 63, &["fabric-short"])]
#[case::unreadable("requires: { lap: 1/4 yd or 1 fat quart }", 20, &["unreadable-quantity"])]
fn each_choice_must_be_enough(#[case] fabric: &str, #[case] pieces: u64, #[case] rules: &[&str]) {
    let text = choice(fabric, pieces);
    assert_rules(&text, rules);
    if let (["fabric-short"], Some(finding)) = (rules, outcome(&text).findings.first()) {
        assert_says(finding, &["may be bought instead", "Each choice must be enough."]);
        mended(&text, finding);
    }
}

/// A piece that does not come out of what may be bought instead makes that no choice, whatever else it is enough for.
#[rstest]
#[case("1 fat quarter or 1/2 yd", "4 1/2 x 20 1/2", 3)]
#[case("1 fat quarter or 5/8 yd", "19 x 19", 1)]
#[case("1 fat eighth or 3/8 yd", "10 x 10", 1)]
#[case("1/2 yd or 1 fat quarter", "17 x 30", 1)]
fn a_piece_that_is_larger_than_the_other_choice_is_told(#[case] bought: &str, #[case] size: &str, #[case] pieces: u64) {
    let text =
        choice(&format!("requires: {{ lap: {bought} }}"), pieces).replace("size: 4 x 4", &format!("size: {size}"));
    let found = one(&text, "fabric-short");
    assert_says(&found, &["may be bought instead; A does not come out of one either way. Each choice must be enough."]);
    assert!(found.at.at.text(&text).contains("fat"), "{}", found.at.at.text(&text));
    assert!(found.correction.is_none());
}

/// A number in all is at least one of each of the different fabrics.
#[rstest]
#[case::one_of_each("9 in each or 3 fat quarters", &[])]
#[case::too_few("9 in each or 2 fat quarters", &["fabric-short"])]
#[case::in_all("9 in each or 2 fat quarters in all", &["fabric-short"])]
#[case::one_each("9 in each or 1 fat quarter", &[])]
fn a_number_in_all_has_each_of_the_fabrics(#[case] bought: &str, #[case] rules: &[&str]) {
    assert_rules(&choice(&format!("different: 3\n    requires: {{ lap: {bought} }}"), 36), rules);
}
