//! Pieces from strips, yards and fat quarters, and the fabric that they take.

use rstest::rstest;
use sparestrip::quantity::{Count, Length, Yardage};
use sparestrip::quilt_math::cutting::{Cloth, Cut, Shape};
use sparestrip::quilt_math::cutting_list::taken;

use crate::against_handbooks::length;

fn piece(width: &str, height: &str) -> Shape {
    Shape::Piece { width: length(width), height: length(height), turns: true, strip_width: None }
}

fn pieces(shape: Shape, count: u64) -> Cut {
    Cut { shape, strips: None, pieces: Some(Count(count)), joins: None, within: None }
}

fn bolt(width: &str) -> Cloth {
    Cloth::Bolt { width: length(width) }
}

/// How much of the bolt so many pieces take.
fn fabric(cut: Cut, cloth: Cloth) -> Length {
    taken(&[cut], cloth).unwrap().plan.length()
}

/// So many squares come out of a yard, and one more does not.
#[track_caller]
fn come_out_of(most: u64, side: &str, usable: &str, of: &str) {
    let square = piece(side, side);
    assert!(fabric(pieces(square, most), bolt(usable)) <= length(of), "{most} of {side} at {usable}");
    assert!(fabric(pieces(square, most + 1), bolt(usable)) > length(of), "{} of {side} at {usable}", most + 1);
}

/// Marcia Hohn, Quilter's Cache, "Math Charts" (2002): squares from 1 yd of 44 in. The same yard at 42 and at 40.
#[rstest]
#[case("1", 1584, 1512, 1440)]
#[case("1 7/8", 437, 418, 399)]
#[case("2 1/2", 238, 224, 224)]
#[case("3", 168, 168, 156)]
#[case("3 7/8", 99, 90, 90)]
#[case("4 1/2", 72, 72, 64)]
#[case("5", 56, 56, 56)]
#[case("5 7/8", 42, 42, 36)]
#[case("6 1/2", 30, 30, 30)]
#[case("7 7/8", 20, 20, 20)]
#[case("8 1/2", 20, 16, 16)]
#[case("9", 16, 16, 16)]
#[case("9 7/8", 12, 12, 12)]
#[case("10 1/2", 12, 12, 9)]
#[case("11", 12, 9, 9)]
#[case("11 7/8", 9, 9, 9)]
#[case("12 1/2", 6, 6, 6)]
fn squares_from_a_yard(#[case] side: &str, #[case] at_44: u64, #[case] at_42: u64, #[case] at_40: u64) {
    come_out_of(at_44, side, "44", "1 yd");
    come_out_of(at_42, side, "42", "1 yd");
    come_out_of(at_40, side, "40", "1 yd");
}

/// The same chart prints 35 squares of 7 in. Six across and five down are 30; at 40 in, 25.
#[test]
fn the_printed_thirty_five_squares_of_seven_are_thirty() {
    assert!(fabric(pieces(piece("7", "7"), 35), bolt("44")) > length("1 yd"));
    come_out_of(30, "7", "44", "1 yd");
    come_out_of(30, "7", "42", "1 yd");
    come_out_of(25, "7", "40", "1 yd");
}

/// Marcia Hohn, Quilter's Cache, "Math Charts" (2002); Piece Full Living, "Number of squares from a fat quarter" (2011):
/// printed for 18 x 22. Less comes out of the fat quarter that is cut narrower.
#[rstest]
#[case("2", 99, 90, 90)]
#[case("2 7/8", 42, 42, 36)]
#[case("3 1/2", 30, 30, 25)]
#[case("4", 20, 20, 20)]
#[case("4 7/8", 12, 12, 12)]
#[case("5 1/2", 12, 9, 9)]
#[case("6", 9, 9, 9)]
#[case("6 7/8", 6, 6, 4)]
fn squares_from_a_fat_quarter(#[case] side: &str, #[case] by_22: u64, #[case] by_21: u64, #[case] by_20: u64) {
    for (across, most) in [("22", by_22), ("21", by_21), ("20", by_20)] {
        let cloth = Cloth::Small { across: length(across), along: length("18"), turns: true };
        let quarters = |count| taken(&[pieces(piece(side, side), count)], cloth).unwrap().small;
        assert_eq!(quarters(most), Some(Count(1)), "{most} of {side} from 18 x {across}");
        assert_eq!(quarters(most + 1), Some(Count(2)), "{} of {side} from 18 x {across}", most + 1);
    }
}

