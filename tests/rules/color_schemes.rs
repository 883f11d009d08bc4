//! Blocks that are sewn as another is, from other fabrics: `like` and `with`.

use rstest::rstest;
use sparestrip::manuscript::Source;
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::Worksheet;

use crate::desk::{assert_says, assert_silent, mended, one, outcome, rules_of, told};

/// Twenty blocks, 11 of one coloring and 9 of the other, each of a half-square triangle and three plain squares.
///
/// Triangles come two from a pair of squares, those of each coloring by themselves: 11 take 6 pairs and 9 take 5, so that 11
/// squares A are cut from each fabric. 11 x 3 = 33 plain squares are of ink, 9 x 3 = 27 of gold.
fn two_colorings(with: &str, ink: (u64, u64), gold: (u64, u64), makes: [u64; 3]) -> String {
    let list = |(a, p): (u64, u64)| {
        format!(
            "      - {{ piece: A, size: 4 7/8 x 4 7/8, pieces: {{ lap: {a} }} }}\n      - {{ piece: P, size: 4 1/2 x 4 1/2, \
             pieces: {{ lap: {p} }} }}\n"
        )
    };
    let [half, plain, dusk] = makes;
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 32 x 40 }}\nfabrics:\n  ink:\n    requires: {{ lap: \
         7/8 yd }}\n    cut:\n{}  gold:\n    requires: {{ lap: 3/4 yd }}\n    cut:\n{}units:\n  half: {{ make: \
         half_square_triangle, finished: 4, cut: {{ first: ink A, second: gold A }}, makes: {half} }}\n  plain: {{ make: \
         patch, finished: 4, cut: {{ patch: ink P }}, makes: {plain} }}\nblocks:\n  star: {{ finished: 8, rows: [[half, \
         plain], [plain, plain]] }}\n  dusk: {{ like: star, with: {with}, makes: {dusk} }}\nlayout:\n  lap: {{ across: 4, \
         down: 5, blocks: {{ star: 11, dusk: 9 }} }}\n",
        list(ink),
        list(gold)
    )
}

const SWAPPED: &str = "{ ink: gold, gold: ink }";

