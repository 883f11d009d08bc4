//! Fabrics by cutting list: `strips-short`, `piece-longer-than-strip`, `fabric-short`, `fabric-generous`, and what
//! `no-squaring-room`, `pair-disagrees` and `not-checked` say of fabrics.

use rstest::rstest;
use sparestrip::audit::account;
use sparestrip::check::Outcome;
use sparestrip::finding::{Finding, Level};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one, outcome, outcome_by, rules_of, told, with_length};

/// A manuscript of one size, `lap`, with one fabric, `ink`: its entries and those of its cutting list, one to a line.
fn ink(measure: &str, fabric: &str, cuts: &str) -> String {
    let fabric: String = fabric.lines().map(|line| format!("    {}\n", line.trim())).collect();
    let cuts: String = cuts.lines().map(|line| format!("      - {{ {} }}\n", line.trim())).collect();
    format!(
        "pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  lap: {{ finished: 60 x 76 }}\nfabrics:\n  ink:\n\
         {fabric}    cut:\n{cuts}"
    )
}

/// So much yardage for cuts, in inches.
fn inches(amount: &str, cuts: &str) -> String {
    ink("inch", &format!("requires: {{ lap: {amount} }}"), cuts)
}

fn cut(piece: &str, size: &str, strips: Option<u64>, pieces: u64) -> String {
    let strips = strips.map_or(String::new(), |strips| format!("strips: {{ lap: {strips} }}, "));
    format!("piece: {piece}, size: {size}, {strips}pieces: {{ lap: {pieces} }}")
}

#[track_caller]
fn helps(finding: &Finding, fragment: &str) {
    assert!(finding.help.contains(fragment), "{fragment:?} is not in: {}", finding.help);
}

/// 11 squares of 3 1/2 in come out of 40 in, so 48 take 5 strips.
#[rstest]
#[case::one_short(
    4,
    48,
    Some("4 strips stated for 48 pieces (A); 5 needed: each strip gives 11, so what is stated gives 44, 4 short.")
)]
#[case::just_enough(5, 48, None)]
#[case::to_the_piece(5, 55, None)]
#[case::one_piece_more(5, 56, Some("5 strips stated for 56 pieces (A); 6 needed"))]
#[case::none(0, 1, Some("0 strips stated for 1 piece (A); 1 needed"))]
fn strips_are_held_against_pieces(#[case] strips: u64, #[case] pieces: u64, #[case] says: Option<&str>) {
    // 3/4 yd is enough for six strips, and not generous for five.
    let text = inches("3/4 yd", &cut("A", "3 1/2 x 3 1/2", Some(strips), pieces));
    let Some(says) = says else {
        assert!(of_rule(&text, "strips-short").is_empty());
        return;
    };
    let finding = one(&text, "strips-short");
    assert_says(&finding, &[says]);
    assert_eq!(finding.level, Level::Error);
    assert_eq!(finding.at.at.text(&text), strips.to_string());
}

#[test]
fn short_strips_are_mended_where_the_fabric_is_enough() {
    let text = inches("1/2 yd", &cut("A", "3 1/2 x 3 1/2", Some(4), 48));
    assert_eq!(rules_of(&text), ["strips-short"]);
    let finding = one(&text, "strips-short");
    helps(
        &finding,
        "a strip 40 in long and 3 1/2 in wide gives 11 pieces 3 1/2 in long; 48 pieces / 11, rounded up: 5 strips.",
    );
    assert_eq!(mended(&text, &finding), text.replace("strips: { lap: 4", "strips: { lap: 5"));
    // With 3/8 yd a fifth strip would not come out of it: no correction that only moves the shortage.
    let short = text.replace("1/2 yd }", "7/16 yd }");
    assert_eq!(one(&short, "strips-short").correction, None);
}

/// 40 in gives 8 of 4 1/2 in and 16 of 2 1/2 in.
#[rstest]
#[case::either_way_is_short(2, "", true)]
#[case::wide_strips_serve(3, "", false)]
#[case::narrow_strips_serve(6, "", false)]
#[case::the_text_says_narrow(5, ", strip_width: 2 1/2", true)]
#[case::the_text_says_narrow_and_enough(6, ", strip_width: 2 1/2", false)]
#[case::the_text_says_wide(3, ", strip_width: 4 1/2", false)]
fn a_piece_may_be_turned_unless_the_text_says_how_wide_the_strip_is(
    #[case] strips: u64,
    #[case] width: &str,
    #[case] short: bool,
) {
    let text = inches("5/8 yd", &(cut("B", "2 1/2 x 4 1/2", Some(strips), 48) + width));
    assert_eq!(!of_rule(&text, "strips-short").is_empty(), short, "{:#?}", told(&text, &outcome(&text)));
}

/// Sashes of 2 x 12 1/2 in: 31 take 11 strips 2 in wide, three from each, or 2 strips 12 1/2 in wide, twenty from each.
/// One strip too few is one too few, and not eight too many of the wide ones.
#[rstest]
#[case::one_short(10, Some("10 strips stated for 31 pieces (S); 11 needed: each strip gives 3"))]
#[case::narrow(11, None)]
#[case::wide(2, None)]
#[case::one_wide_short(1, Some("1 strip stated for 31 pieces (S); 2 needed: each strip gives 20"))]
fn strips_are_cut_the_way_that_needs_about_as_many(#[case] strips: u64, #[case] says: Option<&str>) {
    let text = inches("3/4 yd", &cut("S", "2 x 12 1/2", Some(strips), 31));
    match says {
        Some(says) => assert_says(&one(&text, "strips-short"), &[says]),
        None => assert!(of_rule(&text, "strips-short").is_empty()),
    }
    assert!(of_rule(&text, "fabric-short").is_empty());
}

