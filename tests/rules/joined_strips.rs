//! Pieces that are longer than a strip are cut from strips joined end to end, where the text tells strips for them.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, of_rule, one, outcome, rules_of, told};

/// A manuscript of one size, `lap`, with one fabric, `ink`.
fn ink(measure: &str, fabric: &str, cuts: &str) -> String {
    let fabric: String = fabric.lines().map(|line| format!("    {}\n", line.trim())).collect();
    let cuts: String = cuts.lines().map(|line| format!("      - {{ {} }}\n", line.trim())).collect();
    format!(
        "pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  lap: {{ finished: 48 x 57 }}\nfabrics:\n  ink:\n{fabric}    \
         cut:\n{cuts}"
    )
}

fn inches(amount: &str, cuts: &str) -> String {
    ink("inch", &format!("requires: {{ lap: {amount} }}"), cuts)
}

fn side(strips: u64, pieces: u64) -> String {
    format!("piece: side, size: 4 1/2 x 48 1/2, strips: {{ lap: {strips} }}, pieces: {{ lap: {pieces} }}")
}

/// Three strips of 40 in joined straight are 119 in, and two sides of 48 1/2 in are 97 in: 3 x 4 1/2 = 13 1/2 in.
#[rstest]
#[case::short("13 3/8 in", &["fabric-short"])]
#[case::to_the_thread("13 1/2 in", &["no-squaring-room"])]
#[case::enough("14 in", &[])]
#[case::as_sold("1/2 yd", &[])]
#[case::wide_strips("4 1/8 yd", &["fabric-generous"])]
fn joined_strips_take_the_width_of_the_piece(#[case] amount: &str, #[case] rules: &[&str]) {
    let text = inches(amount, &side(3, 2));
    assert_eq!(rules_of(&text), rules, "{:#?}", told(&text, &outcome(&text)));
    if let Some(finding) = of_rule(&text, "fabric-short").first() {
        assert_says(finding, &["3 strips x 4 1/2 in = 13 1/2 in"]);
        assert!(finding.help.contains("joined end to end (side)"), "{}", finding.help);
    }
}

/// The same in centimetres: 3 x 102 - 2 x 1.27 = 303.4 cm, two sides of 124 cm are 248: 3 x 12 = 36 cm, and 1.27 cm more.
#[rstest]
#[case::short("35.9 cm", &["fabric-short"])]
#[case::enough("37.3 cm", &[])]
fn joined_strips_in_centimetres(#[case] amount: &str, #[case] rules: &[&str]) {
    let fabric = format!("usable_width: 102\nrequires: {{ lap: {amount} }}");
    let cuts = "piece: side, size: 12 x 124, strips: { lap: 3 }, pieces: { lap: 2 }";
    assert_eq!(rules_of(&ink("cm", &fabric, cuts)), rules);
}

/// n strips are 40 n - (n - 1) / 2 in long: 2 are 79 1/2, 3 are 119, 5 are 198.
#[rstest]
#[case::two_for_two("48 1/2", 2, 2, Some(3))]
#[case::three_for_two("48 1/2", 3, 2, None)]
#[case::four_for_four("48 1/2", 4, 4, Some(5))]
#[case::five_for_four("48 1/2", 5, 4, None)]
#[case::two_by_two_each_to_the_thread("79 1/2", 4, 2, None)]
#[case::a_thread_more("79 5/8", 4, 2, Some(5))]
fn joined_strips_are_counted_with_their_seams(
    #[case] long: &str,
    #[case] strips: u64,
    #[case] pieces: u64,
    #[case] needed: Option<u64>,
) {
    let text = inches("1 yd", &side(strips, pieces).replace("48 1/2", long));
    let found = of_rule(&text, "strips-short");
    let Some(needed) = needed else {
        assert!(found.is_empty(), "{:#?}", told(&text, &outcome(&text)));
        return;
    };
    let finding = one(&text, "strips-short");
    assert_eq!(finding.level, Level::Error);
    let says = format!(
        "{strips} strips stated for {pieces} pieces (side); {needed} needed, joined end to end, since each piece is longer than \
         a strip: what is stated gives "
    );
    assert_says(&finding, &[&says]);
}

#[test]
fn the_working_of_joined_strips_adds_up() {
    let finding = one(&inches("1/2 yd", &side(2, 2)), "strips-short");
    let says = "Strips: 3 x 40 in - 2 joins x 1/2 in = 119 in, for 2 x 48 1/2 in = 97 in.";
    assert!(finding.help.contains(says), "{}", finding.help);
    assert_says(&finding, &["what is stated gives 1, 1 short."]);
}

/// One strip 48 1/2 in wide gives eight pieces: where just as many strips are told, they are meant to be so wide.
#[test]
fn a_strip_as_wide_as_the_piece_is_long_is_still_one() {
    assert_silent(&inches("49 in", &side(1, 4)));
    assert_eq!(rules_of(&inches("1 1/4 yd", &side(1, 4))), ["fabric-short"]);
    assert_silent(&inches("97 1/2 in", &side(2, 9)));
}

