//! Pieces that the text cuts from what others leave: beside pieces along the fabric, and from remnants.

use rstest::rstest;

use crate::desk::{assert_says, one, outcome, rules_of, told};

fn ink(fabric: &str, cuts: &str) -> String {
    let cuts: String = cuts.lines().map(|line| format!("      - {{ {} }}\n", line.trim())).collect();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 56 x 72 }}\nfabrics:\n  ink:\n    {fabric}\n    \
         cut:\n{cuts}"
    )
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Four borders of 8 1/2 in take 34 of 40 in: 6 in x 64 1/2 in is left, in which ten squares of 6 in lie, and no eleventh
/// and none of 6 1/2 in.
#[rstest]
#[case::ten("6 x 6", 10, &[])]
#[case::eleven("6 x 6", 11, &["beside-short"])]
#[case::too_wide("6 1/2 x 6 1/2", 1, &["beside-short"])]
#[case::long_ones("6 x 64 1/2", 1, &[])]
#[case::narrow_ones("3 x 32", 4, &[])]
fn pieces_lie_in_the_width_beside_others(#[case] size: &str, #[case] count: u64, #[case] rules: &[&str]) {
    let amount = if rules.is_empty() { "1 7/8 yd" } else { "2 yd" };
    let cuts = format!(
        "piece: side, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: {{ lap: 4 }}\npiece: A, size: {size}, pieces: {{ lap: {count} }}, beside: side"
    );
    assert_rules(&ink(&format!("requires: {{ lap: {amount} }}"), &cuts), rules);
}

/// Several pieces beside the same borders share what is left: 6 in x 64 1/2 in hold five squares of 6 in and five of 5 in
/// and not six.
#[rstest]
#[case::enough(5, &[])]
#[case::one_more(7, &["beside-short"])]
fn pieces_beside_the_same_share_the_room(#[case] more: u64, #[case] rules: &[&str]) {
    let amount = if rules.is_empty() { "1 7/8 yd" } else { "2 yd" };
    let cuts = format!(
        "piece: side, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: {{ lap: 4 }}\n\
         piece: A, size: 6 x 6, pieces: {{ lap: 5 }}, beside: side\npiece: B, size: 5 x 5, pieces: {{ lap: {more} }}, beside: side"
    );
    assert_rules(&ink(&format!("requires: {{ lap: {amount} }}"), &cuts), rules);
}

/// The count is what is blamed, and what is left is told.
#[test]
fn what_is_left_is_told_at_the_count() {
    let cuts = "piece: side, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: { lap: 4 }\n\
                piece: A, size: 6 x 6, pieces: { lap: 11 }, beside: side";
    let text = ink("requires: { lap: 2 yd }", cuts);
    let finding = one(&text, "beside-short");
    assert_eq!(finding.at.at.text(&text), "11");
    assert_says(
        &finding,
        &["Beside 4 pieces of side, 6 in x 64 1/2 in is left; 11 A are cut from it: no way of cutting"],
    );
}

/// Six borders are four in a row and two in the next: 6 in and 23 in of the width are left.
#[test]
fn every_row_leaves_room() {
    let cuts = |count: u64| {
        format!(
            "piece: side, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: {{ lap: 6 }}\n\
             piece: A, size: 6 x 6, pieces: {{ lap: {count} }}, beside: side"
        )
    };
    // Ten in the first row, and three columns of ten in the second.
    assert_rules(&ink("requires: { lap: 3 5/8 yd }", &cuts(40)), &[]);
    // By area no more than (80 - 51) x 64 1/2 / 36 = 51 may be there.
    assert!(rules_of(&ink("requires: { lap: 4 yd }", &cuts(52))).contains(&"beside-short"));
}

#[rstest]
#[case::no_such_piece("piece: A, size: 6 x 6, pieces: { lap: 2 }, beside: sid", "piece-not-cut")]
#[case::not_lengthwise("piece: A, size: 6 x 6, pieces: { lap: 2 }, beside: B", "out-of-range")]
#[case::with_strips("piece: A, size: 6 x 6, strips: { lap: 1 }, pieces: { lap: 2 }, beside: side", "out-of-range")]
#[case::no_such_word("piece: A, size: 6 x 6, pieces: { lap: 2 }, from: remnant", "unknown-word")]
fn what_cannot_be_beside_is_reported(#[case] cut: &str, #[case] rule: &str) {
    let cuts = format!(
        "piece: side, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: {{ lap: 4 }}\npiece: B, size: 2 x 2, pieces: {{ lap: 2 }}\n{cut}"
    );
    let text = ink("requires: { lap: 2 yd }", &cuts);
    let found = rules_of(&text);
    assert!(
        found.contains(&rule) || rule == "piece-not-cut" && found.contains(&"unknown-word"),
        "{:#?}",
        told(&text, &outcome(&text))
    );
}

/// Strips of 6 1/2 in are told for 20 squares, four strips of six: the last leaves 27 in, from which four squares of 6 in
/// come, and thirteen do not.
#[rstest]
#[case::from_the_end(4, &[])]
#[case::too_many(13, &["fabric-short"])]
fn remnants_are_what_told_strips_leave(#[case] count: u64, #[case] rules: &[&str]) {
    let cuts = format!(
        "piece: A, size: 6 1/2 x 6 1/2, strips: {{ lap: 4 }}, pieces: {{ lap: 20 }}\n\
         piece: B, size: 6 x 6, pieces: {{ lap: {count} }}, from: remnants"
    );
    assert_rules(&ink("requires: { lap: 3/4 yd }", &cuts), rules);
}

/// The account says where such pieces come from.
#[test]
fn the_account_says_that_pieces_come_from_what_is_left() {
    use sparestrip::audit::account;
    use sparestrip::manuscript::Source;
    use sparestrip::rule_book::Settings;
    let cuts = "piece: side, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: { lap: 4 }\n\
                piece: A, size: 6 x 6, pieces: { lap: 6 }, beside: side\npiece: B, size: 2 x 2, pieces: { lap: 6 }, from: remnants";
    let text = ink("requires: { lap: 1 7/8 yd }", cuts);
    let audit = account(&Source::from_text("test.pattern.yaml", text), &Settings::default());
    let working = |number: &str| {
        audit.lines.iter().find(|line| line.number == number).map(|line| line.working.clone()).unwrap_or_default()
    };
    assert!(working("ink A pieces").contains("6 in x 64 1/2 in is left"), "{}", working("ink A pieces"));
    assert!(working("ink B pieces").contains("from what other pieces leave"), "{}", working("ink B pieces"));
}