#[rstest]
#[case::turned("", false)]
#[case::keeps_its_way("directional: yes\n", true)]
fn pieces_of_a_directional_fabric_keep_their_way(#[case] directional: &str, #[case] short: bool) {
    // Width across: 8 of 4 1/2 in come out of a strip 2 1/2 in wide; turned, 16 would come out of one of 4 1/2 in.
    let fabric = format!("{directional}requires: {{ lap: 1/2 yd }}");
    let text = ink("inch", &fabric, &cut("B", "4 1/2 x 2 1/2", Some(3), 48));
    assert_eq!(!of_rule(&text, "strips-short").is_empty(), short);
}

#[rstest]
#[case::two_rows_in_a_strip("strip_width: 5", 48, 3)] // 16 across, twice
#[case::one_row("strip_width: 4", 48, 3)] // 16 to a strip
fn several_rows_of_pieces_come_out_of_a_wide_strip(#[case] width: &str, #[case] pieces: u64, #[case] enough: u64) {
    let needed = if width.ends_with('5') { 2 } else { enough };
    let with = |strips| inches("5/8 yd", &(cut("B", "2 1/2 x 2 1/2", Some(strips), pieces) + ", " + width));
    assert!(of_rule(&with(needed), "strips-short").is_empty());
    assert_eq!(of_rule(&with(needed - 1), "strips-short").len(), 1);
}

#[test]
fn whole_strips_are_counted_one_a_piece() {
    let cuts = "piece: sashing, strip_width: 2 1/2, strips: { lap: 5 }, pieces: { lap: 6 }";
    let finding = one(&inches("1/2 yd", cuts), "strips-short");
    assert_says(
        &finding,
        &["5 strips stated for 6 pieces (sashing); 6 needed: each strip gives 1, so what is stated gives 5, 1 short."],
    );
    // Strips alone are taken: 6 x 2 1/2 = 15, with 1/2 in for squaring up 15 1/2, sold as 1/2 yd.
    assert_silent(&inches("1/2 yd", "piece: sashing, strip_width: 2 1/2, strips: { lap: 6 }"));
    assert_eq!(rules_of(&inches("14 in", "piece: sashing, strip_width: 2 1/2, strips: { lap: 6 }")), ["fabric-short"]);
}

/// 5 strips 3 1/2 in and 4 strips 2 1/2 in take 27 1/2 in; squaring up takes 1/2 in.
#[rstest]
#[case::short("3/4 yd", &["fabric-short"])]
#[case::to_the_thread("27 1/2 in", &["no-squaring-room"])]
#[case::hardly_any_room("27 7/8 in", &["no-squaring-room"])]
#[case::just_room("28 in", &[])]
#[case::as_sold("7/8 yd", &[])]
#[case::less_than_a_step_more("35 3/4 in", &[])]
#[case::a_step_more("1 yd", &["fabric-generous"])]
#[case::metric_short("69 cm", &["fabric-short"])] // 27 1/2 in is 69.85 cm
#[case::metric_room("80 cm", &[])]
#[case::one_half_short("7/8 yd (65 cm)", &["pair-disagrees"])]
#[case::both_short("3/4 yd (65 cm)", &["fabric-short"])]
#[case::both_generous("1 yd (90 cm)", &["fabric-generous"])]
fn the_boundaries_of_an_amount_are_exact(#[case] amount: &str, #[case] rules: &[&str]) {
    let cuts = [cut("A", "3 1/2 x 3 1/2", Some(5), 48), cut("B", "2 1/2 x 2 1/2", Some(4), 60)].join("\n");
    let text = inches(amount, &cuts);
    assert_eq!(rules_of(&text), rules);
    for finding in outcome(&text).findings {
        mended(&text, &finding);
    }
}

