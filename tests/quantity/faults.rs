//! What is refused, and the very characters that are named.

use rstest::rstest;
use sparestrip::quantity::{Fault, FaultKind, Measure, read_amount, read_count, read_dimensions, read_length};

/// The text with the named place in square brackets, so that a case shows what a reader would see underlined.
fn marked(text: &str, fault: &Fault) -> String {
    let (before, after) = (&text[..fault.at.start], &text[fault.at.end..]);
    format!("{before}[{}]{after}", &text[fault.at.clone()])
}

fn asserts(text: &str, fault: &Fault, kind: FaultKind, place: &str) {
    assert_eq!(marked(text, fault), place, "{}", fault.why);
    assert_eq!(fault.kind, kind, "{}", fault.why);
    assert!(!fault.why.is_empty() && !fault.why.ends_with('.'), "{}", fault.why);
}

#[rstest]
#[case("", "[]")]
#[case("   ", "   []")]
#[case("abc", "[a]bc")]
#[case("é2", "[é]2")]
#[case("-3", "[-]3")]
#[case("−3", "[−]3")]
#[case("2,5", "2[,]5")]
#[case("2..5", "2.[.]5")]
#[case("2.", "2.[]")]
#[case(".", ".[]")]
#[case(". 5", ".[ ]5")]
#[case("2 1/", "2 1/[]")]
#[case("2 1/ 2", "2 1/[ ]2")]
#[case("2 1/x", "2 1/[x]")]
#[case("2 1/0", "2 1/[0]")]
#[case("1/00", "1/[00]")]
#[case("2 3/2", "2 [3/2]")]
#[case("2 2/2", "2 [2/2]")]
#[case("2 1", "2 1[]")]
#[case("2-", "2-[]")]
#[case("2-3", "2-3[]")]
#[case("2--1/2", "2-[-]1/2")]
#[case("2½½", "2½[½]")]
#[case("½½", "½[½]")]
#[case("½ 2", "½ [2]")]
#[case("1/2/3", "1/2[/]3")]
#[case("1/2 1/2", "1/2 [1]/2")]
#[case("2 1/2 furlongs", "2 1/2 [furlongs]")]
#[case("2 1/2 größe", "2 1/2 [größe]")]
#[case("2 1/2 in in", "2 1/2 in [i]n")]
#[case("2 1/2 \"\"", "2 1/2 \"[\"]")]
#[case("2 1/2'''", "2 1/2[''']")]
#[case("2 1/4,", "2 1/4[,]")]
#[case("–3", "[–]3")]
#[case("2²", "2²[]")]
#[case("2 ³/₂", "2 [³/₂]")]
#[case("2 ¹/₀", "2 ¹/[₀]")]
#[case("40 by 48", "40 [b]y 48")]
#[case("40×48", "40[×]48")]
#[case("60 cm, 24", "60 cm, [24]")]
#[case("60, 24 in", "60[,] 24 in")]
#[case("60 cm, 1 m", "60 cm, [1 m]")]
#[case("4 1/2 in (11.5 cm", "4 1/2 in (11.5 cm[]")]
#[case("4 1/2 in (2 x 11.5 cm)", "4 1/2 in (2 [x] 11.5 cm)")]
#[case("4 1/2 in (4 in)", "4 1/2 in ([4 in])")]
#[case("2 1/2'", "2 1/2[']")]
#[case("2 1/2 x 3", "2 1/2 [x] 3")]
#[case("2 11/8", "2 [11/8]")]
#[case("2 1/2cmx", "2 1/2cm[x]")]
#[case("5/8 yd (60 cm) 2", "5/8 yd (60 cm) [2]")]
#[case("1e9", "1[e]9")]
#[case("about 5", "[a]bout 5")]
fn unreadable_lengths(#[case] text: &str, #[case] place: &str) {
    for measure in [Measure::Inch, Measure::Cm] {
        asserts(text, &read_length(text, measure).unwrap_err(), FaultKind::Unreadable, place);
    }
}

#[rstest]
#[case("5/8 yd (60 cm", "5/8 yd (60 cm[]")]
#[case("5/8 yd (60 cm]", "5/8 yd (60 cm[]]")]
#[case("5/8 yd ()", "5/8 yd ([)]")]
#[case("5/8 yd (sixty)", "5/8 yd ([s]ixty)")]
#[case("5/8 yd (60 cm) 3", "5/8 yd (60 cm) [3]")]
#[case("5/8 yd (60 cm) (1 m)", "5/8 yd (60 cm) [(]1 m)")]
#[case("5/8 yd 60 cm", "5/8 yd [6]0 cm")]
#[case("5/8 yd,", "5/8 yd[,]")]
#[case("5/8 yd, ", "5/8 yd[,] ")]
#[case("1 yd, 4 in", "1 yd, [4 in]")]
#[case("1 yd / 4", "1 yd / [4]")]
#[case("60 cm, 1 m", "60 cm, [1 m]")]
#[case("5/8, 60 cm", "5/8[,] 60 cm")]
#[case("5/8 yd, 60 cm, 1 m", "5/8 yd, 60 cm[,] 1 m")]
#[case("5/8 yd, cm", "5/8 yd[,] cm")]
fn unreadable_amounts(#[case] text: &str, #[case] place: &str) {
    asserts(text, &read_amount(text, Measure::Inch).unwrap_err(), FaultKind::Unreadable, place);
}

