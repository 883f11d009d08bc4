//! What the design leaves open: sizes without a layout, units and blocks that nothing uses, layouts that cannot be
//! checked.

use rstest::rstest;
use sparestrip::audit::{Status, account};
use sparestrip::finding::Level;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

use crate::desk::{assert_says, of_rule, one, rules_of};

/// Two sizes of plain blocks, of which only one has a layout: 4 pieces are needed for the other, and 3 are stated.
fn quilt(design: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  small: {{ finished: 12 x 12 }}\n  large: {{ finished: 24 x 24 }}\n\
         fabrics:\n  ink:\n    requires: {{ small: 3/8 yd, large: 3/8 yd }}\n    cut:\n      \
         - {{ piece: A, size: 12 1/2 x 12 1/2, pieces: {{ small: 1, large: 3 }} }}\n{design}"
    )
}

const UNITS: &str = "units:\n  plain: { make: patch, finished: 12, cut: { patch: A } }\n";
const BLOCKS: &str = "blocks:\n  plain: { finished: 12, rows: [[plain]] }\n";
const SMALL: &str = "layout:\n  small: { across: 1, down: 1, blocks: plain }\n";
const LARGE: &str = "  large: { across: 2, down: 2, blocks: plain }\n";

/// The numbers that nothing checks, each with its size.
fn unchecked(text: &str) -> Vec<String> {
    let account = account(&Source::from_text("test.pattern.yaml", text), &Settings::default());
    let open = account.lines.into_iter().filter(|line| line.status == Status::NotChecked);
    open.map(|line| format!("{} {}", line.size.unwrap_or_default(), line.number)).collect()
}

#[test]
fn a_size_without_a_layout_is_told_where_others_have_one() {
    let text = quilt(&format!("{UNITS}{BLOCKS}{SMALL}"));
    assert_eq!(rules_of(&text), ["not-checked"]);
    let finding = one(&text, "not-checked");
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Note, "large"));
    assert_says(
        &finding,
        &["large has no layout, and small has one: its finished size and how many pieces it takes are not checked."],
    );
    assert_eq!(unchecked(&text), ["large finished", "large ink A pieces"]);
}

#[test]
fn sashing_and_borders_of_other_sizes_are_told_too() {
    let layout = "layout:\n  small: { across: 1, down: 2, blocks: plain, sashing: 2, borders: [{ width: 1 }] }\n";
    let text = quilt(&format!("{UNITS}{BLOCKS}{layout}"));
    assert_says(&one(&text, "not-checked"), &["its sashing and its borders are not checked"]);
}

#[test]
fn with_a_layout_for_each_size_all_is_checked() {
    let text = quilt(&format!("{UNITS}{BLOCKS}{SMALL}{LARGE}"));
    assert_eq!(rules_of(&text), ["pieces-short"]);
    assert_eq!(unchecked(&text), [] as [&str; 0]);
}

/// Without any layout the counts are taken as given, and no size is without what others have.
#[test]
fn without_any_layout_no_size_lacks_one() {
    for text in [quilt(UNITS), quilt(&format!("{UNITS}{BLOCKS}"))] {
        assert_eq!((rules_of(&text), unchecked(&text)), (Vec::new(), Vec::new()));
    }
}

/// What is stated and cannot be read is told once.
#[test]
fn a_layout_that_cannot_be_read_is_not_called_missing() {
    let text = quilt(&format!("{UNITS}{BLOCKS}{SMALL}  large: 4\n"));
    assert_eq!(rules_of(&text), ["wrong-shape"]);
    assert_eq!(unchecked(&text), ["large finished", "large ink A pieces"]);
}

#[rstest]
#[case::unit("  spare: { make: patch, finished: 6 }\n", "", "Unit spare is in no block", " unit")]
#[case::block("", "  other: { finished: 12, rows: [[plain]] }\n", "No layout has block other", " block")]
fn a_unit_or_a_block_that_nothing_uses_is_told(
    #[case] unit: &str,
    #[case] block: &str,
    #[case] says: &str,
    #[case] number: &str,
) {
    let text = quilt(&format!("{UNITS}{unit}{BLOCKS}{block}{SMALL}{LARGE}")).replace("large: 3 }", "large: 4 }");
    let text = text.replace("large: 3/8 yd", "large: 3/4 yd");
    assert_eq!(rules_of(&text), ["not-checked"]);
    assert_says(&one(&text, "not-checked"), &[says]);
    assert_eq!(unchecked(&text), [number]);
}

