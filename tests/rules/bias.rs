//! Bias binding: from a square, and as single strips from fabric.

use rstest::rstest;
use sparestrip::audit::account;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

use crate::desk::{
    assert_says, assert_silent, centimetres, inches, mended, of_rule, one, one_by, outcome_by, rules_of, told,
    with_length,
};

/// A quilt 180 in round with 16 in more: 196 in of strip 2 1/4 in wide. 196 x 2 1/4 = 441 = 21 x 21.
fn bias(lines: &str, requires: &str) -> String {
    inches("40 x 50", &format!("strip_width: 2 1/4\ngrain: bias\nextra_length: 16\n{lines}"), requires)
}

#[test]
fn a_square_that_is_exactly_enough() {
    assert_silent(&bias("", "square: 21 1/2"));
    for short in ["21.4999", "21 31/64", "21", "1/4"] {
        let text = bias("", &format!("square: {short}"));
        let finding = one(&text, "square-too-small");
        assert_eq!((finding.at.at.text(&text), finding.level.word()), (short, "error"));
        assert_eq!(finding.needed.as_deref(), Some("21 1/2 in"));
        assert!(mended(&text, &finding).contains("square: 21"), "{}", mended(&text, &finding));
    }
}

#[test]
fn the_working_of_a_square() {
    let text = bias("", "square: 20");
    let finding = one(&text, "square-too-small");
    // 19 1/2 x 19 1/2 / 2 1/4 = 169 in.
    assert_eq!(finding.message, "A square of 20 in stated; 21 1/2 in needed: it gives 169 in of strip, 27 in short.");
    assert!(
        finding
            .help
            .contains("its two seams leave 19 1/2 in x 19 1/2 in; cut 2 1/4 in wide, that makes 169 in of strip")
    );
    assert!(finding.help.ends_with("Cut a square of 21 1/2 in."), "{}", finding.help);
    // A square that its own seams use up leaves nothing, and not less.
    let finding = one(&bias("", "square: 1/4"), "square-too-small");
    assert!(finding.help.contains("leave 0 in x 0 in"), "{}", finding.help);
}

/// A yield is told in eighths, not in the ninths that a strip of 2 1/4 in makes: 20 1/2 x 20 1/2 / 2 1/4 = 186 7/9.
#[test]
fn a_yield_is_told_in_eighths() {
    let finding = one(&bias("", "square: 21"), "square-too-small");
    assert_says(&finding, &["it gives 186 3/4 in of strip, 9 1/4 in short"]);
}

#[test]
fn a_square_must_come_out_of_the_fabric() {
    assert_silent(&bias("", "square: 22, fabric: 5/8 yd"));
    let text = bias("", "square: 22 33/64, fabric: 5/8 yd");
    assert_eq!(rules_of(&text), ["bias-short"]);
    let finding = one(&text, "bias-short");
    assert_eq!(finding.at.at.text(&text), "5/8 yd");
    assert_says(&finding, &["5/8 yd (22 1/2 in) stated; 3/4 yd (27 in) needed", "1/64 in short"]);
    assert_eq!(mended(&text, &finding), text.replace("5/8 yd", "3/4 yd"));
}

