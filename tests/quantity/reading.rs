//! What is read, and as what.

use rstest::rstest;
use sparestrip::quantity::{
    Count, Length, Measure, Unit, read_amount, read_count, read_dimensions, read_length, run_together,
};

/// So many 64ths of an inch.
fn sixty_fourths(top: i64) -> Length {
    Length::inch_fraction(top, 64)
}

fn read(text: &str) -> Length {
    read_length(text, Measure::Inch).unwrap().length
}

#[rstest]
#[case("2 1/2", 160)]
#[case("2-1/2", 160)]
#[case("2½", 160)]
#[case("2 ½", 160)]
#[case("2-½", 160)]
#[case("½", 32)]
#[case("1/2", 32)]
#[case("2.5", 160)]
#[case("2.50", 160)]
#[case(".5", 32)]
#[case("0.5", 32)]
#[case("0", 0)]
#[case("007", 448)]
#[case("5/4", 80)]
#[case("2  1/2", 160)]
#[case(" 2 1/2 ", 160)]
#[case("2\u{a0}1/2", 160)]
#[case("2\u{202f}½", 160)]
#[case("2 1⁄2", 160)]
#[case("1/64", 1)]
#[case("2 63/64", 191)]
#[case("1.0625", 68)]
#[case("¼", 16)]
#[case("¾", 48)]
#[case("⅛", 8)]
#[case("⅜", 24)]
#[case("⅝", 40)]
#[case("⅞", 56)]
fn a_bare_number_is_inches_where_the_measure_is(#[case] text: &str, #[case] top: i64) {
    let written = read_length(text, Measure::Inch).unwrap();
    assert_eq!((written.length, written.unit, written.bare), (sixty_fourths(top), Unit::Inch, true));
}

#[rstest]
#[case("⅓", "1/3")]
#[case("⅔", "2/3")]
#[case("⅕", "1/5")]
#[case("⅖", "2/5")]
#[case("⅗", "3/5")]
#[case("⅘", "4/5")]
#[case("⅙", "1/6")]
#[case("⅚", "5/6")]
fn one_character_fractions_are_what_they_say(#[case] character: &str, #[case] written_out: &str) {
    let (top, over) = written_out.split_once('/').unwrap();
    let parts: (i64, i64) = (top.parse().unwrap(), over.parse().unwrap());
    assert_eq!(read(character), read(written_out));
    assert_eq!(read(character).ticks() * i128::from(parts.1), Length::inches(parts.0).ticks());
}

#[rstest]
#[case(Unit::Inch, &["in", "In", "IN", "in.", "ins", "inch", "inches", "Inches", "\"", "″", "”", "''", "’’", "′′", "＂"])]
#[case(Unit::Foot, &["ft", "ft.", "foot", "feet", "FT"])]
#[case(Unit::Yard, &["y", "yd", "yds", "yd.", "Yd", "yard", "yards", "YARDS"])]
#[case(Unit::Mm, &["mm", "MM", "millimetre", "millimetres", "millimeter", "millimeters"])]
#[case(Unit::Cm, &["cm", "CM", "centimetre", "centimetres", "centimeter", "centimeters"])]
#[case(Unit::Metre, &["m", "M", "metre", "metres", "meter", "meters"])]
fn every_mark(#[case] unit: Unit, #[case] marks: &[&str]) {
    for mark in marks {
        for number in ["2 1/2", "2-1/2", "2–1/2", "2½", "2 ½", "2.5"] {
            for text in [format!("{number} {mark}"), format!("{number}{mark}"), format!("{number}  {mark} ")] {
                for measure in [Measure::Inch, Measure::Cm] {
                    let written = read_length(&text, measure).unwrap();
                    assert_eq!((written.unit, written.bare), (unit, false), "{text}");
                    assert_eq!(written.length + written.length, unit.one() * 5, "{text}");
                }
            }
        }
    }
}

