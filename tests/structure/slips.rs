//! Mistakes that leave the file readable as YAML, one at a time: where each is told, and that it brings no other.

use rstest::rstest;

use super::support::GOOD;
use super::{gives, marked, outline};

fn with(good: &str, bad: &str) -> String {
    assert_eq!(GOOD.matches(good).count(), 1, "{good:?} stands once");
    GOOD.replace(good, bad)
}

#[test]
fn the_good_manuscript_has_nothing_to_mend() {
    gives(GOOD, &[]);
}

#[rstest]
// A misspelt word that must be there is told once, as the misspelt one.
#[case("  strip_width:", "  «strip_widht»:", "unknown-word")]
#[case("  requires:", "  «require»:", "unknown-word")]
#[case("measure:", "«mesure»:", "unknown-word")]
#[case("pattern:", "«patern»:", "unknown-word")]
#[case("sizes:", "«size»:", "unknown-word")]
#[case("    throw: ", "    «thraw»: ", "unknown-size")]
#[case("  fold: double", "  fold: «dubble»", "unknown-word")]
#[case("  loft: low", "  loft: «lo»", "unknown-word")]
#[case("measure: inch", "measure: «inches»", "unknown-word")]
// A number that cannot be read says nothing about what depends on it.
#[case("strip_width: 2 1/2", "strip_width: 2 1«o»/2", "unreadable-quantity")]
#[case("strip_width: 2 1/2", "strip_width: 2 «é»", "unreadable-quantity")]
#[case("opening: 12", "opening: 1«,»2", "unreadable-quantity")]
#[case("36 x 48", "36 «q» 48", "unreadable-quantity")]
#[case("strips: 9", "strips: «n»ine", "unreadable-quantity")]
#[case("strips: 9", "strips: 9«.»5", "unreadable-quantity")]
#[case("strips: 9", "strips: «100001»", "out-of-range")]
#[case("opening: 12", "opening: «2000 1/64»", "out-of-range")]
#[case("strip_width: 2 1/2", "strip_width: 2 «1/65»", "out-of-range")]
// Quotation marks with escapes: the whole value is pointed at, for what is read is not what is written.
#[case("opening: 12", r#"opening: «"1\u0032x"»"#, "unreadable-quantity")]
#[case("opening: 12", "opening: «'1''2'»", "unreadable-quantity")]
#[case("opening: 12", "opening: \"12 «q»\"", "unreadable-quantity")]
// Shapes.
#[case("opening: 12", "opening: «[»12]", "wrong-shape")]
#[case("opening: 12", "opening: «{»length: 12}", "wrong-shape")]
#[case("  fold: double", "  fold: «[»double]", "wrong-shape")]
#[case("pattern: Harbour Lanterns", "pattern: «[»Harbour Lanterns]", "wrong-shape")]
#[case("{ finished: 54 x 72 }", "«54 x 72»", "wrong-shape")]
// Values that stand elsewhere, and entries mixed in.
#[case("opening: 12", "opening: «*seam»", "not-yaml")]
#[case("  tails: 10", "  tails: 10\n  «<<»: *method", "not-yaml")]
#[case("  tails: 10", "  tails: 10\n  «<<»: { fold: single }", "not-yaml")]
#[case("  tails: 10", "  tails: 10\n  «tails»: 12", "repeated-key")]
#[case("edition: 1", "edition: 1\n«\"edition\"»: 2", "repeated-key")]
fn one_slip_one_finding(#[case] good: &str, #[case] bad: &str, #[case] rule: &'static str) {
    let bad = if bad.contains("*seam") || bad.contains("*method") {
        // An alias of nothing is another mistake; here the anchor is there.
        with(good, bad)
            .replace("usable_width: 40", "usable_width: &seam 40")
            .replace("  seam: 1/4\n  loft", "  seam: &method 1/4\n  loft")
    } else {
        with(good, bad)
    };
    gives(&bad, &[rule]);
}

