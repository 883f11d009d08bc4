//! Print then read gives the same value; and any text is either read or refused at a place inside it.

use proptest::prelude::*;
use sparestrip::quantity::{
    Fault, FaultKind, Length, Measure, Round, Unit, Written, Yardage, read_amount, read_count, read_dimensions,
    read_length, run_together,
};

const MEASURES: [Measure; 2] = [Measure::Inch, Measure::Cm];
const ROUNDS: [Round; 2] = [Round::Up, Round::Down];

fn any_unit() -> impl Strategy<Value = Unit> {
    prop::sample::select(vec![Unit::Inch, Unit::Foot, Unit::Yard, Unit::Mm, Unit::Cm, Unit::Metre])
}

/// Any text, and text made of the characters that quantities are made of.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![any::<String>(), "[0-9０-９ ./⁄½⅝⅚×xX*\"″”'’()\\-–−,a-z¹²₀-₉\u{a0}]{0,24}", quantity_like()]
}

/// Pieces of quantities in any order.
fn quantity_like() -> impl Strategy<Value = String> {
    let pieces = vec![
        "2",
        "1/2",
        "½",
        "2 1/2",
        ".5",
        "2.5",
        "64",
        "65",
        "2000",
        "99999999999",
        " ",
        "-",
        "/",
        ".",
        "x",
        "×",
        "(",
        ")",
        "yd",
        " in",
        "cm",
        "mm",
        "m",
        "\"",
        "″",
        "é",
        "０",
        "¹",
        "₂",
        "⁄",
        "–",
        "'",
        "''",
        ",",
        "by",
        " ft",
        "y",
        "41/2",
        "\u{202f}",
    ];
    prop::collection::vec(prop::sample::select(pieces), 0..8).prop_map(|pieces| pieces.concat())
}

fn lies_in(text: &str, fault: &Fault) {
    let at = &fault.at;
    assert!(at.start <= at.end && at.end <= text.len(), "{at:?} in {text:?}");
    assert!(text.is_char_boundary(at.start) && text.is_char_boundary(at.end), "{at:?} in {text:?}");
    assert!(at.start < at.end || at.end == text.len(), "an empty place before the end: {at:?} in {text:?}");
    assert!(!fault.why.is_empty());
}

fn in_bounds(written: &Written) {
    assert!(!written.length.is_negative() && written.length <= Length::LONGEST);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_or_refused_inside_it(text in any_text()) {
        for measure in MEASURES {
            match read_length(&text, measure) {
                Ok(written) => in_bounds(&written),
                Err(fault) => lies_in(&text, &fault),
            }
            match read_amount(&text, measure) {
                Ok(amount) => {
                    amount.halves().for_each(in_bounds);
                    if let Some((half, place)) = &amount.second {
                        prop_assert_eq!(read_length(&text[place.clone()], measure), Ok(*half));
                    }
                }
                Err(fault) => lies_in(&text, &fault),
            }
            match read_dimensions(&text, measure) {
                Ok((width, length)) => [width, length].iter().for_each(in_bounds),
                Err(fault) => lies_in(&text, &fault),
            }
        }
        if let Some(found) = run_together(&text) {
            let meant = read_length(&found.meant, Measure::Inch);
            prop_assert!(meant.is_ok() || meant.is_err_and(|fault| fault.kind == FaultKind::OutOfRange), "{found:?}");
            let as_written = read_length(&text[found.at.clone()], Measure::Inch).map(|written| written.length);
            if let Ok(length) = as_written {
                prop_assert_eq!(read_length(&found.read_as, Measure::Inch).map(|written| written.length), Ok(length));
            }
        }
        if let Err(fault) = read_count(&text) {
            lies_in(&text, &fault);
        }
    }

    #[test]
    fn inches_to_64ths_are_printed_and_read_the_same(top in 0_i64..=2000 * 64) {
        let length = Length::inch_fraction(top, 64);
        for round in ROUNDS {
            let shown = length.show(Measure::Inch, round);
            prop_assert_eq!(read_length(&shown, Measure::Cm).map(|read| read.length), Ok(length), "{}", shown);
        }
    }

    #[test]
    fn millimetres_are_printed_and_read_the_same(mm in 0_i64..=50_800) {
        let length = Length::millimetres(mm);
        for round in ROUNDS {
            for shown in [length.show(Measure::Cm, round), Yardage(length).show(Measure::Cm, round)] {
                prop_assert_eq!(read_length(&shown, Measure::Inch).map(|read| read.length), Ok(length), "{}", shown);
            }
        }
    }

    #[test]
    fn shop_fractions_of_a_yard_are_printed_and_read_the_same(
        whole in 0_i64..55, top in 0_i64..16, over in prop::sample::select(vec![1_i64, 2, 3, 4, 6, 8, 16]),
    ) {
        let length = Length::inch_fraction(36 * (whole * over + top % over), over);
        let shown = Yardage(length).show(Measure::Inch, Round::Up);
        prop_assert!(shown.ends_with(" yd"), "{}", shown);
        prop_assert_eq!(read_length(&shown, Measure::Cm).map(|read| read.length), Ok(length), "{}", shown);
    }

    /// What is written again is read as the same length where the unit can say it, and never as less.
    #[test]
    fn rewritten_lengths_are_read_the_same(unit in any_unit(), bare in any::<bool>(), steps in 0_i64..=3200) {
        // A writer leaves the mark out only where the measure says what it would be.
        let measure = if unit == Unit::Cm { Measure::Cm } else { Measure::Inch };
        let bare = bare && matches!(unit, Unit::Inch | Unit::Cm);
        let (one, finest) = match unit {
            Unit::Inch | Unit::Foot | Unit::Yard => (unit.one(), 64),
            Unit::Mm | Unit::Cm => (unit.one(), 10),
            Unit::Metre => (unit.one(), 1000),
        };
        let length = Length::from_ticks(one.ticks() * i128::from(steps) / finest);
        let text = Written { length: Length::ZERO, unit, bare, other: None }.rewrite(length);
        let read = read_length(&text, measure);
        prop_assert_eq!(read, Ok(Written { length, unit, bare, other: None }), "{}", text);
    }

    #[test]
    fn rewritten_lengths_are_never_less(unit in any_unit(), tenths in 0_i64..=500_000, top in 0_i64..=2000 * 64 - 64) {
        let tenth_of_a_millimetre = Length::millimetres(1).ticks() / 10;
        for length in [Length::from_ticks(tenth_of_a_millimetre * i128::from(tenths)), Length::inch_fraction(top, 64)] {
            let text = Written { length: Length::ZERO, unit, bare: false, other: None }.rewrite(length);
            let read = read_length(&text, Measure::Inch);
            let read = read.map(|read| read.length).map_err(|fault| fault.why);
            prop_assert!(read.is_ok(), "{text}: {read:?}");
            let over = read.map_or(length, |read| read) - length;
            prop_assert!(!over.is_negative() && over < Length::inch_fraction(1, 8), "{text} for {length:?}");
        }
    }
}
