//! How many strips, and how much fabric they take.

use rstest::rstest;
use sparestrip::manuscript::model::Grain;
use sparestrip::quantity::{Count, Length, Yardage};
use sparestrip::quilt_math::binding::{Ends, Method, cut_plan, lengths, strips_for};
use sparestrip::quilt_math::outline::Edge;

use crate::against_handbooks::length;

/// The length that the handbooks divide: the perimeter and their extra.
fn asked(width: &str, depth: &str, extra: &str) -> Length {
    let edge = Edge::rectangle(length(width), length(depth));
    let method = Method {
        strip_width: length("2 1/2"),
        join_loss: Length::ZERO,
        closing: Length::ZERO,
        take_up: Length::ZERO,
        ends: Ends::Extra(length(extra)),
    };
    lengths(&edge, &method).asked
}

/// What so many strips take of the bolt.
fn fabric(strips: u64, strip_width: &str, divisor: &str) -> Length {
    let usable = length(divisor);
    cut_plan(Count(strips), Grain::Crosswise, length(strip_width), usable, usable).unwrap().fabric.0
}

#[rstest]
// Castilleja Cotton (2013), "How to calculate number of strips": 2 in off each strip of 40, for the joins.
#[case::castilleja_cotton("50", "60", "0", "38", "220", 6)]
// Always in Stitches Ohio (2009), "How to figure binding".
#[case::always_in_stitches("40", "50", "0", "40", "180", 5)]
// Once Upon a Quilt, "Tips and tricks": 1 in for each corner and 4 in to tuck, 8 in together.
#[case::once_upon_a_quilt("78", "56", "8", "40", "276", 7)]
// Monica Curry (2019), "How to make a double fold flange quilt": 10 in extra.
#[case::monica_curry("54", "60", "10", "42", "238", 6)]
// Make with Might (2017), "Baby buckeye quilt with binding tip".
#[case::make_with_might("38.5", "38.5", "0", "42", "154", 4)]
// Slaney Quilting Studio, "How much fabric needed for binding": 160 in is just four strips of 40.
#[case::slaney_exactly_four("40", "40", "0", "40", "160", 4)]
#[case::slaney("58", "58", "0", "40", "232", 6)]
// Quilts by Jen, "Calculating amounts of fabric for binding".
#[case::quilts_by_jen("42.75", "63.5", "0", "40", "212.5", 6)]
// Quilting Board, thread t189575: 12 in extra.
#[case::quilting_board_t189575("96", "110", "12", "40", "424", 11)]
// Quilting Board, thread t202636: 20 in extra.
#[case::quilting_board_t202636("52", "64", "20", "40", "252", 7)]
// Lookout Mountain Quilter, "Single-fold binding": 10 in extra; the same count at 44 in and at 40 in.
#[case::lookout_mountain("18 1/4", "14 1/4", "10", "44", "75", 2)]
#[case::lookout_mountain_at_40("18 1/4", "14 1/4", "10", "40", "75", 2)]
// Garden Gems pattern (Cotton + Joy), printed requirements; the width and the extra that it goes by are not printed, so 40 in and 10 in.
#[case::garden_gems("75", "90", "10", "40", "340", 9)]
// Martingale / That Patchwork Place, "Corrections available", at 40 in and 10 extra.
#[case::martingale("45.5", "54.5", "10", "40", "210", 6)]
// Australian Homespun magazine, December 2014 p. 52, and "Measure twice, cut once"; 10 extra.
#[case::homespun_2014("80.5", "63.5", "10", "42", "298", 8)]
#[case::homespun_measure_twice("59.5", "57.5", "10", "42", "244", 6)]
fn whole_strips_decide(
    #[case] width: &str,
    #[case] depth: &str,
    #[case] extra: &str,
    #[case] divisor: &str,
    #[case] total: &str,
    #[case] strips: u64,
) {
    let asked = asked(width, depth, extra);
    assert_eq!(asked, length(total));
    assert_eq!(strips_for(asked, length(divisor), Length::ZERO), Some(Count(strips)));
}

/// learnhowtoquilt.com, "Binding: how long": 114 in round at 45 in is 2.53 strips, taken as 2 1/2; half a strip more
/// for the ends makes 3, and a whole strip to spare makes 4.
#[test]
fn learn_how_to_quilt_prints_four() {
    let half = length("45").half();
    let published = half * Count(5) + half;
    assert_eq!(strips_for(published, length("45"), Length::ZERO).map(|strips| strips + Count(1)), Some(Count(4)));
    // Taking 2.53 as 2 1/2 leaves out 1 1/2 in: with those the same ends take a fourth strip before any is to spare.
    assert_eq!(length("114") - half * Count(5), length("1 1/2"));
    assert_eq!(strips_for(length("114") + half, length("45"), Length::ZERO), Some(Count(4)));
}

