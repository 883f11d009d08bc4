//! Borders that are sewn from units: `border-does-not-fit`, and how many units they take.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, of_rule, one};

/// 4 x 3 blocks of 12 in, 48 x 36 in, a plain border inside and one of units.
fn quilt(finished: &str, plain: &str, unit: &str, corners: &str, makes: &str) -> String {
    format!(
        "\
pattern: Test Ferry
measure: inch
sizes: {{ lap: {{ finished: {finished} }} }}
units:
  plain: {{ make: patch, finished: 12 }}
  rail: {{ make: patch, finished: {unit}, makes: {makes} }}
blocks: {{ plain: {{ finished: 12, rows: [[plain]] }} }}
layout:
  lap:
    across: 4
    down: 3
    blocks: plain
    borders: [{plain}{{ width: 4, corners: {corners}, of: rail }}]
"
    )
}

/// 36 in at the sides are 12 units of 3 in, 48 in at top and bottom 16; butted, top and bottom are 56 in long.
#[rstest]
#[case::cornerstones("56 x 44", "", "3 x 4", "cornerstones", "56")]
#[case::turned("56 x 44", "", "4 x 3", "cornerstones", "56")]
#[case::butted_squares("56 x 44", "", "4", "butted", "46")]
// 36 + 2 x 2 = 40 and 48 + 2 x 2 = 52, and butted 60: 2 x 10 + 2 x 15 units of 4 in.
#[case::with_a_spacer("60 x 48", "{ width: 2 }, ", "4", "butted", "50")]
fn units_that_fit_are_counted(
    #[case] finished: &str,
    #[case] plain: &str,
    #[case] unit: &str,
    #[case] corners: &str,
    #[case] makes: &str,
) {
    assert_silent(&quilt(finished, plain, unit, corners, makes));
    let one_less = (makes.parse::<u32>().unwrap() - 1).to_string();
    let finding = one(&quilt(finished, plain, unit, corners, &one_less), "make-count-wrong");
    assert_says(&finding, &[&format!("{makes} needed: 1 too few")]);
    assert!(finding.help.contains("around the quilt"), "{}", finding.help);
}

#[test]
fn units_that_do_not_fit_are_pointed_at_with_the_spacer_that_makes_room() {
    let text = quilt("56 x 44", "", "5 x 4", "cornerstones", "36");
    let finding = one(&text, "border-does-not-fit");
    assert_says(
        &finding,
        &["its sides are 36 in, and its top and bottom are 48 in, and no whole number of them is that long"],
    );
    assert_eq!((finding.level, finding.at.at.text(&text)), (Level::Error, "rail"));
    // 8 x 5 in = 40 in, half of the 4 in that lack at each end; 10 x 5 in = 50 in, 1 in at each end.
    assert!(
        finding.help.contains("7 of them are 35 in, and 8 are 40 in. A plain border inside this one, 2 in wide"),
        "{}",
        finding.help
    );
    assert!(
        finding.help.contains("9 of them are 45 in, and 10 are 50 in. A plain border inside this one, 1 in wide"),
        "{}",
        finding.help
    );
    assert!(of_rule(&text, "make-count-wrong").is_empty(), "how many there are is not known");
}

#[test]
fn a_unit_of_another_width_is_pointed_at() {
    let finding = one(&quilt("56 x 44", "", "3 x 5", "cornerstones", "4"), "border-does-not-fit");
    assert_says(&finding, &["neither side is as wide as the border"]);
}

#[test]
fn what_cannot_be_counted_is_said() {
    let text = quilt("56 x 44", "", "4", "mitered", "46");
    assert_says(&one(&text, "not-checked"), &["how many it takes is not checked"]);
    assert!(of_rule(&text, "make-count-wrong").is_empty());
}

/// Patchwork Times, "Making a pieced border fit" (2009): a top of 46 in takes ten blocks of 5 in with a spacer that
/// finishes 2 in.
#[test]
fn a_published_spacer() {
    let text = |plain: &str, finished: &str| {
        format!(
            "pattern: Print\nmeasure: inch\nsizes: {{ one: {{ finished: {finished} }} }}\nunits:\n  whole: {{ make: patch, \
             finished: 46 }}\n  five: {{ make: patch, finished: 5 }}\nblocks: {{ whole: {{ finished: 46, rows: [[whole]] }} \
             }}\nlayout:\n  one: {{ across: 1, down: 1, blocks: whole, borders: [{plain}{{ width: 5, corners: cornerstones, \
             of: five }}] }}\n"
        )
    };
    assert!(one(&text("", "56 x 56"), "border-does-not-fit").help.contains("2 in wide"));
    assert_silent(&text("{ width: 2 }, ", "60 x 60"));
}

/// A border that is sewn from units takes no strips, so that a piece for them is used by nothing.
#[test]
fn a_border_of_units_takes_no_strips() {
    let fabrics = "fabrics:\n  ink:\n    requires: { lap: 2 yd }\n    cut: [{ piece: C, strip_width: 4 1/2, strips: { lap: 1 } }]\n";
    let text = quilt("56 x 44", "", "3 x 4", "cornerstones", "56").replace("of: rail", "of: rail, piece: C") + fabrics;
    assert!(of_rule(&text, "pieces-short").is_empty(), "{:?}", of_rule(&text, "pieces-short"));
}

