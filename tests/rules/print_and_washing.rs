//! Prints whose pieces are centered, panels, what is left unsaid, and fabric that is washed first.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, one, outcome, rules_of, told};

fn ink(fabric: &str, cut: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 56 x 72 }}\nfabrics:\n  ink:\n    {fabric}\n    \
         cut: [{{ {cut} }}]\n"
    )
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Nine pieces, two from a repeat of 12 in, take five repeats, 60 in; four whole ones and the last piece, 4 x 12 + 6 1/2 in,
/// are 54 1/2 in, and less is proved to be short.
#[rstest]
#[case::enough("1 3/4 yd", &[])]
#[case::part_of_the_last("1 5/8 yd", &["fabric-tight"])]
#[case::short("1 1/2 yd", &["fabric-short"])]
fn centered_pieces_take_whole_repeats(#[case] amount: &str, #[case] rules: &[&str]) {
    let cut = "piece: C, size: 6 1/2 x 6 1/2, centered: yes, per_repeat: 2, pieces: { lap: 9 }";
    let text = ink(&format!("repeat: 12\n    requires: {{ lap: {amount} }}"), cut);
    assert_rules(&text, rules);
    if let [rule] = rules {
        assert_says(&one(&text, rule), &["5 repeats x 12 in = 60 in"]);
        assert_eq!(one(&text, rule).at.at.text(&text), amount);
    }
}

/// What is not known of them is said at the fabric, and the pieces are still counted.
#[rstest]
#[case::no_repeat("requires: { lap: 1 yd }", "centered: yes, per_repeat: 2", "how far apart that repeats")]
#[case::none_per_repeat("repeat: 12\n    requires: { lap: 1 yd }", "centered: yes", "how many come of a repeat")]
#[case::fat_quarters(
    "repeat: 12\n    sold_as: fat_quarters\n    requires: { lap: 1 }",
    "centered: yes, per_repeat: 2",
    "only where rectangles are cut from the bolt"
)]
#[case::too_many("repeat: 6\n    requires: { lap: 1 yd }", "centered: yes, per_repeat: 7", "than it holds")]
#[case::panel(
    "sold_as: panel\n    panel_size: 43 x 24\n    requires: { lap: 1 }",
    "grain: crosswise",
    "as its pictures lie"
)]
fn what_is_not_known_of_a_print_is_said(#[case] fabric: &str, #[case] words: &str, #[case] says: &str) {
    let text = ink(fabric, &format!("piece: C, size: 6 1/2 x 6 1/2, {words}, pieces: {{ lap: 9 }}"));
    let finding = one(&text, "not-checked");
    assert_says(&finding, &[says]);
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Note, "ink"));
    assert_rules(&text, &["not-checked"]);
}

/// Pieces that are not centered take what they take, whatever the print.
#[test]
fn a_repeat_by_itself_changes_nothing() {
    let cut = "piece: C, size: 6 1/2 x 6 1/2, pieces: { lap: 9 }";
    assert_silent(&ink("repeat: 12\n    requires: { lap: 3/8 yd }", cut));
    assert_silent(&ink("repeat: 12\n    requires: { lap: 3/8 yd }", &format!("{cut}, centered: no")));
}

/// A fabric without an amount and a binding without a strip width are taken, and said to be not checked.
#[test]
fn what_is_not_stated_is_said_to_be_not_checked() {
    let text = ink("role: background", "piece: C, size: 6 1/2 x 6 1/2, pieces: { lap: 9 }");
    assert_rules(&text, &["not-checked"]);
    assert_says(&one(&text, "not-checked"), &["No amount of ink is stated"]);
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 56 x 72 }\nbinding:\n  requires: { lap: { strips: 8 } }\n";
    assert_rules(text, &["not-checked"]);
    assert_says(&one(text, "not-checked"), &["No strip width of the binding is stated"]);
    // What was probably meant is said instead.
    let text = text.replace("  requires", "  strip_witdh: 2 1/2\n  requires");
    assert_rules(&text, &["unknown-word"]);
    let text = ink("require: { lap: 1 yd }", "piece: C, size: 6 1/2 x 6 1/2, pieces: { lap: 9 }");
    assert_rules(&text, &["unknown-word"]);
}

