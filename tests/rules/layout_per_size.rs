//! The layout of each size: `finished-size-wrong`, `block-count-wrong`, `border-short`, `sash-short`, and the pieces:
//! `pieces-short`, `pieces-generous`, `piece-unused`, `piece-not-cut`, `scaled-size`.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, mended, of_rule, one, rules_of};

/// A pattern whose blocks finish 12 (30 cm), without any fabric.
fn laid(measure: &str, finished: &str, layout: &str) -> String {
    let block = if measure == "cm" { "30" } else { "12" };
    format!(
        "pattern: Weir Steps\nmeasure: {measure}\nsizes: {{ lap: {{ finished: {finished} }} }}\n\
         units: {{ plain: {{ make: patch, finished: {block} }} }}\n\
         blocks: {{ plain: {{ finished: {block}, rows: [[plain]] }} }}\n\
         layout: {{ lap: {{ blocks: plain, {layout} }} }}\n"
    )
}

/// Three blocks of 12 in on point are 50.912 in long, and 51.412 in with their seams: the ruler's next eighth is cut. What
/// is short, the sum and the correction go by that number.
#[rstest]
#[case::inches(
    "inch",
    "12",
    "4 1/2 x 51",
    "51 in long; 51 1/2 in needed for border 1: 1/2 in too short",
    "Sides: 50.912 in + 2 seams x 0.25 in = 51.412 in, cut 51 1/2 in.",
    "4 1/2 x 51 1/2"
)]
#[case::centimetres(
    "cm",
    "30",
    "12 x 128",
    "128 cm long; 128.8 cm needed for border 1: 0.8 cm too short",
    "Sides: 127.28 cm + 2 seams x 0.75 cm = 128.78 cm, cut 128.8 cm.",
    "12 x 128.8"
)]
fn a_border_on_point_is_worked_in_numbers_that_add_up(
    #[case] measure: &str,
    #[case] block: &str,
    #[case] piece: &str,
    #[case] says: &str,
    #[case] working: &str,
    #[case] corrected: &str,
) {
    let (seam, width) = if measure == "cm" { ("0.75", "10.5") } else { ("1/4", "4") };
    let text = format!(
        "pattern: Slip Way\nmeasure: {measure}\nassumes: {{ seam: {seam} }}\nsizes: {{ lap: {{ finished: 300 x 300 }} }}\n\
         fabrics:\n  rim:\n    requires: {{ lap: 9 m }}\n    cut:\n      - {{ piece: side, size: {piece}, grain: lengthwise, \
         pieces: {{ lap: 2 }} }}\nunits: {{ u: {{ make: patch, finished: {block} }} }}\n\
         blocks: {{ b: {{ finished: {block}, rows: [[u]] }} }}\n\
         layout: {{ lap: {{ set: on_point, across: 3, down: 3, blocks: b, borders: [ {{ width: {width}, corners: cornerstones, \
         piece: side, pieced: no }} ] }} }}\n"
    );
    let found: Vec<_> = of_rule(&text, "border-short");
    let finding = found.iter().find(|finding| finding.message.contains("long;")).expect("a piece that is too short");
    assert_says(finding, &[says]);
    assert!(finding.help.contains(working), "{}", finding.help);
    assert_eq!(finding.correction.as_ref().map(|correction| correction.replacement.as_str()), Some(corrected));
}

/// Triangles that are cut right for a smaller block than those that they set are too small, whatever their own sizes say.
#[rstest]
#[case::inches("inch", "12", "11", "1 in too small")]
#[case::inches_large("inch", "12", "12 1/2", "1/2 in too large")]
#[case::within_the_tolerance("inch", "12", "12 1/64", "")]
#[case::centimetres("cm", "30", "29.5", "0.5 cm too small")]
#[case::right("cm", "30", "30", "")]
fn triangles_must_be_made_for_the_blocks_that_they_set(
    #[case] measure: &str,
    #[case] block: &str,
    #[case] triangle: &str,
    #[case] says: &str,
) {
    for (make, word) in [("side_triangle", "side_triangles"), ("corner_triangle", "corner_triangles")] {
        let text = format!(
            "pattern: Slip Way\nmeasure: {measure}\nsizes: {{ lap: {{ finished: 100 x 100 }} }}\n\
             units:\n  u: {{ make: patch, finished: {block} }}\n  tip: {{ make: {make}, finished: {triangle} }}\n\
             blocks: {{ b: {{ finished: {block}, rows: [[u]] }} }}\n\
             layout: {{ lap: {{ set: on_point, across: 3, down: 3, blocks: b, {word}: tip }} }}\n"
        );
        let found = of_rule(&text, "block-does-not-sum");
        if says.is_empty() {
            assert!(found.is_empty(), "{found:#?}");
        } else {
            assert_says(&one(&text, "block-does-not-sum"), &[says, "Unit tip"]);
            assert_eq!(found[0].at.at.text(&text), triangle);
        }
    }
}

