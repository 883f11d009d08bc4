//! Breaks of the layout itself: one finding where the break is, and the findings of the rest of the file.

use rstest::rstest;

use super::support::GOOD;
use super::{found, marked};

/// A manuscript whose queen-size binding has no spare strip, with a line of the method or of the crib broken.
fn broken(good: &str, bad: &str) -> String {
    assert_eq!(GOOD.matches(good).count(), 1, "{good:?} stands once");
    GOOD.replace("strips: 12,", "strips: 11,").replace(good, bad)
}

#[rstest]
#[case::missing_closing_bracket("{ strips: 6, fabric: 1/2 yd }", "«{» strips: 6, fabric: 1/2 yd")]
#[case::missing_opening_bracket("{ strips: 6, fabric: 1/2 yd }", "strips«:» 6, fabric: 1/2 yd }")]
#[case::missing_opening_bracket_of_a_size("{ finished: 36 x 48 }", "finished«:» 36 x 48 }")]
#[case::stray_bracket("{ strips: 6, fabric: 1/2 yd }", "{ strips: 6, fabric: 1/2 yd } «}»")]
#[case::stray_bracket_of_another_kind("{ strips: 6, fabric: 1/2 yd }", "{ strips: 6, fabric: 1/2 yd «]»")]
#[case::tab_indent("  loft: low", "«\t»loft: low")]
#[case::second_colon("  loft: low", "  loft«:» low: high")]
#[case::control_character("  loft: low", "  loft: lo«\u{1}»w")]
#[case::percent("  loft: low", "  loft: «%»low")]
#[case::at_sign("  loft: low", "  loft: «@»low")]
#[case::unclosed_quote_in_brackets("{ strips: 6, fabric: 1/2 yd }", "{ strips: 6, fabric: «\"»1/2 yd }")]
#[case::unclosed_quote("  loft: low", "  loft: «\"»low")]
#[case::missing_colon("  loft: low", "  «loft low»")]
#[case::deeper_line("  loft: low", "  loft: low\n      finishing«:» hand")]
fn one_finding_at_the_break_and_the_rest_of_the_file(#[case] good: &str, #[case] bad: &str) {
    for line_end in ["\n", "\r\n"] {
        one_finding_and_the_rest(&broken(good, bad).replace('\n', line_end));
    }
}

fn one_finding_and_the_rest(text: &str) {
    let marked = marked(text);
    let findings = found(&marked.text);
    let outline: Vec<_> = findings.iter().map(|found| (found.rule, found.at.at.start)).collect();
    let line = |byte: usize| marked.text[..byte].matches('\n').count() + 1;
    let break_line = line(marked.places[0].0);
    let breaks: Vec<_> = findings.iter().filter(|found| found.rule == "not-yaml").collect();
    assert_eq!(breaks.len(), 1, "{outline:?}\n{findings:#?}");
    assert_eq!(line(breaks[0].at.at.start), break_line, "{:#?}", breaks[0]);
    let others: Vec<_> = outline.iter().filter(|(rule, _)| *rule != "not-yaml").collect();
    let queen = marked.text.rfind("11,").expect("the queen size");
    assert_eq!(others, [&("spare-strip", queen)], "{findings:#?}");
}

#[test]
fn a_second_document_is_told_and_the_first_is_checked() {
    let text = broken("  loft: low", "  loft: low") + "---\npattern: Another\n";
    let findings = found(&text);
    let rules: Vec<_> = findings.iter().map(|found| (found.rule, found.at.at.start)).collect();
    assert_eq!(rules, [("spare-strip", text.find("11,").unwrap()), ("not-yaml", text.find("---").unwrap())]);
}

#[test]
fn what_is_not_read_any_more_is_told_to_be_so() {
    let breaks = |count: usize| (0..count).map(|index| format!("k{index}: @b\n")).collect::<String>();
    let rest = broken("  loft: low", "  loft: low");
    let rules = |text: &str| found(text).iter().map(|found| found.rule).collect::<Vec<_>>();
    assert!(rules(&(breaks(32) + &rest)).contains(&"spare-strip"), "so many are read round");
    let text = breaks(40) + &rest;
    let findings = found(&text);
    assert!(findings.iter().all(|found| found.rule != "spare-strip" && found.rule != "missing-entry"));
    let cut = findings.iter().find(|found| found.message.contains("nothing is read")).expect("it is told");
    assert_eq!(text[cut.at.at.start..].lines().next(), Some("k32: @b"), "from the first break that was not read round");
}

#[test]
fn two_breaks_in_one_file_are_two_findings() {
    let text = broken("  loft: low", "  loft: @low").replace("{ finished: 36 x 48 }", "{ finished: 36 x 48");
    let breaks = found(&text).iter().filter(|found| found.rule == "not-yaml").count();
    assert_eq!(breaks, 2);
}
