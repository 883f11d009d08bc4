//! The batting: `batting-short`.

use rstest::rstest;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::read_house_rules;

use crate::desk::{assert_says, assert_silent, mended, of_rule_by, one, rules_of};

/// A package that a house adds is taken by its name: 44 x 56 are needed.
#[rstest]
#[case::holds("packaged_lap: 45 x 60", "packaged lap", &[])]
#[case::too_small("packaged_lap: 43 x 60", "packaged lap", &["batting-short"])]
#[case::of_two_words("packaged_small_throw: 60 x 60", "packaged small throw", &[])]
#[case::not_known("packaged_lap: 45 x 60", "packaged lab", &["unknown-word"])]
#[case::of_no_house("", "packaged lap", &["unknown-word"])]
fn a_house_may_add_packages(#[case] values: &str, #[case] batting: &str, #[case] rules: &[&str]) {
    let house = Source::from_text("house-rules.yaml", format!("values: {{ {values} }}\n"));
    let house = read_house_rules(&house);
    assert!(house.mistakes.is_empty(), "{:#?}", house.mistakes);
    let text = crib("  overhang: 4\n", batting);
    let found = crate::desk::outcome_by(&text, &house.settings).findings;
    assert_eq!(found.iter().map(|finding| finding.rule).collect::<Vec<_>>(), rules, "{found:#?}");
    if rules == ["unknown-word"] && !values.is_empty() {
        let corrected = found[0].correction.as_ref().expect("a correction").apply(&text);
        assert_eq!(corrected, text.replace("packaged lab", "packaged lap"));
    }
}

/// A crib quilt of 36 x 48 with a batting.
fn crib(method: &str, requires: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 36 x 48 }}\nbatting:\n{method}  requires:\n    \
         crib: {requires}\n"
    )
}

#[rstest]
#[case::just("44 x 56", None)]
#[case::turned("56 x 44", None)]
#[case::short_in_length(
    "44 x 55 1/2",
    Some("Batting of 44 x 55 1/2 in stated; 44 x 56 in needed: it is 1/2 in short in the length.")
)]
#[case::short_in_width("43 x 60", Some("it is 1 in short in the width."))]
#[case::turned_and_short(
    "55 x 44",
    Some("Batting of 55 x 44 in stated; 44 x 56 in needed: it is 1 in short in the length.")
)]
#[case::short_both_ways("40 x 50", Some("it is 4 in short in the width and 6 in short in the length."))]
#[case::metric("112 x 142.3 cm", None)] // 44 in is 111.76 cm, 56 in is 142.24 cm
#[case::metric_short("111 x 143 cm", Some("short in the width."))]
#[case::package("packaged crib", None)]
#[case::quoted("\"packaged crib\"", None)]
fn the_boundaries_are_exact(#[case] batting: &str, #[case] says: Option<&str>) {
    let text = crib("  overhang: 4\n", batting);
    let Some(says) = says else {
        assert_silent(&text);
        return;
    };
    let finding = one(&text, "batting-short");
    assert_says(&finding, &[says]);
    assert_eq!(finding.at.at.text(&text), batting);
    mended(&text, &finding);
}

#[rstest]
#[case("44 x 54", "crib: 44 x 56\n")]
#[case("54 x 44", "crib: 56 x 44\n")]
#[case("44 x 54 in", "crib: 44 x 56 in\n")]
#[case("44\" x 54\"", "crib: 44 in x 56 in\n")]
fn the_correction_is_written_the_same_way(#[case] batting: &str, #[case] mended_to: &str) {
    let text = crib("  overhang: 4\n", batting);
    let text = mended(&text, &one(&text, "batting-short"));
    assert!(text.ends_with(mended_to), "{text}");
}

#[test]
fn a_package_that_is_too_small_is_told_with_one_that_is_not() {
    let text = crib("  overhang: 6\n", "packaged crib"); // 48 x 60
    let finding = one(&text, "batting-short");
    assert_says(
        &finding,
        &["Batting of a packaged crib, 45 x 60 in, stated; 48 x 60 in needed: it is 3 in short in the width."],
    );
    assert!(finding.help.contains("\"packaged twin\", 72 x 90 in"), "{}", finding.help);
    assert!(mended(&text, &finding).ends_with("crib: packaged twin\n"));
}

#[test]
fn a_package_that_nobody_sells_is_told() {
    let text = crib("", "packaged cot");
    assert_eq!(rules_of(&text), ["unknown-word"]);
    assert!(one(&text, "unknown-word").help.contains("packaged crib, packaged twin, packaged full"));
}

#[test]
fn without_its_own_the_overhang_of_the_backing_serves() {
    let backing = "backing:\n  overhang: 2\n  requires: { crib: { panels: 1 } }\n";
    assert_silent(&(crib("", "40 x 52") + backing));
    assert_eq!(rules_of(&crib("", "40 x 52")), ["batting-short"]);
    assert_eq!(rules_of(&(crib("  overhang: 4\n", "40 x 52") + backing)), ["batting-short"]);
}

#[test]
fn a_house_sets_the_packages_it_sells() {
    let text = crib("  overhang: 4\n", "packaged crib");
    let house = |size: &str| {
        let house = format!("values: {{ packaged_crib: {size} }}\n");
        let house = read_house_rules(&Source::from_text("house-rules.yaml", house));
        assert!(house.mistakes.is_empty(), "{:?}", house.mistakes);
        house.settings
    };
    assert_eq!(of_rule_by(&text, "batting-short", &house("44 x 55 in")).len(), 1);
    assert!(of_rule_by(&text, "batting-short", &house("44 x 56 in")).is_empty());
    let slip = read_house_rules(&Source::from_text("house-rules.yaml", "values: { packaged_crib: 45 in }\n"));
    assert_eq!(slip.mistakes.len(), 1);
}

/// 90 x 120 cm with 10 cm at each side.
#[rstest]
#[case("110 x 140", None)]
#[case("110 x 139.5", Some("Batting of 110 x 139.5 cm stated; 110 x 140 cm needed: it is 0.5 cm short in the length."))]
#[case("packaged crib", None)] // 114.3 x 152.4 cm
fn a_metric_batting(#[case] batting: &str, #[case] says: Option<&str>) {
    let text = crib("  overhang: 10\n", batting).replace("measure: inch", "measure: cm").replace("36 x 48", "90 x 120");
    match says {
        Some(says) => {
            let finding = one(&text, "batting-short");
            assert_eq!(finding.message, says);
            assert!(mended(&text, &finding).ends_with("crib: 110 x 140\n"));
        }
        None => assert_silent(&text),
    }
}