#[rstest]
#[case::plain("across: 4, down: 5", "48 x 60")]
#[case::one_block("across: 1, down: 1", "12 x 12")]
#[case::sashing("across: 4, down: 5, sashing: 1 1/2", "52 1/2 x 66")] // 48 + 3 x 1 1/2; 60 + 4 x 1 1/2
#[case::sashing_round("across: 4, down: 5, sashing: 1 1/2, sashing_round: yes", "55 1/2 x 69")] // + 5 x, + 6 x 1 1/2
#[case::cornerstones("across: 4, down: 5, sashing: 2, cornerstones: yes", "54 x 68")] // they fill the crossings
#[case::one_border("across: 4, down: 5, borders: [{ width: 6 }]", "60 x 72")] // + 2 x 6
#[case::two_borders("across: 4, down: 5, borders: [{ width: 1 1/2 }, { width: 5, corners: mitred }]", "61 x 73")] // + 3 + 10
#[case::border_with_squares("across: 4, down: 5, borders: [{ width: 6, corners: cornerstones }]", "60 x 72")]
#[case::all_of_it(
    "across: 4, down: 5, sashing: 1 1/2, sashing_round: yes, borders: [{ width: 2 }, { width: 4 1/4 }]",
    "68 x 81 1/2" // 55 1/2 + 4 + 8 1/2; 69 + 4 + 8 1/2
)]
#[case::on_point("set: on_point, across: 3, down: 4", "50 7/8 x 67 7/8")] // 36 x 1.41421 = 50.912; 48 x = 67.882
#[case::on_point_down("set: on_point, across: 3, down: 4", "50 15/16 x 67 7/8")] // 50.9375 is 0.026 above
#[case::on_point_bordered("set: on_point, across: 3, down: 4, borders: [{ width: 4 }]", "58 7/8 x 75 7/8")]
fn a_right_size_is_silent(#[case] layout: &str, #[case] finished: &str) {
    assert_eq!(rules_of(&laid("inch", finished, layout)), [] as [&str; 0]);
}

/// 60 on point are 84.853 in, 48 are 67.882 in: printed to the nearest half, quarter or whole inch, which is a note.
#[rstest]
#[case::whole_inches("85 x 68", "inch", "84.852 in x 67.882 in", "1 in")]
#[case::not_the_nearest_half("85 x 67 1/2", "inch", "", "")] // in halves 68 is nearer
#[case::quarters("84 3/4 x 68", "inch", "84.852 in x 67.882 in", "1/4 in")] // 0.103 and 0.118 off
#[case::eighths("84 7/8 x 67 7/8", "inch", "silent", "")]
#[case::eighth_too_few("84 3/4 x 67 7/8", "inch", "", "")]
#[case::whole_too_few("84 x 68", "inch", "", "")]
// 150 cm on point are 212.132, 120 are 169.706.
#[case::whole_cm("212 x 170", "cm", "212.13 cm x 169.7 cm", "1 cm")]
#[case::whole_cm_too_many("213 x 170", "cm", "", "")]
#[case::tenths("212.1 x 169.7", "cm", "silent", "")]
fn a_size_on_point_may_be_rounded(
    #[case] finished: &str,
    #[case] measure: &str,
    #[case] exact: &str,
    #[case] step: &str,
) {
    let text = laid(measure, finished, "set: on_point, across: 5, down: 4");
    if exact == "silent" {
        assert_eq!(rules_of(&text), [] as [&str; 0]);
        return;
    }
    let finding = one(&text, "finished-size-wrong");
    assert_eq!(finding.level == Level::Note, !exact.is_empty(), "{}", finding.message);
    if !exact.is_empty() {
        assert_says(&finding, &[&format!("rounded to the nearest {step}; the layout makes {exact}.")]);
    }
}

