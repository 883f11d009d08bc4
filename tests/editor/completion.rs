//! What may be typed: all of the format and of the names that fit, and nothing that a check would not take.

use std::collections::BTreeSet;

use serde_json::Value;
use sparestrip::manuscript::{Source, read};
use sparestrip::rule_book::book;

use super::support::examples;
use super::support::lsp::{Editor, Units, byte, with_edits};
use super::{about, editor_at, editor_with, example};

/// What is offered where `|` stands in a text.
fn offered(text: &str) -> Vec<String> {
    let at = text.find('|').expect("a cursor");
    let text = text.replacen('|', "", 1);
    let (mut editor, uri) = editor_with(&text);
    labels(&about(&mut editor, "completion", (&uri, &text), at))
}

fn labels(items: &Value) -> Vec<String> {
    items.as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap().to_string()).collect()
}

fn stair() -> String {
    super::text_of(&example("cormorant-stair"))
}

/// The example with a line of it replaced, once.
fn with(old: &str, new: &str) -> String {
    let text = stair();
    assert!(text.contains(old), "{old}");
    text.replacen(old, new, 1)
}

#[test]
fn words_of_the_section_are_offered_that_are_not_there() {
    let top = offered(&with("edition: 1\n", "e|\n"));
    assert!(top.contains(&"edition".into()) && !top.contains(&"pattern".into()), "{top:?}");
    assert_eq!(top.first().map(String::as_str), Some("edition"), "in the order of the format");
    let unit = offered(&with("    method: eight_at_a_time", "    m|"));
    assert!(unit.contains(&"method".into()), "{unit:?}");
    // A unit of halves has no logs, and its finished size is there already.
    assert!(!unit.contains(&"logs".into()) && !unit.contains(&"finished".into()), "{unit:?}");
    let size = offered(&with("for: twin bed, drop: 19 }", "for: twin bed, | }"));
    assert_eq!(size, ["drop", "tuck", "outline"]);
}

#[test]
fn names_are_offered_where_they_may_stand() {
    assert_eq!(offered(&with("blocks: { star: 5, lane: 4 }", "blocks: { star: 5, | }")), ["lane"]);
    let row = offered(&with("- [corner, geese, corner]", "- [corner, |, corner]"));
    assert_eq!(row, ["corner", "geese", "landing", "lantern", "rail", "step", "lane"], "a block is not within itself");
    assert_eq!(offered(&with("      wall: 7/8 yd (0.8 m)\n", "      |\n")), ["wall", "every_size"]);
    let pieces = offered(&with("    sash: S\n", "    sash: |\n"));
    assert!(pieces.contains(&"S".into()) && pieces.contains(&"inner border".into()), "{pieces:?}");
    assert_eq!(offered(&with("cut: { first: H, second: L }", "cut: { first: H, |")), ["second"]);
    assert_eq!(
        offered(&with(
            "wall:\n    set: straight\n    across: 3\n    down: 3\n    blocks: { star: 5, lane: 4 }",
            "wall:\n    set: straight\n    rows: [[2 st|, lane]]"
        )),
        ["star", "lane"].map(String::from).to_vec().into_iter().rev().collect::<Vec<_>>()
    );
}

#[test]
fn choices_of_a_word_are_offered_that_go_with_the_rest() {
    let methods = offered(&with("method: eight_at_a_time", "method: |"));
    assert_eq!(methods, ["two_at_a_time", "four_at_a_time", "eight_at_a_time"]);
    let beds = offered(&with("for: twin bed, drop: 19 }", "for: | }"));
    assert!(beds.contains(&"california king bed".into()), "{beds:?}");
    assert_eq!(offered("pattern: A\nmeasure: |\n"), ["inch", "cm"]);
    let rules = offered("pattern: A\nmeasure: inch\naccepted:\n  - rule: |\n");
    assert_eq!(rules.len(), book().len());
}

#[test]
fn nothing_is_offered_where_anything_may_stand() {
    for text in ["pattern: |\n", "pattern: A # |\n", "sizes:\n  |\n", "# |\n", "pattern: \"A |\"\n"] {
        assert_eq!(offered(text), Vec::<String>::new(), "{text}");
    }
}

