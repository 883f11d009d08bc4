//! Files that are YAML and no manuscript.

use rstest::rstest;

use super::found;

#[rstest]
#[case::empty("")]
#[case::line_ends("\n\n\r\n")]
#[case::spaces("   ")]
#[case::only_a_mark("\u{feff}")]
#[case::only_comments("# nothing yet\n# é\n")]
#[case::null("null\n")]
#[case::start_of_a_document("---\n")]
fn nothing_in_the_file_is_one_finding(#[case] text: &str) {
    let findings = found(text);
    assert_eq!(findings.iter().map(|found| found.rule).collect::<Vec<_>>(), ["missing-entry"], "{findings:#?}");
}

#[rstest]
#[case::list("- pattern: A\n- measure: inch\n")]
#[case::list_in_brackets("[pattern, measure]")]
#[case::words("Harbour Lanterns\n")]
#[case::quoted("\"pattern: A\"")]
#[case::block("|\n  pattern: A\n")]
fn something_else_than_a_list_of_entries_is_one_finding(#[case] text: &str) {
    let findings = found(text);
    assert_eq!(findings.iter().map(|found| found.rule).collect::<Vec<_>>(), ["wrong-shape"], "{findings:#?}");
    // The text of a block begins after its sign.
    assert_eq!(findings[0].at.at.start, if text.starts_with('|') { text.find('p').unwrap() } else { 0 });
}

#[test]
fn an_empty_table_lacks_what_every_pattern_has() {
    let rules: Vec<_> = found("{}").iter().map(|found| found.rule).collect();
    assert_eq!(rules, ["missing-entry"; 3], "pattern, measure and sizes");
}