/// Both halves are told as they are printed. 27 1/2 in is 69.85 cm; with 1/2 in for squaring up, 28 in or 71.12 cm, sold as
/// 7/8 yd or 80 cm.
#[rstest]
#[case(
    "3/4 yd (65 cm)",
    "fabric-short",
    "3/4 yd (65 cm) of ink stated; 7/8 yd (80 cm) needed: ",
    "so 3/4 yd is 1/2 in short, and 65 cm is 4.9 cm short."
)]
#[case(
    "5/8 yd (69 cm)",
    "fabric-short",
    "5/8 yd (69 cm) of ink stated; 7/8 yd (80 cm) needed: ",
    "so 5/8 yd is 5 in short, and 69 cm is 0.9 cm short."
)]
#[case("69 cm", "fabric-short", "69 cm of ink stated; 80 cm needed: ", "so what is stated is 0.9 cm short.")]
#[case(
    "28 in (70 cm)",
    "no-squaring-room",
    "28 in (70 cm) of ink stated; 31 1/2 in (80 cm) needed: ",
    "of 70 cm only 0.1 cm is left"
)]
#[case(
    "4 1/2 yd (4.1 m)",
    "fabric-generous",
    "4 1/2 yd (4.1 m) of ink stated; 7/8 yd (0.8 m) is enough.",
    "buys 3 5/8 yd (3.3 m) more"
)]
#[case(
    "1 yd (90 cm)",
    "fabric-generous",
    "1 yd (90 cm) of ink stated; 7/8 yd (80 cm) is enough.",
    "buys 1/8 yd (10 cm) more"
)]
#[case(
    "2 yd (1.9 m)",
    "fabric-generous",
    "2 yd (1.9 m) of ink stated; 7/8 yd (0.8 m) is enough.",
    "buys 1 1/8 yd (1.1 m) more"
)]
fn both_halves_are_told_as_they_are_printed(
    #[case] amount: &str,
    #[case] rule: &str,
    #[case] says: &str,
    #[case] and: &str,
) {
    let cuts = [cut("A", "3 1/2 x 3 1/2", Some(5), 48), cut("B", "2 1/2 x 2 1/2", Some(4), 60)].join("\n");
    let finding = one(&inches(amount, &cuts), rule);
    assert_says(&finding, &[says, and]);
    let Some((_, second)) = amount.split_once(" (") else { return };
    let second = if second.ends_with("cm)") { "80 cm" } else { "0.8 m" };
    let first = if amount.contains("yd") { "7/8 yd" } else { "31 1/2 in" };
    helps(&finding, &format!("with 1/2 in for squaring up, buy {first} ({second})."));
}

#[test]
fn the_message_adds_up_strips_by_their_width() {
    let cuts = [cut("A", "3 1/2 x 3 1/2", Some(5), 48), cut("B", "2 1/2 x 2 1/2", Some(4), 60)].join("\n");
    let text = inches("3/4 yd", &cuts);
    let finding = one(&text, "fabric-short");
    let says = "3/4 yd (27 in) of ink stated; 7/8 yd (31 1/2 in) needed: 5 strips x 3 1/2 in + 4 strips x 2 1/2 in = \
                27 1/2 in, so what is stated is 1/2 in short.";
    assert_says(&finding, &[says]);
    helps(
        &finding,
        "Cut 5 strips 3 1/2 in x WOF (40 in usable); subcut 48 squares 3 1/2 x 3 1/2 in (A), up to 11 from each.",
    );
    helps(&finding, "with 1/2 in for squaring up, buy 7/8 yd (31 1/2 in).");
    assert_eq!(finding.size.as_deref(), Some("lap"));
}

#[test]
fn without_strips_short_pieces_go_into_strip_ends() {
    // 7 squares of 5 1/2 in leave 1 1/2 in; 15 take two strips and 1 of the third. Ten of 3 1/2 in fit beside it: 9 do.
    let cuts = [cut("A", "5 1/2 x 5 1/2", None, 15), cut("B", "3 1/2 x 3 1/2", None, 9)].join("\n");
    let finding = one(&inches("12 in", &cuts), "fabric-short");
    assert_says(&finding, &["3 strips x 5 1/2 in = 16 1/2 in, so what is stated is 4 1/2 in short"]);
    helps(
        &finding,
        "Cut 2 strips 5 1/2 in x WOF (40 in usable); subcut 7 squares 5 1/2 x 5 1/2 in (A) from each. Cut 1 strip \
         5 1/2 in x WOF; subcut 1 square 5 1/2 x 5 1/2 in (A), then 9 squares 3 1/2 x 3 1/2 in (B), trimmed from 5 1/2 in.",
    );
}

#[rstest]
#[case::at_42("42", "1/2 yd", &[])]
#[case::at_40("40", "1/2 yd", &["fabric-short"])]
fn the_usable_width_of_a_fabric_decides(#[case] width: &str, #[case] amount: &str, #[case] rules: &[&str]) {
    // Twelve of 3 1/2 in come out of 42 in: 60 take 5 strips, 17 1/2 in. At 40 in they take 6, 21 in.
    let fabric = format!("usable_width: {width}\nrequires: {{ lap: {amount} }}");
    assert_eq!(rules_of(&ink("inch", &fabric, &cut("A", "3 1/2 x 3 1/2", None, 60))), rules);
}

#[rstest]
#[case::side_by_side("4 1/2 x 65", 4, "1 7/8 yd", None)] // 65 1/2 of 67 1/2
#[case::either_way_written("65 x 4 1/2", 4, "1 7/8 yd", None)]
#[case::eight_in_a_row("4 1/2 x 65", 8, "1 7/8 yd", None)]
#[case::nine_take_two_rows("4 1/2 x 65", 9, "1 7/8 yd", Some("2 lengths x 65 in = 130 in"))]
#[case::too_short("4 1/2 x 65", 4, "1 3/4 yd", Some("1 length x 65 in = 65 in, so what is stated is 2 in short"))]
fn borders_along_the_fabric_lie_side_by_side(
    #[case] size: &str,
    #[case] pieces: u64,
    #[case] amount: &str,
    #[case] says: Option<&str>,
) {
    let text = inches(amount, &(cut("border", size, None, pieces) + ", grain: lengthwise"));
    match says {
        Some(says) => assert_says(&one(&text, "fabric-short"), &[says]),
        None => assert_silent(&text),
    }
}

