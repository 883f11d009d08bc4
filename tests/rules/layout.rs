//! How a manuscript is written down: words, shapes, quantities and sizes, and what is not checked yet.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, one, outcome, rules_of, told};

const RIGHT: &str = "\
pattern: Mill Race
measure: inch
sizes:
  crib: { finished: 36 x 48 }
  lap: { finished: 60 x 76 }
binding:
  strip_width: 2 1/2
  fold: double
  requires:
    crib: { strips: 6, fabric: 1/2 yd }
    lap: { strips: 9, fabric: 3/4 yd }
";

#[test]
fn the_right_manuscript_is_silent() {
    assert_silent(RIGHT);
}

/// One slip in the right manuscript: what stood there, what is written instead, and where and what is told.
#[rstest]
#[case::tab(
    "  fold:",
    "\tfold:",
    "not-yaml",
    "\t",
    "The file cannot be read here: a tab stands here where spaces are expected."
)]
#[case::quotation("Mill Race", "\"Mill Race", "not-yaml", "\"", "this quotation mark is not closed")]
#[case::second(
    "fold: double",
    "fold: &f double\n  finish: *f",
    "not-yaml",
    "*f",
    "*f stands for a value written elsewhere"
)]
#[case::misspelt_word("fold:", "fodl:", "unknown-word", "fodl", "\"fodl\" is not a word that is known in binding.")]
#[case::misspelt_choice(
    "double",
    "dubble",
    "unknown-word",
    "dubble",
    "\"dubble\" is not a word that is known in `fold`."
)]
#[case::no_pattern("pattern: Mill Race\n", "", "missing-entry", "measure", "\"pattern\" is missing from the file.")]
#[case::no_measure("measure: inch\n", "", "missing-entry", "pattern", "\"measure\" is missing from the file.")]
#[case::no_finished("{ finished: 36 x 48 }", "{}", "missing-entry", "crib", "\"finished\" is missing from size crib.")]
#[case::nothing_stated(
    "{ strips: 6, fabric: 1/2 yd }",
    "{}",
    "missing-entry",
    "crib",
    "\"strips\" is missing from binding requires crib."
)]
#[case::a_list_for_a_value(
    "strips: 6",
    "strips: [6]",
    "wrong-shape",
    "[",
    "A whole number is expected here, and something else is written."
)]
#[case::a_value_for_a_list(
    "{ strips: 6, fabric: 1/2 yd }",
    "6 strips",
    "wrong-shape",
    "6 strips",
    "\"crib\" needs words with values, such as { strips: 6, fabric: 1/2 yd }."
)]
#[case::half_a_fraction(
    "2 1/2",
    "2 1/",
    "unreadable-quantity",
    "",
    "\"2 1/\" cannot be read as a number: the lower number of the fraction is expected here."
)]
#[case::letter(
    "strips: 6",
    "strips: six",
    "unreadable-quantity",
    "s",
    "\"six\" cannot be read as a number: a whole number is expected here."
)]
#[case::unit("1/2 yd", "1/2 ell", "unreadable-quantity", "ell", "this is not a unit: use in, ft, yd, mm, cm or m.")]
#[case::nothing(
    "strips: 6",
    "strips: ",
    "unreadable-quantity",
    "",
    "A value is missing: a whole number is expected here, and nothing is written."
)]
#[case::too_long(
    "60 x 76",
    "60 x 7600",
    "out-of-range",
    "7600",
    "\"7600\" is out of range: a length may be at most 2000 in (5080 cm)."
)]
#[case::too_many(
    "strips: 6",
    "strips: 100001",
    "out-of-range",
    "100001",
    "\"100001\" is out of range: a count may be at most 100,000."
)]
#[case::too_fine(
    "2 1/2",
    "2 1/128",
    "out-of-range",
    "1/128",
    "\"1/128\" is out of range: fractions may be as fine as 1/64."
)]
#[case::no_length("2 1/2", "0", "out-of-range", "0", "\"0\" is out of range: it must be more than 0.")]
#[case::as_wide_as_long("2 1/2", "40", "out-of-range", "40", "joining two of them takes as much length as one adds")]
#[case::not_stated(
    "    lap: { strips: 9, fabric: 3/4 yd }\n",
    "",
    "size-not-stated",
    "requires",
    "Nothing is stated of binding for lap."
)]
#[case::unknown_size(
    "    lap:",
    "    lpa:",
    "unknown-size",
    "lpa",
    "\"lpa\" is not one of the sizes that the pattern lists."
)]
#[case::repeated("fold: double", "fold: double\n  fold: single", "repeated-key", "fold", "\"fold\" is stated twice.")]
#[case::two_ways(
    "fold: double",
    "tails: 10\n  extra_length: 12",
    "repeated-key",
    "12",
    "\"extra_length\" says again what another entry states already."
)]
fn a_slip_is_told_at_its_place(
    #[case] right: &str,
    #[case] wrong: &str,
    #[case] rule: &str,
    #[case] at: &str,
    #[case] says: &str,
) {
    let text = RIGHT.replacen(right, wrong, 1);
    let finding = one(&text, rule);
    assert_says(&finding, &[says]);
    assert_eq!(finding.at.at.text(&text), at, "{}", finding.message);
}

