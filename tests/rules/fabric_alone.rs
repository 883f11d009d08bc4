//! Binding of which fabric alone is stated: the strips that go around, and the spare as the house has it.

use rstest::rstest;
use sparestrip::finding::Level;
use sparestrip::rule_book::Settings;

use crate::desk::{
    assert_says, centimetres, inches, mended, of_rule_by, one, one_by, outcome_by, rules_of, with_spares,
};

/// 45 x 45 in: 180 round, with corners and tails 190. Five strips of 40 in with diagonal joins of 2 1/2 are 190 in long and
/// take 12 1/2 in of fabric, with 1/2 in for squaring up 13; a spare takes 2 1/2 more.
fn alone(fabric: &str) -> String {
    inches("45 x 45", "strip_width: 2 1/2", &format!("fabric: {fabric}"))
}

fn without_the_rule() -> Settings {
    let mut settings = Settings::default();
    assert!(settings.set_level("spare-strip", None));
    settings
}

fn found(text: &str, settings: &Settings) -> Vec<&'static str> {
    outcome_by(text, settings).findings.iter().map(|finding| finding.rule).collect()
}

#[rstest]
#[case::does_not_go_round("12 3/8 in", &["binding-fabric-short"], &["binding-fabric-short"])]
#[case::goes_round("12 1/2 in", &["spare-strip"], &["no-squaring-room"])]
#[case::and_is_squared_up("13 in", &["spare-strip"], &[])]
#[case::as_sold("3/8 yd", &["spare-strip"], &[])]
#[case::almost_a_spare("14 7/8 in", &["spare-strip"], &[])]
#[case::a_spare("15 in", &["no-squaring-room"], &[])]
#[case::a_spare_squared_up("15 1/2 in", &[], &[])]
#[case::as_sold_with_a_spare("1/2 yd", &[], &["binding-fabric-generous"])]
fn a_spare_is_counted_as_the_house_has_it(#[case] fabric: &str, #[case] usual: &[&str], #[case] off: &[&str]) {
    let text = alone(fabric);
    assert_eq!(rules_of(&text), usual);
    assert_eq!(found(&text, &without_the_rule()), off);
    assert_eq!(found(&text, &with_spares(0)), off);
}

/// 120 x 120 cm: 480 round, with corners of 1.27 and tails of 25 less an opening of 30, 505.08. Five strips of 107 cm with
/// joins of 6.5 are 509 cm and take 32.5 cm.
#[rstest]
#[case::does_not_go_round("32.4 cm", &["binding-fabric-short"], &["binding-fabric-short"])]
#[case::goes_round("33.8 cm", &["spare-strip"], &[])]
#[case::with_a_spare("40.3 cm", &[], &[])]
fn a_spare_is_counted_in_centimetres_too(#[case] fabric: &str, #[case] usual: &[&str], #[case] off: &[&str]) {
    let binding = "strip_width: 6.5\nseam: 0.7\ntails: 25\nopening: 30\nusable_width: 107";
    let text = centimetres("120 x 120", binding, &format!("fabric: {fabric}"));
    // Where its joins land is another matter.
    let found = |settings: &Settings| -> Vec<_> {
        found(&text, settings).into_iter().filter(|rule| *rule != "join-near-corner").collect()
    };
    assert_eq!(found(&Settings::default()), usual);
    assert_eq!(found(&without_the_rule()), off);
}

#[test]
fn the_message_says_which_strips_go_round_and_which_is_the_spare() {
    let text = alone("3/8 yd");
    let finding = one(&text, "spare-strip");
    assert_eq!(finding.level, Level::Error);
    assert_says(
        &finding,
        &[
            "3/8 yd (13 1/2 in) stated; 1/2 yd (18 in) needed: 6 strips (5 to go around and 1 to spare) x 2 1/2 in = 15 in. What is \
           stated is enough for the strips that go around, but not for the spare.",
        ],
    );
    assert_eq!(mended(&text, &finding), alone("1/2 yd"));
    let short = one(&alone("1/4 yd"), "binding-fabric-short");
    assert_says(
        &short,
        &["6 strips (5 to go around and 1 to spare) x 2 1/2 in = 15 in", "so what is stated is 3 1/2 in short."],
    );
    let by_house = one_by(&alone("1/4 yd"), "binding-fabric-short", &without_the_rule());
    assert_says(
        &by_house,
        &["3/8 yd (13 1/2 in) needed: 5 strips x 2 1/2 in = 12 1/2 in, so what is stated is 3 1/2 in short."],
    );
}

/// No message calls fabric short that is enough for what goes around, whatever the house makes of the spare.
#[test]
fn enough_for_going_round_is_never_called_short() {
    for level in [Level::Error, Level::Query, Level::Note] {
        let mut settings = Settings::default();
        assert!(settings.set_level("spare-strip", Some(level)));
        let findings = of_rule_by(&alone("3/8 yd"), "spare-strip", &settings);
        assert_eq!(findings.iter().map(|finding| finding.level).collect::<Vec<_>>(), [level]);
        assert!(!findings[0].message.contains("short"), "{}", findings[0].message);
    }
}

/// The strips that are to be printed have no spare where the house has none.
#[test]
fn stated_strips_have_no_spare_where_the_house_does_without_the_rule() {
    let text = |strips: u64| inches("45 x 45", "strip_width: 2 1/2", &format!("strips: {strips}, fabric: 1/2 yd"));
    assert!(found(&text(5), &without_the_rule()).iter().all(|rule| *rule != "spare-strip"));
    let finding = one_by(&text(4), "binding-short", &without_the_rule());
    assert_says(&finding, &["4 strips stated; 5 needed: 5 to go around with the tails."]);
}

/// With no spare counted, five strips of 40 in less four joins of 2 1/2 are 190 in, which 45 x 46 in (192 with the corners and
/// tails) is 2 in beyond: six strips, and the message says where the six come from.
#[test]
fn a_count_that_is_nowhere_stated_is_explained() {
    let text = inches("45 x 46", "strip_width: 2 1/2", "fabric: 3/8 yd");
    let found = of_rule_by(&text, "binding-fabric-short", &with_spares(0));
    let help = found[0].help.replace('\n', " ");
    assert!(help.contains("2 x (45 in + 46 in) = 182 in"), "{help}");
    assert!(help.contains("Strips: 6 x 40 in - 5 diagonal joins x 2 1/2 in = 227 1/2 in."), "{help}");
    // Strips that are stated need no such explanation.
    let text = inches("45 x 46", "strip_width: 2 1/2", "strips: 7, fabric: 3/8 yd");
    assert!(!one(&text, "binding-fabric-short").help.contains("round"));
}