/// 36 on point are 50.912 in, 48 are 67.882 in, 60 are 84.853 in: patterns round the top inside the borders, and add
/// borders that are no multiple of that step. 150 cm are 212.132, 120 cm are 169.706.
#[rstest]
#[case::sixteenths("inch", "3, down: 4", "2 1/16", "55 1/8 x 72 1/8", "1 in", true)] // 51 x 68 and 4 1/8
#[case::quarters("inch", "5, down: 4", "3 1/8", "91 1/4 x 74 1/4", "1 in", true)] // 85 x 68 and 6 1/4
#[case::halves_as_well("inch", "3, down: 4", "3 1/4", "57 1/2 x 74 1/2", "1/2 in", true)]
#[case::down_too_far("inch", "3, down: 4", "2 1/16", "54 1/8 x 72 1/8", "", false)]
#[case::an_eighth_off("inch", "3, down: 4", "2 1/16", "55 x 72 1/8", "", false)]
#[case::border_forgotten("inch", "3, down: 4", "2 1/16", "51 x 68", "", false)]
#[case::cm("cm", "5, down: 4", "6.25", "224.5 x 182.5", "1 cm", true)] // 212 x 170 and 12.5
#[case::cm_too_small("cm", "5, down: 4", "6.25", "223.5 x 182.5", "", false)]
fn a_size_on_point_may_be_rounded_inside_its_borders(
    #[case] measure: &str,
    #[case] across: &str,
    #[case] border: &str,
    #[case] finished: &str,
    #[case] step: &str,
    #[case] is_rounded: bool,
) {
    let text = laid(measure, finished, &format!("set: on_point, across: {across}, borders: [{{ width: {border} }}]"));
    let finding = one(&text, "finished-size-wrong");
    assert_eq!(finding.level == Level::Note, is_rounded, "{}", finding.message);
    assert!(
        !is_rounded || finding.message.contains(&format!(" stated, rounded to the nearest {step}")),
        "{}",
        finding.message
    );
}

#[rstest]
#[case::plain("across: 4, down: 5", "120 x 150")]
#[case::sashing("across: 4, down: 5, sashing: 4", "132 x 166")] // 120 + 3 x 4; 150 + 4 x 4
#[case::bordered("across: 4, down: 5, sashing: 4, borders: [{ width: 12.5 }]", "157 x 191")]
#[case::on_point("set: on_point, across: 3, down: 4", "127.3 x 169.7")] // 90 x 1.41421 = 127.279; 120 x = 169.706
fn metric_sizes_are_as_exact(#[case] layout: &str, #[case] finished: &str) {
    assert_eq!(rules_of(&laid("cm", finished, layout)), [] as [&str; 0]);
}

#[rstest]
#[case::width("across: 4, down: 5", "49 x 60", "the layout makes 48 x 60 in: the stated width is 1 in too large")]
#[case::length("across: 4, down: 5", "48 x 61 1/2", "the stated length is 1 1/2 in too large")]
#[case::both(
    "across: 4, down: 5",
    "47 x 61",
    "the stated width is 1 in too small, and the stated length is 1 in too large"
)]
#[case::swapped("across: 4, down: 5", "60 x 48", "the stated width is 12 in too large")]
#[case::a_sixteenth("across: 4, down: 5", "48 1/16 x 60", "the stated width is 1/16 in too large")]
#[case::without_sashing("across: 4, down: 5, sashing: 1 1/2", "48 x 60", "4 1/2 in too small")]
#[case::border_once("across: 4, down: 5, borders: [{ width: 6 }]", "54 x 66", "6 in too small")]
#[case::on_point("set: on_point, across: 3, down: 4", "50 3/4 x 67 7/8", "the stated width is 1/8 in too small")]
#[case::as_if_straight("set: on_point, across: 3, down: 4", "36 x 48", "the layout makes 50 7/8 x 67 7/8 in")]
fn a_wrong_size_is_told(#[case] layout: &str, #[case] finished: &str, #[case] says: &str) {
    let text = laid("inch", finished, layout);
    assert_eq!(rules_of(&text), ["finished-size-wrong"]);
    let finding = one(&text, "finished-size-wrong");
    assert_says(&finding, &[says]);
    assert_eq!(finding.at.at.text(&text), finished);
    mended(&text, &finding);
}

#[test]
fn a_metric_size_that_is_wrong_is_mended_in_metric() {
    let text = laid("cm", "130 x 166", "across: 4, down: 5, sashing: 4");
    let finding = one(&text, "finished-size-wrong");
    assert_says(&finding, &["132 x 166 cm", "2 cm too small"]);
    assert!(mended(&text, &finding).contains("finished: 132 x 166 }"));
}

