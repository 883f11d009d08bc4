//! A correction that writes a name leaves a file that can be read, whatever the name and wherever it stands.

use proptest::prelude::*;
use sparestrip::check::{Outcome, check};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

/// Names that YAML, or a reader of it, takes for something else where they stand without quotes.
const HOSTILE: [&str; 34] = [
    "lap #2",
    "*lap",
    "&lap",
    "null",
    "Null",
    "true",
    "no",
    "yes",
    "12",
    "1e3",
    "0x1f",
    ".inf",
    "~~",
    "lap ",
    " lap",
    "lap:",
    "lap: 2",
    "it's",
    "a \"big\" one",
    "'lap'",
    "\"lap\"",
    "[lap]",
    "{lap}",
    "a, b",
    "- lap",
    "? lap",
    "!lap",
    "%lap",
    "@lap",
    "`lap",
    "back\\slash",
    "größe ½",
    "掛け布団",
    "| lap >",
];

/// Every place in which a name is mentioned.
const PLACES: usize = 10;

/// How tables are written.
#[derive(Clone, Copy, Debug)]
enum Style {
    Lines,
    Brackets,
    /// Every word in quotes, with no space after the colon.
    Json,
}

/// How a name is written at the one place where it is misspelt.
#[derive(Clone, Copy, Debug)]
enum Quotes {
    Double,
    Single,
}

/// As every reader of YAML reads it.
fn quoted(name: &str) -> String {
    let written = name.chars().map(|c| match c {
        '"' | '\\' => format!("\\{c}"),
        ' '..='~' => c.to_string(),
        c => format!("\\U{:08X}", u32::from(c)),
    });
    format!("\"{}\"", written.collect::<String>())
}

fn single(name: &str) -> String {
    format!("'{}'", name.replace('\'', "''"))
}

/// A right manuscript in which everything has one name, but for one place where it is written wrong.
fn manuscript(name: &str, wrong: Option<(usize, Quotes)>, style: Style) -> String {
    let at = |place: usize, after: &str| match wrong {
        Some((misspelt, Quotes::Single)) if misspelt == place && name.is_ascii() => single(&format!("{name}x{after}")),
        Some((misspelt, _)) if misspelt == place => quoted(&format!("{name}x{after}")),
        _ => quoted(&format!("{name}{after}")),
    };
    let own = quoted(name);
    let entry = |key: &str, value: &str| match style {
        Style::Lines => format!("\n    {key}: {value}"),
        Style::Brackets => format!("{{ {key}: {value} }}"),
        Style::Json => format!("{{{key}:{value}}}"),
    };
    let blocks =
        if wrong.is_some_and(|(place, _)| place == 9) { format!("{{ {}: 20 }}", at(9, "")) } else { at(8, "") };
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes: {{ {own}: {{ finished: 40 x 50 }} }}\n\
         binding:\n  strip_width: 2 1/2\n  extra_length: 10\n  from: {}\n  requires: {}\n\
         fabrics:\n  {own}:\n    requires: {{ {}: 2 1/4 yd }}\n    cut:\n      - piece: {own}\n        \
         size: 10 1/2 x 5 1/2\n        pieces: {{ {}: 40 }}\n\
         units:\n  {own}: {{ make: patch, finished: 10 x 5, cut: {{ patch: {} }} }}\n\
         blocks:\n  {own}: {{ finished: 10, rows: [[{}], [{}]] }}\n\
         layout: {}\n",
        at(0, ""),
        entry(&at(1, ""), "{ strips: 6 }"),
        at(2, ""),
        at(3, ""),
        at(4, ""),
        at(5, ""),
        at(6, ""),
        entry(&at(7, ""), &format!("{{ across: 4, down: 5, blocks: {blocks} }}")),
    )
}

fn found(text: &str) -> Outcome {
    check(&Source::from_text("test.pattern.yaml", text), &Settings::default())
}

fn told(outcome: &Outcome) -> Vec<String> {
    outcome.findings.iter().map(|finding| format!("{}: {}", finding.rule, finding.message)).collect()
}

