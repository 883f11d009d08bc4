//! A facing instead of a binding that folds over the edge: `fold: facing`.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, inches, of_rule, one};

fn faced(strips: &str, more: &str) -> String {
    inches("40 x 52", &format!("strip_width: 3\nfold: facing\n{more}"), strips)
}

/// Four strips, each 1/2 in longer than its side at both ends: 2 x (40 + 52) + 4 = 188. Five strips of 40 less four
/// diagonal joins of 3 make 188, and one more is the spare.
#[rstest]
#[case::enough("strips: 6", None)]
#[case::no_spare("strips: 5", Some(("spare-strip", "6 needed: 5 to go around")))]
#[case::short("strips: 4", Some(("binding-short", "4 strips cannot reach along all sides: 37 in short of 188 in.")))]
fn a_facing_has_a_strip_for_each_side(#[case] strips: &str, #[case] found: Option<(&str, &str)>) {
    let text = faced(strips, "");
    match found {
        Some((rule, fragment)) => assert_says(&one(&text, rule), &[fragment]),
        None => assert_silent(&text),
    }
}

/// What is stated of longer strips is taken at its word: 184 + 2 take five strips as well, 184 + 6 take six.
#[test]
fn an_extra_length_holds_instead() {
    assert!(of_rule(&faced("strips: 6", "extra_length: 2"), "spare-strip").is_empty());
    assert_says(&one(&faced("strips: 6", "extra_length: 6"), "spare-strip"), &["7 needed: 6 to go around"]);
}

/// A narrow one does not fold over a seam, and a wide one leaves no hollow edge.
#[rstest]
#[case("1 1/2")]
#[case("5")]
fn how_wide_it_is_is_a_choice(#[case] width: &str) {
    let text = faced("strips: 8", "").replace("strip_width: 3", &format!("strip_width: {width}"));
    for rule in ["fold-short", "fold-barely-covers", "hollow-edge"] {
        assert!(of_rule(&text, rule).is_empty(), "{rule}");
    }
}

/// Nothing goes around in one, so nothing is left loose and closed.
#[rstest]
#[case("tails: 10")]
#[case("opening: 12")]
#[case("ends: tucked")]
#[case("flange: 3 1/2")]
fn what_is_of_a_binding_in_one_is_told(#[case] more: &str) {
    let finding = one(&faced("strips: 6", more), "out-of-range");
    assert_says(&finding, &["a facing has a strip for each side"]);
}

/// Sides of 38 in take 39 in each, and a strip of 40 in does one: four, and the spare. Joined end to end they would be five.
/// Sides of 40 and 52 in do not come of one strip each.
#[rstest]
#[case(5, &[])]
#[case(4, &["spare-strip"])]
#[case(3, &["binding-short"])]
fn a_strip_may_do_a_side_by_itself(#[case] strips: u64, #[case] rules: &[&str]) {
    let text = inches("38 x 38", "strip_width: 3\nfold: facing", &format!("strips: {strips}"));
    assert_eq!(crate::desk::rules_of(&text), rules);
}

/// A seam of 1/4 in and an edge turned under by as much take 1/2 in.
#[rstest]
#[case("1/2", &["fold-short"])]
#[case("5/8", &[])]
fn a_facing_must_leave_something_to_turn(#[case] width: &str, #[case] rules: &[&str]) {
    let text = faced("strips: 8", "").replace("strip_width: 3", &format!("strip_width: {width}"));
    let found: Vec<&str> = crate::desk::rules_of(&text).into_iter().filter(|rule| *rule == "fold-short").collect();
    assert_eq!(found, rules);
}

/// A ring is closed: 125.66 in around, and a join.
#[test]
fn a_facing_around_a_circle_is_closed() {
    let circle = |length: &str| {
        inches("40 x 40", "strip_width: 3\nfold: facing\ngrain: bias", &format!("length: {length}"))
            .replace("finished: 40 x 40", "finished: 40 x 40, outline: circle")
    };
    assert!(!of_rule(&circle("125 3/4"), "bias-short").is_empty());
    assert!(of_rule(&circle("129"), "bias-short").is_empty());
}