/// 1 in is 25.4 mm and 1 yd 0.9144 m exactly.
#[test]
fn units_are_exact() {
    assert_eq!(read("1 in"), read("25.4 mm"));
    assert_eq!(read("1 yd"), read("0.9144 m"));
    assert_eq!(read("1 yd"), read("36"));
    assert_eq!(read("1 m"), read("100 cm"));
    assert_eq!(read("1 cm"), read("10 mm"));
    assert_eq!(read("12.7 mm"), read("1/2"));
}

#[test]
fn a_bare_number_is_centimetres_where_the_measure_is() {
    let written = read_length("6.5", Measure::Cm).unwrap();
    assert_eq!((written.length, written.unit, written.bare), (Length::millimetres(65), Unit::Cm, true));
    assert_eq!(read_length("2 1/2\"", Measure::Cm).unwrap().length, sixty_fourths(160));
}

#[rstest]
#[case("5/8 yd", "5/8 yd", None)]
#[case("5/8 yd (60 cm)", "5/8 yd", Some("60 cm"))]
#[case("5/8yd(60cm)", "5/8 yd", Some("60 cm"))]
#[case("5/8yd/60cm", "5/8 yd", Some("60 cm"))]
#[case("5/8 yd / 60 cm", "5/8 yd", Some("60 cm"))]
#[case("5/8 yd, 60 cm", "5/8 yd", Some("60 cm"))]
#[case("60 cm, 5/8 yd", "60 cm", Some("5/8 yd"))]
#[case("⅝y,½m", "5/8 yd", Some("50 cm"))]
#[case("1 1/4 yds （1.15 m）", "45", Some("115 cm"))]
#[case("60 cm ( 5/8 yard )", "60 cm", Some("5/8 yd"))]
#[case("1 1/4 yards (1.15 m)", "45", Some("115 cm"))]
#[case("⅝ yd (600 mm)", "22 1/2", Some("0.6 m"))]
#[case("22 ½ (57.15 cm)", "5/8 yd", Some("5/8 yd"))]
fn amounts_and_pairs(#[case] text: &str, #[case] first: &str, #[case] second: Option<&str>) {
    let amount = read_amount(text, Measure::Inch).unwrap();
    assert_eq!(amount.yardage().0, read(first));
    assert_eq!(amount.pair().map(|half| half.0), second.map(read));
    if let Some((half, place)) = &amount.second {
        assert_eq!(read(&text[place.clone()]), half.length);
        assert!(!text[place.clone()].starts_with(' ') && !text[place.clone()].ends_with(' '));
    }
    let (least, most) = (amount.least(), amount.most());
    assert!(least <= amount.yardage() && amount.yardage() <= most);
    assert!(amount.pair().is_none_or(|pair| least <= pair && pair <= most));
}

#[rstest]
#[case("54 x 72", "54", "72")]
#[case("54 by 72", "54", "72")]
#[case("54by72", "54", "72")]
#[case("54\" BY 72\"", "54", "72")]
#[case("54 * 72", "54", "72")]
#[case("54'' x 72''", "54", "72")]
#[case("54’’ x 72’’", "54", "72")]
#[case("54′′ × 72′′", "54", "72")]
#[case("５４ｘ７２", "54", "72")]
#[case("4 ft x 5 ft", "48", "60")]
#[case("1 x 2 yd", "36", "72")]
#[case("42¾ by 63 ¹⁄₂", "42 3/4", "63 1/2")]
#[case("54 × 72", "54", "72")]
#[case("54x72", "54", "72")]
#[case("54×72", "54", "72")]
#[case("54 X 72", "54", "72")]
#[case("54\" x 72\"", "54", "72")]
#[case("54″ × 72″", "54", "72")]
#[case("54 in x 72 in", "54", "72")]
#[case("54inx72in", "54", "72")]
#[case("137cmx183cm", "137 cm", "183 cm")]
#[case("1 yd x 2 yd", "36", "72")]
#[case("42 3/4 x 63½", "42 3/4", "63 1/2")]
#[case("42-3/4 x 63 ½", "42 3/4", "63 1/2")]
#[case("90 cm × 120 cm", "90 cm", "120 cm")]
// A mark on one of the two serves for both, whichever it is on.
#[case("54 x 72\"", "54", "72")]
#[case("90 x 120 cm", "90 cm", "120 cm")]
#[case("90 cm x 120", "90 cm", "120 cm")]
#[case("1.2 m x 150 cm", "120 cm", "150 cm")]
fn sizes(#[case] text: &str, #[case] width: &str, #[case] length: &str) {
    let (first, second) = read_dimensions(text, Measure::Inch).unwrap();
    assert_eq!((first.length, second.length), (read(width), read(length)));
}

