//! Strips that are told for pieces, for several fabrics, or for fabric of another length: what comes of them is counted as
//! it is bought.

use rstest::rstest;

use crate::desk::{assert_says, of_rule, one, outcome, rules_of, told};

/// A manuscript of one size whose words stand under it.
fn throw(finished: &str, rest: &str) -> String {
    format!("pattern: Test Harbour\nmeasure: inch\nsizes:\n  throw: {{ finished: {finished} }}\n{rest}")
}

fn fabric(words: &str, cuts: &[&str]) -> String {
    let cuts: String = cuts.iter().map(|cut| format!("      - {{ {cut} }}\n")).collect();
    throw("60 x 60", &format!("fabrics:\n  ink:\n    {words}\n    cut:\n{cuts}"))
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Sixteen strips of 2 1/2 in give 96 pieces of 2 1/2 x 6 1/2 in, 6 each, and take 40 in; six strips of 6 1/2 in give 16
/// each, and take 39 in. By the amount that is stated it is known which are meant.
#[rstest]
#[case::narrow("1 1/4 yd", 16, &[])]
#[case::narrow_short("1 1/4 yd", 15, &["pieces-short"])]
#[case::wide("1 1/8 yd", 6, &[])]
#[case::wide_short("1 1/8 yd", 5, &["pieces-short"])]
#[case::narrow_by_the_amount("1/2 yd", 6, &["pieces-short"])]
#[case::neither_is_enough("1/4 yd", 6, &["fabric-short", "pieces-short"])]
fn strips_alone_are_counted_as_they_are_bought(#[case] amount: &str, #[case] strips: u64, #[case] rules: &[&str]) {
    let text = throw(
        "32 x 36",
        &format!(
            "units: {{ p: {{ make: patch, finished: 2 x 6, cut: {{ patch: A }} }} }}\nblocks: {{ b: {{ finished: 4 x 6, \
             rows: [[p, p]] }} }}\nlayout: {{ throw: {{ across: 8, down: 6, blocks: b }} }}\nfabrics:\n  ink:\n    \
             requires: {{ throw: {amount} }}\n    cut: [{{ piece: A, size: 2 1/2 x 6 1/2, strips: {{ throw: {strips} }} }}]\n"
        ),
    );
    let found: Vec<&str> = rules_of(&text).into_iter().filter(|rule| *rule != "fabric-generous").collect();
    assert_eq!(found, rules, "{:#?}", told(&text, &outcome(&text)));
}

/// Strips of a fat eighth are 20 in long: 64 squares of 2 1/2 in come of 8 of them, and one eighth holds 3.
#[rstest]
#[case(1, &["fabric-short"])]
#[case(2, &["fabric-short"])]
#[case(3, &[])]
fn strips_of_small_fabrics_are_as_long_as_they_are_counted(#[case] eighths: u64, #[case] rules: &[&str]) {
    let cut =
        "strips: { throw: 8 }, strip_width: 2 1/2, subcut: [{ piece: A, size: 2 1/2 x 2 1/2, pieces: { throw: 64 } }]";
    assert_rules(&fabric(&format!("sold_as: fat_eighths\n    requires: {{ throw: {eighths} }}"), &[cut]), rules);
}

/// 96 squares of 2 1/2 in come of 6 strips of 40 in, and of a fat quarter 8 x 7 = 56 at most. 48 come of 6 strips of 20 in,
/// and of 3 of 40 in, which are 7 1/2 in.
#[rstest]
#[case::quarter_short("requires: { throw: 1/2 yd or 1 fat quarter }", 6, 96, &["fabric-short"])]
#[case::quarters("requires: { throw: 1/2 yd or 2 fat quarters }", 6, 96, &[])]
#[case::yardage("sold_as: fat_quarters\n    requires: { throw: 1 or 1/4 yd }", 6, 48, &[])]
#[case::yardage_short("sold_as: fat_quarters\n    requires: { throw: 1 or 1/8 yd }", 6, 48, &["fabric-short"])]
fn what_is_bought_instead_has_strips_of_its_own(
    #[case] words: &str,
    #[case] strips: u64,
    #[case] pieces: u64,
    #[case] rules: &[&str],
) {
    let cut = format!("piece: A, size: 2 1/2 x 2 1/2, strips: {{ throw: {strips} }}, pieces: {{ throw: {pieces} }}");
    assert_rules(&fabric(words, &[&cut]), rules);
}

/// A fat quarter of 18 in is 17.1 in after washing at 5 %.
#[rstest]
#[case("17 x 20", &[])]
#[case("18 x 20", &["fabric-short"])]
fn a_small_fabric_that_is_bought_instead_shrinks_too(#[case] size: &str, #[case] rules: &[&str]) {
    let cut = format!("piece: A, size: {size}, pieces: {{ throw: 1 }}");
    assert_rules(&fabric("shrinks: 5 %\n    requires: { throw: 5/8 yd or 1 fat quarter }", &[&cut]), rules);
}

/// A fat quarter holds 10 x 18 and 9 x 18 side by side, and not 10 x 18 and 9 x 20.
#[rstest]
#[case("9 x 18", 20, &[])]
#[case("9 x 20", 20, &["fabric-short"])]
#[case("9 x 20", 40, &[])]
fn what_each_of_several_gives_comes_of_one(#[case] other: &str, #[case] quarters: u64, #[case] rules: &[&str]) {
    let cuts = [
        "piece: A, size: 10 x 18, pieces_from_each: { throw: 1 }".to_string(),
        format!("piece: B, size: {other}, pieces_from_each: {{ throw: 1 }}"),
    ];
    let words = format!("sold_as: fat_quarters\n    different: 20\n    requires: {{ throw: {quarters} }}");
    assert_rules(&fabric(&words, &[&cuts[0], &cuts[1]]), rules);
}

/// 17 squares of 4 1/2 in and one piece of 4 1/2 x 36 in from each of 20 fabrics: 36 in take a strip by themselves, and 17
/// squares three, so 4 from each, 80 in all.
#[rstest]
#[case(79, &["strips-short"])]
#[case(80, &[])]
fn strips_for_several_kinds_are_counted_fabric_by_fabric(#[case] strips: u64, #[case] rules: &[&str]) {
    let cut = format!(
        "strips: {{ throw: {strips} }}, strip_width: 4 1/2, subcut: [{{ piece: A, size: 4 1/2 x 4 1/2, pieces_from_each: \
         {{ throw: 17 }} }}, {{ piece: B, size: 4 1/2 x 36, pieces_from_each: {{ throw: 1 }} }}]"
    );
    let text = fabric("different: 20\n    requires: { throw: 5/8 yd each }", &[&cut]);
    assert_rules(&text, rules);
    if !rules.is_empty() {
        assert_says(&one(&text, "strips-short"), &["80"]);
    }
}

/// 240 squares and 12 from each fat quarter that gives the same: 20. Of 4 1/2 in squares 4 x 4 = 16 come of one.
#[rstest]
#[case(20, 12, &[])]
#[case(21, 12, &["fabric-generous"])]
#[case(19, 12, &["share-short"])]
#[case(15, 16, &[])]
fn as_many_as_give_all_pieces_are_needed(#[case] quarters: u64, #[case] each: u64, #[case] rules: &[&str]) {
    let cut = format!("piece: A, size: 4 1/2 x 4 1/2, pieces: {{ throw: 240 }}, pieces_from_each: {{ throw: {each} }}");
    let words = format!("sold_as: fat_quarters\n    from_each: yes\n    requires: {{ throw: {quarters} }}");
    let text = fabric(&words, &[&cut]);
    let (mut found, mut wanted) = (rules_of(&text), rules.to_vec());
    found.sort_unstable();
    wanted.sort_unstable();
    assert_eq!(found, wanted, "{:#?}", told(&text, &outcome(&text)));
}

/// A panel from each of two fabrics: 72 in and 4 in at each end are 80 in.
#[rstest]
#[case("2 1/4 yd each", &[])] // 81 in
#[case("2 1/8 yd each", &["fabric-short"])] // 76 1/2 in
fn a_backing_may_have_a_panel_of_each_of_two_fabrics(#[case] amount: &str, #[case] rules: &[&str]) {
    let text = throw(
        "54 x 72",
        &format!(
            "fabrics: {{ sea: {{ different: 2, requires: {{ throw: {amount} }} }} }}\nbacking: {{ from: sea, requires: {{ \
             throw: {{ panels: 2, panels_run: along }} }} }}\n"
        ),
    );
    assert_rules(&text, rules);
}

/// A parallelogram of 7 1/4 x 2 1/4 in lies in strips as wide as it is high: cut 2 3/4 in, 7.827 in apart after 1.588 in,
/// so 4 of a strip of 40 in.
#[rstest]
#[case(1, 4, &[])]
#[case(1, 5, &["strips-short"])]
#[case(2, 5, &[])]
fn told_strips_of_a_shape_are_as_wide_as_it_is_high(#[case] strips: u64, #[case] pieces: u64, #[case] rules: &[&str]) {
    let cut = format!(
        "piece: A, shape: parallelogram, angle: 60, size: 7 1/4 x 2 1/4, strips: {{ throw: {strips} }}, pieces: {{ throw: \
         {pieces} }}"
    );
    let found = of_rule(&fabric("requires: { throw: 1/4 yd }", &[&cut]), "strips-short");
    assert_eq!(found.iter().map(|finding| finding.rule).collect::<Vec<_>>(), rules, "{found:#?}");
}

/// Binding fabric of its own is washed first as well: 12 strips of 2 1/2 in are 30 in, 31.579 in before washing at 5 %.
#[rstest]
#[case("", "7/8 yd", &[])] // 31 1/2 in
#[case("assumes: { shrinks: 5 % }\n", "7/8 yd", &["binding-fabric-short"])]
#[case("assumes: { shrinks: 5 % }\n", "1 yd", &[])]
fn the_binding_shrinks_as_is_assumed(#[case] assumes: &str, #[case] amount: &str, #[case] rules: &[&str]) {
    let binding = format!(
        "{assumes}binding: {{ strip_width: 2 1/2, requires: {{ throw: {{ strips: 12, fabric: {amount} }} }} }}\n"
    );
    let text = throw("88 x 105", &binding);
    let found: Vec<&str> = rules_of(&text).into_iter().filter(|rule| *rule != "join-near-corner").collect();
    assert_eq!(found, rules, "{:#?}", told(&text, &outcome(&text)));
}

/// Nine strips of 1 1/2 in take 13 1/2 in to the last thread.
#[rstest]
#[case("3/8 yd", &["no-squaring-room"])]
#[case("1/2 yd", &[])]
fn the_fabric_of_a_flange_is_squared_up(#[case] amount: &str, #[case] rules: &[&str]) {
    let binding = format!(
        "binding: {{ strip_width: 1 1/4, flange: 1 1/2, requires: {{ throw: {{ strips: 9, fabric: 1/2 yd, flange: {amount} }} \
         }} }}\n"
    );
    let text = throw("60 x 80", &binding);
    let found: Vec<&str> = rules_of(&text).into_iter().filter(|rule| *rule == "no-squaring-room").collect();
    assert_eq!(found, rules, "{:#?}", told(&text, &outcome(&text)));
}

/// Points 3 1/2 in wide around a circle of 40 in, 125.664 in: 36 are 126 in. Around a hexagon of 20 in sides 6 a side.
#[rstest]
#[case("40 x 40, outline: circle", 36, &[])]
#[case("40 x 40, outline: circle", 35, &["prairie-points-short"])]
#[case("40 x 34 5/8, outline: { sides: 6, side: 20 }", 36, &[])]
#[case("40 x 34 5/8, outline: { sides: 6, side: 20 }", 35, &["prairie-points-short"])]
#[case("40 x 40", 48, &[])]
#[case("40 x 40", 47, &["prairie-points-short"])]
fn prairie_points_go_around_the_outline(#[case] finished: &str, #[case] points: u64, #[case] rules: &[&str]) {
    let text = throw(finished, &format!("prairie_points: {{ square: 4, requires: {{ throw: {points} }} }}\n"));
    assert_rules(&text, rules);
}

/// 5 in squares on a print that repeats each 12 in: 8 side by side and 2 one above another. A piece wider than the fabric
/// comes of no repeat.
#[rstest]
#[case("5 x 5", 16, 16, &[])]
#[case("5 x 5", 17, 17, &["not-checked"])]
#[case("41 x 10", 1, 1, &["piece-longer-than-strip"])]
fn what_comes_of_a_repeat_fits_it(#[case] size: &str, #[case] each: u64, #[case] pieces: u64, #[case] rules: &[&str]) {
    let cut = format!("piece: A, size: {size}, pieces: {{ throw: {pieces} }}, centered: yes, per_repeat: {each}");
    let text = fabric("repeat: 12\n    directional: yes\n    requires: { throw: 3/8 yd }", &[&cut]);
    assert_rules(&text, rules);
}

/// 2 1/2 in is 6.35 cm: to the nearest millimeter 6.4 (or 6.3), to the next half centimeter 6.5; 7 is no rounding.
#[rstest]
#[case("2 1/2 in (6.4 cm)", None)]
#[case("2 1/2 in (6.5 cm)", Some("note"))]
#[case("2 1/2 in (7 cm)", Some("error"))]
fn short_lengths_may_be_rounded_to_half_a_centimeter(#[case] width: &str, #[case] level: Option<&str>) {
    let text =
        throw("60 x 60", &format!("binding: {{ strip_width: {width}, requires: {{ throw: {{ strips: 8 }} }} }}\n"));
    let found = of_rule(&text, "pair-disagrees");
    assert_eq!(found.first().map(|finding| finding.level.word()), level, "{found:#?}");
}

/// An opening that nobody states may be shorter on a small quilt: that is asked, and one that is stated is wrong.
#[rstest]
#[case("", "query")]
#[case("opening: 12, ", "error")]
fn an_opening_that_is_not_stated_is_asked_about(#[case] opening: &str, #[case] level: &str) {
    let text = throw(
        "16 x 16",
        &format!("binding: {{ strip_width: 2 1/2, {opening}requires: {{ throw: {{ strips: 4 }} }} }}\n"),
    );
    assert_eq!(one(&text, "opening-too-long").level.word(), level);
}

/// A number of small fabrics where the fabric is sold from the bolt: the help says which word to state.
#[test]
fn small_fabrics_from_the_bolt_are_told_with_the_word_that_lacks() {
    let text = fabric("requires: { throw: 2 fat quarters }", &["piece: A, size: 5 x 5, pieces: { throw: 4 }"]);
    let finding = one(&text, "out-of-range");
    assert!(finding.help.contains("sold_as: fat_quarters"), "{}", finding.help);
}

/// Strips that nothing is cut from have a width, and no size.
#[test]
fn strips_without_a_width_lack_that() {
    let finding = one(&fabric("requires: { throw: 1/2 yd }", &["piece: A, strips: { throw: 4 }"]), "missing-entry");
    assert_says(&finding, &["strip_width"]);
}