#[test]
fn borders_of_two_lengths_share_a_row_and_leave_room_for_more() {
    let lengthwise = |name, size| cut(name, size, None, 2) + ", grain: lengthwise";
    // Four borders take 18 in of the 40 across; the 22 in beside them hold 5 x 14 squares of 4 1/2 in and more.
    let cuts = [lengthwise("side", "4 1/2 x 65"), lengthwise("top", "4 1/2 x 57"), cut("A", "4 1/2 x 4 1/2", None, 50)]
        .join("\n");
    let finding = one(&inches("1 yd", &cuts), "fabric-short");
    assert_says(&finding, &["1 length x 65 in = 65 in"]);
}

#[rstest]
#[case::too_long_either_way(
    "",
    "41 x 42",
    "Piece A is 41 in x 42 in, and a strip is 40 in long: it does not fit either way.",
    "Across the fabric: 41 in - 40 in = 1 in too long."
)]
#[case::directional(
    "directional: yes\n",
    "41 1/2 x 3",
    "it does not fit the way that the print runs.",
    "Across the fabric: 41 1/2 in - 40 in = 1 1/2 in too long."
)]
fn a_piece_must_fit_some_way_round(
    #[case] directional: &str,
    #[case] size: &str,
    #[case] says: &str,
    #[case] working: &str,
) {
    let fabric = format!("{directional}requires: {{ lap: 2 yd }}");
    let text = ink("inch", &fabric, &cut("A", size, None, 2));
    assert_eq!(rules_of(&text), ["piece-longer-than-strip"]);
    let finding = one(&text, "piece-longer-than-strip");
    assert_says(&finding, &[says]);
    helps(&finding, working);
    assert_eq!(finding.needed.as_deref(), Some("at most 40 in across the fabric"));
    helps(&finding, "Until it fits, the amount of ink for lap is not checked.");
    assert_eq!(finding.at.at.text(&text), size);
}

#[rstest]
#[case::turned("", "41 x 3", "1 1/4 yd")] // a strip 41 in wide
#[case::to_the_thread("", "40 x 3", "1/4 yd")]
#[case::along_the_bolt("directional: yes\n", "3 x 41", "1 1/4 yd")]
fn a_piece_that_fits_is_let_be(#[case] directional: &str, #[case] size: &str, #[case] amount: &str) {
    let fabric = format!("{directional}requires: {{ lap: {amount} }}");
    assert_silent(&ink("inch", &fabric, &cut("A", size, None, 2)));
}

#[test]
fn a_piece_must_fit_the_strip_that_it_is_cut_from() {
    let text = inches("1/2 yd", &(cut("A", "3 1/2 x 4", Some(2), 10) + ", strip_width: 3"));
    let finding = one(&text, "piece-longer-than-strip");
    assert_says(&finding, &["Piece A is 3 1/2 in x 4 in from a strip 3 in wide"]);
    helps(&finding, "In the strip's width: 3 1/2 in - 3 in = 1/2 in too long.");
}

/// 20 squares of 4 in come out of a fat quarter of 18 x 20.
#[rstest]
#[case::fat_quarters("inch", "fat_quarters", "4 x 4", 20, 1)]
#[case::one_more("inch", "fat_quarters", "4 x 4", 21, 2)]
#[case::fat_eighths("inch", "fat_eighths", "4 x 4", 11, 2)] // ten from 9 x 20
#[case::metric_quarters("cm", "fat_quarters", "10 x 10", 25, 1)] // five by five from 50 x 55
#[case::metric_quarters_more("cm", "fat_quarters", "10 x 10", 26, 2)]
#[case::metric_eighths("cm", "fat_eighths", "10 x 10", 11, 2)] // five by two from 25 x 55
#[case::along_the_shorter_side("inch", "fat_quarters", "18 x 5", 4, 1)] // four strips 18 in long across the 20
fn fat_quarters_are_counted(
    #[case] measure: &str,
    #[case] sold_as: &str,
    #[case] size: &str,
    #[case] pieces: u64,
    #[case] needed: u64,
) {
    let with = |count| {
        ink(measure, &format!("sold_as: {sold_as}\nrequires: {{ lap: {count} }}"), &cut("A", size, None, pieces))
    };
    assert_silent(&with(needed));
    assert_eq!(rules_of(&with(needed + 1)), ["fabric-generous"]);
    let short = with(needed - 1);
    assert_eq!(rules_of(&short), ["fabric-short"]);
    assert_eq!(mended(&short, &one(&short, "fabric-short")), with(needed));
}

#[test]
fn the_message_says_how_large_a_fat_quarter_is_taken() {
    let text = ink("inch", "sold_as: fat_quarters\nrequires: { lap: 1 }", &cut("A", "4 x 4", None, 21));
    let finding = one(&text, "fabric-short");
    assert_says(&finding, &["1 fat quarter of ink stated; 2 needed for the pieces that are cut from them: 1 short."]);
    helps(&finding, "A fat quarter is taken as 18 in x 20 in.");
}

