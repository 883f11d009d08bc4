//! The kinds of mistake that patterns are printed with, one test each, named after the kind: a manuscript that is right
//! and silent, one slip in it, and the finding at its place. The kinds are those of published corrections and of
//! published tables that were worked out anew. A wrong template, and a text that contradicts its diagram, are in no
//! number that a manuscript states.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

/// A pattern of two sizes: star blocks with sashing and a border.
const RIGHT: &str = "\
pattern: Tern Island
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes:
  crib: { finished: 46 x 60 }
  twin: { finished: 74 x 102 }
fabrics:
  ink:
    requires: { crib: 3/4 yd, twin: 1 7/8 yd }
    cut:
      - { piece: A, size: 4 7/8 x 4 7/8, strips: { crib: 3, twin: 9 }, pieces: { crib: 24, twin: 70 } }
      - { piece: D, size: 4 1/2 x 4 1/2, strips: { crib: 2, twin: 5 }, pieces: { crib: 12, twin: 35 } }
  chalk:
    requires: { crib: 1 1/4 yd, twin: 3 1/2 yd }
    cut:
      - { piece: B, size: 4 7/8 x 4 7/8, pieces: { crib: 24, twin: 70 } }
      - { piece: C, size: 4 1/2 x 4 1/2, pieces: { crib: 48, twin: 140 } }
  sea:
    requires: { crib: 1 1/8 yd, twin: 2 3/8 yd }
    cut:
      - { piece: S, size: 2 1/2 x 12 1/2, pieces: { crib: 17, twin: 58 } }
      - { piece: K, size: 2 1/2 x 2 1/2, pieces: { crib: 6, twin: 24 } }
      - { piece: E, strip_width: 3 1/2, strips: { crib: 6, twin: 9 } }
units:
  half: { make: half_square_triangle, finished: 4, cut: { first: A, second: B } }
  plain: { make: patch, finished: 4, cut: { patch: C } }
  heart: { make: patch, finished: 4, cut: { patch: D } }
blocks:
  star:
    finished: 12
    rows:
      - [plain, half, plain]
      - [half, heart, half]
      - [plain, half, plain]
layout:
  crib:
    across: 3
    down: 4
    blocks: star
    sashing: 2
    cornerstones: yes
    sash: S
    cornerstone: K
    borders: [{ width: 3, corners: butted, piece: E }]
  twin:
    across: 5
    down: 7
    blocks: star
    sashing: 2
    cornerstones: yes
    sash: S
    cornerstone: K
    borders: [{ width: 3, corners: butted, piece: E }]
binding:
  strip_width: 2 1/2
  requires:
    crib: { strips: 7, fabric: 1/2 yd (50 cm) }
    twin: { strips: 11, fabric: 7/8 yd (80 cm) }
backing:
  requires: { crib: 3 yd, twin: 6 7/8 yd }
batting:
  requires: { crib: 54 x 68, twin: 82 x 110 }
";

/// Triangles for a quilt on point, cut to the eighth above.
const ON_POINT: &str = "\
pattern: Gannet Point
measure: inch
sizes: { wall: { finished: 31 7/8 x 38 1/8 } }
units:
  plain: { make: patch, finished: 4 1/2, cut: { patch: 5 } }
  side: { make: side_triangle, finished: 4 1/2, cut: { square: 7 5/8 } }
  corner: { make: corner_triangle, finished: 4 1/2, cut: { square: 4 1/8 } }
blocks: { plain: { finished: 4 1/2, rows: [[plain]] } }
layout:
  wall: { set: on_point, across: 5, down: 6, blocks: plain, side_triangles: side, corner_triangles: corner }
";

fn findings(text: &str) -> Vec<Finding> {
    check(&Source::from_text("tern-island.pattern.yaml", text), &Settings::default()).findings
}

fn told(text: &str) -> Vec<(&'static str, String)> {
    findings(text).iter().map(|finding| (finding.rule, finding.at.at.text(text).to_string())).collect()
}

