//! Bias: how large a square, how much strip it gives, and how many strips lie across fabric.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::bias::{rectangle_gives, square_for, square_gives, strips_from};
use sparestrip::quilt_math::fixed_point::{Side, root};
use sparestrip::rule_book::Settings;

use crate::against_handbooks::length;

/// The next whole inch at or above the root of length x width, which is what a square's area alone asks for.
fn whole_side_by_area(long: &str, width: &str) -> Length {
    root(length(long).ticks() * length(width).ticks(), Side::Above).up_to(length("1"))
}

/// Beth Hayes, "Continuous Bias", `McCall's` Quilting: the table of squares. The length is twice width and length and
/// 10 in more; the two seams that make the square a tube take 1/4 in each side.
#[rstest]
#[case("110", "1 1/2", "14", "13", "121.5")]
#[case("110", "2", "16", "15", "120.1")]
#[case("110", "2 1/2", "18", "17", "122.5")]
#[case("110", "3", "20", "19", "126.8")]
#[case("220", "1 1/2", "19", "19", "228.2")]
#[case("220", "2", "23", "21", "253.1")]
#[case("220", "2 1/2", "26", "24", "260.1")]
#[case("220", "3", "28", "26", "252.1")]
fn mccalls_squares_suffice(
    #[case] long: &str,
    #[case] width: &str,
    #[case] side: &str,
    #[case] by_area: &str,
    #[case] gives: &str,
) {
    let (strip, seam, side) = (length(width), length("1/4"), length(side));
    assert!(square_for(length(long), strip, seam) <= side, "the printed square is enough");
    assert!(square_gives(side, strip, seam) >= length(long));
    // Printed to a tenth of an inch.
    let near = (square_gives(side, strip, seam) - length(gives)).abs();
    assert!(near <= length("0.1"), "{near:?}");
    assert_eq!(whole_side_by_area(long, width), length(by_area));
    let above = side - whole_side_by_area(long, width);
    assert!(!above.is_negative() && above <= length("3"), "0 to 3 in above the area's side");
}

#[rstest]
// MyDecozo, soft furnishing FAQ, "Making continuous piping strips": a 20 in square makes 200 in of 2 in strip.
#[case::mydecozo("20", "2", "200")]
// sewaquilt.com, "Bias tape": a 12 in square makes 72 in.
#[case::sewaquilt("12", "2", "72")]
fn a_square_gives_its_area(#[case] square: &str, #[case] width: &str, #[case] published: &str) {
    assert_eq!(square_gives(length(square), length(width), Length::ZERO), length(published));
}

#[rstest]
// MyDecozo: 250 in of 2 in strip, 22.36 in, so a 23 in square.
#[case::mydecozo("250", "2", "22.3606", "22.3607", "23")]
// Geta's Quilting Studio, "Continuous bias binding cheat sheets" (2018): 11.72 in, so a 12 in square. (11.726 in; it
// is cut short there, and not rounded.)
#[case::getas("55", "2 1/2", "11.7260", "11.7261", "12")]
fn a_square_for_a_length(
    #[case] long: &str,
    #[case] width: &str,
    #[case] above: &str,
    #[case] below: &str,
    #[case] whole: &str,
) {
    let side = square_for(length(long), length(width), Length::ZERO);
    assert!(side > length(above) && side < length(below), "{side:?}");
    assert_eq!(side.up_to(length("1")), length(whole));
}

/// koolqlt: bias strips of 2 1/2 in across 40 in of fabric, "11.4, use 11". It is 11.31, and 11 all the same, with the
/// seam that closes the ends or without it.
#[test]
fn eleven_bias_strips_across_forty_inches() {
    for seam in [Length::ZERO, length("1/4")] {
        let strips = strips_from(length("40"), length("30"), length("2 1/2"), seam);
        assert_eq!(strips.available, Count(11));
    }
    let pitch = strips_from(length("40"), length("30"), length("2 1/2"), Length::ZERO).pitch;
    assert!(pitch * 1131 < length("40") * 100 && pitch * 1132 > length("40") * 100, "11.31 of them");
}