/// The fabric that a binding is cut from is not checked where the binding's strips are not known.
#[test]
fn a_fabric_for_a_binding_without_a_width_is_not_checked() {
    let cut = "piece: C, size: 6 1/2 x 6 1/2, pieces: { lap: 9 }";
    let text = ink("requires: { lap: 1/2 yd }", cut) + "binding:\n  from: ink\n  requires: { lap: { strips: 8 } }\n";
    assert_rules(&text, &["not-checked", "not-checked"]);
}

/// All fabric shrinks as is assumed, unless it says otherwise: 18 in are 18.557 in before washing at 3 %, and 18 in at none.
#[rstest]
#[case::assumed("assumes: { shrinks: 3 % }\n", "", &["fabric-short"])]
#[case::not_this_one("assumes: { shrinks: 3 % }\n", "shrinks: 0 %\n    ", &[])]
#[case::this_one("", "shrinks: 3 %\n    ", &["fabric-short"])]
#[case::none("", "", &[])]
fn fabric_shrinks_as_is_assumed(#[case] assumes: &str, #[case] own: &str, #[case] rules: &[&str]) {
    let cut = "piece: C, size: 4 1/2 x 4 1/2, pieces: { lap: 32 }";
    let text = ink(&format!("{own}requires: {{ lap: 1/2 yd }}"), cut).replace("sizes:", &format!("{assumes}sizes:"));
    let found: Vec<&str> = rules_of(&text).into_iter().filter(|rule| *rule != "no-squaring-room").collect();
    assert_eq!(found, rules, "{:#?}", told(&text, &outcome(&text)));
    if !rules.is_empty() {
        // 18 / 0.97 is 18.5567...
        assert_says(&one(&text, "fabric-short"), &["= 18 in; before washing, / (1 - 3 %), 18.557 in"]);
    }
}

/// A backing and a batting that are washed first: two panels of 80 in are 160 in, 164.949 in before washing, and 4 1/2 yd are
/// 162 in; a batting of 62 x 80 in is 63.918 x 82.475 in before washing.
#[rstest]
#[case::backing_right("backing:\n  shrinks: 3 %\n  requires: { lap: 4 5/8 yd }\n", &[])]
#[case::backing_short("backing:\n  shrinks: 3 %\n  requires: { lap: 4 1/2 yd }\n", &["backing-short"])]
#[case::backing_assumed("assumes: { shrinks: 3 % }\nbacking:\n  requires: { lap: 4 1/2 yd }\n", &["backing-short"])]
#[case::backing_not_washed("backing:\n  requires: { lap: 4 1/2 yd }\n", &[])]
#[case::batting_right("batting:\n  shrinks: 3 %\n  requires: { lap: 64 x 83 }\n", &[])]
#[case::batting_short("batting:\n  shrinks: 3 %\n  requires: { lap: 63 x 81 }\n", &["batting-short"])]
#[case::batting_not_washed("batting:\n  requires: { lap: 62 x 80 }\n", &[])]
fn layers_that_are_washed_first(#[case] layer: &str, #[case] rules: &[&str]) {
    let text = format!("pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 54 x 72 }}\n{layer}");
    assert_rules(&text, rules);
    match rules {
        ["backing-short"] => {
            assert_says(&one(&text, "backing-short"), &["= 160 in; before washing, / (1 - 3 %), 164.949 in"]);
        }
        ["batting-short"] => {
            let finding = one(&text, "batting-short");
            assert!(
                finding.help.contains("62 x 80 in; before washing, / (1 - 3 %), 63.918 x 82.475 in"),
                "{}",
                finding.help
            );
            assert_says(
                &finding,
                &["64 x 82 1/2 in needed: it is 1 in short in the width and 1 1/2 in short in the length"],
            );
        }
        _ => {}
    }
}

/// What a listed fabric shrinks by is stated there, and not once more.
#[test]
fn a_backing_from_a_listed_fabric_shrinks_as_that_does() {
    let cut = "piece: C, size: 6 1/2 x 6 1/2, pieces: { lap: 9 }";
    let text = ink("requires: { lap: 6 yd }", cut)
        + "backing:\n  from: ink\n  shrinks: 3 %\n  requires: { lap: { panels: 2 } }\n";
    assert_says(&one(&text, "repeated-key"), &["shrinks"]);
}
