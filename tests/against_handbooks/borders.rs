//! Borders, sashing and quilts on point: the sizes that editors, teachers and designers print.

use rstest::rstest;
use sparestrip::manuscript::model::{Corners, Set};
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::binding::{joined, strips_for};
use sparestrip::quilt_math::layout::{Border, Sashing, Side, Top};
use sparestrip::quilt_math::rectangle::Rectangle;

use crate::against_handbooks::length;

/// A quilt of one block, which is as large as the quilt inside its borders.
fn top(width: &str, height: &str, borders: &[(&str, Corners, &str)]) -> Top {
    let borders = borders.iter().map(|(width, corners, ease)| Border::even(length(width), *corners, length(ease)));
    Top {
        set: Set::Straight,
        across: Count(1),
        down: Count(1),
        block: Rectangle::new(length(width), length(height)),
        sashing: None,
        borders: borders.collect(),
        rows: None,
    }
}

fn straight(text: &str) -> Side {
    Side::straight(length(text))
}

/// Marje Rhine, American Quilter's Society blog, "Better fitting mitered borders": a quilt 36 wide with a border of 4
/// takes strips of 36 + 2 x 4 + 2 = 46.
#[test]
fn an_editor_cuts_mitred_borders_with_two_inches_of_ease() {
    let strips = top("36", "36", &[("4", Corners::Mitred, "2")]).border_strips(0, length("1/4")).unwrap();
    assert_eq!((strips.sides, strips.ends), (straight("46"), straight("46")));
}

/// Quilting Board t168402: borders of 1, 2 1/2 and 3 1/2 round 50 x 60 are mitred as one of 7: twice 7 and 1 more
/// make 65 x 75.
#[test]
fn borders_that_are_mitred_together() {
    let strips = top("50", "60", &[("7", Corners::Mitred, "1")]).border_strips(0, length("1/4")).unwrap();
    assert_eq!((strips.ends, strips.sides), (straight("65"), straight("75")));
    let three = [("1", Corners::Mitred, "1"), ("2 1/2", Corners::Mitred, "1"), ("3 1/2", Corners::Mitred, "1")];
    assert_eq!(top("50", "60", &three).finished(), top("50", "60", &[("7", Corners::Mitred, "1")]).finished());
}

/// Class notes "4 B's": three borders one after the other round a top that measures 32 1/2 x 44 with its seams, so
/// 32 x 43 1/2 finished. Two strips at the sides first, then two across.
#[rstest]
#[case::first(("32", "43 1/2"), "1", Corners::Butted, "1 1/2", ("44", "34 1/2"), 0)]
#[case::second(("34", "45 1/2"), "2", Corners::Butted, "2 1/2", ("46", "38 1/2"), 0)]
#[case::third(("38", "49 1/2"), "4", Corners::Cornerstones, "4 1/2", ("50", "38 1/2"), 4)]
fn class_notes(
    #[case] (width, height): (&str, &str),
    #[case] border: &str,
    #[case] corners: Corners,
    #[case] cut: &str,
    #[case] (sides, ends): (&str, &str),
    #[case] squares: u64,
) {
    let strips = top(width, height, &[(border, corners, "0")]).border_strips(0, length("1/4")).unwrap();
    assert_eq!(strips.width, length(cut));
    assert_eq!((strips.sides, strips.ends), (straight(sides), straight(ends)));
    assert_eq!(strips.cornerstones, Count(squares));
}

/// The same notes as one quilt: each border lies round the one before it.
#[test]
fn class_notes_one_border_after_the_other() {
    let quilt = top(
        "32",
        "43 1/2",
        &[("1", Corners::Butted, "0"), ("2", Corners::Butted, "0"), ("4", Corners::Cornerstones, "0")],
    );
    let all: Vec<_> = (0..3).map(|index| quilt.border_strips(index, length("1/4")).unwrap()).collect();
    let sides: Vec<_> = all.iter().map(|strips| (strips.sides, strips.ends)).collect();
    let printed = [("44", "34 1/2"), ("46", "38 1/2"), ("50", "38 1/2")];
    assert_eq!(sides, printed.map(|(sides, ends)| (straight(sides), straight(ends))));
}