/// Quilting Board, post 8276918: a 64 x 64 quilt, 16 in extra (272 in), fabric 31 in wide, 20 in of it, "8 lengths" of
/// 2 1/2 in. The strips were counted by their width along the selvedge: 8 x 2 1/2 = 20. Each takes 3.54 in of it.
#[test]
fn the_published_slip_is_caught() {
    let text = "pattern: Long Meadow\nmeasure: inch\nsizes: { wall: { finished: 64 x 64 } }\nbinding:\n  strip_width: 2 1/2\n  \
                grain: bias\n  extra_length: 16\n  usable_width: 31\n  requires:\n    wall: { strips: 8, fabric: 20 in }\n";
    let outcome = check(&Source::from_text("long-meadow.pattern.yaml", text), &Settings::default());
    let errors: Vec<_> = outcome.findings.iter().filter(|finding| finding.level.word() == "error").collect();
    assert!(!errors.is_empty());
    assert!(errors.iter().all(|finding| finding.rule == "bias-short"), "{errors:#?}");
    assert_eq!(errors[0].at.at.text(text), "8");
    // From edge to edge of the 20 in, a strip is 28.28 in: eight, less seven joins of 0.71 in, make 221.3 in of 272.
    assert!(errors[0].message.contains("8 bias strips stated; 10 needed"), "{}", errors[0].message);
    assert!(errors[0].help.contains("272 in"), "{}", errors[0].help);

    // Strips as long as the page says, across all of the 31 in: 20 in of selvedge give five of them, not eight.
    let strips = strips_from(length("20"), length("20"), length("2 1/2"), Length::ZERO);
    assert_eq!(strips.available, Count(5));
    let run = strips_from(length("31"), length("31"), length("2 1/2"), Length::ZERO).run;
    assert!(run > length("43.8") && run < length("43.9"), "the bias of 31 in is 43.8, as published");
    let told = text.replace("fabric: 20 in", "strip_length: 43 3/4, fabric: 20 in");
    let outcome = check(&Source::from_text("long-meadow.pattern.yaml", told.as_str()), &Settings::default());
    let finding = outcome.findings.iter().find(|finding| finding.at.at.text(&told) == "20 in").unwrap();
    assert_eq!(finding.rule, "bias-short");
}

/// Continuous bias from rectangles, each with what its source prints: whether that much comes out of it, seams taken off.
/// 26 x 26 in, 3 in wide, "just over 5 yd" (Reva, easy continuous bias, Quality Sewing). A fat quarter, 18 x 21 in, "around 5
/// yd": true of 2 in strips without the seams (Connie Dumas, Quilting Cubby). 12, 13 and 15 in, 2 in wide, 60, 72 and 100 in
/// with 1 in lost both ways: the last is 2 in over (copied texts on continuous bias).
#[rstest]
#[case("26", "26", "3", "1/4", "180", true)]
#[case("18", "21", "2 1/4", "1/4", "180", false)]
#[case("18", "21", "2", "1/4", "180", false)]
#[case("18", "21", "2", "0", "180", true)]
#[case("12", "12", "2", "1/2", "60", true)]
#[case("13", "13", "2", "1/2", "72", true)]
#[case("15", "15", "2", "1/2", "100", false)]
#[case("15", "15", "2", "1/2", "98", true)]
#[case("12", "12", "2", "0", "72", true)]
fn a_rectangle_gives_its_area(
    #[case] width: &str,
    #[case] long: &str,
    #[case] strip: &str,
    #[case] seam: &str,
    #[case] published: &str,
    #[case] is_enough: bool,
) {
    let gives = |sides| rectangle_gives(sides, length(strip), length(seam));
    let (width, long) = (length(width), length(long));
    assert_eq!(gives((width, long)), gives((long, width)));
    assert_eq!(gives((width, long)) >= length(published), is_enough);
}
