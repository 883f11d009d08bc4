//! Strips from which pieces of several kinds are cut (`subcut`), and strips that are joined before pieces are trimmed
//! from them (`joined`).

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one, outcome, rules_of, told};

/// A manuscript of one size, `lap`, with one fabric, `ink`, of which so much is bought.
fn ink(fabric: &str, cuts: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 57 }}\nfabrics:\n  ink:\n    {fabric}\n    \
         cut:\n{cuts}"
    )
}

/// So many strips of a width with the pieces `A`, `B`, ... of these sizes and counts.
fn group(strips: &str, width: &str, pieces: &[(&str, u64)]) -> String {
    let pieces = pieces.iter().zip('A'..).map(|((size, count), name)| {
        format!("          - {{ piece: {name}, size: {size}, pieces: {{ lap: {count} }} }}\n")
    });
    let pieces: String = pieces.collect();
    format!("      - strips: {{ lap: {strips} }}\n        strip_width: {width}\n        subcut:\n{pieces}")
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Cutting lists that were published with their strips. S240: Pam and Nicky Lintott, a book of quilts from 2 1/2 in
/// strips, David & Charles. S93: Sandy Bonsib, class supply list. S373: Love Patchwork & Quilting, November 2018.
#[rstest]
#[case::s240_each_of_34("34", "2 1/2", &[("2 1/2 x 2 1/2", 102), ("3 1/2 x 2 1/2", 102), ("5 1/2 x 2 1/2", 102)], "2 1/2 yd")]
#[case::s240_each_of_50("50", "1 1/2", &[("6 1/2 x 1 1/2", 100), ("5 1/2 x 1 1/2", 100), ("3 1/2 x 1 1/2", 100), ("2 1/2 x 1 1/2", 100)], "2 1/4 yd")]
#[case::s93_one("1", "2 1/2", &[("2 1/2 x 2 1/2", 4), ("10 1/2 x 2 1/2", 1)], "1/4 yd")]
#[case::s93_two("2", "4 1/2", &[("4 1/2 x 4 1/2", 8), ("10 1/2 x 4 1/2", 1)], "3/8 yd")]
#[case::s93_three("3", "4 1/2", &[("4 1/2 x 4 1/2", 16), ("10 1/2 x 4 1/2", 2)], "1/2 yd")]
#[case::s373_no_margin("1", "2 1/2", &[("1 1/2 x 1 1/2", 20), ("2 1/2 x 2 1/2", 4)], "1/8 yd")]
fn published_groups_fit(
    #[case] strips: &str,
    #[case] width: &str,
    #[case] pieces: &[(&str, u64)],
    #[case] amount: &str,
) {
    let text = ink(&format!("requires: {{ lap: {amount} }}"), &group(strips, width, pieces));
    assert_eq!(of_rule(&text, "strips-short").len() + of_rule(&text, "fabric-tight").len(), 0, "{text}");
    assert_eq!(of_rule(&text, "fabric-short").len(), 0, "{text}");
}

/// Of two strips of S93 both are needed, and of its three: 46 1/2 and 93 in of 40 in each.
#[rstest]
#[case::two("1", &[("4 1/2 x 4 1/2", 8), ("10 1/2 x 4 1/2", 1)])]
#[case::three("2", &[("4 1/2 x 4 1/2", 16), ("10 1/2 x 4 1/2", 2)])]
fn published_groups_with_a_strip_less_are_short(#[case] strips: &str, #[case] pieces: &[(&str, u64)]) {
    let text = ink("requires: { lap: 1/2 yd }", &group(strips, "4 1/2", pieces));
    assert_eq!(of_rule(&text, "strips-short").len(), 1, "{text}");
}

/// A 32 1/2 in piece and from the rest of its strip a 7 3/4 in square: right at 42 in, and short at 40 (S373, Love
/// Patchwork & Quilting, November 2018).
#[rstest]
#[case::at_42("usable_width: 42", &[])]
#[case::at_40("usable_width: 40", &["strips-short"])]
fn a_published_group_fails_at_a_narrower_width(#[case] width: &str, #[case] rules: &[&str]) {
    let fabric = format!("{width}\n    requires: {{ lap: 5/8 yd }}");
    let text = ink(&fabric, &group("1", "21 3/4", &[("32 1/2 x 21 3/4", 1), ("7 3/4 x 7 3/4", 1)]));
    assert_rules(&text, rules);
}

/// Five strips of 6 1/2 in: 6 squares of 6 1/2 in lie in each of four, and ten pieces of 3 1/2 in in the fifth.
const PIECES: [(&str, u64); 2] = [("6 1/2 x 6 1/2", 24), ("3 1/2 x 6 1/2", 11)];

#[test]
fn strips_for_several_pieces_are_right_and_silent() {
    assert_silent(&ink("requires: { lap: 1 yd }", &group("5", "6 1/2", &PIECES)));
}

/// 24 x 6 1/2 + 11 x 3 1/2 = 194 1/2 in are less than 5 x 40 in; a strip less has 160.
#[test]
fn a_strip_too_few_is_short_at_its_place() {
    let text = ink("requires: { lap: 1 yd }", &group("4", "6 1/2", &PIECES));
    let finding = one(&text, "strips-short");
    assert_eq!(finding.at.at.text(&text), "4");
    assert_says(&finding, &["4 strips stated for 24 A and 11 B; 5 needed: 1 short."]);
    mended(&text, &finding);
}

/// Together 5 x 40 in would be long enough for 30 pieces of 6 1/2 in and one of 4 in, of which the ends hold none.
#[test]
fn lengths_that_are_enough_together_may_still_be_short() {
    let pieces = [("6 1/2 x 6 1/2", 30), ("4 x 6 1/2", 1)];
    let text = ink("requires: { lap: 1 1/4 yd }", &group("5", "6 1/2", &pieces));
    assert_says(&one(&text, "strips-short"), &["5 strips stated for 30 A and 1 B; 6 needed"]);
}

/// Where no strips are stated they are planned: five strips of 6 1/2 in take 32 1/2 in.
#[rstest]
#[case::enough("1 yd", &[])]
#[case::short("7/8 yd", &["fabric-short"])]
fn strips_that_nobody_counts_are_planned(#[case] amount: &str, #[case] rules: &[&str]) {
    let cuts = group("5", "6 1/2", &PIECES).replace("- strips: { lap: 5 }\n        strip_width", "- strip_width");
    assert_rules(&ink(&format!("requires: {{ lap: {amount} }}"), &cuts), rules);
}

/// The strips take their width, and not the pieces once more: 5 x 6 1/2 + 2 x 3 in = 38 1/2 in.
#[rstest]
#[case::enough("39 in", &[])]
#[case::to_the_thread("38 1/2 in", &["no-squaring-room"])]
#[case::short("38 3/8 in", &["fabric-short"])]
fn the_fabric_holds_the_strips_beside_other_pieces(#[case] amount: &str, #[case] rules: &[&str]) {
    let other = "      - { piece: C, size: 3 x 20, strips: { lap: 2 }, pieces: { lap: 4 } }\n";
    let cuts = group("5", "6 1/2", &PIECES) + other;
    assert_rules(&ink(&format!("requires: {{ lap: {amount} }}"), &cuts), rules);
}

/// What the text leaves open may lie in what is left of such strips: 4 strips hold 24 squares of 6 1/2 in and leave 1 in;
/// the fifth holds two pieces of 3 1/2 in and leaves 33 in, in which eight pieces of 4 in lie.
#[test]
fn open_pieces_lie_in_the_ends_of_such_strips() {
    let cuts = group("5", "6 1/2", &[("6 1/2 x 6 1/2", 24), ("3 1/2 x 6 1/2", 2)]);
    let open = "      - { piece: C, size: 4 x 6, pieces: { lap: 8 } }\n";
    let text = |amount: &str| ink(&format!("requires: {{ lap: {amount} }}"), &(cuts.clone() + open));
    assert_silent(&text("33 in"));
    assert_rules(&text("32 3/8 in"), &["fabric-short"]);
}

/// A piece that is wider than its strips does not come out of them.
#[test]
fn a_piece_that_does_not_come_out_of_the_strips_is_reported() {
    let text = ink("requires: { lap: 1 yd }", &group("5", "6 1/2", &[("6 1/2 x 6 1/2", 24), ("7 x 7", 2)]));
    let finding = one(&text, "piece-longer-than-strip");
    assert_eq!(finding.at.at.text(&text), "7 x 7");
}

/// What says what one piece is has no place beside `subcut`, and `strip_width` must be there.
#[rstest]
#[case::size("strip_width: 6 1/2", "strip_width: 6 1/2\n        size: 6 x 6", "out-of-range")]
#[case::name("strip_width: 6 1/2", "strip_width: 6 1/2\n        piece: Z", "out-of-range")]
#[case::no_width("        strip_width: 6 1/2\n", "", "missing-entry")]
#[case::no_list("pieces: { lap: 11 }", "pieces: { nap: 11 }", "unknown-size")]
fn what_does_not_belong_to_such_strips_is_reported(#[case] from: &str, #[case] to: &str, #[case] rule: &str) {
    let text = ink("requires: { lap: 1 yd }", &group("5", "6 1/2", &PIECES).replace(from, to));
    assert!(rules_of(&text).contains(&rule), "{:#?}", rules_of(&text));
}

/// The units take the pieces of such strips by their names.
#[test]
fn units_are_made_of_such_pieces() {
    let design = "units:\n  p: { make: patch, finished: 6, cut: { patch: A } }\n  q: { make: patch, finished: 3 x 6, cut: { patch: B } }\n\
                  blocks:\n  b: { finished: 9 x 6, rows: [[p, q]] }\nlayout:\n  lap: { across: 3, down: 4, blocks: b }\n";
    let text = |a: u64| {
        let cuts = group("3", "6 1/2", &[("6 1/2 x 6 1/2", a), ("3 1/2 x 6 1/2", 12)]);
        ink("requires: { lap: 5/8 yd }", &cuts).replace("48 x 57", "27 x 24") + design
    };
    assert_silent(&text(12));
    assert_says(&one(&text(11), "pieces-short"), &["11 pieces of A stated; 12 needed: 1 short."]);
}

/// Borders from strips that are joined straight: 4 x 40 - 3 x 1/2 = 158 1/2 in give two of 64 1/2, and not three.
#[rstest]
#[case::enough("straight", 4, 2, &[])]
#[case::short("straight", 4, 3, &["strips-short"])]
#[case::straight_to_the_thread("straight", 2, 1, &[])]
fn border_strips_are_joined_and_trimmed(
    #[case] join: &str,
    #[case] strips: u64,
    #[case] pieces: u64,
    #[case] rules: &[&str],
) {
    let cut = format!(
        "      - {{ piece: side, size: 4 1/2 x 64 1/2, strips: {{ lap: {strips} }}, joined: {join}, pieces: {{ lap: {pieces} }} }}\n"
    );
    let amount = if strips == 4 { "5/8 yd" } else { "3/8 yd" };
    assert_rules(&ink(&format!("requires: {{ lap: {amount} }}"), &cut), rules);
}

/// Shorter pieces too are trimmed from the joined length: five of 31 in from four strips, 155 of 158 1/2 in; strip by
/// strip, four come of four. Diagonal joins of 4 1/2 in leave 146 1/2 in: four.
#[rstest]
#[case::straight("joined: straight, ", 5, &[])]
#[case::strip_by_strip("", 5, &["strips-short"])]
#[case::diagonal("joined: diagonal, ", 5, &["strips-short"])]
#[case::diagonal_four("joined: diagonal, ", 4, &[])]
fn shorter_pieces_are_trimmed_from_joined_strips(#[case] joined: &str, #[case] pieces: u64, #[case] rules: &[&str]) {
    let cut = format!(
        "      - {{ piece: side, size: 4 1/2 x 31, strips: {{ lap: 4 }}, {joined}pieces: {{ lap: {pieces} }} }}\n"
    );
    assert_rules(&ink("requires: { lap: 5/8 yd }", &cut), rules);
}

/// Where the strips are not counted, the fewest are planned: four strips of 4 1/2 in.
#[rstest]
#[case::enough("5/8 yd", &[])]
#[case::short("1/2 yd", &["no-squaring-room"])]
#[case::shorter("17 7/8 in", &["fabric-short"])]
fn joined_strips_that_nobody_counts_are_planned(#[case] amount: &str, #[case] rules: &[&str]) {
    let cut = "      - { piece: side, size: 4 1/2 x 64 1/2, joined: straight, pieces: { lap: 2 } }\n";
    assert_rules(&ink(&format!("requires: {{ lap: {amount} }}"), cut), rules);
}

/// Along the fabric nothing is joined.
#[test]
fn lengthwise_pieces_are_not_joined() {
    let cut =
        "      - { piece: side, size: 4 1/2 x 64 1/2, grain: lengthwise, joined: straight, pieces: { lap: 2 } }\n";
    let finding = one(&ink("requires: { lap: 2 yd }", cut), "out-of-range");
    assert_says(&finding, &["A piece along the fabric is cut without joins"]);
}

/// Pieces of two names that are cut alike fill strips together: 220 and 4 squares of 4 1/2 in, eight from a strip.
#[rstest]
#[case::enough(28, &[])]
#[case::short(27, &["strips-short"])]
fn pieces_that_are_cut_alike_fill_strips_together(#[case] strips: u64, #[case] rules: &[&str]) {
    let pieces = [("4 1/2 x 4 1/2", 220), ("4 1/2 x 4 1/2", 4)];
    let text = ink("requires: { lap: 3 5/8 yd }", &group(&strips.to_string(), "4 1/2", &pieces));
    assert_rules(&text, rules);
}