#[rstest]
#[case("54", "54[]")]
#[case("54 x", "54 x[]")]
#[case("x 72", "[x] 72")]
#[case("54 byx 72", "54 [byx] 72")]
#[case("54 by", "54 by[]")]
#[case("1 yd x 60", "1 yd x [60]")]
#[case("2 ft by 6", "2 ft by [6]")]
#[case("1 m x 60", "1 m x [60]")]
#[case("54 x 72 x 2", "54 x 72 [x] 2")]
#[case("54 x -72", "54 x [-]72")]
#[case("54 × größe", "54 × [g]röße")]
fn unreadable_sizes(#[case] text: &str, #[case] place: &str) {
    asserts(text, &read_dimensions(text, Measure::Inch).unwrap_err(), FaultKind::Unreadable, place);
}

#[rstest]
#[case("", "[]")]
#[case("eight", "[e]ight")]
#[case("-1", "[-]1")]
#[case("8.5", "8[.]5")]
#[case("8 1/2", "8 [1]/2")]
#[case("8½", "8[½]")]
#[case("100,000", "100[,]000")]
#[case("8 strips", "8 [s]trips")]
#[case("8,", "8[,]")]
fn unreadable_counts(#[case] text: &str, #[case] place: &str) {
    asserts(text, &read_count(text).unwrap_err(), FaultKind::Unreadable, place);
}

/// Each says what is the matter, and not another thing.
#[rstest]
#[case("2 1/4,", "nothing follows this comma")]
#[case("2,5", "a decimal has a point")]
#[case("2 1/2'", "may be feet, or half of an inch mark")]
#[case("40 by 48", "one length is expected here")]
#[case("40 x 48", "one length is expected here")]
fn the_reason_is_the_true_one(#[case] text: &str, #[case] why: &str) {
    for measure in [Measure::Inch, Measure::Cm] {
        let fault = read_length(text, measure).unwrap_err();
        assert!(fault.why.contains(why), "{}", fault.why);
    }
}

#[test]
fn a_bare_number_beside_yards_is_asked_about() {
    let why = |text, measure| read_dimensions(text, measure).unwrap_err().why;
    assert_eq!(why("1 yd x 60", Measure::Inch), "it is not said what this is in, yd or in: write its unit too");
    assert_eq!(why("1 m x 60", Measure::Cm), "it is not said what this is in, m or cm: write its unit too");
    let far = why("60 x 1 yd", Measure::Inch);
    assert_eq!(far, "it is read in yd, like the other length, and a length may be at most 2000 in (5080 cm)");
    let amounts = read_amount("1 yd, 4 in", Measure::Inch).unwrap_err().why;
    assert_eq!(amounts, "an amount is one length, or the same in yards and in metric such as 5/8 yd (60 cm)");
    let amounts = read_amount("5/8 yd,", Measure::Inch).unwrap_err().why;
    assert!(amounts.contains("nothing follows this comma"), "{amounts}");
}

/// A comma in a count is taken for thousands, not for a decimal.
#[test]
fn a_comma_is_explained_as_what_it_is() {
    assert!(read_length("2,5", Measure::Inch).unwrap_err().why.contains("point"));
    assert!(read_count("1,000").unwrap_err().why.contains("without commas"));
}

#[rstest]
#[case("2000 1/64", "[2000 1/64]")]
#[case("2000.0001", "[2000.0001]")]
#[case("2001 in", "[2001 in]")]
#[case("5080.1 cm", "[5080.1 cm]")]
#[case("50801 mm", "[50801 mm]")]
#[case("50.8001 m", "[50.8001 m]")]
#[case("55 37/64 yd", "[55 37/64 yd]")]
#[case("999999999", "[999999999]")]
#[case("1000000000", "[1000000000]")]
#[case("99999999999999999999999999999999999999999 in", "[99999999999999999999999999999999999999999] in")]
#[case("1/65", "[1/65]")]
#[case("1/128", "[1/128]")]
#[case("2 1/100", "2 [1/100]")]
#[case("1/99999999999999999999", "[1/99999999999999999999]")]
#[case("1/7", "[1/7]")]
#[case("2 3/11 in", "[2 3/11 in]")]
#[case("2.12345", "[2.12345]")]
#[case("0.00001", "[0.00001]")]
#[case("99999999999.5", "[99999999999.5]")]
fn lengths_out_of_range(#[case] text: &str, #[case] place: &str) {
    asserts(text, &read_length(text, Measure::Inch).unwrap_err(), FaultKind::OutOfRange, place);
}

#[rstest]
#[case("2000")]
#[case("1999 63/64")]
#[case("5080 cm")]
#[case("50800 mm")]
#[case("50.8 m")]
#[case("55 5/9 yd")]
#[case("55.5555 yd")]
#[case("2.12340000")]
#[case("63/64")]
#[case("1/64 yd")]
#[case("1/60")]
fn lengths_just_in_range(#[case] text: &str) {
    assert!(read_length(text, Measure::Inch).is_ok());
}

#[test]
fn the_other_places_have_the_same_bounds() {
    let fault = read_amount("5/8 yd (2001 in)", Measure::Inch).unwrap_err();
    asserts("5/8 yd (2001 in)", &fault, FaultKind::OutOfRange, "5/8 yd ([2001 in])");
    let fault = read_dimensions("54 x 2001", Measure::Inch).unwrap_err();
    asserts("54 x 2001", &fault, FaultKind::OutOfRange, "54 x [2001]");
    let fault = read_dimensions("2001 x 54 cm", Measure::Inch);
    assert!(fault.is_ok(), "2001 cm is in range: the mark serves for both");
    for text in ["100001", "99999999999999999999"] {
        asserts(text, &read_count(text).unwrap_err(), FaultKind::OutOfRange, &format!("[{text}]"));
    }
}
