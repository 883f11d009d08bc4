//! What is printed.

use rstest::rstest;
use sparestrip::quantity::{Count, Length, Measure, Round, Unit, Written, Yardage, read_length};

fn length(text: &str) -> Length {
    read_length(text, Measure::Inch).unwrap().length
}

#[rstest]
#[case("2.5", "2 1/2 in", "2 1/2 in")]
#[case("0", "0 in", "0 in")]
#[case("40", "40 in", "40 in")]
#[case(".125", "1/8 in", "1/8 in")]
#[case("4/8", "1/2 in", "1/2 in")]
// Finer than an eighth where it is needed.
#[case("2 3/16", "2 3/16 in", "2 3/16 in")]
#[case("2 1/64", "2 1/64 in", "2 1/64 in")]
// What no 64th is goes to the eighth below and above; below an inch to the 64th.
#[case("6.35 cm", "2 1/2 in", "2 1/2 in")]
#[case("60 cm", "23 5/8 in", "23 1/2 in")]
#[case("5 mm", "13/64 in", "3/16 in")]
fn inches(#[case] value: &str, #[case] up: &str, #[case] down: &str) {
    assert_eq!(length(value).show(Measure::Inch, Round::Up), up);
    assert_eq!(length(value).show(Measure::Inch, Round::Down), down);
}

#[rstest]
#[case("6.5 cm", "6.5 cm", "6.5 cm")]
#[case("6 cm", "6 cm", "6 cm")]
#[case("0.4 cm", "0.4 cm", "0.4 cm")]
#[case("2 1/2 in", "6.4 cm", "6.3 cm")]
#[case("1 yd", "91.5 cm", "91.4 cm")]
#[case("1 m", "100 cm", "100 cm")]
fn centimetres(#[case] value: &str, #[case] up: &str, #[case] down: &str) {
    assert_eq!(length(value).show(Measure::Cm, Round::Up), up);
    assert_eq!(length(value).show(Measure::Cm, Round::Down), down);
}

#[rstest]
#[case("22 1/2", "5/8 yd", "5/8 yd (22 1/2 in)")]
#[case("12", "1/3 yd", "1/3 yd (12 in)")]
#[case("6", "1/6 yd", "1/6 yd (6 in)")]
#[case("27", "3/4 yd", "3/4 yd (27 in)")]
#[case("36", "1 yd", "1 yd (36 in)")]
#[case("45", "1 1/4 yd", "1 1/4 yd (45 in)")]
#[case("27 1/2", "27 1/2 in", "27 1/2 in")]
fn yards(#[case] value: &str, #[case] alone: &str, #[case] both: &str) {
    assert_eq!(Yardage(length(value)).show(Measure::Inch, Round::Up), alone);
    assert_eq!(Yardage(length(value)).show_both(Measure::Inch, Round::Up), both);
}

#[rstest]
#[case("60 cm", "60 cm")]
#[case("99.9 cm", "99.9 cm")]
#[case("1 m", "1 m")]
#[case("125 cm", "1.25 m")]
#[case("5/8 yd", "57.2 cm")]
fn metres(#[case] value: &str, #[case] shown: &str) {
    assert_eq!(Yardage(length(value)).show(Measure::Cm, Round::Up), shown);
    assert_eq!(Yardage(length(value)).show_both(Measure::Cm, Round::Up), shown);
}

/// A correction is written in the unit that the writer used, with a mark where there was one.
#[rstest]
#[case(Unit::Inch, true, "27", "27")]
#[case(Unit::Inch, false, "2 1/2", "2 1/2 in")]
#[case(Unit::Yard, false, "31 1/2", "7/8 yd")]
#[case(Unit::Cm, true, "70 cm", "70")]
#[case(Unit::Cm, false, "6.5 cm", "6.5 cm")]
#[case(Unit::Mm, false, "6.5 cm", "65 mm")]
#[case(Unit::Metre, false, "60 cm", "0.6 m")]
#[case(Unit::Metre, false, "1.25 m", "1.25 m")]
#[case(Unit::Cm, false, "2 1/2", "6.4 cm")]
fn rewritten(#[case] unit: Unit, #[case] bare: bool, #[case] value: &str, #[case] text: &str) {
    let written = Written { length: Length::ZERO, unit, bare };
    assert_eq!(written.rewrite(length(value)), text);
}

#[test]
fn counts_are_counted_in_words() {
    assert_eq!(Count(1).of("strip"), "1 strip");
    assert_eq!(Count(0).of("strip"), "0 strips");
    assert_eq!(Count(9).of("diagonal join"), "9 diagonal joins");
}