/// The edge of the fabric is squared up before the square is cut, or the strips are, which takes 1/2 in.
#[rstest]
#[case::a_square_to_the_thread(
    "square: 22 1/2, fabric: 5/8 yd",
    Some("the square takes 22 1/2 in, and nothing is left")
)]
#[case::hardly_any_room("square: 22 3/8, fabric: 5/8 yd", Some("the square takes 22 3/8 in, and only 1/8 in is left"))]
#[case::just_room("square: 22, fabric: 5/8 yd", None)]
#[case::one_half_lacks_room("square: 22, fabric: 5/8 yd (56 cm)", Some("and of 56 cm only 0.1 cm is left"))] // 55.88 cm
// Strips of 38 in take 26.87 in of the fabric's shorter way, and 27 in less 1/2 in are 26 1/2.
#[case::strips_to_the_thread(
    "strips: 6, strip_length: 38, fabric: 3/4 yd",
    Some("the bias strips take it to the last thread")
)]
#[case::strips_with_room("strips: 6, strip_length: 37, fabric: 3/4 yd", None)]
// 12 strips lie across 39 1/2 in; one more takes 41.9 in of a fabric that is longer than it is wide: 42 in or 42 1/2.
#[case::many_strips_to_the_thread("strips: 13, fabric: 42 in", Some("the bias strips take it to the last thread"))]
#[case::many_strips_with_room("strips: 13, fabric: 43 in", None)]
fn bias_needs_room_for_squaring_up(#[case] requires: &str, #[case] says: Option<&str>) {
    let text = bias("", requires);
    let Some(says) = says else { return assert_silent(&text) };
    assert_eq!(rules_of(&text), ["no-squaring-room"]);
    let finding = one(&text, "no-squaring-room");
    assert_eq!(finding.level.word(), "query");
    assert_says(&finding, &[says, "for squaring up the cut edge, which takes 1/2 in"]);
    mended(&text, &finding);
    assert_silent_by(&text, &with_length("squaring", "0 in"));
}

/// 53.2 cm and 1.27 cm for squaring up are 54.47.
#[rstest]
#[case("54.4 cm", true)]
#[case("54.5 cm", false)]
fn a_metric_square_needs_room_for_squaring_up(#[case] fabric: &str, #[case] found: bool) {
    let binding = "strip_width: 6.4\ngrain: bias\nextra_length: 20\nusable_width: 110";
    let text = centimetres("100 x 100", binding, &format!("square: 53.2, fabric: {fabric}"));
    assert_eq!(!of_rule(&text, "no-squaring-room").is_empty(), found);
    assert_eq!(rules_of(&text).len(), usize::from(found));
}

#[track_caller]
fn assert_silent_by(text: &str, settings: &Settings) {
    let found = outcome_by(text, settings);
    assert!(found.findings.is_empty(), "{:#?}", told(text, &found));
}

/// A square wider than the fabric cannot be cut, however long the fabric is, and whether or not any is stated.
#[rstest]
#[case("square: 40 1/2, fabric: 2 yd")]
#[case("square: 40 1/2")]
fn a_square_must_fit_the_usable_width(#[case] requires: &str) {
    let text = bias("usable_width: 40", requires);
    let finding = one(&text, "bias-short");
    assert_eq!(finding.at.at.text(&text), "40 1/2");
    assert_says(&finding, &["A square of 40 1/2 in stated", "with 40 in usable, 1/2 in too wide"]);
    assert_eq!(finding.related[0].at.text(&text), "40");
    assert!(finding.correction.is_none());
    assert_silent(&text.replace("usable_width: 40", "usable_width: 40 1/2"));
}

/// 300 x 300 takes a square of 52.7 in: none comes out of 40 in, so none is advised and none corrected.
#[test]
fn a_needed_square_wider_than_the_fabric_is_not_advised() {
    let text = inches("300 x 300", "strip_width: 2 1/4\ngrain: bias", "square: 30, fabric: 2 yd");
    let finding = one(&text, "square-too-small");
    assert!(finding.help.contains("No square of 52 3/4 in comes out of fabric with 40 in usable"), "{}", finding.help);
    assert!(finding.correction.is_none());
}

/// 3/4 yd gives strips of 38.18 in, and 12 of them across 39 1/2 in. Joins take 0.71 in, so 196 in take 6.
#[test]
fn single_strips_from_fabric() {
    for enough in ["6", "12"] {
        assert_silent(&bias("", &format!("strips: {enough}, fabric: 3/4 yd")));
    }
    let text = bias("", "strips: 5, fabric: 3/4 yd");
    let finding = one(&text, "bias-short");
    assert_eq!(finding.at.at.text(&text), "5");
    // 5 x 38.1838 - 4 x 0.7071 = 188.09; 7.91 short.
    assert_says(
        &finding,
        &["5 bias strips stated; 6 needed to go around with the extra length: what is stated is 7.917 in short."],
    );
    assert!(finding.help.contains("Strips: 5 x 38.183 in - 4 joins x 0.708 in = 188.083 in."), "{}", finding.help);
    assert_eq!(mended(&text, &finding), text.replace("strips: 5", "strips: 6"));
}