/// Sixteen pieces of 2 1/2 in come out of a precut strip of 2 1/2 in, and a square of 5 in gives four.
#[rstest]
#[case::strips("strips", "2 1/2", "2 1/2 x 2 1/2", 32, 2)]
#[case::one_more("strips", "2 1/2", "2 1/2 x 2 1/2", 33, 3)]
#[case::pieces_of_the_strip("strips", "2 1/2", "2 1/2 x 4 1/2", 16, 2)]
#[case::two_abreast("strips", "2 1/2", "1 1/4 x 10", 16, 2)]
#[case::squares("squares", "5", "2 1/2 x 2 1/2", 8, 2)]
#[case::squares_both_ways("squares", "10", "3 x 5", 12, 2)] // three by two, either way
fn precuts_are_counted(
    #[case] sold_as: &str,
    #[case] precut: &str,
    #[case] size: &str,
    #[case] pieces: u64,
    #[case] needed: u64,
) {
    let with = |count| {
        let fabric = format!("sold_as: {sold_as}\nprecut: {precut}\nrequires: {{ lap: {count} }}");
        ink("inch", &fabric, &cut("A", size, None, pieces))
    };
    assert_silent(&with(needed));
    assert_eq!(rules_of(&with(needed - 1)), ["fabric-short"]);
}

#[test]
fn a_piece_wider_than_the_precut_strip_does_not_fit() {
    let fabric = "sold_as: strips\nprecut: 2 1/2\nrequires: { lap: 5 }";
    let finding = one(&ink("inch", fabric, &cut("A", "3 x 3", None, 12)), "piece-longer-than-strip");
    assert_says(&finding, &["Piece A is 3 in x 3 in, and each of these fabrics is 2 1/2 in x 40 in"]);
    helps(&finding, "Along the fabric: 3 in - 2 1/2 in = 1/2 in too long.");
}

/// Eight squares of 12 cm lie across 100 of 110 cm: 40 take 5 strips, 60 cm.
#[rstest]
#[case::by_ten("10 cm", "70 cm", &[])]
#[case::by_ten_short("10 cm", "50 cm", &["fabric-short"])]
#[case::by_ten_no_room("10 cm", "60 cm", &["no-squaring-room"])]
#[case::by_ten_generous("10 cm", "80 cm", &["fabric-generous"])]
#[case::by_the_quarter_metre("25 cm", "75 cm", &[])]
#[case::by_the_quarter_metre_generous("25 cm", "1 m", &["fabric-generous"])]
fn metric_fabric_is_sold_by_ten_centimetres_or_a_quarter_metre(
    #[case] sold_by: &str,
    #[case] amount: &str,
    #[case] rules: &[&str],
) {
    let fabric = format!("usable_width: 106\nrequires: {{ lap: {amount} }}");
    let text = ink("cm", &fabric, &cut("A", "12 x 12", None, 40))
        .replace("sizes:", &format!("assumes: {{ usable_width: 110, sold_by: {sold_by} }}\nsizes:"));
    assert_eq!(rules_of(&text), rules);
}

const BOUND: &str = "pattern: Test Harbour
measure: inch
sizes:
  lap: { finished: 60 x 76 }
binding:
  from: ink
  strip_width: 2 1/2
  requires: { lap: { strips: 9 } }
fabrics:
  ink:
    requires: { lap: 1 1/4 yd }
    cut:
      - { piece: A, size: 3 1/2 x 3 1/2, strips: { lap: 5 }, pieces: { lap: 48 } }
";

#[test]
fn binding_from_a_fabric_counts_in_its_sum_once() {
    // 17 1/2 + 22 1/2 = 40, and 1/2 in for squaring up, once: 40 1/2 is 1 1/8 yd.
    assert_silent(&BOUND.replace("1 1/4 yd", "1 1/8 yd"));
    assert_eq!(rules_of(&BOUND.replace("1 1/4 yd", "40 1/4 in")), ["no-squaring-room"]);
    let text = BOUND.replace("1 1/4 yd", "1 yd");
    let finding = one(&text, "fabric-short");
    assert_says(&finding, &["5 strips x 3 1/2 in + 9 strips x 2 1/2 in = 40 in, so what is stated is 4 in short"]);
    helps(&finding, "Cut 9 strips 2 1/2 in x WOF, left whole (binding).");
    assert!(finding.related.iter().any(|label| label.at.text(&text) == "ink"), "{:?}", finding.related);
}

#[test]
fn more_binding_strips_take_more_of_the_shared_fabric() {
    let text = BOUND.replace("strips: 9", "strips: 8").replace("1 1/4 yd", "1 1/8 yd");
    let finding = one(&text, "spare-strip");
    assert_eq!(mended(&text, &finding), BOUND.replace("1 1/4 yd", "1 1/8 yd"));
    // The ninth strip would not come out of 38 in: to add it would only move the shortage.
    let short = BOUND.replace("strips: 9", "strips: 8").replace("1 1/4 yd", "38 in");
    assert_eq!(one(&short, "spare-strip").correction, None);
}

/// Seven strips of binding are stated and nine are needed: 17 1/2 + 22 1/2 = 40 in, 1 1/8 yd.
#[test]
fn generous_fabric_is_worked_with_the_strips_that_are_needed() {
    let text = BOUND.replace("strips: 9", "strips: 7").replace("1 1/4 yd", "2 yd");
    let finding = one(&text, "fabric-generous");
    assert_says(&finding, &["2 yd (72 in) of ink stated; 1 1/8 yd (40 1/2 in) is enough."]);
    helps(&finding, "9 strips 2 1/2 in");
    helps(&finding, "5 strips x 3 1/2 in + 9 strips x 2 1/2 in = 40 in; with 1/2 in for squaring up, buy 1 1/8 yd");
}