/// Blocks of two sizes: neither their number nor the finished size is judged, and neither is called right.
#[test]
fn what_cannot_be_checked_is_not_judged() {
    let other = "  half: { finished: 12 x 6, rows: [[strip]] }\n";
    let units = format!("{UNITS}  strip: {{ make: patch, finished: 12 x 6 }}\n");
    let layout = "layout:\n  small: { across: 1, down: 1, blocks: plain }\n  \
                  large: { across: 2, down: 2, blocks: { plain: 3, half: 2 } }\n";
    let text = quilt(&format!("{units}{BLOCKS}{other}{layout}"));
    assert_eq!(rules_of(&text), ["not-checked"]);
    assert_says(&one(&text, "not-checked"), &["its blocks are not all of one finished size"]);
    assert_eq!(unchecked(&text), ["large finished", "large layout blocks", "large ink A pieces"]);
    // The blocks that are stated take 3 pieces whatever the layout is.
    assert_eq!(rules_of(&text.replace("large: 3 }", "large: 2 }")), ["pieces-short", "not-checked"]);
}

/// On point with sashing, the layout alone would say how many blocks there are.
#[test]
fn blocks_of_a_layout_that_cannot_be_checked_are_not_counted() {
    let layout = "layout:\n  small: { across: 1, down: 1, blocks: plain }\n  \
                  large: { set: on_point, across: 2, down: 2, sashing: 1, blocks: plain }\n";
    let text = quilt(&format!("{UNITS}{BLOCKS}{layout}"));
    assert_eq!(rules_of(&text), ["not-checked"]);
    assert_eq!(unchecked(&text), ["large finished", "large ink A pieces"]);
}

/// A layout of 3 x 4 blocks of 12 in with sashing of 2 in around them: 16 + 15 = 31 sashes, and 4 x 5 = 20 squares.
fn with_cornerstones(layout: &str, pieces: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 44 x 58 }}\nunits:\n  plain: {{ make: patch, finished: \
         12, cut: {{ patch: P }} }}\nblocks:\n  plain: {{ finished: 12, rows: [[plain]] }}\nlayout:\n  lap: {{ across: 3, down: \
         4, blocks: plain, sashing: 2, sashing_round: yes, cornerstones: yes{layout} }}\nfabrics:\n  ink:\n    requires: {{ lap: \
         3 yd }}\n    cut:\n      - {{ piece: P, size: 12 1/2 x 12 1/2, pieces: {{ lap: 12 }} }}\n{pieces}"
    )
}

#[test]
fn a_piece_of_a_layout_that_no_list_has_is_told_with_the_entry_that_lacks() {
    let text = with_cornerstones(", cornerstone: K", "");
    let finding = one(&text, "piece-not-cut");
    let says = "The cornerstones of lap are cut from it. State it under `cut` of its fabric: - { piece: K, size: 2 1/2 x 2 1/2, \
                pieces: { lap: 20 } }.";
    assert!(finding.help.ends_with(says), "{}", finding.help);
    // What it says to write is enough.
    let written =
        with_cornerstones(", cornerstone: K", "      - { piece: K, size: 2 1/2 x 2 1/2, pieces: { lap: 20 } }\n");
    assert!(of_rule(&written, "piece-not-cut").is_empty() && of_rule(&written, "pieces-short").is_empty());
    let help = one(&with_cornerstones(", sash: S", ""), "piece-not-cut").help;
    assert!(help.contains("{ piece: S, size: 2 1/2 x 12 1/2, pieces: { lap: 31 } }"), "{help}");
    // In a unit a size may stand as well.
    let help = one(&with_cornerstones("", "").replace("patch: P", "patch: Q"), "piece-not-cut").help;
    assert!(help.contains("or write its cut size here"), "{help}");
}

#[test]
fn a_piece_that_no_layout_names_is_told_with_the_word_that_names_it() {
    let text = with_cornerstones("", "      - { piece: K, size: 2 1/2 x 2 1/2, pieces: { lap: 20 } }\n");
    let finding = one(&text, "piece-unused");
    assert!(finding.help.contains("does not say what the cornerstones are cut from"), "{}", finding.help);
    assert!(finding.help.ends_with("state there cornerstone: K."), "{}", finding.help);
}