/// What is short is what the told lengths leave: 3 x 34 - 2 x 0.7071 = 100.586 is told as 100.584, and the edge of a
/// circle 36 in across with 10 in more, 123.097 in, as 123 1/8.
#[test]
fn what_is_short_agrees_with_the_working() {
    let binding = "strip_width: 2 1/4\ngrain: bias\nextra_length: 10";
    let text = inches("36 x 36, outline: circle", binding, "strips: 3, strip_length: 34");
    let finding = one(&text, "bias-short");
    assert_says(&finding, &["what is stated is 22.541 in short."]);
    for working in ["= 123 1/8 in.", "Strips: 3 x 34 in - 2 joins x 0.708 in = 100.584 in."] {
        assert!(finding.help.contains(working), "{}", finding.help);
    }
}

#[test]
fn one_bias_strip_has_no_joins() {
    let finding = one(&bias("", "strips: 1, strip_length: 34"), "bias-short");
    assert!(finding.help.contains("Strips: 1 x 34 in = 34 in."), "{}", finding.help);
    assert_says(&finding, &["what is stated is 162 in short."]);
}

/// A thirteenth strip takes 41.9 in of the longer way: fabric longer than it is wide.
#[test]
fn more_strips_than_the_fabric_gives() {
    let text = bias("", "strips: 13, fabric: 3/4 yd");
    let finding = one(&text, "bias-short");
    assert_eq!(finding.at.at.text(&text), "3/4 yd");
    assert_says(
        &finding,
        &["3/4 yd (27 in) stated; 1 1/4 yd (45 in) needed", "gives 12 bias strips of 38 1/8 in, and 13 are needed"],
    );
    assert_eq!(mended(&text, &finding), text.replace("3/4 yd", "1 1/4 yd"));
}

/// By hand: 9 in gives 12 strips of 12.73 in, 144.9 in joined; 13 1/2 in gives 12 of 19.09, 221.3 in.
#[test]
fn fabric_alone() {
    let text = bias("", "fabric: 1/4 yd");
    let finding = one(&text, "bias-short");
    assert_says(
        &finding,
        &["1/4 yd (9 in) stated; 3/8 yd (13 1/2 in) needed", "gives 12 bias strips of 12 5/8 in, and 17 are needed"],
    );
    assert_eq!(mended(&text, &finding), text.replace("1/4 yd", "3/8 yd"));
}

/// Half an inch of fabric gives strips of 0.707 in, which is just what a join takes.
#[test]
fn strips_that_their_joins_use_up() {
    let text = bias("", "fabric: 1/2 in");
    let finding = one(&text, "bias-short");
    assert_says(&finding, &["it gives 12 bias strips of", "and joining them takes as much length as they add."]);
    let text = bias("", "strips: 9, strip_length: 1/2");
    assert_says(&one(&text, "bias-short"), &["9 bias strips stated; longer strips needed to go around"]);
}

/// Strips of 20 in: two come out of one that runs from edge to edge of 30 in (42.4 in), one out of 27 in (38.2 in).
#[test]
fn stated_strip_lengths() {
    // (196 - 0.707) / (20 - 0.707) = 10.1.
    assert_silent(&bias("", "strips: 11, strip_length: 20"));
    assert_silent(&bias("", "strips: 24, strip_length: 20, fabric: 30 in"));
    assert_silent(&bias("", "strips: 12, strip_length: 20, fabric: 27 in"));
    let text = bias("", "strips: 10, strip_length: 20, fabric: 30 in");
    assert_eq!(one(&text, "bias-short").at.at.text(&text), "10");
    let text = bias("", "strips: 25, strip_length: 20, fabric: 30 in");
    assert_eq!(one(&text, "bias-short").at.at.text(&text), "30 in");
    assert_says(&one(&text, "bias-short"), &["gives 24 bias strips of 20 in, and 25 are needed"]);
    let text = bias("", "strips: 13, strip_length: 20, fabric: 27 in");
    assert_eq!(one(&text, "bias-short").at.at.text(&text), "27 in");
}