/// The text with a slip in it. What the slip replaces stands once.
#[track_caller]
fn with(right: &str, good: &str, bad: &str) -> String {
    assert_eq!(right.matches(good).count(), 1, "{good:?} stands once");
    right.replace(good, bad)
}

/// Says that the slip is caught by one rule at one place, and that nothing else is found.
#[track_caller]
fn caught_in(right: &str, good: &str, bad: &str, rule: &str, at: &str) {
    assert_eq!(told(right), [], "the right manuscript is silent");
    assert_eq!(told(&with(right, good, bad)), [(rule, at.to_string())]);
}

#[track_caller]
fn caught(good: &str, bad: &str, rule: &str, at: &str) {
    caught_in(RIGHT, good, bad, rule, at);
}

#[rstest]
#[case::fewer_of_one_fabric(
    "piece: B, size: 4 7/8 x 4 7/8, pieces: { crib: 24",
    "piece: B, size: 4 7/8 x 4 7/8, pieces: { crib: 20",
    "pieces-short",
    "20"
)]
#[case::fewer_sashes("crib: 17, twin: 58", "crib: 17, twin: 57", "pieces-short", "57")]
#[case::fewer_cornerstones("crib: 6, twin: 24", "crib: 5, twin: 24", "pieces-short", "5")]
fn pieces_that_must_match_do_not_sum(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    caught(good, bad, rule, at);
}

#[test]
fn blocks_that_must_match_do_not_sum() {
    let counted = RIGHT.replacen("blocks: star", "blocks: { star: 12 }", 1);
    caught_in(&counted, "{ star: 12 }", "{ star: 11 }", "block-count-wrong", "{ star: 11 }");
}

#[test]
fn rows_that_must_match_do_not_sum() {
    let text = with(RIGHT, "[half, heart, half]", "[half, heart]");
    assert!(told(&text).iter().any(|(rule, _)| *rule == "block-does-not-sum"), "{:?}", told(&text));
}

#[rstest]
#[case::finished_size_used("size: 4 1/2 x 4 1/2, pieces: { crib: 48", "size: 4 x 4, pieces: { crib: 48", "4 x 4")]
#[case::triangle("piece: B, size: 4 7/8 x 4 7/8", "piece: B, size: 4 x 4", "4 x 4")]
fn seam_allowance_missing(#[case] good: &str, #[case] bad: &str, #[case] at: &str) {
    let text = with(RIGHT, good, bad);
    assert!(told(&text).contains(&("seam-left-out", at.to_string())), "{:?}", told(&text));
}

#[rstest]
#[case::sash("size: 2 1/2 x 12 1/2", "size: 2 1/2 x 12", "sash-short", "2 1/2 x 12")]
#[case::cornerstone("size: 2 1/2 x 2 1/2", "size: 2 x 2", "sash-short", "2 x 2")]
#[case::border("strip_width: 3 1/2, strips", "strip_width: 3, strips", "border-short", "3")]
fn seam_allowance_missing_between_blocks(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    let text = with(RIGHT, good, bad);
    assert!(told(&text).contains(&(rule, at.to_string())), "{:?}", told(&text));
}

#[test]
fn wrong_cut_size() {
    caught("piece: B, size: 4 7/8 x 4 7/8", "piece: B, size: 4 3/4 x 4 3/4", "unit-cut-short", "4 3/4 x 4 3/4");
}

#[rstest]
#[case::of_a_piece("size: 2 1/2 x 12 1/2", "size: 12 1/2")]
#[case::of_the_quilt("crib: { finished: 46 x 60 }", "crib: { finished: 46 }")]
#[case::of_the_batting("crib: 54 x 68", "crib: 54")]
fn a_dimension_left_out(#[case] good: &str, #[case] bad: &str) {
    let text = with(RIGHT, good, bad);
    let findings = findings(&text);
    let place = text.find(bad).unwrap()..text.find(bad).unwrap() + bad.len();
    assert_eq!(findings.len(), 1, "{:?}", told(&text));
    assert_eq!(findings[0].rule, "unreadable-quantity");
    assert!(findings[0].message.contains("an x is expected here"), "{}", findings[0].message);
    assert!((place.start..=place.end).contains(&findings[0].at.at.start));
}