fn right() -> String {
    two_colorings(SWAPPED, (11, 33), (11, 27), [20, 60, 9])
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    let found: Vec<&str> = rules_of(text).into_iter().filter(|rule| *rule != "fabric-generous").collect();
    assert_eq!(found, rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

#[rstest]
#[case::right((11, 33), (11, 27), [20, 60, 9], &[])]
#[case::plain_squares_of_one_fabric((11, 33), (11, 26), [20, 60, 9], &["pieces-short"])]
#[case::plain_squares_of_the_other((11, 32), (11, 27), [20, 60, 9], &["pieces-short"])]
// Ten pairs would do if the triangles of both were alike.
#[case::pairs_of_both_together((10, 33), (10, 27), [20, 60, 9], &["pieces-short", "pieces-short"])]
#[case::too_few_units_made((11, 33), (11, 27), [18, 60, 9], &["make-count-wrong"])]
#[case::too_few_blocks_made((11, 33), (11, 27), [20, 60, 8], &["make-count-wrong"])]
fn pieces_are_counted_in_the_fabrics_that_give_them(
    #[case] ink: (u64, u64),
    #[case] gold: (u64, u64),
    #[case] makes: [u64; 3],
    #[case] rules: &[&str],
) {
    assert_rules(&two_colorings(SWAPPED, ink, gold, makes), rules);
}

#[test]
fn a_piece_that_is_short_is_told_with_the_blocks_that_take_it() {
    let text = two_colorings(SWAPPED, (11, 33), (11, 26), [20, 60, 9]);
    let finding = one(&text, "pieces-short");
    assert_says(&finding, &["26 pieces of P stated; 27 needed: 1 short."]);
    assert_eq!(finding.help, "9 dusk x 3 = 27 plain, 1 P each = 27.");
    assert!(finding.related.iter().any(|label| label.at.text(&text) == "gold"), "{:?}", finding.related);
    mended(&text, &finding);
    let text = two_colorings(SWAPPED, (10, 33), (11, 27), [20, 60, 9]);
    let help = one(&text, "pieces-short").help;
    assert!(help.contains("11 star x 1 = 11 half, 2 from each set, so 6 sets"), "{help}");
    assert!(help.contains("9 dusk x 1 = 9 half, 2 from each set, so 5 sets") && help.contains("together 11"), "{help}");
}

/// A third fabric takes the place of one: the other stays as it is.
#[test]
fn one_fabric_alone_may_be_another() {
    let rust = "  rust:\n    requires: { lap: 5/8 yd }\n    cut:\n      - { piece: P, size: 4 1/2 x 4 1/2, pieces: { lap: 27 } \
                }\n      - { piece: A, size: 4 7/8 x 4 7/8, pieces: { lap: 5 } }\nunits:";
    let text = two_colorings("{ ink: rust }", (6, 33), (11, 0), [20, 60, 9]).replace("units:", rust);
    let text = text.replace("      - { piece: P, size: 4 1/2 x 4 1/2, pieces: { lap: 0 } }\n", "");
    let text = text.replace("3/4 yd", "1/2 yd");
    assert_rules(&text, &[]);
    assert_says(&one(&text.replace("{ lap: 5 }", "{ lap: 4 }"), "pieces-short"), &["4 pieces of A stated; 5 needed"]);
}

/// A block of another coloring within a block, and that again in another coloring.
#[test]
fn colorings_are_taken_within_blocks() {
    let text = right()
        .replace("  dusk:", "  pair: { finished: 16 x 8, rows: [[star, dusk]] }\n  night: { like: pair, with: { ink: gold, gold: ink } }\n  dusk:")
        .replace("across: 4, down: 5, blocks: { star: 11, dusk: 9 }", "across: 2, down: 5, blocks: { pair: 6, night: 4 }");
    // Six pairs have 6 star and 6 dusk, four nights 4 dusk and 4 star: 10 of each, 30 plain squares of each fabric; triangles of
    // stars in pairs and of those in nights, which are the same, are not pooled: 6 and 4 of one, 6 and 4 of the other.
    let text =
        text.replace("makes: 9", "makes: 10").replacen("lap: 33", "lap: 30", 1).replacen("lap: 27", "lap: 30", 1);
    let text = text.replacen("lap: 11", "lap: 10", 2);
    assert_rules(&text, &[]);
}

/// Each of 45 blocks is sewn from eight that are stated before it, and the last in another coloring: each is read once.
#[test]
fn blocks_of_blocks_of_blocks_are_read_in_no_time() {
    let all = |number: usize| {
        let inner: Vec<String> = (number.saturating_sub(8)..number).map(|inner| format!("b{inner}")).collect();
        let row = if inner.is_empty() { "plain".to_string() } else { inner.join(", ") };
        format!("  b{number}: {{ finished: 4, rows: [[{row}]] }}\n")
    };
    let many: String = (0..45).map(all).collect();
    let text =
        right().replace("blocks:\n", &format!("blocks:\n{many}  last: {{ like: b44, with: {{ ink: gold }} }}\n"));
    assert!(rules_of(&text).contains(&"block-does-not-sum"));
}

#[test]
fn the_drawing_names_the_fabrics() {
    let text = right();
    assert_silent(&text);
    let source = Source::from_text("test.pattern.yaml", &text);
    let json = worksheet_json(&source, &Worksheet::new(&source, &Settings::default()));
    let json: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let blocks = &json["drawings"]["design"]["blocks"];
    assert_eq!(blocks[1]["like"], "star");
    assert_eq!(blocks[1]["with"], serde_json::json!({ "ink": "gold", "gold": "ink" }));
    assert!(blocks[0].get("with").is_none());
    assert_eq!(blocks[1]["parts"], blocks[0]["parts"]);
}

#[rstest]
#[case::rows_of_its_own("with: { ink: gold }, rows: [[half, half]]", "rows is one answer too many")]
#[case::size_of_its_own("with: { ink: gold }, finished: 8", "finished is one answer too many")]
#[case::no_fabrics("makes: 9", "\"with\" is missing")]
#[case::unknown_fabric("with: { ink: goold }", "goold")]
#[case::unknown_place("with: { inc: gold }", "inc")]
#[case::not_in_it("with: { lime: gold }", "Nothing in the block is cut from lime")]
#[case::no_such_piece("with: { ink: lime }", "The cutting list of lime has no piece A")]
fn what_cannot_be_is_told(#[case] dusk: &str, #[case] says: &str) {
    let lime =
        "  lime:\n    requires: { lap: 1/8 yd }\n    cut: [{ piece: Z, size: 2 x 2, pieces: { lap: 1 } }]\nunits:";
    let text = right().replace("with: { ink: gold, gold: ink }, makes: 9", dusk).replace("units:", lime);
    let outcome = outcome(&text);
    assert!(outcome.findings.iter().any(|one| one.message.contains(says)), "{:#?}", told(&text, &outcome));
}

#[rstest]
#[case::itself("like: star", "like: dusk", "A block cannot be like itself")]
#[case::nothing("like: star", "like: stare", "stare")]
fn what_a_block_is_like_must_have_rows(#[case] from: &str, #[case] to: &str, #[case] says: &str) {
    let text = right().replace(from, to);
    let outcome = outcome(&text);
    assert!(outcome.findings.iter().any(|one| one.message.contains(says)), "{:#?}", told(&text, &outcome));
}

/// A piece that takes the place of another is cut to the same size.
#[test]
fn pieces_that_are_not_cut_alike_are_pointed_at() {
    let text = right();
    let at = text.rfind("size: 4 1/2").expect("the piece of gold") + "size: ".len();
    let wrong = format!("{}4 1/4 x 4 1/4{}", &text[..at], &text[at + "4 1/2 x 4 1/2".len()..]);
    let outcome = outcome(&wrong);
    let finding = outcome.findings.iter().find(|one| one.message.contains("not cut as that of"));
    let finding = finding.unwrap_or_else(|| panic!("{:#?}", told(&wrong, &outcome)));
    assert_says(finding, &["Piece P of gold is not cut as that of ink, whose place it takes"]);
    assert_eq!(finding.at.at.text(&wrong), "4 1/4 x 4 1/4");
}

/// Of pieces that several fabrics give together it is not known which of them are of the fabric.
#[test]
fn pieces_that_are_counted_together_have_no_one_fabric() {
    let text = right().replace("first: ink A, second: gold A", "first: A, second: A");
    let outcome = outcome(&text);
    assert!(
        outcome
            .findings
            .iter()
            .any(|one| one.message.contains("counted together in the cutting lists of several fabrics")),
        "{:#?}",
        told(&text, &outcome)
    );
}
