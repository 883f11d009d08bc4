//! Names and words that mean something in one of the formats come out as they were written.

use rstest::rstest;
use sparestrip::manuscript::Source;
use sparestrip::report::{tables_as_csv, tables_as_html, tables_as_markdown};
use sparestrip::tables::{Tables, tables};

use super::formats::{csv_records, prose_of_markdown, selector, text_of_element};
use super::{facts, stated};
use crate::support::is_wild;

/// A manuscript with a name at every place that has one.
fn named(name: &str) -> String {
    let quoted = serde_json::to_string(name).unwrap();
    format!(
        "pattern: {quoted}\nedition: {quoted}\nmeasure: inch\nsizes: {{ {quoted}: {{ finished: 54 x 72 }}, plain: {{ finished: 60 x 80 }} }}\n\
         fabrics:\n  {quoted}:\n    role: {quoted}\n    requires: {{ {quoted}: 1 1/8 yd, plain: 2 yd }}\n    \
         cut: [ {{ piece: {quoted}, size: 6 1/2 x 6 1/2, strips: {{ {quoted}: 6, plain: 7 }}, pieces: {{ {quoted}: 0, plain: 4 }} }} ]\n\
         units: {{ {quoted}: {{ make: patch, finished: 6, cut: {{ patch: {quoted} }} }} }}\n\
         blocks: {{ {quoted}: {{ finished: 6, rows: [[{quoted}]] }} }}\n"
    )
}

fn made(text: &str) -> Tables {
    tables(&Source::from_text("x.pattern.yaml", text))
}

#[rstest]
#[case("ink | foam")]
#[case("a\\|b")]
#[case("ends with \\")]
#[case("<b>bold</b> & <script>alert(1)</script>")]
#[case("</td></tr></table><h1>mine")]
#[case("\" onclick=\"x()")]
#[case("'single' \"double\"")]
#[case("&amp; &#60; &lt;")]
#[case("*star* **two** _low_ __two__")]
#[case("~~gone~~ `code` ``more``")]
#[case("[link](https://example.org) ![picture](x.png)")]
#[case("<https://example.org/>")]
#[case("# heading #")]
#[case("1. first")]
#[case("- dash")]
#[case("+ plus")]
#[case("=1+1")]
#[case("-2+3")]
#[case("+SUM(A1)")]
#[case("@SUM(A1)")]
#[case("'quoted")]
#[case("'=1")]
#[case("\u{ff1d}1")]
#[case("a, b; c")]
#[case("$x^2$ and {{ braces }} {% if %}")]
#[case("---")]
#[case("Wäscheleine ½ 名前")]
#[case("!attention")]
#[case("footnote[^1]")]
fn a_name_with_marks_survives_in_all_three(#[case] name: &str) {
    let text = named(name);
    let tables = made(&text);
    assert!(tables.head.missing.is_empty(), "{:?}", tables.head.missing);
    assert_eq!(facts(&text), stated::facts(&text));

    let title = format!("{name}, edition {name}");
    assert_eq!(prose_of_markdown(&tables_as_markdown(&tables))[0], title);
    let page = scraper::Html::parse_document(&tables_as_html(&tables));
    for heading in ["title", "h1"] {
        assert_eq!(text_of_element(page.select(&selector(heading)).next().unwrap()), title);
    }
    for record in csv_records(&tables_as_csv(&tables)) {
        assert_eq!(record[..2], [name, name]);
    }
}

#[test]
fn lines_and_spaces_become_single_spaces() {
    let text = "pattern: |\n  Two\n  lines\nmeasure: inch\nsizes:\n  lap: { finished: 54  x\n      72 }\nfabrics:\n  ink:\n    \
                role: >\n      folded\n      words\n\n      and more\n    requires: { lap: \"1   1/8\\tyd\" }\n";
    let tables = made(text);
    assert_eq!(tables.head.title, "Two lines");
    let facts = facts(text);
    let has = |fact: [&str; 5]| assert!(facts.contains(&fact.map(String::from)), "{fact:?} in {facts:?}");
    has(["Finished sizes", "width x length", "", "lap", "54 x 72 in"]);
    has(["What to buy", "ink", "for", "", "folded words and more"]);
    has(["What to buy", "ink", "", "lap", "1 1/8 yd"]);
}

/// Nothing from a file may steer a terminal or turn the direction of a line.
#[test]
fn control_characters_are_tamed() {
    let text = "pattern: \"a\\e[31mred\\u202eback\\u0007\"\nmeasure: inch\nsizes: { \"l\\u200bap\": { finished: 54 x 72 } }\n\
                fabrics: { ink: { role: \"x\\u009by\\rz\", requires: { \"l\\u200bap\": 1 yd } } }\n";
    let tables = made(text);
    assert!(!tables.tables.is_empty());
    let csv = tables_as_csv(&tables);
    let csv = csv.trim_start_matches('\u{feff}').replace("\r\n", "\n");
    for text in [tables_as_markdown(&tables), tables_as_html(&tables), csv] {
        let wild = text.chars().find(|c| *c != '\n' && is_wild(*c));
        assert_eq!(wild, None, "{text:?}");
        assert!(text.contains("31mred\u{fffd}back?"), "{text}");
    }
}