#[test]
fn binding_goes_by_the_usable_width_of_its_fabric() {
    // 8 strips of 42 in would reach; of 36 in they do not.
    let text = BOUND.replace("    requires: { lap: 1", "    usable_width: 36\n    requires: { lap: 1");
    assert_eq!(rules_of(&text)[0], "spare-strip");
}

#[test]
fn binding_with_a_fabric_of_its_own_and_from_another_is_stated_twice() {
    let text = BOUND.replace("strips: 9 }", "strips: 9, fabric: 3/4 yd }").replace("1 1/4", "1 1/8");
    assert_eq!(rules_of(&text), ["repeated-key"]);
    assert_eq!(one(&text, "repeated-key").at.at.text(&text), "3/4 yd");
}

#[test]
fn binding_from_a_fabric_that_is_not_there_is_pointed_at() {
    let text = BOUND.replace("from: ink", "from: imk").replace("1 1/4", "1/2");
    assert_eq!(rules_of(&text), ["unknown-word"]);
    let finding = one(&text, "unknown-word");
    assert_says(&finding, &["\"imk\" is not one of the pattern's fabrics."]);
    assert!(finding.help.contains("Did you mean ink?"), "{}", finding.help);
    // With the right name the fabric would be short; a correction is offered where it brings no other finding.
    assert_eq!(finding.correction, None);
    let finding = one(&BOUND.replace("from: ink", "from: imk"), "unknown-word");
    assert_eq!(finding.correction.map(|correction| correction.replacement).as_deref(), Some("ink"));
}

#[test]
fn binding_on_the_bias_from_a_fabric_is_not_checked_there() {
    let text = BOUND
        .replace("strips: 9", "strips: 9, strip_length: 40")
        .replace("  strip_width", "  grain: bias\n  strip_width");
    let finding = one(&text, "not-checked");
    assert_says(&finding, &["The amount of ink for lap cannot be checked: the binding is cut from it on the bias"]);
    assert_eq!(finding.at.at.text(&text), "ink");
    helps(&finding, "Work out by hand what the bias strips take");
}

#[test]
fn a_fabric_without_a_cutting_list_is_named() {
    let text = inches("5/8 yd", "").replace("    cut:\n", "");
    assert_eq!(rules_of(&text), ["not-checked"]);
    let finding = one(&text, "not-checked");
    assert_says(&finding, &["The amount of ink for lap cannot be checked: no cutting list says what is cut from it."]);
    assert_eq!(finding.at.at.text(&text), "ink");
    // Binding that is cut from it is a cutting list.
    let cut = BOUND.find("    cut:").expect("a list");
    assert_silent(&BOUND[..cut].replace("1 1/4", "3/4"));
}

/// Sizes of one fabric that has no cutting list, with what is bought for each.
fn without_a_list(amounts: &[(&str, &str)]) -> String {
    let sizes: String = amounts.iter().map(|(size, _)| format!("  {size}: {{ finished: 60 x 76 }}\n")).collect();
    let bought: Vec<String> = amounts.iter().map(|(size, amount)| format!("{size}: {amount}")).collect();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n{sizes}fabrics:\n  ink:\n    requires: {{ {} }}\n",
        bought.join(", ")
    )
}

#[test]
fn a_fabric_without_a_cutting_list_is_named_once_for_all_its_sizes() {
    let text = without_a_list(&[("doll", "0 yd"), ("crib", "5/8 yd"), ("lap", "1 yd"), ("throw", "2 yd")]);
    assert_eq!(rules_of(&text), ["not-checked"]);
    assert_says(&one(&text, "not-checked"), &["The amounts of ink for crib, lap and throw cannot be checked"]);
    let sizes: Vec<String> = (1..=11).map(|number| format!("s{number}")).collect();
    let text = without_a_list(&sizes.iter().map(|size| (size.as_str(), "1 yd")).collect::<Vec<_>>());
    assert_says(&one(&text, "not-checked"), &["for s1, s2, s3, s4, s5, s6, s7 and 4 more sizes cannot be checked"]);
}

#[test]
fn a_fabric_of_which_none_is_bought_needs_no_cutting_list() {
    let text = without_a_list(&[("lap", "0 yd")]);
    assert_silent(&text);
    let account = account(&Source::from_text("test.pattern.yaml", text.as_str()), &Settings::default());
    let standing = account.lines.iter().find(|line| line.number == "ink requires").map(|line| line.status.word());
    assert_eq!(standing, Some("as given"));
}

