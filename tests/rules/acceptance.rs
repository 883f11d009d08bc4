//! Accepted findings and house levels: what is silenced, what is not, and what is counted.

use rstest::rstest;
use sparestrip::check::{Outcome, Tally};
use sparestrip::finding::Level;
use sparestrip::rule_book::Settings;

use crate::desk::{assert_says, one, one_by, outcome, outcome_by, rules_of};

/// Two sizes, each with the strips that are needed and none to spare.
fn lanterns(accepted: &str) -> String {
    format!(
        "pattern: Quay Lanterns\nmeasure: inch\n\
         sizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 }}\n\
         binding:\n  strip_width: 2 1/2\n  requires:\n    crib: {{ strips: 5 }}\n    lap: {{ strips: 8 }}\n{accepted}"
    )
}

fn silenced(outcome: &Outcome) -> Vec<(&str, Option<&str>)> {
    outcome.accepted.iter().map(|accepted| (accepted.finding.rule, accepted.finding.size.as_deref())).collect()
}

#[test]
fn an_acceptance_silences_one_size_and_is_counted() {
    let text = lanterns("accepted:\n  - { rule: spare-strip, size: crib, because: the kit packs an extra strip }\n");
    let outcome = outcome(&text);
    assert_eq!(silenced(&outcome), [("spare-strip", Some("crib"))]);
    assert_eq!(outcome.accepted[0].because, "the kit packs an extra strip");
    let left = one(&text, "spare-strip");
    assert_eq!(left.size.as_deref(), Some("lap"));
    assert_eq!(Tally::of(&outcome), Tally { errors: 1, queries: 0, notes: 0, accepted: 1 });
}

#[rstest]
#[case::finds_nothing(
    "{ rule: fold-short, because: the sample was sewn so }",
    "\"fold-short\" is accepted for the pattern as a whole, and it finds nothing there."
)]
#[case::finds_nothing_for_the_size(
    "{ rule: binding-short, size: lap, because: it was tried }",
    "\"binding-short\" is accepted for lap, and it finds nothing there."
)]
#[case::size_left_out(
    "{ rule: spare-strip, because: both kits pack an extra strip }",
    "\"spare-strip\" is accepted for the pattern as a whole"
)]
fn an_acceptance_without_use_is_told(#[case] accepted: &str, #[case] says: &str) {
    let text = lanterns(&format!("accepted:\n  - {accepted}\n"));
    assert_says(&one(&text, "accepted-unused"), &[says]);
    assert!(outcome(&text).accepted.is_empty());
    assert_eq!(rules_of(&text).iter().filter(|rule| **rule == "spare-strip").count(), 2);
}

#[test]
fn an_acceptance_without_a_reason_silences_nothing() {
    let text = lanterns("accepted:\n  - { rule: spare-strip, size: crib }\n");
    assert_eq!(rules_of(&text), ["spare-strip", "spare-strip", "missing-entry"]);
    assert_says(&one(&text, "missing-entry"), &["\"because\" is missing from accepted."]);
    assert!(outcome(&text).accepted.is_empty());
}

#[rstest]
#[case::rule("{ rule: spare-stripe, size: crib, because: extra }", "unknown-word", "spare-stripe", "spare-strip")]
#[case::size("{ rule: spare-strip, size: cribb, because: extra }", "unknown-size", "cribb", "crib")]
fn a_misspelt_acceptance_is_told_once_and_can_be_mended(
    #[case] accepted: &str,
    #[case] rule: &str,
    #[case] at: &str,
    #[case] meant: &str,
) {
    let text = lanterns(&format!("accepted:\n  - {accepted}\n"));
    assert_eq!(rules_of(&text), ["spare-strip", "spare-strip", rule]);
    let finding = one(&text, rule);
    assert_eq!(finding.at.at.text(&text), at);
    let mended = finding.correction.expect("a correction").apply(&text);
    assert_eq!(mended, text.replace(at, meant));
    assert_eq!(silenced(&outcome(&mended)), [("spare-strip", Some("crib"))]);
}

#[test]
fn a_house_may_set_a_level_or_do_without_a_rule() {
    let text = lanterns("");
    let mut settings = Settings::default();
    assert!(settings.set_level("spare-strip", None));
    assert!(outcome_by(&text, &settings).findings.is_empty());
    assert!(settings.set_level("spare-strip", Some(Level::Note)));
    let levels: Vec<Level> = outcome_by(&text, &settings).findings.iter().map(|finding| finding.level).collect();
    assert_eq!(levels, [Level::Note, Level::Note]);
}

#[test]
fn a_house_cannot_make_the_softer_half_of_a_rule_graver() {
    // 85 cm and 3/4 yd are both enough, which only asks, whatever the level of the rule.
    let text = lanterns("").replace("lap: { strips: 8 }", "lap: { strips: 9, fabric: 3/4 yd (85 cm) }");
    let mut settings = Settings::default();
    assert!(settings.set_level("pair-disagrees", Some(Level::Error)));
    assert_eq!(one_by(&text, "pair-disagrees", &settings).level, Level::Query);
    assert!(settings.set_level("pair-disagrees", Some(Level::Note)));
    assert_eq!(one_by(&text, "pair-disagrees", &settings).level, Level::Note);
}