#[rstest]
#[case::fabric("twin: 3 1/2 yd", "twin: 3 1/4 yd", "fabric-short", "3 1/4 yd")] // 121 1/2 in at least
#[case::backing("twin: 6 7/8 yd", "twin: 6 3/4 yd", "backing-short", "6 3/4 yd")] // 246 in
fn yardage_short(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    caught(good, bad, rule, at);
}

#[rstest]
#[case::binding("{ strips: 11, fabric", "{ strips: 9, fabric", "binding-short", "9")]
#[case::border("strips: { crib: 6, twin: 9 }", "strips: { crib: 5, twin: 9 }", "pieces-short", "5")]
#[case::pieces("strips: { crib: 2, twin: 5 }", "strips: { crib: 1, twin: 5 }", "strips-short", "1")]
fn strip_count_wrong(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    let text = with(RIGHT, good, bad);
    assert!(told(&text).contains(&(rule, at.to_string())), "{:?}", told(&text));
    let others: Vec<_> = told(&text).into_iter().filter(|(found, _)| *found != rule).collect();
    // Fewer strips take less fabric, which may then be more than enough for them.
    assert!(others.iter().all(|(rule, _)| rule.ends_with("-generous")), "{others:?}");
}

#[rstest]
#[case::a_digit("finished: 46 x 60", "finished: 46 x 50")]
#[case::another_digit("finished: 74 x 102", "finished: 74 x 101")]
fn finished_size_misprinted(#[case] good: &str, #[case] bad: &str) {
    caught(good, bad, "finished-size-wrong", bad.strip_prefix("finished: ").unwrap());
}

/// 44 in on the bolt label gives 9 squares of 4 7/8 to a strip, 40 in between the selvedges gives 8.
#[test]
fn nominal_width_treated_as_usable() {
    let nominal = RIGHT.replace("usable_width: 40", "usable_width: 44").replace("crib: 3, twin: 9", "crib: 3, twin: 8");
    assert!(told(&nominal).iter().all(|(rule, _)| *rule != "strips-short"), "{:?}", told(&nominal));
    let text = with(RIGHT, "strips: { crib: 3, twin: 9 }", "strips: { crib: 3, twin: 8 }");
    assert_eq!(told(&text), [("strips-short", "8".to_string())]);
}

#[test]
fn size_not_on_a_ruler() {
    caught("strip_width: 2 1/2\n", "strip_width: 2 7/16\n", "not-on-ruler", "2 7/16");
}

#[rstest]
#[case::fabric("crib: 1 1/4 yd", "crib: 1 3/4 yd", "fabric-generous", "1 3/4 yd")]
#[case::backing("crib: 3 yd", "crib: 3 1/2 yd", "backing-generous", "3 1/2 yd")]
fn yardage_over_stated(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    caught(good, bad, rule, at);
}

/// 6 strips of 3 1/2 and 6 of 2 1/2 are 36 in, one yard to the thread.
#[test]
fn no_margin() {
    caught("crib: 1 1/8 yd", "crib: 1 yd", "no-squaring-room", "1 yd");
}

#[rstest]
#[case::pieces("pieces: { crib: 48, twin: 140 }", "pieces: { crib: 48, twin: 48 }", "pieces-short", "48")]
#[case::strips("strips: { crib: 6, twin: 9 }", "strips: { crib: 6, twin: 6 }", "pieces-short", "6")]
#[case::batting("twin: 82 x 110", "twin: 54 x 68", "batting-short", "54 x 68")]
fn alternate_size_not_recomputed(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    let text = with(RIGHT, good, bad);
    let twin = |finding: &&Finding| finding.size.as_deref() == Some("twin");
    let found = findings(&text);
    let caught = found.iter().filter(twin).any(|finding| finding.rule == rule && finding.at.at.text(&text) == at);
    assert!(caught, "{:?}", told(&text));
}