#[rstest]
#[case::neither("pieces: { lap: 48 }", "pieces: { }", "size-not-stated", "No count of piece A for lap.")]
#[case::no_count("pieces: { lap: 48 }", "grain: crosswise", "missing-entry", "pieces")]
#[case::no_size("size: 3 1/2 x 3 1/2, ", "", "missing-entry", "size")]
#[case::no_name("piece: A, ", "", "missing-entry", "piece")]
#[case::misspelt("pieces: {", "peices: {", "unknown-word", "peices")]
#[case::wrong_size("pieces: { lap", "pieces: { lab", "unknown-size", "lab")]
#[case::grain("pieces: {", "grain: bias, pieces: {", "unknown-word", "bias")]
#[case::yes("    requires", "    directional: maybe\n    requires", "unknown-word", "maybe")]
#[case::sold_as("    requires", "    sold_as: fat_quaters\n    requires", "unknown-word", "fat_quaters")]
#[case::precut(
    "    requires: { lap: 1/2 yd }",
    "    sold_as: strips\n    requires: { lap: 20 }",
    "missing-entry",
    "precut"
)]
#[case::not_a_list("cut:\n      - {", "cut:\n        x: {", "wrong-shape", "A list, each piece after a dash")]
#[case::no_requires("    requires: { lap: 1/2 yd }\n", "", "not-checked", "No amount of ink is stated")]
#[case::along("size: 3 1/2 x 3 1/2", "strip_width: 3, grain: lengthwise", "missing-entry", "size")]
fn a_slip_in_a_fabric_is_reported_once(#[case] from: &str, #[case] to: &str, #[case] rule: &str, #[case] says: &str) {
    let right = inches("1/2 yd", &cut("A", "3 1/2 x 3 1/2", None, 48));
    assert_silent(&right);
    let text = right.replace(from, to);
    assert_ne!(text, right);
    assert_eq!(rules_of(&text), [rule], "{:#?}", told(&text, &outcome(&text)));
    assert_says(&one(&text, rule), &[says]);
}

#[test]
fn nothing_may_be_stated_for_a_size_that_takes_none() {
    assert_silent(&inches("0 yd", &cut("A", "3 1/2 x 3 1/2", None, 0)));
    assert_silent(&inches("0 yd", &cut("A", "3 1/2 x 3 1/2", Some(0), 0)));
    let finding = one(&inches("1/8 yd", &cut("A", "3 1/2 x 3 1/2", None, 0)), "fabric-generous");
    assert_says(&finding, &["1/8 yd (4 1/2 in) of ink stated, and nothing is cut from it for lap."]);
    let finding = one(&inches("0 yd", &cut("A", "3 1/2 x 3 1/2", None, 1)), "fabric-short");
    assert_says(&finding, &["1 strip x 3 1/2 in = 3 1/2 in"]);
}

#[test]
fn a_list_that_is_too_long_is_refused_and_its_sum_not_made() {
    let cuts: Vec<String> = (0..501).map(|index| cut(&format!("P{index}"), "3 x 3", None, 100_000)).collect();
    let text = inches("1/8 yd", &cuts.join("\n"));
    assert_eq!(rules_of(&text), ["out-of-range"]);
    assert_says(&one(&text, "out-of-range"), &["A cutting list may have 500 pieces at most"]);
    let text = inches("1/8 yd", &cuts[..500].join("\n"));
    assert_eq!(rules_of(&text), ["fabric-short"]);
}

#[test]
fn an_accepted_finding_of_a_fabric_is_laid_aside() {
    let text = inches("1 yd", &cut("A", "3 1/2 x 3 1/2", None, 48));
    assert_eq!(rules_of(&text), ["fabric-generous"]);
    let accepted = text.clone()
        + "accepted:\n  - { rule: fabric-generous, size: lap, fabric: ink, stated: 1 yd, because: the kit is cut by the yard }\n";
    let Outcome { findings, accepted, .. } = outcome(&accepted);
    assert!(findings.is_empty());
    assert_eq!(accepted.len(), 1);
}

#[test]
fn every_number_of_a_fabric_is_accounted_for() {
    let text = BOUND.replace("1 1/4 yd", "1 yd").replace("    cut:", "    usable_width: 40\n    cut:")
        + "      - { piece: B, size: 2 x 2, pieces: { lap: 0 } }\n  sky:\n    requires: { lap: 1/2 yd }\n";
    let account = account(&Source::from_text("test.pattern.yaml", text.as_str()), &Settings::default());
    let lines: Vec<(&str, &str, &str, &str)> = account
        .lines
        .iter()
        .filter(|line| line.number.starts_with("ink") || line.number.starts_with("sky"))
        .map(|line| (line.number.as_str(), line.stated.as_str(), line.needed.as_str(), line.status.word()))
        .collect();
    let wanted = [
        ("ink usable_width", "40", "", "as given"),
        ("ink A size", "3 1/2 x 3 1/2", "", "as given"),
        ("ink B size", "2 x 2", "", "as given"),
        ("ink requires", "1 yd", "1 1/8 yd", "short"),
        ("ink A pieces", "48", "", "as given"),
        ("ink A strips", "5", "5", "OK"),
        ("ink B pieces", "0", "", "as given"),
        ("sky requires", "1/2 yd", "", "not checked"),
    ];
    assert_eq!(lines, wanted);
}

#[rstest]
#[case::by_the_rule_book("20 in", "", 2)]
#[case::by_the_house("22 in", "", 1)]
#[case::by_the_fabric("20 in", "usable_width: 22\n", 1)]
fn a_fat_quarter_may_be_wider(#[case] house: &str, #[case] fabric: &str, #[case] needed: u64) {
    // Five by five squares of 3 1/2 in from 18 x 20, six by five from 18 x 22.
    let fabric = format!("{fabric}sold_as: fat_quarters\nrequires: {{ lap: {needed} }}");
    let text = ink("inch", &fabric, &cut("A", "3 1/2 x 3 1/2", None, 30));
    let outcome = outcome_by(&text, &with_length("fat_quarter_across", house));
    assert!(outcome.findings.is_empty(), "{:#?}", told(&text, &outcome));
}