#[test]
fn an_outline_is_cut_from_a_layout_that_is_large_enough() {
    let circle = |across: u32| {
        laid("inch", "48 x 48", &format!("across: {across}, down: 4"))
            .replace("48 x 48 }", "48 x 48, outline: circle }")
    };
    assert_eq!(rules_of(&circle(4)), [] as [&str; 0]);
    assert_eq!(rules_of(&circle(5)), [] as [&str; 0]); // trimmed
    assert_eq!(rules_of(&circle(3)), ["finished-size-wrong"]);
}

/// On point, 3 across and 4 down: 12, and 2 x 3 in the gaps.
#[rstest]
#[case::straight("across: 3, down: 4", "{ plain: 12 }", None)]
#[case::too_few("across: 3, down: 4", "{ plain: 11 }", Some("11 blocks stated; the layout has 12: 1 too few."))]
#[case::too_many("across: 3, down: 4", "{ plain: 18 }", Some("18 blocks stated; the layout has 12: 6 too many."))]
#[case::on_point("set: on_point, across: 3, down: 4", "{ plain: 18 }", None)]
#[case::without_the_gaps("set: on_point, across: 3, down: 4", "{ plain: 12 }", Some("the layout has 18: 6 too few."))]
fn blocks_fill_the_layout(#[case] layout: &str, #[case] blocks: &str, #[case] says: Option<&str>) {
    let finished = if layout.starts_with("set") { "50 7/8 x 67 7/8" } else { "36 x 48" };
    let text = laid("inch", finished, layout).replace("blocks: plain", &format!("blocks: {blocks}"));
    let Some(says) = says else {
        assert_eq!(rules_of(&text), [] as [&str; 0]);
        return;
    };
    assert_eq!(rules_of(&text), ["block-count-wrong"]);
    assert_says(&one(&text, "block-count-wrong"), &[says]);
}

/// A quilt of 3 x 4 blocks of 12, with a border: inside it, 36 x 48.
fn bordered(border: &str, cut: &str, finished: &str) -> String {
    format!(
        "pattern: Weir Steps\nmeasure: inch\nsizes: {{ lap: {{ finished: {finished} }} }}\n\
         fabrics:\n  ink:\n    requires: {{ lap: 9 yd }}\n    cut:\n      - {{ piece: C, {cut} }}\n      \
         - {{ piece: K, size: 4 1/2 x 4 1/2, pieces: {{ lap: 4 }} }}\n\
         units: {{ plain: {{ make: patch, finished: 12 }} }}\n\
         blocks: {{ plain: {{ finished: 12, rows: [[plain]] }} }}\n\
         layout: {{ lap: {{ across: 3, down: 4, blocks: plain, borders: [{{ width: 4, piece: C, {border} }}] }} }}\n"
    )
}

fn of_borders(text: &str) -> Vec<&'static str> {
    rules_of(text).into_iter().filter(|rule| !["fabric-generous", "piece-unused"].contains(rule)).collect()
}

/// Four strips, the longest of them: butted, the sides of 48 and seams (the ends are 36 + 8 = 44); mitred, 48 + 8 and
/// the ease; with cornerstones, 48 and seams.
#[rstest]
#[case::butted("corners: butted, pieced: no", "48 1/2", &[])]
#[case::butted_short("corners: butted, pieced: no", "48 3/8", &["border-short"])]
#[case::mitred("corners: mitred, ease: 2, pieced: no", "58", &[])]
#[case::mitred_short("corners: mitred, ease: 2, pieced: no", "57 7/8", &["border-short"])]
#[case::mitred_by_the_book("corners: mitred, pieced: no", "57", &[])]
#[case::mitred_by_the_book_short("corners: mitred, pieced: no", "56 7/8", &["border-short"])]
#[case::cornered("corners: cornerstones, cornerstone: K, pieced: no", "48 1/2", &[])]
#[case::cornered_short("corners: cornerstones, cornerstone: K, pieced: no", "48", &["border-short"])]
#[case::pieced_has_no_length("corners: butted", "20", &["pieces-short"])]
fn a_border_reaches_its_side(#[case] border: &str, #[case] long: &str, #[case] rules: &[&str]) {
    let cut = format!("size: 4 1/2 x {long}, grain: lengthwise, pieces: {{ lap: 4 }}");
    let text = bordered(border, &cut, "44 x 56");
    assert_eq!(of_borders(&text), rules);
}