/// Bonnie Hunter, Quiltville, "How many squares in a yard" (2005): from 36 in and from 45 in by 36.
#[rstest]
#[case("3", 144, 180)]
#[case("4", 81, 99)]
#[case("5", 49, 63)]
#[case("6", 36, 42)]
#[case("7", 25, 30)]
#[case("9", 16, 20)]
#[case("10", 9, 12)]
#[case("11", 9, 12)]
#[case("13", 4, 6)]
#[case("14", 4, 6)]
#[case("16", 4, 4)]
#[case("17", 4, 4)]
#[case("18", 4, 4)]
fn squares_from_a_yard_of_two_widths(#[case] side: &str, #[case] at_36: u64, #[case] at_45: u64) {
    come_out_of(at_36, side, "36", "1 yd");
    come_out_of(at_45, side, "45", "1 yd");
}

#[rstest]
// Annie's, "Precuts to Yardage": 5 in squares from a 5 in strip, and 10 in squares from a 10 in strip, at 42 in.
#[case::annies_five("5", "5", "42", 8)]
#[case::annies_ten("10", "10", "42", 4)]
#[case::annies_five_at_40("5", "5", "40", 8)]
#[case::annies_ten_at_40("10", "10", "40", 4)]
// Bobbin In Quilts, "How to figure out how much fabric you need": rectangles 3 x 2 at 40 in.
#[case::bobbin_in_quilts("3", "2", "40", 13)]
// Quilting Board, post 6228687: squares of 9 1/2 at 42 in.
#[case::quilting_board("9 1/2", "9 1/2", "42", 4)]
// harriger.com, "Inches to yards": squares of 3 1/2 from 44 in.
#[case::harriger("3 1/2", "3 1/2", "44", 12)]
fn pieces_come_out_of_a_strip(#[case] width: &str, #[case] height: &str, #[case] usable: &str, #[case] yields: u64) {
    let shape = Shape::Piece { width: length(width), height: length(height), turns: false, strip_width: None };
    let ways = shape.ways(bolt(usable));
    assert_eq!(
        ways.iter().map(|way| (way.per_strip, way.strip_width)).collect::<Vec<_>>(),
        [(Count(yields), length(height))]
    );
}

#[rstest]
// Bobbin In Quilts: 300 rectangles, 24 rows, 48 in, "1 1/3 yd".
#[case::bobbin_in_quilts("3", "2", 300, "40", 24, "48", "1 1/3 yd")]
// Quilting Board, post 6228687: 63 squares, 16 rows, 152 in, 4.222 yd.
#[case::quilting_board("9 1/2", "9 1/2", 63, "42", 16, "152", "4 2/9 yd")]
// harriger.com: 100 squares, 9 strips of 3 1/2.
#[case::harriger("3 1/2", "3 1/2", 100, "44", 9, "31 1/2", "7/8 yd")]
fn strips_and_fabric(
    #[case] width: &str,
    #[case] height: &str,
    #[case] count: u64,
    #[case] usable: &str,
    #[case] strips: u64,
    #[case] taken: &str,
    #[case] printed: &str,
) {
    let shape = Shape::Piece { width: length(width), height: length(height), turns: false, strip_width: None };
    let cut = pieces(shape, count);
    assert_eq!(cut.needed(bolt(usable)).map(|(_, needed)| needed), Some(Count(strips)));
    assert_eq!(fabric(cut, bolt(usable)), length(taken));
    assert_eq!(length(taken), Yardage(length(printed)).0);
}

/// Quilting Board, post 6228687, types four squares of 9 1/2 as 37 in; they are 38, and both come out of 42.
#[test]
fn four_squares_of_nine_and_a_half_are_thirty_eight() {
    assert_eq!(length("9 1/2") * Count(4), length("38"));
}
