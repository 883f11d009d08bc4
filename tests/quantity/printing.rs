//! What is printed.

use rstest::rstest;
use sparestrip::quantity::{Count, Length, Measure, Round, Scale, Unit, Written, Yardage, read_length};

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
#[case("2 33/64", "2 33/64 in", "2 33/64 in")]
// What is no 64th stands as it is in its own unit.
#[case("6.35 cm", "2 1/2 in", "2 1/2 in")]
#[case("60 cm", "60 cm", "60 cm")]
#[case("5 mm", "0.5 cm", "0.5 cm")]
#[case("114.3 mm", "4 1/2 in", "4 1/2 in")]
#[case("11.4 cm", "11.4 cm", "11.4 cm")]
#[case("63.7 mm", "63.7 mm", "63.7 mm")]
#[case("243.36", "243.36 in", "243.36 in")]
#[case("2 1/3", "2 1/3 in", "2 1/3 in")]
fn inches(#[case] value: &str, #[case] up: &str, #[case] down: &str) {
    assert_eq!(length(value).show(Measure::Inch, Round::Up), up);
    assert_eq!(length(value).show(Measure::Inch, Round::Down), down);
}

#[rstest]
#[case("6.5 cm", "6.5 cm", "6.5 cm")]
#[case("6 cm", "6 cm", "6 cm")]
#[case("0.4 cm", "0.4 cm", "0.4 cm")]
#[case("2 1/2 in", "63.5 mm", "63.5 mm")]
#[case("1/4 in", "6.35 mm", "6.35 mm")]
#[case("1 yd", "914.4 mm", "914.4 mm")]
#[case("1/3 in", "0.9 cm", "0.8 cm")]
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
#[case("5/8 yd", "571.5 mm")]
#[case("1.0254 m", "1.0254 m")]
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
#[case(Unit::Cm, false, "2 1/2", "6.35 cm")]
#[case(Unit::Inch, true, "4.5123", "4.5123")]
#[case(Unit::Inch, true, "11.27 cm", "112.7 mm")]
#[case(Unit::Foot, false, "30", "2 1/2 ft")]
fn rewritten(#[case] unit: Unit, #[case] bare: bool, #[case] value: &str, #[case] text: &str) {
    let written = Written { length: Length::ZERO, unit, bare, other: None };
    assert_eq!(written.rewrite(length(value)), text);
}

#[test]
fn counts_are_counted_in_words() {
    assert_eq!(Count(1).of("strip"), "1 strip");
    assert_eq!(Count(0).of("strip"), "0 strips");
    assert_eq!(Count(9).of("diagonal join"), "9 diagonal joins");
}

/// The lengths of one working are shown in one unit in which each is exact, so that they add up as they are shown.
#[rstest]
#[case(Measure::Inch, &["2 1/2", "1/4"], &["2 1/2 in", "1/4 in"])]
#[case(Measure::Inch, &["6 cm", "2 1/2"], &["60 mm", "63.5 mm"])]
#[case(Measure::Inch, &["6 cm", "7 mm"], &["6 cm", "0.7 cm"])]
#[case(Measure::Inch, &["60.84", "2 1/2"], &["60.84 in", "2.5 in"])]
#[case(Measure::Inch, &["6 cm", "1/64"], &["60 mm", "0.396875 mm"])]
#[case(Measure::Inch, &["2 1/3", "1/4"], &["2 1/3 in", "1/4 in"])]
#[case(Measure::Cm, &["6.5 cm", "32.5 mm"], &["65 mm", "32.5 mm"])]
#[case(Measure::Cm, &["6.5 cm", "1/4"], &["65 mm", "6.35 mm"])]
#[case(Measure::Cm, &["90 cm", "120 cm"], &["90 cm", "120 cm"])]
fn lengths_of_one_working(#[case] measure: Measure, #[case] values: &[&str], #[case] shown: &[&str]) {
    let lengths: Vec<Length> = values.iter().map(|value| length(value)).collect();
    let scale = Scale::of(measure, &lengths);
    for round in [Round::Up, Round::Down] {
        assert_eq!(lengths.iter().map(|length| scale.show(*length, round)).collect::<Vec<_>>(), shown);
    }
}