/// A line indented with a tab is one slip: nothing that stands in it, or after it, is called missing.
#[rstest]
#[case::after_a_value("\n  fold: double", "\n\tfold: double")]
#[case::a_required_word("strip_width: 2 1/2\n  fold: double", "fold: double\n\tstrip_width: 2 1/2")]
#[case::after_a_heading("requires:\n    crib", "requires:\n\tcrib")]
#[case::a_requirement("\n    lap: { strips", "\n\tlap: { strips")]
#[case::a_size("\n  lap: { finished", "\n\tlap: { finished")]
#[case::behind_spaces("\n    lap: { strips", "\n  \tlap: { strips")]
fn a_tab_that_indents_is_one_finding_at_the_tab(#[case] right: &str, #[case] wrong: &str) {
    let text = RIGHT.replacen(right, wrong, 1);
    assert_ne!(text, RIGHT);
    assert_eq!(rules_of(&text), ["not-yaml"], "{:#?}", told(&text, &outcome(&text)));
    let finding = one(&text, "not-yaml");
    assert_says(&finding, &["a tab stands here where spaces are expected"]);
    assert_eq!(finding.at.at.text(&text), "\t");
}

#[test]
fn a_tab_in_brackets_is_not_taken_for_an_open_bracket() {
    let text = RIGHT.replace("crib: { strips: 6, fabric", "crib: { strips: 6,\n\tfabric");
    assert_says(&one(&text, "not-yaml"), &["a tab stands here where spaces are expected"]);
}

#[rstest]
#[case::word("strip_width", "stripwidth", "unknown-word")]
#[case::choice("double", "doubel", "unknown-word")]
#[case::size("    lap:", "    lab:", "unknown-size")]
fn the_nearest_word_is_offered_and_mends_it(#[case] right: &str, #[case] wrong: &str, #[case] rule: &str) {
    let text = RIGHT.replacen(right, wrong, 1);
    assert_eq!(rules_of(&text), [rule]);
    let finding = one(&text, rule);
    assert!(finding.help.starts_with("Did you mean "), "{}", finding.help);
    assert_eq!(mended(&text, &finding), RIGHT);
}

#[rstest]
#[case::word("fold", "colour_of_thread", "unknown-word")]
#[case::size("    lap:", "    bedspread:", "unknown-size")]
fn no_word_is_offered_where_none_is_near(#[case] right: &str, #[case] wrong: &str, #[case] rule: &str) {
    let finding = one(&RIGHT.replacen(right, wrong, 1), rule);
    assert!(finding.correction.is_none());
    assert!(!finding.help.contains("Did you mean"), "{}", finding.help);
}

#[test]
fn lengthwise_strips_need_a_length() {
    let text = RIGHT.replace("fold: double", "grain: lengthwise").replace(", fabric: 1/2 yd", ", strip_length: 65");
    let finding = one(&text, "missing-entry");
    assert_says(&finding, &["\"strip_length\" is missing from binding requires lap."]);
    assert_eq!(finding.at.at.text(&text), "lap");
}

#[rstest]
#[case::crosswise(
    "strip_length: 44",
    "44",
    "Strips 44 in long stated: they do not fit across fabric with 40 in usable."
)]
#[case::lengthwise(
    "grain: lengthwise\n  strip_length: 65\n  usable_width: 2",
    "2 1/2",
    "Strips 2 1/2 in wide stated: they do not fit across fabric with 2 in usable."
)]
fn a_strip_must_fit_the_fabric(#[case] entries: &str, #[case] at: &str, #[case] says: &str) {
    let text = RIGHT.replace("fold: double", entries);
    let finding = one(&text, "out-of-range");
    assert_says(&finding, &[says]);
    assert_eq!(finding.at.at.text(&text), at);
}

#[test]
fn a_place_never_cuts_a_character_in_two() {
    let text = format!("{RIGHT}accepted:\n  - \u{e9}t\u{e9}: plain\n");
    for finding in outcome(&text).findings {
        assert!(text.get(finding.at.at.start..finding.at.at.end).is_some(), "{}", finding.message);
    }
    assert!(rules_of(&text).contains(&"missing-entry"));
}