/// The pattern's strip length holds for every size, and must come out of the fabric: 39 in takes 27.6 in of it.
#[test]
fn a_strip_length_for_all_sizes_must_come_out_of_the_fabric() {
    assert_silent(&bias("strip_length: 37", "strips: 6, fabric: 3/4 yd"));
    let text = bias("strip_length: 39", "strips: 6, fabric: 3/4 yd");
    let finding = one(&text, "bias-short");
    assert_eq!(finding.at.at.text(&text), "3/4 yd");
    assert_says(&finding, &["7/8 yd (31 1/2 in) needed", "gives 0 bias strips of 39 in, and 6 are needed"]);
    assert_eq!(mended(&text, &finding), text.replace("3/4 yd", "7/8 yd"));
    // No strip longer than the bias of the usable width, 56.57 in, comes out of any length.
    let text = bias("strip_length: 57", "strips: 6, fabric: 3 yd");
    let finding = one(&text, "bias-short");
    assert_says(&finding, &["no length of this fabric is enough"]);
    assert!(finding.help.contains("with 40 in usable no bias strip is longer than 56 1/2 in"), "{}", finding.help);
    assert!(finding.correction.is_none());
}

#[test]
fn strips_without_a_length_are_named_as_not_checked() {
    let text = bias("", "strips: 6");
    assert_eq!(rules_of(&text), ["not-checked"]);
    let finding = one(&text, "not-checked");
    assert_eq!((finding.at.at.text(&text), finding.level.word()), ("6", "note"));
    assert_silent(&bias("", "strips: 6, strip_length: 38"));
    assert_silent(&bias("strip_length: 38", "strips: 6"));
}

/// What cannot be read is told once, and nothing is made up in its place.
#[rstest]
#[case("", "strips: 2, fabric: 3/4 ell")]
#[case("", "strips: 2, fabric: 3/4 yd, strip_length: long")]
#[case("strip_length: long", "strips: 2, fabric: 1/8 yd")]
#[case("", "strips: two, fabric: 1/8 yd")]
#[case("", "square: big, fabric: 5/8 yd")]
#[case("usable_width: wide", "square: 2, fabric: 5/8 yd")]
fn what_cannot_be_read_is_told_once(#[case] lines: &str, #[case] requires: &str) {
    assert_eq!(rules_of(&bias(lines, requires)), ["unreadable-quantity"]);
}

/// Each half of a pair must do by itself, and the half that does not is the one that is told and mended.
#[rstest]
// 70 cm is 27.56 in.
#[case("square: 26 1/2, fabric: 3/4 yd (70 cm)", None)]
#[case("square: 27 1/4, fabric: 3/4 yd (70 cm)", Some(("3/4 yd (70 cm) stated; 7/8 yd (80 cm) needed", "7/8 yd (80 cm)")))]
#[case("square: 26, fabric: 3/4 yd (65 cm)", Some(("3/4 yd (65 cm) stated; 3/4 yd (70 cm) needed", "3/4 yd (70 cm)")))]
#[case("square: 27 1/4, fabric: 3/4 yd (60 cm)", Some(("3/4 yd (60 cm) stated; 7/8 yd (80 cm) needed", "7/8 yd (80 cm)")))]
// Five strips of 32 in run reach; 23 in and more are enough for six, 60 cm is 23.6 in.
#[case("strips: 6, strip_length: 34, fabric: 3/4 yd (65 cm)", None)]
#[case("strips: 6, strip_length: 34, fabric: 3/4 yd (60 cm)", Some(("3/4 yd (60 cm) stated; 3/4 yd (70 cm) needed", "3/4 yd (70 cm)")))]
fn each_half_of_a_pair_must_do(#[case] requires: &str, #[case] short: Option<(&str, &str)>) {
    let text = bias("", requires);
    let Some((says, instead)) = short else { return assert_silent_but_for_the_pair(&text) };
    let finding = one(&text, "bias-short");
    assert_says(&finding, &[says]);
    let (from, _) = text.split_once("fabric: ").unwrap();
    let correction = finding.correction.as_ref().unwrap();
    assert_eq!(correction.apply(&text), format!("{from}fabric: {instead} }}\n"));
}