/// 4 x 5 blocks of 10 in on point are 56.569 x 70.711 in, printed 56 1/2 x 70 1/2, or 56 5/8 x 70 3/4: the sides are
/// 71 in or 71 1/4 in with their seams. 3 x 4 blocks of 25 cm are 106.066 x 141.421 cm, printed 106 x 141.
#[rstest]
#[case::by_the_rounded_size("inch", "64 1/2 x 78 1/2", "4 1/2 x 71", Some(Level::Note))]
#[case::exact("inch", "64 1/2 x 78 1/2", "4 1/2 x 71 1/4", None)]
#[case::shorter_than_the_rounded_size("inch", "64 1/2 x 78 1/2", "4 1/2 x 70 7/8", Some(Level::Error))]
#[case::the_size_is_not_rounded("inch", "64 5/8 x 78 3/4", "4 1/2 x 71", Some(Level::Error))]
#[case::too_narrow("inch", "64 1/2 x 78 1/2", "4 3/8 x 71 1/4", Some(Level::Error))]
#[case::cm_by_the_rounded_size("cm", "114 x 149", "5.27 x 142.27", Some(Level::Note))]
#[case::cm_exact("cm", "114 x 149", "5.27 x 142.7", None)]
#[case::cm_shorter("cm", "114 x 149", "5.27 x 142.2", Some(Level::Error))]
fn a_border_may_go_by_a_size_on_point_that_is_rounded(
    #[case] measure: &str,
    #[case] finished: &str,
    #[case] cut: &str,
    #[case] level: Option<Level>,
) {
    let (block, grid) = if measure == "cm" { ("25", "across: 3, down: 4") } else { ("10", "across: 4, down: 5") };
    let cut = format!("size: {cut}, grain: lengthwise, pieces: {{ lap: 4 }}");
    let text = bordered("corners: butted, pieced: no", &cut, finished)
        .replace("measure: inch", &format!("measure: {measure}"))
        .replace("finished: 12", &format!("finished: {block}"))
        .replace("across: 3, down: 4", &format!("set: on_point, {grid}"));
    let found = of_rule(&text, "border-short");
    assert_eq!(found.first().map(|finding| finding.level), level, "{found:?}");
    let eased = found.first().is_some_and(|finding| finding.help.contains("ease it to the border"));
    assert_eq!(eased, level == Some(Level::Note), "{found:?}");
}

#[test]
fn a_border_that_is_short_says_how_long_it_must_be() {
    let cut = "size: 4 1/2 x 48, grain: lengthwise, pieces: { lap: 4 }";
    let text = bordered("pieced: no", cut, "44 x 56");
    let finding = one(&text, "border-short");
    assert_says(&finding, &["C is 48 in long; 48 1/2 in needed for border 1: 1/2 in too short."]);
    assert_eq!(finding.at.at.text(&text), "4 1/2 x 48");
    assert_eq!(finding.correction.unwrap().replacement, "4 1/2 x 48 1/2");
}

#[rstest]
#[case::whole_strip("strip_width: 4, strips: { lap: 5 }", "4", "4 1/2")]
#[case::sized("size: 4 x 60, grain: lengthwise, pieces: { lap: 4 }", "4 x 60", "4 1/2 x 60")]
fn a_border_without_its_seams_is_too_narrow(#[case] cut: &str, #[case] at: &str, #[case] mended: &str) {
    let text = bordered("corners: butted", cut, "44 x 56");
    let finding = one(&text, "border-short");
    assert_says(&finding, &["C is 4 in wide; 4 1/2 in needed for border 1: 1/2 in too narrow."]);
    assert_eq!((finding.at.at.text(&text), &*finding.correction.unwrap().replacement), (at, mended));
}

/// Pieced from strips of 40: butted, 2 x 48 1/2 + 2 x 44 1/2 = 186. Joined straight each strip after the first adds
/// 39 1/2: 5 make 198, 4 make 158 1/2. Joined on the diagonal each adds 35 1/2: 5 make 182, 6 make 217 1/2.
#[rstest]
#[case::straight("corners: butted, join: straight", "5", None)]
#[case::straight_short("corners: butted, join: straight", "4", Some("4 strips of C stated; 5 needed: 1 short."))]
#[case::diagonal("corners: butted, join: diagonal", "6", None)]
#[case::diagonal_short("corners: butted, join: diagonal", "5", Some("5 strips of C stated; 6 needed: 1 short."))]
#[case::mitred("corners: mitred, ease: 2", "6", None)] // 2 x 58 + 2 x 46 = 208; 5 make 198, 6 make 237 1/2
#[case::mitred_short("corners: mitred, ease: 2", "5", Some("6 needed"))]
#[case::cornered("corners: cornerstones, cornerstone: K", "5", None)] // 2 x 48 1/2 + 2 x 36 1/2 = 170
fn strips_reach_round_the_quilt(#[case] border: &str, #[case] strips: &str, #[case] says: Option<&str>) {
    let text = bordered(border, &format!("strip_width: 4 1/2, strips: {{ lap: {strips} }}"), "44 x 56");
    match says {
        None => assert_eq!(of_borders(&text), [] as [&str; 0]),
        Some(says) => assert_says(&one(&text, "pieces-short"), &[says]),
    }
}