#[rstest]
#[case("0", 0)]
#[case("8", 8)]
#[case(" 12 ", 12)]
#[case("１２", 12)]
#[case("0012", 12)]
#[case("100000", 100_000)]
fn counts(#[case] text: &str, #[case] count: u64) {
    assert_eq!(read_count(text), Ok(Count(count)));
}

/// The same number in the signs that keyboards, spreadsheets and phones make of it.
#[rstest]
#[case("2–1/2")]
#[case("2‑1/2")]
#[case("2 1⁄2")]
#[case("2 1∕2")]
#[case("2 1／2")]
#[case("2¹/₂")]
#[case("2 ¹⁄₂")]
#[case("2¹⁄2")]
#[case("２ １／２")]
#[case("２．５")]
#[case("2\u{3000}½")]
#[case("2\u{2005}1/2")]
#[case("2 1/2-inch")]
#[case("2½-in")]
fn two_and_a_half(#[case] text: &str) {
    assert_eq!(read_length(text, Measure::Inch).unwrap().length, read("2 1/2"), "{text}");
}

/// Read as it is written, and asked about.
#[rstest]
#[case("41/2", "41/2", "20 1/2", "4 1/2")]
#[case("21/2", "21/2", "10 1/2", "2 1/2")]
#[case("121/2", "121/2", "60 1/2", "12 1/2")]
#[case("41/4 in", "41/4", "10 1/4", "4 1/4")]
#[case("105/8", "105/8", "13 1/8", "10 5/8")]
#[case("1111/16", "1111/16", "69 7/16", "11 11/16")]
#[case("42/3", "42/3", "14", "4 2/3")]
#[case("54 x 641/2", "641/2", "320 1/2", "64 1/2")]
#[case("541/2 x 64", "541/2", "270 1/2", "54 1/2")]
#[case("11/8 yd (1.1 m)", "11/8", "1 3/8", "1 1/8")]
#[case("1.1 m (11/8 yd)", "11/8", "1 3/8", "1 1/8")]
#[case("1.1 m/11/8 yd", "11/8", "1 3/8", "1 1/8")]
#[case("４１／２", "４１／２", "20 1/2", "4 1/2")]
#[case("41⁄2", "41⁄2", "20 1/2", "4 1/2")]
fn fractions_that_run_together(#[case] text: &str, #[case] at: &str, #[case] read_as: &str, #[case] meant: &str) {
    let found = run_together(text).unwrap();
    assert_eq!((&text[found.at.clone()], found.read_as.as_str(), found.meant.as_str()), (at, read_as, meant));
    if text == at {
        assert_eq!(read_length(text, Measure::Inch).unwrap().length, read(read_as));
    }
}

#[rstest]
#[case("4 1/2")]
#[case("4-1/2")]
#[case("3/2")]
#[case("12/8")]
#[case("10/8")]
#[case("11/16")]
#[case("40/8")]
#[case("16 11/16")]
#[case("4¹/₂")]
#[case("5/8yd/60cm")]
#[case("54 x 72")]
#[case("")]
#[case("/")]
#[case("41/0")]
fn fractions_that_can_mean_one_number(#[case] text: &str) {
    assert_eq!(run_together(text), None);
}