#[test]
fn two_fabrics_that_are_short_for_one_size_are_each_mended() {
    let short = inches("1/2 yd", &cut("A", "3 1/2 x 3 1/2", Some(4), 48));
    let sky = short.split_once("  ink:").map(|(_, ink)| format!("  sky:{ink}")).expect("a fabric");
    let text = short + &sky;
    assert_eq!(rules_of(&text), ["strips-short", "strips-short"]);
    let mut mended = text.clone();
    for finding in outcome(&text).findings.iter().rev() {
        mended = finding.correction.as_ref().expect("a correction").apply(&mended);
    }
    assert_silent(&mended);
}

/// Whatever half-written text is read, every finding has a place in it and nothing panics.
#[test]
fn a_text_cut_off_anywhere_is_read() {
    let whole = BOUND.to_string() + "  sky:\n    sold_as: strips\n    precut: 2 1/2\n    requires: { lap: 3 }\n";
    for end in 0..whole.len() {
        for text in [whole[..end].to_string(), format!("{}{}", &whole[..end], &whole[end + 1..])] {
            for finding in outcome(&text).findings {
                assert!(finding.at.at.end <= text.len(), "{}: {text}", finding.message);
            }
        }
    }
}

/// Whatever has the wrong shape is called by its own word, with an example of what belongs there.
#[rstest]
#[case(
    "requires: { lap: 1/2 yd }",
    "requires: 1/2 yd",
    "\"requires\" needs words with values, such as { crib: 5/8 yd }."
)]
#[case("pieces: { lap: 48 }", "pieces: 48", "\"pieces\" needs words with values, such as { crib: 48 }.")]
#[case("lap: { finished: 60 x 76 }", "lap: 60 x 76", "\"lap\" needs words with values, such as { finished: 36 x 48 }.")]
#[case(
    "- { piece: A, size: 3 1/2 x 3 1/2, pieces: { lap: 48 } }",
    "- A",
    "\"cut\" needs words with values, such as { piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }."
)]
fn what_needs_words_with_values_says_so(#[case] from: &str, #[case] to: &str, #[case] says: &str) {
    let right = inches("1/2 yd", &cut("A", "3 1/2 x 3 1/2", None, 48));
    let text = right.replace(from, to);
    assert_ne!(text, right);
    assert_says(&one(&text, "wrong-shape"), &[says]);
}

/// How each plan is told to the reader.
#[rstest]
#[case::rows_alone(
    "requires: { lap: 1 yd }",
    &[("border", "4 1/2 x 65", 4, ", grain: lengthwise")],
    "Cut 1 length 65 in x WOF (40 in usable); subcut 4 strips 4 1/2 x 65 in (border).\n"
)]
#[case::several_rows(
    "requires: { lap: 1 yd }",
    &[("border", "4 1/2 x 65", 16, ", grain: lengthwise")],
    "Cut 2 lengths 65 in x WOF (40 in usable); subcut 8 strips 4 1/2 x 65 in (border) from each.\n"
)]
#[case::rows_and_strips(
    "requires: { lap: 1/8 yd }",
    &[("border", "10 x 65", 4, ", grain: lengthwise"), ("plain block", "6 1/2 x 6 1/2", 12, "")],
    "Cut 1 length 65 in x WOF (40 in usable); subcut 4 strips 10 x 65 in (border). Cut 2 strips 6 1/2 in x WOF; \
     subcut 6 squares 6 1/2 x 6 1/2 in (plain block) from each.\n"
)]
#[case::whole_strips(
    "requires: { lap: 1/8 yd }",
    &[("strip for the strip sets", "40 x 2 1/2", 2, "")],
    "Cut 2 strips 2 1/2 in x WOF (40 in usable), left whole (strip for the strip sets).\n"
)]
#[case::fat_quarters(
    "sold_as: fat_quarters\nrequires: { lap: 1 }",
    &[("square", "4 x 4", 21, "")],
    "From 2 fat quarters: cut 5 strips 4 x 20 in; subcut 21 squares 4 x 4 in (square), up to 5 from each."
)]
#[case::squares_whole(
    "sold_as: squares\nprecut: 5\nrequires: { lap: 40 }",
    &[("patch", "5 x 5", 48, "")],
    "Cut from 48 precut squares: patch, 1 from each."
)]
#[case::squares_in_four(
    "sold_as: squares\nprecut: 5\nrequires: { lap: 1 }",
    &[("patch", "2 1/2 x 2 1/2", 8, "")],
    "Cut from 2 precut squares: patch, 4 from each."
)]
#[case::strips_and_some_left(
    "sold_as: strips\nprecut: 2 1/2\nrequires: { lap: 2 }",
    &[("patch", "2 1/2 x 2 1/2", 33, "")],
    "Cut from 3 precut strips: patch, up to 16 from each, 33 in all."
)]
fn a_plan_is_told_as_it_is_cut(#[case] fabric: &str, #[case] cuts: &[(&str, &str, u64, &str)], #[case] says: &str) {
    let cuts: Vec<String> = cuts.iter().map(|(name, size, count, more)| cut(name, size, None, *count) + more).collect();
    helps(&one(&ink("inch", fabric, &cuts.join("\n")), "fabric-short"), says);
}

#[test]
fn small_fabric_from_which_nothing_is_cut_has_no_plan() {
    let text = ink("inch", "sold_as: fat_quarters\nrequires: { lap: 1 }", &cut("A", "4 x 4", None, 0));
    assert!(!one(&text, "fabric-generous").help.contains("Cut"));
}