/// 3 x 4 blocks of 12 with sashing of 1 1/2: 2 x 4 upright and 3 x 3 level sashes, 2 x 3 cornerstones; with sashing
/// round, 4 x 4 + 3 x 5 = 31 and 4 x 5 = 20.
fn sashed(layout: &str, finished: &str, sash: &str, cornerstone: &str) -> String {
    format!(
        "pattern: Weir Steps\nmeasure: inch\nsizes: {{ lap: {{ finished: {finished} }} }}\n\
         fabrics:\n  ink:\n    requires: {{ lap: 9 yd }}\n    cut:\n      - {{ piece: S, {sash} }}\n      \
         - {{ piece: K, {cornerstone} }}\n\
         units: {{ plain: {{ make: patch, finished: 12, cut: {{ patch: 12 1/2 }} }} }}\n\
         blocks: {{ plain: {{ finished: 12, rows: [[plain]] }} }}\n\
         layout: {{ lap: {{ across: 3, down: 4, blocks: plain, sashing: 1 1/2, sash: S, {layout} }} }}\n"
    )
}

#[rstest]
#[case::between("17", "6", "cornerstones: yes, cornerstone: K", "39 x 52 1/2", &[])]
#[case::sash_short("16", "6", "cornerstones: yes, cornerstone: K", "39 x 52 1/2", &["pieces-short"])]
#[case::square_short("17", "5", "cornerstones: yes, cornerstone: K", "39 x 52 1/2", &["pieces-short"])]
#[case::generous("19", "6", "cornerstones: yes, cornerstone: K", "39 x 52 1/2", &["pieces-generous"])]
#[case::round("31", "20", "sashing_round: yes, cornerstones: yes, cornerstone: K", "42 x 55 1/2", &[])]
#[case::round_short("30", "20", "sashing_round: yes, cornerstones: yes, cornerstone: K", "42 x 55 1/2", &["pieces-short"])]
#[case::round_square("31", "19", "sashing_round: yes, cornerstones: yes, cornerstone: K", "42 x 55 1/2", &["pieces-short"])]
#[case::no_squares("8", "0", "cornerstones: no", "39 x 52 1/2", &["piece-unused"])] // K: nothing uses it
#[case::no_squares_short("7", "0", "cornerstones: no", "39 x 52 1/2", &["pieces-short", "piece-unused"])]
fn sashes_are_counted(
    #[case] sashes: &str,
    #[case] squares: &str,
    #[case] layout: &str,
    #[case] finished: &str,
    #[case] rules: &[&str],
) {
    let sash = format!("size: 2 x 12 1/2, pieces: {{ lap: {sashes} }}");
    let square = format!("size: 2 x 2, pieces: {{ lap: {squares} }}");
    let text = sashed(layout, finished, &sash, &square);
    let found: Vec<_> = rules_of(&text).into_iter().filter(|rule| *rule != "fabric-generous").collect();
    assert_eq!(found, rules);
}

#[rstest]
#[case::short(
    "size: 2 x 12, pieces: { lap: 17 }",
    "size: 2 x 2, pieces: { lap: 6 }",
    "S is cut 2 x 12 in; 2 x 12 1/2 in needed for sashes: 1/2 in too short."
)]
#[case::narrow("size: 1 1/2 x 12 1/2, pieces: { lap: 17 }", "size: 2 x 2, pieces: { lap: 6 }", "1/2 in too narrow")]
#[case::square(
    "size: 2 x 12 1/2, pieces: { lap: 17 }",
    "size: 1 1/2 x 1 1/2, pieces: { lap: 6 }",
    "K is cut 1 1/2 x 1 1/2 in; 2 x 2 in needed for cornerstones"
)]
fn a_sash_without_its_seams_is_told(#[case] sash: &str, #[case] square: &str, #[case] says: &str) {
    let text = sashed("cornerstones: yes, cornerstone: K", "39 x 52 1/2", sash, square);
    let finding = one(&text, "sash-short");
    assert_says(&finding, &[says]);
    let mended = finding.correction.unwrap().apply(&text);
    assert!(of_rule(&mended, "sash-short").is_empty());
}