/// A medallion: a middle of 24 in, a round of blocks of 4 in with a block in each corner, a spacer of 2 in, and a round of
/// blocks of 6 in that meet at the corners. 24 / 4 = 6 to a side and 4 in the corners; 24 + 2 x 4 + 2 x 2 = 36 in, 6 at
/// each side, and (36 + 2 x 6) / 6 = 8 at the top and the bottom. 48 in all round.
fn medallion(finished: &str, inner: &str, outer: &str, spacer: &str, makes: [&str; 3]) -> String {
    let [small, corner, large] = makes;
    format!(
        "\
pattern: Test Ferry
measure: inch
sizes: {{ lap: {{ finished: {finished} }} }}
units:
  middle: {{ make: patch, finished: 24 }}
  hst: {{ make: half_square_triangle, finished: 2, makes: {{ lap: 112 }} }}
  four: {{ make: patch, finished: 4 }}
  rail: {{ make: patch, finished: 2 x 6 }}
blocks:
  middle: {{ finished: 24, rows: [[middle]] }}
  pinwheel: {{ finished: {inner}, rows: [[hst, hst turned], [hst turned, hst]], makes: {small} }}
  corner: {{ finished: 4, rows: [[four]], makes: {corner} }}
  fence: {{ finished: {outer}, rows: [[rail, rail, rail]], makes: {large} }}
layout:
  lap:
    across: 1
    down: 1
    blocks: middle
    borders:
      - {{ width: 4, corners: cornerstones, of: pinwheel, corner_of: corner }}
      - {{ width: {spacer} }}
      - {{ width: 6, of: fence }}
"
    )
}

#[test]
fn rounds_of_blocks_are_counted_with_their_units() {
    // 24 pinwheels of four take 96 half-square triangles.
    let right = medallion("48 x 48", "4", "6", "2", ["24", "4", "28"]).replace("lap: 112", "lap: 96");
    assert_silent(&right);
    for (makes, says) in [
        (["23", "4", "28"], "23 of block pinwheel stated for lap; 24 needed: 1 too few"),
        (["24", "3", "28"], "3 of block corner stated for lap; 4 needed: 1 too few"),
        (["24", "4", "30"], "30 of block fence stated for lap; 28 needed: 2 too many"),
    ] {
        let text = medallion("48 x 48", "4", "6", "2", makes).replace("lap: 112", "lap: 96");
        let finding = one(&text, "make-count-wrong");
        assert_says(&finding, &[says]);
        assert!(finding.help.contains("around the quilt"), "{}", finding.help);
    }
    let finding = one(&right.replace("lap: 96", "lap: 92"), "make-count-wrong");
    assert_says(&finding, &["92 of unit hst stated for lap; 96 needed: 4 too few"]);
    assert!(finding.help.contains("24 pinwheel x 4 = 96 hst"), "{}", finding.help);
}

/// Without the right spacer the outer round does not fit; a corner of another size does not either.
#[test]
fn rounds_of_blocks_that_do_not_fit_are_pointed_at() {
    let makes = ["24", "4", "28"];
    let text = medallion("46 x 46", "4", "6", "1", makes).replace("lap: 112", "lap: 96");
    let finding = one(&text, "border-does-not-fit");
    assert_eq!(finding.at.at.text(&text), "fence");
    assert_says(&finding, &["Border 3 is sewn from blocks of fence, each 6 in long: its sides are 34 in"]);
    assert!(of_rule(&text, "make-count-wrong").is_empty(), "how many there are is not known");
    let text = medallion("48 x 48", "4", "6", "2", makes).replace("lap: 112", "lap: 96");
    let text = text.replace("four: { make: patch, finished: 4 }", "four: { make: patch, finished: 5 }");
    let text = text.replace("corner: { finished: 4,", "corner: { finished: 5,");
    let finding = one(&text, "border-does-not-fit");
    assert_says(&finding, &["The corners of border 1 are 4 in x 4 in, and block corner finishes 5 in x 5 in."]);
    assert_eq!(finding.at.at.text(&text), "corner");
}

#[rstest]
#[case::butted("corners: butted, of: rail, corner_of: plain", "no squares in its corners")]
#[case::twice("corners: cornerstones, of: rail, cornerstone: K, corner_of: plain", "cornerstone says already")]
#[case::unknown("corners: cornerstones, of: rale", "rale")]
fn corners_that_cannot_be_are_told(#[case] border: &str, #[case] says: &str) {
    let text = quilt("56 x 44", "", "3 x 4", "cornerstones", "56").replace("corners: cornerstones, of: rail", border);
    let text = text
        + "fabrics:\n  ink:\n    requires: { lap: 1 yd }\n    cut: [{ piece: K, size: 4 1/2 x 4 1/2, pieces: { lap: 4 } }]\n";
    let outcome = crate::desk::outcome(&text);
    let told: Vec<&str> = outcome.findings.iter().map(|finding| finding.message.as_str()).collect();
    assert!(told.iter().any(|message| message.contains(says)), "{told:?}");
}

/// A border that is not of one width all round has no one unit as wide as it.
#[test]
fn units_of_a_border_whose_sides_differ_are_said_to_be_not_counted() {
    let text = quilt("56 x 46", "", "3 x 4", "cornerstones", "56")
        .replace("width: 4", "width: { sides: 4, top: 4, bottom: 6 }");
    assert_says(&one(&text, "not-checked"), &["its sides are not all of one width"]);
    assert!(of_rule(&text, "make-count-wrong").is_empty());
}
