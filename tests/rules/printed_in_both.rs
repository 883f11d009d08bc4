//! A house that prints both measures: each amount, or each amount and size, must have its other half.

use sparestrip::manuscript::Source;
use sparestrip::rule_book::{Settings, read_house_rules};

use crate::desk::outcome_by;

const TEXT: &str = "\
pattern: Fog Bell
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes: { lap: { finished: 60 x 76 in (152 x 193 cm) }, twin: { finished: 70 x 90 } }
fabrics:
  ink:
    requires: { lap: 1 yd, twin: 90 cm }
    cut:
      - { piece: A, size: 4 1/2 x 4 1/2, pieces: { lap: 20, twin: 30 } }
      - { piece: B, strip_width: 2 1/2 in (6.4 cm), strips: { lap: 2, twin: 0 } }
  sand:
    sold_as: fat_quarters
    requires: { lap: 4, twin: 6 }
binding:
  strip_width: 2 1/2
  requires: { lap: { strips: 9, fabric: 3/4 yd (70 cm) }, twin: { strips: 10, fabric: 7/8 yd } }
backing:
  requires: { every_size: { panels: 2 }, lap: { fabric: 5 yd }, twin: { fabric: 0 yd, size: 80 x 100 } }
batting:
  requires: { lap: 68 x 84 in (173 x 214 cm), twin: packaged queen }
";

/// The texts that the rule points at, under a value of the house.
fn alone(text: &str, both: u64, level: &str) -> Vec<String> {
    let house = format!("levels: {{ other-measure-missing: {level} }}\nvalues: {{ both_measures: {both} }}\n");
    let house = read_house_rules(&Source::from_text("house-rules.yaml", house.as_str()));
    assert!(house.mistakes.is_empty(), "{:?}", house.mistakes);
    let outcome = outcome_by(text, &house.settings);
    let own = outcome.findings.iter().filter(|finding| finding.rule == "other-measure-missing");
    own.map(|finding| finding.at.at.text(text).to_string()).collect()
}

#[test]
fn nobody_asks_unless_a_house_does() {
    assert_eq!(alone(TEXT, 0, "error"), [""; 0]);
    assert_eq!(alone(TEXT, 2, "off"), [""; 0]);
    let outcome = outcome_by(TEXT, &Settings::default());
    assert!(!outcome.findings.iter().any(|finding| finding.rule == "other-measure-missing"));
}

/// Counts and 0 yd have no other half, and what has one is not asked about.
#[test]
fn each_amount_without_its_other_half_is_asked_about() {
    assert_eq!(alone(TEXT, 1, "query"), ["1 yd", "90 cm", "7/8 yd", "5 yd"]);
}

#[test]
fn and_each_size_where_the_house_prints_these_in_both() {
    let expected = ["70 x 90", "1 yd", "90 cm", "4 1/2 x 4 1/2", "2 1/2", "7/8 yd", "5 yd", "80 x 100"];
    assert_eq!(alone(TEXT, 2, "query"), expected);
}

#[test]
fn the_message_says_which_measure_lacks() {
    let house = read_house_rules(&Source::from_text("house-rules.yaml", "values: { both_measures: 2 }\n"));
    let outcome = outcome_by(TEXT, &house.settings);
    let says = |start: &str| {
        let message = outcome.findings.iter().find(|finding| finding.message.starts_with(start));
        message.unwrap_or_else(|| panic!("nothing begins with {start}")).message.clone()
    };
    assert_eq!(says("1 yd"), "1 yd stated, and no metric amount beside it: this house prints both.");
    assert_eq!(says("90 cm"), "90 cm stated, and no amount in yards beside it: this house prints both.");
    assert_eq!(says("70 x 90"), "70 x 90 stated, and no metric measure beside it: this house prints both.");
}

/// A sign-off goes by numbers, and no number goes by this.
#[test]
fn a_record_does_not_hold_it_among_what_its_numbers_go_by() {
    let settings = Settings::default();
    let (_, asked) = settings.with_what_is_asked(|settings| outcome_by(TEXT, settings));
    assert!(!asked.contains("both_measures"), "{asked:?}");
}
