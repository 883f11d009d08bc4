//! Fabric amounts decided by proof: enough, enough only by one plan, undecided, short.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, mended, of_rule, one, rules_of};

fn fabric(amount: &str, directional: bool, cuts: &[&str]) -> String {
    let cuts: String = cuts.iter().map(|cut| format!("      - {{ {cut} }}\n")).collect();
    let directional = if directional { "    directional: yes\n" } else { "" };
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 60 x 76 }}\nfabrics:\n  ink:\n    requires: \
         {{ lap: {amount} }}\n{directional}    cut:\n{cuts}"
    )
}

const TWO_OF_EACH: [&str; 2] =
    ["piece: A, size: 9 x 9, pieces: { lap: 4 }", "piece: B, size: 10 1/2 x 10 1/2, pieces: { lap: 4 }"];
const BOTH_WAYS: [&str; 1] = ["piece: A, size: 3 1/2 x 8 1/2, pieces: { lap: 45 }"];
const THIRD_COLUMN: [&str; 3] = [
    "piece: border, size: 4 1/2 x 64 1/2, grain: lengthwise, pieces: { lap: 4 }",
    "piece: A, size: 6 1/2 x 6 1/2, pieces: { lap: 20 }",
    "piece: B, size: 3 1/2 x 3 1/2, pieces: { lap: 10 }",
];
const ONE_COLUMN: [&str; 3] = [
    "piece: border, size: 8 1/2 x 64 1/2, grain: lengthwise, pieces: { lap: 4 }",
    "piece: A, size: 6 x 20, grain: lengthwise, pieces: { lap: 2 }",
    "piece: B, size: 6 x 24, grain: lengthwise, pieces: { lap: 1 }",
];

#[rstest]
#[case::two_squares_of_each_in_a_strip("5/8 yd", true, &TWO_OF_EACH)]
#[case::both_ways_round("1 1/8 yd", false, &BOTH_WAYS)]
fn what_plain_strips_hold_is_enough(#[case] amount: &str, #[case] directional: bool, #[case] cuts: &[&str]) {
    assert_eq!(rules_of(&fabric(amount, directional, cuts)), Vec::<&str>::new());
}

#[rstest]
#[case::a_third_column_beside_borders("1 7/8 yd", &THIRD_COLUMN)]
#[case::unlike_pieces_in_one_column("1 7/8 yd", &ONE_COLUMN)]
fn what_only_more_steps_of_cutting_hold_is_asked_about(#[case] amount: &str, #[case] cuts: &[&str]) {
    let text = fabric(amount, false, cuts);
    assert_eq!(rules_of(&text), ["fabric-tight"]);
    let finding = one(&text, "fabric-tight");
    assert_eq!(finding.level, Level::Query);
    assert_says(&finding, &["It is enough only by the plan below, which takes"]);
    assert!(
        finding.help.starts_with("Cut 1 length 64 1/2 in x WOF (40 in usable); subcut 4 strips"),
        "{}",
        finding.help
    );
    for words in ["then 1 section ", "\nLeft over: ", "\nOr in plain strips: Cut 1 length "] {
        assert!(finding.help.contains(words), "{words}: {}", finding.help);
    }
    // The correction goes by plain strips, and clears the query.
    assert_eq!(rules_of(&mended(&text, &finding)), Vec::<&str>::new());
}

/// 36 squares of 9 1/2 in: four to a strip of 40 in, nine strips, 85 1/2 in; the borders alone are 64 1/2 in long.
#[rstest]
#[case::side_by_side("2 1/4 yd", &["piece: A, size: 9 1/2 x 9 1/2, pieces: { lap: 36 }"], "No way of cutting takes less than 85 1/2 in: side by side, the pieces fill at most 38 in of the 40 in across, so they take at least 85 1/2 in of length.")]
#[case::the_longest("1 3/4 yd", &THIRD_COLUMN, "No way of cutting takes less than 64 1/2 in: 1 border alone is 64 1/2 in long.")]
fn what_no_cutting_fits_is_short_with_the_bound(#[case] amount: &str, #[case] cuts: &[&str], #[case] bound: &str) {
    let text = fabric(amount, false, cuts);
    assert!(of_rule(&text, "fabric-tight").is_empty());
    let finding = one(&text, "fabric-short");
    assert!(finding.help.contains(bound), "{}", finding.help);
    assert_eq!(rules_of(&mended(&text, &finding)), Vec::<&str>::new());
}

/// 18 rectangles of 3 1/2 x 5 1/2 in come out of 18 x 20 in, some each way round; strips alone give 15.
#[rstest]
#[case::as_many_as_one_gives(18, None)]
#[case::one_more(19, Some("1 fat quarter of ink stated; 2 needed"))]
fn small_fabrics_are_counted_by_the_most_that_comes_out_of_one(#[case] pieces: u32, #[case] says: Option<&str>) {
    let text = format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 60 x 76 }}\nfabrics:\n  ink:\n    sold_as: \
         fat_quarters\n    requires: {{ lap: 1 }}\n    cut:\n      - {{ piece: A, size: 3 1/2 x 5 1/2, pieces: {{ lap: \
         {pieces} }} }}\n"
    );
    match says {
        None => assert_eq!(rules_of(&text), Vec::<&str>::new()),
        Some(says) => assert_says(&one(&text, "fabric-short"), &[says]),
    }
}