#[test]
fn levels_and_values_are_offered_in_house_rules() {
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let uri = "file:///nowhere/house-rules.yaml";
    let mut offered = |text: &str| {
        let at = text.find('|').unwrap();
        let text = text.replacen('|', "", 1);
        editor.open(uri, &text);
        labels(&about(&mut editor, "completion", (uri, &text), at))
    };
    assert_eq!(offered("levels: { hollow-edge: | }\n"), ["error", "query", "note", "off"]);
    assert!(offered("levels: { | }\n").contains(&"hollow-edge".to_string()));
    assert!(offered("values:\n  |\n").contains(&"usable_width".to_string()));
    assert_eq!(offered("|\n"), ["measure", "levels", "values"]);
}

/// The places of a text at which something begins or ends.
fn places(text: &str) -> Vec<usize> {
    let is_edge = |at: &usize| {
        let (before, after) = (text[..*at].chars().next_back(), text[*at..].chars().next());
        let is_letter = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
        is_letter(before) != is_letter(after)
    };
    text.char_indices().map(|(at, _)| at).filter(is_edge).collect()
}

/// The mistakes of a text, each as its words and how often it is made.
fn mistakes(text: &str) -> Vec<String> {
    let mut mistakes: Vec<String> = read(&Source::from_text("a.pattern.yaml", text))
        .mistakes
        .iter()
        .map(|mistake| format!("{:?}", mistake.what))
        .collect();
    mistakes.sort();
    mistakes
}

#[test]
fn whatever_is_offered_is_read_where_it_is_put() {
    let (mut put, mut kinds) = (0, BTreeSet::new());
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        if !mistakes(&text).is_empty() {
            continue;
        }
        for at in places(&text).into_iter().step_by(23) {
            let items = about(&mut editor, "completion", (&uri, &text), at);
            for item in items.as_array().unwrap() {
                let edit = &item["textEdit"];
                let changed = with_edits(&text, std::slice::from_ref(edit), editor.units);
                let start = byte(&text, &edit["range"]["start"], editor.units);
                let length = edit["newText"].as_str().unwrap().trim_end_matches([':', ' ']).len();
                let is_there = |mistake: &&sparestrip::manuscript::Mistake| {
                    mistake.at.start < start + length && start < mistake.at.end
                };
                let found = read(&Source::from_text("a.pattern.yaml", &changed)).mistakes;
                let found: Vec<String> =
                    found.iter().filter(is_there).map(|mistake| format!("{:?}", mistake.what)).collect();
                let of_word =
                    |words: &&String| ["Unknown", "Repeated", "NotYaml"].iter().any(|kind| words.contains(kind));
                assert_eq!(found.iter().find(of_word), None, "{item} at {at} of {}", path.display());
                kinds.insert(item["kind"].as_u64());
                put += 1;
            }
        }
    }
    assert!(put > 1000 && kinds.len() >= 4, "{put} {kinds:?}");
}

#[test]
fn what_stands_there_is_offered_where_it_is_typed() {
    let (mut editor, uri, text) = editor_at(&example("osprey-landing"));
    for (part, word) in [
        ("make: log_cabin", "log_cabin"),
        ("order: round", "round"),
        ("cut: { base: B", "B"),
        ("base: B", "base"),
        ("    rows: [[cabin]]", "cabin"),
        ("  sold_by: 1/8", "sold_by"),
    ] {
        let Some(at) = text.find(part).map(|at| at + part.find(word).unwrap()) else { continue };
        let changed = format!("{}{}", &text[..at], &text[at + word.len()..]);
        editor.replace(&uri, &changed);
        let offered = labels(&about(&mut editor, "completion", (&uri, &changed), at));
        assert!(offered.contains(&word.to_string()), "{part}: {offered:?}");
    }
}

#[test]
fn a_word_that_says_what_another_says_is_not_offered() {
    let text = "pattern: Gull Mat\nmeasure: inch\nsizes: { mat: { finished: 13 x 18 } }\nbinding:\n  strip_width: 2 1/2\n  \
                tails: 8\n  |\n  requires: { mat: { strips: 3 } }\n";
    let words = offered(text);
    assert!(words.contains(&"opening".into()) && !words.contains(&"extra_length".into()), "{words:?}");
}