#[rstest]
#[case(
    "  requires:\n    crib:  { strips: 6, fabric: 1/2 yd }\n    throw: { strips: 9, fabric: 3/4 yd }\n    queen: { strips: 12, \
     fabric: 7/8 yd }\n",
    "binding",
    "requires"
)]
#[case("measure: inch\n", "the file", "measure")]
#[case("pattern: Harbour Lanterns\n", "the file", "pattern")]
fn what_is_missing_is_told_where_it_is_missed(#[case] line: &str, #[case] place: &str, #[case] word: &str) {
    let text = with(line, "");
    let findings = super::found(&text);
    assert_eq!(findings.len(), 1, "{findings:#?}");
    let message = &findings[0].message;
    assert_eq!(findings[0].rule, "missing-entry");
    assert!(message.to_lowercase().contains(place) && message.contains(word), "{message}");
    if place == "binding" {
        let at = findings[0].at.at;
        assert_eq!(at.text(&text), "binding");
    }
}

#[rstest]
#[case("opening: 12", "opening:")]
#[case("opening: 12", "opening: ~")]
#[case("opening: 12", "opening: null")]
#[case("strips: 9", "strips: ")]
#[case("strips: 9", "strips: null")]
#[case("  fold: double", "  fold:")]
#[case("{ finished: 54 x 72 }", "{ finished: }")]
fn nothing_after_the_colon_is_told_in_that_entry(#[case] good: &str, #[case] bad: &str) {
    let text = with(good, bad);
    let start = GOOD.find(good).unwrap();
    let found = outline(&text);
    assert_eq!(found.len(), 1, "{found:?}");
    let (rule, at, _) = found[0];
    assert_eq!(rule, "unreadable-quantity");
    assert!((start..=start + bad.len() + 1).contains(&at), "at {at}, the entry is at {start}");
}

#[rstest]
#[case::quoted_words(&[("strip_width:", "\"strip_width\":"), ("requires:", "'requires':"), ("    throw:", "    \"throw\":")])]
#[case::escaped_word(&[("strip_width:", r#""strip\u005fwidth":"#)])]
#[case::quoted_numbers(&[("opening: 12", "opening: \"12\""), ("2 1/2", "'2 1/2'"), ("54 x 72", "\"54 x 72\"")])]
#[case::escaped_number(&[("opening: 12", r#"opening: "\x312""#)])]
#[case::block_scalar(&[("opening: 12", "opening: |-\n    12"), ("2 1/2", ">-\n    2\n    1/2")])]
#[case::plain_value_over_lines(&[("2 1/2", "2\n    1/2"), ("Harbour Lanterns", "Harbour\n  Lanterns")])]
#[case::explicit_words(&[("  opening: 12", "  ? opening\n  : 12")])]
#[case::anchors_without_alias(&[("opening: 12", "opening: &o 12")])]
#[case::tags(&[("opening: 12", "opening: !!str 12")])]
#[case::one_document_with_a_start(&[("pattern:", "---\npattern:")])]
#[case::a_comma_at_the_end(&[("{ finished: 54 x 72 }", "{ finished: 54 x 72, }")])]
#[case::comments(&[("opening: 12", "opening: 12 #\tx: [")])]
fn other_ways_of_writing_the_same(#[case] changes: &[(&str, &str)]) {
    let text = changes.iter().fold(GOOD.to_string(), |text, (from, to)| text.replacen(from, to, 1));
    gives(&text, &[]);
}

#[test]
fn a_value_over_lines_that_cannot_be_read_is_pointed_at_whole() {
    let bad = with("opening: 12", "opening: «12\n    inchs»");
    gives(&bad, &["unreadable-quantity"]);
    let bad = with("opening: 12", "opening: |\n    12 q");
    let found = outline(&bad);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].0, "unreadable-quantity");
    let start = bad.find("12 q").unwrap();
    assert_eq!((found[0].1, found[0].2), (start, start + 4), "its text, without the sign and the line end");
}

#[test]
fn a_size_that_is_not_stated_is_told_at_the_word_that_should_name_it() {
    let bad = with("    throw: { strips: 9, fabric: 3/4 yd }\n", "").replace("  requires:", "  «requires»:");
    gives(&bad, &["size-not-stated"]);
}

#[test]
fn a_finding_in_other_sizes_still_comes_beside_a_slip() {
    let bad = with("strips: 6", "strips: «s»ix").replace("strips: 12", "strips: «11»");
    gives(&bad, &["unreadable-quantity", "spare-strip"]);
    assert_eq!(marked(&bad).places.len(), 2);
}