/// Makes every correction of a misspelt name or word, and fails unless nothing is left to find. How many were offered.
fn correct_each(text: &str) -> usize {
    let misspelt = |rule: &str| ["unknown-word", "unknown-size", "piece-not-cut"].contains(&rule);
    let findings = found(text).findings.into_iter().filter(|finding| misspelt(finding.rule));
    let corrections: Vec<_> = findings.filter_map(|finding| finding.correction).collect();
    for correction in &corrections {
        let corrected = correction.apply(text);
        serde_yaml::from_str::<serde_yaml::Value>(&corrected)
            .unwrap_or_else(|error| panic!("{error} in:\n{corrected}"));
        let left = told(&found(&corrected));
        assert!(left.is_empty(), "{left:#?}\nafter {correction:?} in:\n{corrected}");
    }
    corrections.len()
}

fn each_place(name: &str, style: Style) {
    let right = manuscript(name, None, style);
    assert!(found(&right).findings.is_empty(), "{:#?}\n{right}", told(&found(&right)));
    for place in 0..PLACES {
        for quotes in [Quotes::Double, Quotes::Single] {
            let text = manuscript(name, Some((place, quotes)), style);
            // What begins with a digit where a piece is named is taken for a size. Every other name of two letters and
            // more is near enough.
            let is_size = place == 4 && name.starts_with(|c: char| c.is_ascii_digit() || c == '.');
            assert_eq!(
                correct_each(&text),
                usize::from(!is_size),
                "{name:?} at {place}: {:#?}\n{text}",
                told(&found(&text))
            );
        }
    }
}

#[test]
fn a_correction_quotes_a_name_as_yaml_needs() {
    for name in HOSTILE {
        for style in [Style::Lines, Style::Brackets, Style::Json] {
            each_place(name, style);
        }
    }
}

/// A unit that is turned has its name and a word in one value.
#[test]
fn a_correction_leaves_the_word_after_a_name() {
    for name in ["geese", "geese #2", "geese: big"] {
        for written in [quoted(&format!("{name}x turned")), format!("{}x turned", name.replace(['#', ':'], "."))] {
            let text = manuscript(name, None, Style::Lines).replace("finished: 10 x 5", "finished: 5 x 10");
            let right = quoted(&format!("{name} turned"));
            let rows =
                |row: &str| text.replace(&format!("[[{0}], [{0}]]", quoted(name)), &format!("[[{row}], [{right}]]"));
            let wrong = rows(&written);
            assert!(found(&rows(&right)).findings.is_empty(), "{:#?}", told(&found(&rows(&right))));
            assert_eq!(correct_each(&wrong), 1, "{:#?}\n{wrong}", told(&found(&wrong)));
        }
    }
}

/// Where the writer uses no quotes, none are put round a name that needs none, nor round a word of the format.
#[test]
fn a_correction_uses_no_quotes_where_none_are_needed() {
    let page = |sizes: &str, key: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  {sizes}: {{ finished: 40 x 50 }}\n\
             binding:\n  strip_width: 2 1/2\n  extra_length: 10\n  requires:\n    {key}: {{ strips: 6 }}\n"
        )
    };
    for (name, wrong) in [("lap", "lapp"), ("big lap", "big lapp"), ("größe", "grösse"), ("lap-2", "lapp-2")] {
        let text = page(name, wrong);
        let correction = found(&text).findings.remove(0).correction.expect("a correction");
        assert_eq!(correction.replacement, name);
    }
    let text = page("lap", "lap").replace("strips:", "\"stripz\":");
    let correction = found(&text).findings.remove(0).correction.expect("a correction");
    assert_eq!(correction.apply(&text), text.replace("stripz", "strips"));
    let text = page("lap", "lap").replace("{ strips: 6 }", "{\"stripz\":6}");
    assert_eq!(correct_each(&text), 1);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn a_correction_writes_any_name_that_a_manuscript_may_have(
        name in "[a-z #*&!|>'\"%@`{}\\[\\],:?~\\\\\\-\u{e9}\u{1f9f5}]{2,12}",
        style in prop::sample::select(vec![Style::Lines, Style::Brackets, Style::Json]),
    ) {
        // A name of signs that nobody sees is out of range, and no correction writes one.
        prop_assume!(!name.trim().is_empty());
        each_place(&name, style);
    }
}
