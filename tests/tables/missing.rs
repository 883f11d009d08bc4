//! Nothing is missing in silence: what cannot be read shows as a question mark, and standard error says where it is.

use super::facts;
use crate::support::{Ran, folder_with, run};

const WHOLE: &str = "\
pattern: Tide Pool
measure: inch
sizes:
  throw: { finished: 54 x 72 }
  queen: { finished: 90 x 96 }
fabrics:
  ink:
    requires: { throw: 1 1/8 yd, queen: 2 3/8 yd }
    cut:
      - { piece: square, size: 6 1/2 x 6 1/2, pieces: { throw: 36, queen: 78 } }
backing:
  requires: { throw: { fabric: 4 1/2 yd, panels: 2 }, queen: { fabric: 8 1/4 yd, panels: 3 } }
batting:
  requires: { throw: 62 x 80, queen: 98 x 104 }
";

fn made(text: &str, words: &[&str]) -> Ran {
    let (folder, _) = folder_with("x.pattern.yaml", text);
    run(folder.path(), &[&["tables", "x.pattern.yaml"], words].concat())
}

#[test]
fn a_whole_manuscript_has_no_question_mark_and_no_warning() {
    let ran = made(WHOLE, &[]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    assert!(!ran.out.contains('?') && !ran.out.contains("Not complete"), "{}", ran.out);
}

/// The line and the column at which a text begins, which stands once in the whole.
fn place(whole: &str, text: &str) -> String {
    let (before, after) = whole.split_once(text).unwrap();
    assert!(!after.contains(text), "{text} stands twice");
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap().chars().count() + 1;
    format!("{line}:{column}")
}

/// A change that makes something unreadable, the cells that then show a question mark, and the text that standard
/// error points at.
fn torn(from: &str, to: &str, unread: &[[&str; 4]], at: &str) {
    let text = WHOLE.replacen(from, to, 1);
    assert_ne!(text, WHOLE);
    let at = place(&text, at);
    for format in ["markdown", "csv", "html"] {
        let ran = made(&text, &["--format", format]);
        assert_eq!(ran.status, Some(1), "{ran:?}");
        assert!(ran.err.contains(&format!("x.pattern.yaml:{at}: ")), "{at} in {}", ran.err);
        assert!(ran.out.contains("Not complete: "), "{}", ran.out);
        ran.is_tame_but_for_csv();
    }
    let facts = facts(&text);
    let found: Vec<_> = facts.iter().filter(|fact| fact[4] == "?").map(|fact| &fact[..4]).collect();
    let mut expected: Vec<&[&str; 4]> = unread.iter().collect();
    expected.sort();
    assert_eq!(found, expected, "{text}");
}

impl Ran {
    /// The CSV has a byte-order mark and two characters at the end of a line.
    fn is_tame_but_for_csv(&self) {
        let out = self.out.trim_start_matches('\u{feff}').replace("\r\n", "\n");
        Ran { status: self.status, out, err: self.err.clone() }.is_tame("tables");
    }
}

#[test]
fn a_number_that_cannot_be_read() {
    let buy = "What to buy";
    torn("2 3/8 yd", "2 3/8 yrd", &[[buy, "ink", "", "queen"]], "yrd }");
    torn("queen: 78", "queen: many", &[["Cut from ink", "square", "pieces", "queen"]], "many");
    torn("size: 6 1/2 x 6 1/2", "size: 6 1/2", &[["Cut from ink", "square", "cut size", ""]], ", pieces");
    torn("queen: 98 x 104", "queen: packed emperor", &[[buy, "batting", "", "queen"]], "packed emperor");
    torn("54 x 72", "54 or 72", &[["Finished sizes", "width x length", "", "throw"]], "or 72");
}

#[test]
fn a_whole_entry_that_cannot_be_read() {
    let buy = "What to buy";
    let size = "{ fabric: 8 1/4 yd, panels: 3 }";
    torn(size, "[ 8 1/4 yd, 3 ]", &[[buy, "backing", "", "queen"]], "[ 8 1/4");
    let both = [[buy, "batting", "", "throw"], [buy, "batting", "", "queen"]];
    torn("{ throw: 62 x 80, queen: 98 x 104 }", "62 x 80", &both, "62 x 80");
    torn("queen: 2 3/8", "quen: 2 3/8", &[[buy, "ink", "", "queen"]], "quen:");
    let list = [
        ["Cut from ink", "?", "cut size", ""],
        ["Cut from ink", "?", "pieces", "throw"],
        ["Cut from ink", "?", "pieces", "queen"],
    ];
    torn("- { piece: square, size: 6 1/2 x 6 1/2, pieces: { throw: 36, queen: 78 } }", "- square", &list, "square\n");
}

/// Two entries that are not there are told at the same place, the start of the file.
#[test]
fn of_several_that_are_missing_at_one_place_each_is_named() {
    let ran = made("pattern: Tide Pool\nbinding: { strip_width: 2 1/2, requires: { } }\n", &[]);
    for word in ["measure", "sizes"] {
        assert_eq!(ran.err.matches(&format!("\"{word}\" is missing from the file")).count(), 1, "{}", ran.err);
    }
}

/// What is not there is not called unreadable, and the other way around.
#[test]
fn what_is_missing_and_what_could_not_be_read_are_told_apart() {
    let warning = |text: &str| {
        let err = made(text, &[]).err;
        let line = err.lines().find_map(|line| line.split_once("Not complete: ")).map(|(_, words)| words.to_string());
        line.unwrap_or_else(|| panic!("{err}"))
    };
    let rest = "A ? stands where something is missing.";
    let without = WHOLE.replace("measure: inch\n", "");
    assert_eq!(warning(&without), format!("one entry is missing from the manuscript. {rest}"));
    let unread = WHOLE.replace("2 3/8 yd", "2 3/8 yrd");
    assert_eq!(warning(&unread), format!("one place in the manuscript could not be read. {rest}"));
    let both = without.replace("2 3/8 yd", "2 3/8 yrd");
    let words = "one entry is missing from the manuscript, and one place in the manuscript could not be read";
    assert_eq!(warning(&both), format!("{words}. {rest}"));
}

/// Where nothing can stand for what is missing, the tables say at their head that they are not whole.
#[test]
fn a_section_that_cannot_be_read() {
    torn("backing:\n", "backin:\n", &[], "backin:");
    torn("  ink:\n", "  \"i\\u0001nk\":\n", &[], "\"i\\u0001nk");
}

/// Without the measure nobody knows the unit of a bare number, so none is printed.
#[test]
fn an_unread_measure_gives_no_unit() {
    let text = WHOLE.replace("measure: inch", "measure: inches");
    let facts = facts(&text);
    assert!(
        facts.contains(&["Finished sizes", "width x length", "", "throw", "54 x 72"].map(String::from)),
        "{facts:?}"
    );
    assert!(facts.contains(&["What to buy", "ink", "", "throw", "1 1/8 yd"].map(String::from)), "{facts:?}");
    assert_eq!(made(&text, &[]).status, Some(1));
}

/// A size of which nothing is stated is not unread: a dash stands there, in the CSV nothing.
#[test]
fn what_is_not_stated_is_a_dash_and_a_nought_is_a_nought() {
    let text =
        WHOLE.replace("{ throw: 62 x 80, queen: 98 x 104 }", "{ throw: 62 x 80 }").replace("queen: 78", "queen: 0");
    let ran = made(&text, &[]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let line = |start: &str| {
        ran.out.lines().find(|line| line.starts_with(start)).unwrap().split('|').map(str::trim).collect::<Vec<_>>()
    };
    assert_eq!(line("| batting"), ["", "batting", "62 x 80 in", "–", ""]);
    assert_eq!(line("| square"), ["", "square", "6 1/2 x 6 1/2 in", "pieces", "36", "0", ""]);
    assert!(facts(&text).iter().all(|fact| fact[4] != "?"));
}

#[test]
fn a_mistake_in_what_is_accepted_leaves_the_tables_whole() {
    let text = format!("{WHOLE}accepted: [ {{ rule: backing-generous }} ]\n");
    let ran = made(&text, &[]);
    assert!(!ran.out.contains("Not complete"), "{}", ran.out);
    // It is an error all the same, as in `check`.
    assert_eq!(ran.status, Some(1));
}

/// House rules may turn a rule off; what it would have found is missing nevertheless.
#[test]
fn house_rules_do_not_hide_what_is_missing() {
    let (folder, _) = folder_with("x.pattern.yaml", WHOLE.replace("2 3/8 yd", "2 3/8 yrd"));
    crate::support::write(&folder.path().join("house-rules.yaml"), "levels: { unreadable-quantity: off }\n");
    let ran = run(folder.path(), &["tables", "x.pattern.yaml"]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.err.contains("x.pattern.yaml:8:47: ") && ran.out.contains("Not complete"), "{ran:?}");
}

/// However little of a manuscript is there, the three formats hold the same, and a hole in it is told.
#[test]
fn a_manuscript_torn_off_anywhere() {
    let files = super::manuscripts("example-patterns");
    for file in files {
        let text = super::text_of(&file);
        for end in (0..text.len()).step_by(211).filter(|end| text.is_char_boundary(*end)) {
            super::formats_agree(&text[..end]);
        }
    }
}

/// The same with a stretch taken out of its middle.
#[test]
fn a_manuscript_with_a_stretch_taken_out() {
    for file in super::manuscripts("example-patterns") {
        let text = super::text_of(&file);
        let whole = |place: &usize| text.is_char_boundary(*place);
        for start in (0..text.len() - 40).step_by(173).filter(whole) {
            let end = (start + 13..start + 40).find(|end| whole(end)).unwrap();
            super::formats_agree(&format!("{}{}", &text[..start], &text[end..]));
        }
    }
}