/// Twice the amounts and strips of the crib for a quilt that is not twice as large.
#[test]
fn alternate_size_scaled_from_another() {
    let right = "pattern: Tern Island\nmeasure: inch\n\
                 sizes: { crib: { finished: 36 x 48 }, twin: { finished: 70 x 108 } }\n\
                 binding:\n  strip_width: 2 1/2\n  requires:\n    crib: { strips: 6, fabric: 18 in }\n    \
                 twin: { strips: 12, fabric: 32 in }\nbacking: { requires: { crib: 95 in, twin: 240 in } }\n";
    let scaled = with(right, "fabric: 32 in", "fabric: 36 in").replace("twin: 240 in", "twin: 190 in");
    assert!(told(right).iter().all(|(rule, _)| *rule != "scaled-size"), "{:?}", told(right));
    let found = findings(&scaled);
    let asked: Vec<_> = found.iter().filter(|finding| finding.rule == "scaled-size").collect();
    assert_eq!(asked.len(), 1, "{:?}", told(&scaled));
    assert!(asked[0].message.contains("numbers of twin are exactly 2 times those of crib"));
}

/// A corner triangle for a block of 4 1/2 is 4.057 in: Simply Put (2012) prints 4.
#[test]
fn rounded_down_where_up_is_the_rule() {
    caught_in(ON_POINT, "square: 4 1/8", "square: 4", "unit-cut-short", "4");
}

/// A side triangle for a block of 4 1/2 is 7.614 in, printed 7 5/8; here its digits are turned round.
#[test]
fn digit_error_in_a_table() {
    caught_in(ON_POINT, "square: 7 5/8", "square: 5 7/8", "unit-cut-short", "5 7/8");
}

#[rstest]
#[case::metric_half("1/2 yd (50 cm)", "1/2 yd (40 cm)", "40 cm")]
#[case::inch_half("7/8 yd (80 cm)", "5/8 yd (80 cm)", "5/8 yd")]
fn metric_pair_wrong(#[case] good: &str, #[case] bad: &str, #[case] at: &str) {
    caught(good, bad, "pair-disagrees", at);
}

/// 362 in of binding 2 1/2 wide are 22 5/8 in of fabric by area; 11 strips are 27 1/2 in, and 3/4 yd is 27 in.
#[test]
fn area_where_whole_strips_decide() {
    let right = with(RIGHT, "7/8 yd (80 cm)", "7/8 yd");
    caught_in(&right, "fabric: 7/8 yd", "fabric: 3/4 yd", "binding-fabric-short", "3/4 yd");
}

/// 11 strips x 2 1/2 in are 27 1/2 in, and not 26 1/2 in: a product in Quilting Board t189575.
#[test]
fn wrong_product() {
    let right = with(RIGHT, "7/8 yd (80 cm)", "28 in");
    caught_in(&right, "fabric: 28 in", "fabric: 26 1/2 in", "binding-fabric-short", "26 1/2 in");
}

/// 46 x 60 and 4 at each side are 54 x 68; 4 once each way are 50 x 64.
#[rstest]
#[case::backing("crib: 3 yd", "crib: 2 7/8 yd", "backing-short", "2 7/8 yd")] // two panels of 50 are 100 in
#[case::batting("crib: 54 x 68", "crib: 50 x 64", "batting-short", "50 x 64")]
fn overage_counted_once(#[case] good: &str, #[case] bad: &str, #[case] rule: &str, #[case] at: &str) {
    caught(good, bad, rule, at);
}

#[test]
fn backing_smaller_than_batting() {
    let text = with(RIGHT, "crib: 54 x 68", "crib: 60 x 84");
    assert!(told(&text).iter().any(|(rule, _)| *rule == "backing-smaller-than-batting"), "{:?}", told(&text));
}