/// Beside one told strip the open squares of 9 in and of 10 1/2 in fit two strips of 10 1/2 in, two of each in both: with
/// the told strip of 2 in that is 23 in. A plan that lays the widest first takes 10 1/2 + 9 in more than one strip.
#[rstest]
#[case::pieces_from_told_strips("piece: T, size: 2 x 2, strips: { lap: 1 }, pieces: { lap: 20 }")]
#[case::a_strip_width_alone("piece: T, size: 2 x 2, strip_width: 2, pieces: { lap: 20 }")]
fn beside_told_strips_open_pieces_are_decided_by_proof(#[case] told: &str) {
    let cuts = [told, TWO_OF_EACH[0], TWO_OF_EACH[1]];
    // 3/4 yd is 27 in; 5/8 yd is 22 1/2 in, and 2 in + 20 3/4 in are the least by area.
    assert_eq!(rules_of(&fabric("3/4 yd", true, &cuts)), Vec::<&str>::new());
    let finding = one(&fabric("1/2 yd", true, &cuts), "fabric-short");
    assert!(finding.help.contains("No way of cutting takes less than"), "{}", finding.help);
}

/// Seven squares of 10 in from two told strips of 12 in: four in one and three in the other, which leaves 10 x 12 in. Two
/// pieces of 5 x 12 in come out of that, so 24 in are enough; one square more would leave no room.
#[rstest]
#[case::room_at_the_end(7, &[])]
#[case::no_room(8, &["fabric-short"])]
fn open_pieces_come_out_of_the_ends_of_told_strips(#[case] told: u32, #[case] rules: &[&str]) {
    let told = format!("piece: T, size: 10 x 10, strip_width: 12, strips: {{ lap: 2 }}, pieces: {{ lap: {told} }}");
    let cuts = [told.as_str(), "piece: A, size: 5 x 12, pieces: { lap: 2 }"];
    assert_eq!(rules_of(&fabric("3/4 yd", true, &cuts)), rules);
}

/// Squares of 10 in from a told strip of 12 in leave 2 in of its width all along: strips of 2 x 40 in come out of that,
/// but not by plain strips.
#[test]
fn room_beside_told_pieces_is_asked_about() {
    let told = "piece: T, size: 10 x 10, strip_width: 12, strips: { lap: 2 }, pieces: { lap: 8 }";
    let text = fabric("3/4 yd", true, &[told, "piece: A, size: 20 x 2, pieces: { lap: 4 }"]);
    assert_eq!(rules_of(&text), ["fabric-tight"]);
    let finding = one(&text, "fabric-tight");
    assert_says(&finding, &["It is enough only by the plan below, which takes 24 in"]);
    let rows =
        "from each subcut 1 row 40 x 10 in into 4 squares 10 x 10 in (T), then 1 row 40 x 2 in into 2 rectangles";
    assert!(finding.help.contains(rows), "{}", finding.help);
    assert_eq!(rules_of(&mended(&text, &finding)), Vec::<&str>::new());
}

/// Pieces of 9 in and 10 1/2 in, cut from two strips of 10 1/2 in: a first plan takes 28 1/2 in, and the plain one 21 in.
/// A yard is generous by the second, and one of both is enough.
#[rstest]
#[case::by_both("1 yd", Some("5/8 yd (22 1/2 in) is enough"))]
#[case::by_the_shorter("3/4 yd", Some("5/8 yd (22 1/2 in) is enough"))]
#[case::enough("5/8 yd", None)]
fn what_is_generous_goes_by_the_shorter_of_two_plans(#[case] amount: &str, #[case] says: Option<&str>) {
    let cuts = ["piece: A, size: 9 x 9, pieces: { lap: 4 }", "piece: B, size: 10 1/2 x 10 1/2, pieces: { lap: 4 }"];
    let text = fabric(amount, true, &cuts);
    let notes = of_rule(&text, "fabric-generous");
    assert_eq!(notes.len(), usize::from(says.is_some()), "{notes:#?}");
    if let Some((note, says)) = notes.first().zip(says) {
        assert!(note.message.contains(says), "{}", note.message);
        assert_eq!(rules_of(&mended(&text, note)), Vec::<&str>::new());
    }
}

#[test]
fn a_bound_names_what_lies_side_by_side() {
    let cuts =
        ["piece: A, size: 13 1/2 x 13 1/2, pieces: { lap: 10 }", "piece: B, size: 3 x 13 1/2, pieces: { lap: 1 }"];
    let finding = one(&fabric("1 1/2 yd", true, &cuts), "fabric-short");
    assert!(finding.help.contains("A takes at least"), "{}", finding.help);
}

/// Eighteen each of four pieces 2 1/2 in wide. Strips of 2 1/2 in take 18 x 2 1/2 = 45 in, all of 1 1/4 yd. One strip
/// each of 12 1/2, 10 1/2, 8 1/2 and 6 1/2 in gives 16 of each, and two of 2 1/2 in hold the eight that are left: 43 in.
#[test]
fn room_for_squaring_up_is_looked_for_in_other_plans() {
    let cuts = [
        "piece: A, size: 2 1/2 x 6 1/2, pieces: { lap: 18 }",
        "piece: B, size: 2 1/2 x 8 1/2, pieces: { lap: 18 }",
        "piece: C, size: 2 1/2 x 10 1/2, pieces: { lap: 18 }",
        "piece: D, size: 2 1/2 x 12 1/2, pieces: { lap: 18 }",
    ];
    assert_eq!(rules_of(&fabric("1 1/4 yd", false, &cuts)), Vec::<&str>::new());
    assert_eq!(rules_of(&fabric("1 3/8 yd", false, &cuts)), ["fabric-generous"]);
}