/// "In The Garden Quilt", `FreeSpirit` Fabrics (2023): blocks of 12 3/8 on point, 4 across and 5 down, measure
/// 70 1/2 x 88 with their seams, and a butted border of 2 takes two strips of 88 and two of 74 1/2.
#[test]
fn a_sheet_on_point() {
    let quilt = Top {
        set: Set::OnPoint,
        across: Count(4),
        down: Count(5),
        block: Rectangle::new(length("12 3/8"), length("12 3/8")),
        sashing: None,
        borders: vec![Border::even(length("2"), Corners::Butted, Length::ZERO)],
        rows: None,
    };
    let (eighth, seams) = (length("1/8"), length("1/2"));
    let (width, height) = quilt.inner();
    let (width, height) = (width.plus(seams), height.plus(seams));
    assert_eq!((width.nearest(eighth), height.nearest(eighth)), (length("70 1/2"), length("88")));
    // Exactly 70.5036 and 88.0045: within a sixty-fourth, and not to the hair.
    assert!(width.is_within(length("1/64"), length("70 1/2")) && !width.is_within(Length::ZERO, length("70 1/2")));
    assert!(height.is_within(length("1/64"), length("88")) && !height.is_within(Length::ZERO, length("88")));
    assert_eq!(quilt.side_triangles(), Count(14));
    let strips = quilt.border_strips(0, length("1/4")).unwrap();
    assert_eq!((strips.sides.nearest(eighth), strips.ends.nearest(eighth)), (length("88"), length("74 1/2")));
}

/// School slides, "Can you figure the amount of yardage to buy": a border of 6 round 70 x 86 makes 82 x 98, and
/// 312 + 26 = 338 in of it are bought. The sides of it take 336, so that is enough.
#[test]
fn school_slides() {
    let quilt = top("70", "86", &[("6", Corners::Butted, "0")]);
    assert_eq!(quilt.finished(), (straight("82"), straight("98")));
    let strips = quilt.border_strips(0, length("1/4")).unwrap();
    let seams = length("1/2");
    let total = (strips.sides.above() - seams + (strips.ends.above() - seams)) * 2;
    assert_eq!(total, length("336"));
}

/// Quilting Board 511807-post6: a lengthwise border of 4 for the side of 72 of a quilt is cut 72 + 4 + 4 + 2 = 82; cut
/// across, a strip of 40 is good for 40 - 4 = 36 once it is joined on the diagonal.
#[test]
fn a_border_cut_along_the_fabric() {
    let strips = top("60", "72", &[("4", Corners::Mitred, "2")]).border_strips(0, length("1/4")).unwrap();
    assert_eq!(strips.sides, straight("82"));
    let loss = length("4");
    assert_eq!(joined(Count(3), length("40"), loss) - joined(Count(2), length("40"), loss), length("36"));
    assert_eq!(strips_for(length("82"), length("40"), loss), Some(Count(3))); // 40 + 36 = 76, and 112
}

/// `McCall's Quilting`, January/February 2020, p. 76: 42 blocks of 4 units with 2 B squares each take 336; set 6 across and
/// 7 down with sashes between the blocks of each row, 7 x 5 = 35 sashes.
#[test]
fn a_magazine_counts_squares_and_sashes() {
    let quilt = Top {
        set: Set::Straight,
        across: Count(6),
        down: Count(7),
        block: Rectangle::new(length("12"), length("12")),
        sashing: Some(Sashing { width: length("2"), round: false, cornerstones: false, whole_at_edge: false }),
        borders: Vec::new(),
        rows: None,
    };
    assert_eq!(quilt.blocks(), Count(42));
    assert_eq!(quilt.blocks() * Count(4) * Count(2), Count(336));
    assert_eq!(quilt.upright_sashes().count, Count(35));
}

/// The same through a manuscript: 336 squares are enough and 335 are not, 35 sashes are enough and 34 are not.
#[rstest]
#[case("336", "35", &[])]
#[case("335", "35", &["pieces-short"])]
#[case("336", "34", &["pieces-short"])]
fn a_magazine_counts_in_a_manuscript(#[case] squares: &str, #[case] sashes: &str, #[case] rules: &[&str]) {
    let text = format!(
        "pattern: Ferry Steps\nmeasure: inch\nsizes: {{ throw: {{ finished: 82 x 96 }} }}\n\
         fabrics:\n  ink:\n    requires: {{ throw: 20 yd }}\n    cut:\n      \
         - {{ piece: B, size: 3 1/2 x 3 1/2, pieces: {{ throw: {squares} }} }}\n      \
         - {{ piece: S, size: 2 1/2 x 12 1/2, pieces: {{ throw: {sashes} }} }}\n\
         units:\n  plain: {{ make: patch, finished: 3, cut: {{ patch: B }} }}\n  \
         wide: {{ make: patch, finished: 6 x 3, cut: {{ patch: 6 1/2 x 3 1/2 }} }}\n\
         blocks:\n  steps:\n    finished: 12\n    rows:\n      - [plain, plain, wide]\n      - [plain, plain, wide]\n      \
         - [plain, plain, wide]\n      - [plain, plain, wide]\n\
         layout: {{ throw: {{ across: 6, down: 7, blocks: steps, sashing: 2, sash: S }} }}\n"
    );
    let source = sparestrip::manuscript::Source::from_text("ferry-steps.pattern.yaml", text);
    let outcome = sparestrip::check::check(&source, &sparestrip::rule_book::Settings::default());
    let found: Vec<_> =
        outcome.findings.iter().map(|finding| finding.rule).filter(|rule| *rule != "fabric-generous").collect();
    assert_eq!(found, rules);
}