#[rstest]
// Always in Stitches Ohio: "12.5 in".
#[case::always_in_stitches(5, "2 1/2", "40", "12 1/2")]
// Once Upon a Quilt.
#[case::once_upon_a_quilt(7, "2", "40", "14")]
// Monica Curry: 9 1/2 and 11 in, of which 2 in are for uneven edges.
#[case::monica_curry_main(6, "1 1/4", "42", "7 1/2")]
#[case::monica_curry_flange(6, "1 1/2", "42", "9")]
// Quilts by Jen.
#[case::quilts_by_jen(6, "2 1/4", "40", "13 1/2")]
// Quilting Board t189575: 27 1/2 in, published as 26 1/2 in and "approx. 3/4 yd".
#[case::quilting_board_t189575(11, "2 1/2", "40", "27 1/2")]
// Quilting Board t202636.
#[case::quilting_board_t202636(7, "2 1/4", "40", "15 3/4")]
// Garden Gems pattern.
#[case::garden_gems(9, "2 1/2", "40", "22 1/2")]
// Martingale, "Corrections available"; Homespun magazine.
#[case::martingale(6, "2 1/2", "40", "15")]
#[case::homespun_2014(8, "2 1/2", "42", "20")]
#[case::homespun_measure_twice(6, "2 1/2", "42", "15")]
fn fabric_for_strips(#[case] strips: u64, #[case] strip_width: &str, #[case] divisor: &str, #[case] taken: &str) {
    assert_eq!(fabric(strips, strip_width, divisor), length(taken));
}

#[rstest]
// Quilting Board t202636: 1/2 yd for seven strips of 2 1/4 in. Martingale and Homespun: 1/2 yd for six of 2 1/2 in.
#[case::quilting_board_t202636("15 3/4", "1/2 yd")]
#[case::martingale_and_homespun("15", "1/2 yd")]
// Garden Gems: 5/8 yd is 22 1/2 in, just what nine strips of 2 1/2 in take; Homespun: 60 cm (5/8 yd).
#[case::garden_gems("22 1/2", "5/8 yd")]
#[case::homespun_2014("20", "5/8 yd")]
fn printed_yardage_is_the_next_eighth(#[case] taken: &str, #[case] printed: &str) {
    assert_eq!(Yardage(length(taken)).up_to(Yardage(length("1/8 yd"))), Yardage(length(printed)));
}

/// Homespun magazine prints 60 cm beside 5/8 yd and 50 cm beside 1/2 yd: each is enough by itself.
#[test]
fn each_half_of_the_printed_pairs_is_enough() {
    for half in ["60 cm", "5/8 yd"] {
        assert!(length(half) >= fabric(8, "2 1/2", "42"));
    }
    for half in ["50 cm", "1/2 yd"] {
        assert!(length(half) >= fabric(6, "2 1/2", "42"));
    }
}

/// The extras that are printed, and with which the length of a 54 x 72 throw is asked for.
#[rstest]
// Quilters Pantry TN (2011); All-in-One Quilter's Reference Tool (C&T); Christa Watson, "Quilty Math"; McCall's,
// "Continuous Bias"; Monica Curry (2019); Lookout Mountain Quilter.
#[case::ten("10", "262")]
// Quilting Board t189575; Suite101 binding article (2009).
#[case::twelve("12", "264")]
// Quick Tips Sewing (2011).
#[case::twenty_four("24", "276")]
// Once Upon a Quilt: 1 in for each of four corners and 4 in to tuck.
#[case::eight("8", "260")]
fn a_stated_extra_is_taken_at_its_word(#[case] extra: &str, #[case] asked_for: &str) {
    let edge = Edge::rectangle(length("54"), length("72"));
    let method = Method {
        strip_width: length("2 1/2"),
        join_loss: length("2 1/2"),
        closing: length("2 1/2"),
        take_up: length("1/2"),
        ends: Ends::Extra(length(extra)),
    };
    assert_eq!(lengths(&edge, &method).asked, length(asked_for));
}

/// Four corners at 1/2 in, tails of 10 in and an opening of 12 in come to the commonest printed rule, P + 10.
#[test]
fn the_usual_tails_come_to_ten_inches_more() {
    let edge = Edge::rectangle(length("54"), length("72"));
    let ends = Ends::Tails { start: length("10"), end: length("10"), opening: length("12") };
    let (strip_width, join_loss, take_up) = (length("2 1/2"), length("2 1/2"), length("1/2"));
    let method = Method { strip_width, join_loss, closing: join_loss, take_up, ends };
    assert_eq!(lengths(&edge, &method).asked, edge.perimeter() + length("10"));
}

/// Once Upon a Quilt, "Tips and Tricks": 1 in at each corner and 4 in to tuck one end into the other, strips of 40 in
/// whose joins are not counted: 276 in, 7 strips.
#[test]
fn ends_that_are_tucked_take_the_tuck_and_no_join() {
    let edge = Edge::rectangle(length("78"), length("56"));
    let ends = Ends::Extra(length("0"));
    let (strip_width, join_loss, take_up) = (length("2"), Length::ZERO, length("1"));
    let method = Method { strip_width, join_loss, closing: length("4"), take_up, ends };
    assert_eq!(lengths(&edge, &method).asked, length("276"));
    assert_eq!(strips_for(length("276"), length("40"), join_loss), Some(Count(7)));
}