/// Without cornerstones, 3 long sashes of 39 1/2: joined straight, 118 1/2 takes 3 strips of 40 (119), or one each.
#[rstest]
#[case("3", false)]
#[case("2", true)]
fn long_sashes_are_pieced(#[case] strips: &str, #[case] short: bool) {
    let square = format!("strip_width: 2, strips: {{ lap: {strips} }}");
    let text = sashed("long_sash: K", "39 x 52 1/2", "size: 2 x 12 1/2, pieces: { lap: 8 }", &square);
    assert_eq!(!of_rule(&text, "pieces-short").is_empty(), short);
}

/// Half-square triangles come two at a time: the star has 8 of them, the ring 3.
fn stars(layout: &str, pieces: &str) -> String {
    format!(
        "pattern: Weir Steps\nmeasure: inch\nsizes: {{ lap: {{ finished: 36 x 48 }} }}\n\
         fabrics:\n  ink:\n    requires: {{ lap: 9 yd }}\n    cut: [{{ piece: A, size: 3 7/8 x 3 7/8, pieces: {{ lap: {pieces} }} }}]\n  \
         chalk:\n    requires: {{ lap: 9 yd }}\n    cut: [{{ piece: B, size: 3 7/8 x 3 7/8, pieces: {{ lap: 900 }} }}]\n\
         units:\n  half: {{ make: half_square_triangle, finished: 3, cut: {{ first: A, second: B }} }}\n  \
         plain: {{ make: patch, finished: 3, cut: {{ patch: 3 1/2 }} }}\n\
         blocks:\n  star:\n    finished: 12\n    rows:\n      - [plain, half, half, plain]\n      - [half, plain, plain, half]\n      \
         - [half, plain, plain, half]\n      - [plain, half, half, plain]\n  ring:\n    finished: 12\n    rows:\n      \
         - [half, plain, plain, plain]\n      - [plain, half, plain, plain]\n      - [plain, plain, half, plain]\n      - [plain, plain, plain, plain]\n\
         layout: {{ lap: {{ across: 3, down: 4, blocks: {layout} }} }}\n"
    )
}

/// 12 stars: 96 halves from 48 squares. 9 stars and 3 rings: 72 + 9 = 81 halves from 41 squares, the last half over.
#[rstest]
#[case::enough("star", "48", &[])]
#[case::short("star", "47", &["pieces-short"])]
#[case::a_set_more("star", "49", &[])]
#[case::two_sets_more("star", "50", &["pieces-generous"])]
#[case::mixed("{ star: 9, ring: 3 }", "41", &[])]
#[case::mixed_short("{ star: 9, ring: 3 }", "40", &["pieces-short"])]
fn pieces_follow_from_the_blocks(#[case] layout: &str, #[case] pieces: &str, #[case] rules: &[&str]) {
    let text = stars(layout, pieces);
    let found: Vec<_> = of_rule(&text, "pieces-short").into_iter().chain(of_rule(&text, "pieces-generous")).collect();
    let found: Vec<_> =
        found.iter().filter(|finding| finding.message.contains(" A ")).map(|finding| finding.rule).collect();
    assert_eq!(found, rules);
}

#[test]
fn the_chain_is_told_from_the_layout_to_the_piece() {
    let finding = one(&stars("{ star: 9, ring: 3 }", "40"), "pieces-short");
    assert_says(&finding, &["40 pieces of A stated; 41 needed: 1 short."]);
    assert_eq!(finding.help, "9 star x 8 + 3 ring x 3 = 81 half, 2 from each set, so 41 sets with 1 A each: cut 41 A.");
}

#[test]
fn a_piece_that_a_unit_uses_and_no_list_has() {
    let text = stars("star", "48").replace("first: A", "first: C");
    let finding = one(&text, "piece-not-cut");
    assert_eq!(finding.at.at.text(&text), "C");
    assert_says(&finding, &["The design uses a piece \"C\", and no cutting list has it"]);
}

