//! Texts of every kind: examples, rule pages, other line ends.

use sparestrip::rule_book::book;

use super::support::fixed::holds;
use super::{faulty, right};
use crate::support::examples;

#[test]
fn of_all_examples_what_is_said_to_be_fixed_is_and_nothing_else_changes() {
    let mut changes = 0;
    for path in examples() {
        let text = String::from_utf8(std::fs::read(&path).unwrap()).unwrap();
        let fixed = holds(&text);
        let is_faulty = path.to_string_lossy().contains("with-faults");
        assert!(is_faulty || fixed.changes.is_empty(), "{}: {:#?}", path.display(), fixed.changes);
        changes += fixed.changes.len();
    }
    assert!(changes > 15, "only {changes}");
}

#[test]
fn of_every_rule_page_too() {
    let mut fixed = 0;
    for page in book() {
        let (fails, passes) = (holds(&page.fails.text()), holds(&page.passes.text()));
        assert!(passes.changes.is_empty(), "{}", page.name);
        if !fails.changes.is_empty() {
            assert!(fails.outcome.findings.is_empty(), "{}: {:#?}", page.name, fails.outcome.findings);
            fixed += 1;
        }
    }
    assert!(fixed > 20, "only {fixed}");
}

/// Lines may end in three ways, a mark may stand first and a last line end be missing: all of it stays.
#[test]
fn line_ends_marks_comments_and_spacing_stay() {
    let plain = faulty().replace("binding:\n", "# a note\nbinding:   # another\n\n");
    let expected = right().replace("binding:\n", "# a note\nbinding:   # another\n\n");
    for written in [
        (|text: &str| text.to_string()) as fn(&str) -> String,
        |text| text.replace('\n', "\r\n"),
        |text| text.replace('\n', "\r"),
        |text| format!("\u{feff}{text}"),
        |text| text.trim_end().to_string(),
        |text| format!("{text}\n\n# the end \u{1f9f5}  \t\n   \n"),
        |text| text.replace("{ strips", "{  strips").replace(" yd }", " yd\t}"),
    ] {
        let fixed = holds(&written(&plain));
        assert_eq!(fixed.source.text, written(&expected));
        assert_eq!(fixed.changes.len(), 2);
    }
}

#[test]
fn quotes_stay() {
    let quoted = |text: String| text.replace("fabric: 5/8 yd", "fabric: \"5/8 yd\"").replace("7/8 yd", "\"7/8 yd\"");
    let fixed = holds(&quoted(faulty()));
    assert!(fixed.outcome.findings.is_empty(), "{:#?}", fixed.outcome.findings);
}

/// A number that several sizes share through an anchor is corrected where it stands, or left.
#[test]
fn anchors_and_aliases_are_never_torn() {
    let shared = faulty().replace("strips: 4, fabric: 1/2 yd", "strips: &few 7, fabric: 3/4 yd");
    let shared = shared.replace("strips: 12, fabric: 5/8 yd", "strips: *few, fabric: 7/8 yd");
    holds(&shared);
    let whole = faulty().replace("{ strips: 4, fabric: 1/2 yd }", "&all { strips: 4, fabric: 1/2 yd }");
    holds(&whole.replace("{ strips: 12, fabric: 5/8 yd }", "*all"));
}

#[test]
fn a_key_that_stands_twice_and_tabs_are_left() {
    for text in [
        faulty() + "binding:\n  requires:\n    crib: { strips: 1 }\n",
        faulty().replace("    throw:", "    crib:  { strips: 2 }\n    throw:"),
        faulty().replace("    throw:", "\tthrow:"),
        faulty().replace("crib:  {", "crib:  }"),
        String::new(),
        "\u{feff}".to_string(),
        "[".repeat(2000),
    ] {
        let fixed = holds(&text);
        assert!(!fixed.left.is_empty(), "{text}");
    }
}