#[track_caller]
fn assert_silent_but_for_the_pair(text: &str) {
    assert_eq!(of_rule(text, "bias-short"), []);
    assert_silent(text);
}

/// 400 + 20 cm of strip 6.4 cm wide: sqrt(2688) = 51.85, and two seams of 1/4 in are 1.27 more: 53.12.
#[test]
fn metric() {
    let metric = |requires: &str| {
        centimetres("100 x 100", "strip_width: 6.4\ngrain: bias\nextra_length: 20\nusable_width: 110", requires)
    };
    assert_silent(&metric("square: 53.2, fabric: 60 cm"));
    let text = metric("square: 53.1, fabric: 60 cm");
    let finding = one(&text, "square-too-small");
    assert_says(&finding, &["A square of 53.1 cm stated; 53.2 cm needed"]);
    assert_eq!(mended(&text, &finding), text.replace("53.1", "53.2"));
    let text = metric("square: 53.2, fabric: 53 cm");
    let finding = one(&text, "bias-short");
    assert_says(
        &finding,
        &[
            "53 cm stated; 60 cm needed: a square of 53.2 cm does not come out of it, so what is stated is 0.2 cm short.",
        ],
    );
    assert_eq!(mended(&text, &finding), text.replace("53 cm", "60 cm"));
    // 30 cm gives strips of 42.4 cm; 420 cm take 11, and 12 lie across 110 cm less two seams, 9.05 cm each.
    assert_silent(&metric("strips: 11, fabric: 30 cm"));
    let text = metric("strips: 10, fabric: 30 cm");
    assert_says(&one(&text, "bias-short"), &["10 bias strips stated; 11 needed"]);
    let text = metric("strips: 13, fabric: 30 cm");
    // Thirteen take 117.7 cm and two seams, and 1.27 cm go in squaring up, 120.2: fabric that is longer than it is wide.
    assert_says(&one(&text, "bias-short"), &["30 cm stated; 1.3 m needed"]);
}

/// A house that joins with other seams has another square.
#[test]
fn the_join_seam_of_the_house_counts() {
    let text = bias("", "square: 21 1/2");
    let finding = one_by(&text, "square-too-small", &with_length("join_seam", "3/8"));
    assert_eq!(finding.needed.as_deref(), Some("21 3/4 in"));
}

/// The account names every number of a bias binding, what is needed, and how it stands.
#[test]
fn the_account_of_bias() {
    let lines = |requires: &str| {
        let source = Source::from_text("test.pattern.yaml", bias("", requires));
        let account = account(&source, &Settings::default());
        let about = account.lines.into_iter().filter(|line| line.size.is_some() && line.number.starts_with("binding"));
        about.map(|line| format!("{} {} {} {}", line.number, line.stated, line.needed, line.status.word())).collect()
    };
    let of = |requires: &str| -> Vec<String> { lines(requires) };
    assert_eq!(of("square: 22, fabric: 5/8 yd"), ["binding square 22 21 1/2 in OK", "binding fabric 5/8 yd 5/8 yd OK"]);
    assert_eq!(of("square: 21"), ["binding square 21 21 1/2 in short"]);
    assert_eq!(of("strips: 5, fabric: 3/4 yd"), ["binding strips 5 6 short", "binding fabric 3/4 yd  OK"],);
    assert_eq!(of("strips: 6"), ["binding strips 6  not checked"]);
}