/// Directional fabric keeps its way: a piece that is longer across than the fabric is wide needs a join, and one that is
/// long along the bolt is cut cut strips it is long.
#[test]
fn directional_pieces_are_joined_across() {
    let fabric = |amount: &str| format!("directional: yes\nrequires: {{ lap: {amount} }}");
    let across = side(3, 2).replace("4 1/2 x 48 1/2", "48 1/2 x 4 1/2");
    assert_silent(&ink("inch", &fabric("14 in"), &across));
    assert_eq!(rules_of(&ink("inch", &fabric("13 3/8 in"), &across)), ["fabric-short"]);
    // Without told strips nothing says that it is pieced.
    let open = across.replace("strips: { lap: 3 }, ", "");
    assert_eq!(rules_of(&ink("inch", &fabric("14 in"), &open)), ["piece-longer-than-strip"]);
    assert_silent(&ink("inch", &fabric("49 in"), &side(1, 2)));
}

/// Without pieces the strips are taken as they are told; a stated width of the strip says how wide they are.
#[test]
fn told_strips_without_pieces_are_as_wide_as_the_piece() {
    assert_silent(&inches("14 in", "piece: side, size: 4 1/2 x 48 1/2, strips: { lap: 3 }"));
    let wider = side(3, 2) + ", strip_width: 5";
    assert_silent(&inches("15 1/2 in", &wider));
    assert_eq!(rules_of(&inches("14 7/8 in", &wider)), ["fabric-short"]);
}

/// 119 in less 97 leaves 22 in of the third strip, from which four open squares of 4 1/2 in come.
#[test]
fn open_pieces_come_out_of_what_is_left_of_joined_strips() {
    let squares = |count: u64| side(3, 2) + &format!("\npiece: S, size: 4 1/2 x 4 1/2, pieces: {{ lap: {count} }}");
    assert_silent(&inches("14 in", &squares(4)));
    // By area alone a fifth could be pieced together, so no proof says that it cannot.
    assert_eq!(rules_of(&inches("14 in", &squares(5))), ["fabric-tight"]);
}

/// A strip of a fat quarter is 20 in long: two of 2 1/2 in joined make one of 39 1/2 in.
#[test]
fn strips_of_small_fabrics_are_joined_too() {
    let cuts =
        |strips: u64| format!("piece: side, size: 2 1/2 x 39 1/2, strips: {{ lap: {strips} }}, pieces: {{ lap: 4 }}");
    let quarters = |count: u64, strips| {
        ink("inch", &format!("sold_as: fat_quarters\nrequires: {{ lap: {count} }}"), &cuts(strips))
    };
    assert_silent(&quarters(2, 8));
    assert_eq!(rules_of(&quarters(1, 8)), ["fabric-short"]);
    assert_eq!(rules_of(&quarters(1, 7)), ["strips-short"]);
    let precut = |count: u64| {
        let fabric = format!("sold_as: strips\nprecut: 2 1/2\nrequires: {{ lap: {count} }}");
        ink("inch", &fabric, "piece: side, size: 2 1/2 x 48 1/2, strips: { lap: 3 }, pieces: { lap: 2 }")
    };
    assert_silent(&precut(3));
    assert_eq!(rules_of(&precut(2)), ["fabric-short"]);
}

/// A border says how its strips are joined: diagonal joins take the strip's width, 4 x 40 - 3 x 4 1/2 = 146 1/2 in.
#[test]
fn the_border_says_how_its_strips_are_joined() {
    let text = |join: &str, strips: u64| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 56 x 56 }}\nfabrics:\n  ink:\n    requires: {{ lap: \
             1 yd }}\n    cut:\n      - {{ piece: side, size: 4 1/2 x 48 1/2, strips: {{ lap: {strips} }}, pieces: {{ lap: 2 }} }}\n      \
             - {{ piece: end, size: 4 1/2 x 56 1/2, strips: {{ lap: 3 }}, pieces: {{ lap: 2 }} }}\nunits:\n  plain: {{ make: patch, \
             finished: 16 }}\nblocks:\n  plain: {{ finished: 16, rows: [[plain]] }}\nlayout:\n  lap: {{ across: 3, down: 3, blocks: \
             plain, borders: [{{ width: 4, corners: butted, piece: side, piece_across: end{join} }}] }}\n"
        )
    };
    // Two ends of 56 1/2 in are 113 in: three strips joined straight are 119 in, and diagonally 111.
    assert!(of_rule(&text("", 3), "strips-short").is_empty());
    let finding = one(&text(", join: diagonal", 3), "strips-short");
    assert_says(&finding, &["3 strips stated for 2 pieces (end); 4 needed"]);
}
