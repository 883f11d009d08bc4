//! The bed that a size is for: `bed-not-covered`.

use rstest::rstest;
use sparestrip::finding::Level;
use sparestrip::manuscript::Source;

use crate::desk::{assert_says, assert_silent, one, outcome, rules_of};

fn quilt(measure: &str, entries: &str) -> String {
    format!("pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  big: {{ {entries} }}\n")
}

/// A mattress of 60 x 80, or as named; a drop at both sides and at the foot.
#[rstest]
#[case::top("60 x 80", "queen bed", "", None)]
#[case::top_too_small(
    "59 x 79 1/2",
    "queen bed",
    "",
    Some(
        "59 x 79 1/2 in stated for a queen bed; 60 x 80 in needed to cover its top alone: the quilt is 1 in short in the width and 1/2 in short in the length."
    )
)]
#[case::drop("80 x 90", "queen bed", "10", None)]
#[case::drop_at_the_sides(
    "79 x 90",
    "queen bed",
    "10",
    Some(
        "79 x 90 in stated for a queen bed; 80 x 90 in needed to cover it with a drop of 10 in: the quilt is 1 in short in the width."
    )
)]
#[case::drop_at_the_foot("80 x 89", "queen bed", "10", Some("the quilt is 1 in short in the length."))]
#[case::twin("38 x 75", "twin bed", "", None)]
#[case::twin_too_small("37 x 75", "twin bed", "", Some("for a twin bed"))]
#[case::full("54 x 75", "full bed", "", None)]
#[case::full_too_small("53 x 75", "full bed", "", Some("54 x 75 in needed"))]
#[case::king("76 x 80", "king bed", "", None)]
#[case::king_too_small("76 x 79", "king bed", "", Some("for a king bed"))]
#[case::crib("28 x 52 3/8", "crib", "", None)]
#[case::smaller_than_a_crib("12 x 12", "crib", "", None)]
fn a_bed_is_covered(#[case] finished: &str, #[case] bed: &str, #[case] drop: &str, #[case] says: Option<&str>) {
    let drop = if drop.is_empty() { String::new() } else { format!(", drop: {drop}") };
    let text = quilt("inch", &format!("finished: {finished}, for: {bed}{drop}"));
    let Some(says) = says else {
        assert_silent(&text);
        return;
    };
    let finding = one(&text, "bed-not-covered");
    assert_eq!(finding.level, Level::Query);
    assert_eq!(finding.at.at.text(&text), finished);
    assert_eq!(finding.size.as_deref(), Some("big"));
    assert_says(&finding, &[says]);
}

#[test]
fn a_metric_quilt_is_told_in_centimetres() {
    // 60 x 80 in is 152.4 x 203.2 cm.
    assert_silent(&quilt("cm", "finished: 202.4 x 228.2, for: queen bed, drop: 25"));
    let finding = one(&quilt("cm", "finished: 200 x 228.2, for: queen bed, drop: 25"), "bed-not-covered");
    assert_says(&finding, &["202.4 x 228.2 cm needed", "2.4 cm short in the width"]);
}

#[rstest]
#[case("finished: 60 x 80, drop: 10", "missing-entry")]
#[case("finished: 60 x 80, for: queen", "unknown-word")]
#[case("finished: 60 x 80, for: queen bed, drop: ten", "unreadable-quantity")]
fn a_slip_is_told_once(#[case] entries: &str, #[case] rule: &str) {
    assert_eq!(rules_of(&quilt("inch", entries)), [rule]);
}

/// Nobody is told to cover the mattress of a crib: what is said is the caution, and nothing else.
#[rstest]
#[case("inch", "36 x 48", "10")]
#[case("inch", "60 x 80", "10")]
#[case("cm", "90 x 120", "25")]
fn of_a_crib_the_caution_is_told_and_nothing_else(#[case] measure: &str, #[case] finished: &str, #[case] drop: &str) {
    let text = quilt(measure, &format!("finished: {finished}, for: crib, drop: {drop}"));
    let finding = one(&text, "bed-not-covered");
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Note, drop));
    assert_eq!(format!("{} {}", finding.message, finding.help), sparestrip::caution::CRIB);
    assert!(finding.correction.is_none() && finding.needed.is_none());
}

/// Every bed in every manuscript at hand becomes a crib, large or small, with a drop and without: no rule then asks for
/// a larger quilt, a larger bed, or a mattress that is covered.
#[test]
fn no_rule_advises_a_larger_quilt_for_a_crib() {
    let drop = |text: &str| text.replace("for: crib", "for: crib, drop: 10");
    let mut beds = 0;
    for text in manuscripts() {
        let text = ["twin", "full", "queen", "king"]
            .iter()
            .fold(text, |text, bed| text.replace(&format!("for: {bed} bed"), "for: crib"));
        beds += text.matches("for: crib").count();
        let with_drop = if text.contains("drop:") { text.clone() } else { drop(&text) };
        for text in [text, with_drop] {
            for finding in outcome(&text).findings {
                let said = format!("{} {}", finding.message, finding.help).to_lowercase();
                for wrong in ["quilt larger", "larger quilt,", "smaller drop", "to cover", "mattress 28"] {
                    assert!(!said.contains(wrong), "{}: {said}", finding.rule);
                }
            }
        }
    }
    assert!(beds > 3, "only {beds} beds");
}

/// The examples, right and faulty, both manuscripts of each rule's page, and cribs of several sizes.
fn manuscripts() -> Vec<String> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns");
    let examples = sparestrip::discover::discover(&[folder])
        .files
        .into_iter()
        .map(|path| Source::open(&path).expect("an example").text);
    let pages = sparestrip::rule_book::book().iter().flat_map(|page| [page.fails.text(), page.passes.text()]);
    let sizes = [("inch", "8 x 8"), ("inch", "27 x 52"), ("inch", "90 x 108"), ("cm", "60 x 80"), ("cm", "200 x 220")];
    let cribs = sizes.map(|(measure, finished)| quilt(measure, &format!("finished: {finished}, for: crib")));
    examples.chain(pages).chain(cribs).collect()
}

#[test]
fn the_page_says_the_caution() {
    let page = sparestrip::rule_book::page("bed-not-covered").expect("its page");
    assert!(page.working.replace('\n', " ").contains(sparestrip::caution::CRIB), "{}", page.working);
}