#[test]
fn a_piece_that_nothing_uses_is_asked_about_only_where_the_design_is_whole() {
    let extra = "cut: [{ piece: Z, size: 2 x 2, pieces: { lap: 9 } }, { piece: A";
    let text = stars("star", "48").replace("cut: [{ piece: A", extra);
    let finding = one(&text, "piece-unused");
    assert_eq!(finding.at.at.text(&text), "Z");
    let partly = text.replace("sizes: { lap:", "sizes: { crib: { finished: 36 x 48 }, lap:");
    assert!(of_rule(&partly, "piece-unused").is_empty());
}

#[rstest]
#[case::mixed_sizes("blocks: { star: 6, small: 6 }", "not all of one finished size")]
#[case::sashes_on_point(
    "set: on_point, sashing: 2, blocks: star",
    "set on point with sashing that does not go around them"
)]
#[case::edge_on_point(
    "set: on_point, sashing: 2, sashing_round: yes, cornerstones: yes, blocks: star",
    "edge_squares does not say whether the squares at the edge are whole or halves"
)]
#[case::rows_on_point("rows: [[3 star]], set: on_point", "rows of blocks that are set on point")]
fn what_is_not_computed_is_said(#[case] layout: &str, #[case] why: &str) {
    let text = stars("star", "48").replace("blocks: star }", &format!("{layout} }}"));
    let text = if layout.contains("rows:") { text.replace("across: 3, down: 4, ", "") } else { text };
    let text = text.replace(
        "blocks:\n  star:",
        "blocks:\n  small: { finished: 6, rows: [[plain, plain], [plain, plain]] }\n  star:",
    );
    let notes = of_rule(&text, "not-checked");
    assert!(notes.iter().any(|note| note.message.contains(why)), "{notes:#?}");
    assert!(of_rule(&text, "finished-size-wrong").is_empty());
}

#[rstest]
#[case("across: 0, down: 4", "out-of-range")]
#[case("across: 201, down: 4", "out-of-range")]
#[case("across: 3", "missing-entry")]
#[case("across: 3, down: 4, cornerstones: yes", "missing-entry")]
#[case("across: 3, down: 4, set: diagonal", "unknown-word")]
#[case("across: 3, down: 4, borders: [{ width: 4, corners: round }]", "unknown-word")]
#[case("across: 3, down: 4, borders: [{ corners: butted }]", "missing-entry")]
#[case("across: 3, down: 4, borders: { width: 4 }", "wrong-shape")]
#[case("across: 3, down: 4, side_triangles: sides", "unknown-word")]
#[case("across: 3, down: 4, sashing: 1, sash: S", "piece-not-cut")]
fn slips_in_a_layout_are_told_once(#[case] layout: &str, #[case] rule: &str) {
    let finished = if layout.contains("sashing") { "38 x 51" } else { "36 x 48" };
    assert_eq!(rules_of(&laid("inch", finished, layout)), [rule]);
}

#[rstest]
#[case::unknown_block("blocks: plain", "blocks: plane", "unknown-word")]
#[case::unknown_block_counted("blocks: plain", "blocks: { plane: 12 }", "unknown-word")]
#[case::unknown_size("layout: { lap:", "layout: { lip:", "unknown-size")]
fn names_in_a_layout_are_known(#[case] good: &str, #[case] bad: &str, #[case] rule: &str) {
    let text = laid("inch", "36 x 48", "across: 3, down: 4").replace(good, bad);
    assert_eq!(rules_of(&text), [rule]);
}

/// Three amounts twice as large: binding strips, binding fabric and backing. None of them is short.
#[rstest]
#[case::doubled("12", "36 in", "190 in", true)]
#[case::worked_out("12", "36 in", "200 in", false)]
fn a_size_that_is_scaled_is_asked_about(
    #[case] strips: &str,
    #[case] fabric: &str,
    #[case] backing: &str,
    #[case] asked: bool,
) {
    let text = format!(
        "pattern: Weir Steps\nmeasure: inch\nsizes: {{ crib: {{ finished: 36 x 48 }}, twin: {{ finished: 70 x 108 }} }}\n\
         binding:\n  strip_width: 2 1/2\n  requires: {{ crib: {{ strips: 6, fabric: 18 in }}, twin: {{ strips: {strips}, fabric: {fabric} }} }}\n\
         backing: {{ requires: {{ crib: 95 in, twin: {backing} }} }}\n"
    );
    let found = of_rule(&text, "scaled-size");
    assert_eq!(!found.is_empty(), asked);
    if let [finding] = &found[..] {
        assert_says(finding, &["3 numbers of twin are exactly 2 times those of crib,"]);
        assert_eq!(finding.size.as_deref(), Some("twin"));
        assert_eq!(finding.at.at.text(&text), strips);
    }
}
