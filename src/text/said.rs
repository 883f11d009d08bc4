//! What a text says in numbers, as a sign-off compares it: each number in one spelling, with the places of the manuscript
//! that it was matched to.

use super::files::TextFile;
use super::keys::{Key, KeyValue};
use super::numbers::Ratio;
use super::reading::{ReadNumber, State};
use crate::manuscript::Span;
use crate::quantity::{Length, Unit, common_divisor};

/// A number that a text says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SaidNumber {
    /// The number with its unit, however it is spelled in the text: `2 1/2 in`, `9`, `6.4 cm`.
    pub says: String,
    /// Where the manuscript states what it was matched to; empty where it was matched to nothing.
    pub of: Vec<Span>,
    /// Whether it may be a requirement: a page, a date or the size of a needle is none.
    pub is_required: bool,
    /// The words round it.
    pub quote: String,
    /// Where it stands in what is shown of the text.
    pub at: Span,
}

/// The numbers of a text that was read, in the order of reading, by the keys that they were matched to.
pub(super) fn said_numbers(file: &TextFile, keys: &[Key], numbers: &[ReadNumber]) -> Vec<SaidNumber> {
    let said = numbers.iter().map(|number| {
        let at = file.span(number.passage, number.at.clone());
        let mut of: Vec<Span> = number.keys.iter().map(|key| keys[*key].at).collect();
        of.sort();
        of.dedup();
        SaidNumber {
            says: says(number, keys),
            of,
            is_required: !matches!(number.state, State::NotRequired(_)),
            quote: file.quote(number.passage, &number.at, &number.sentence),
            at,
        }
    });
    said.collect()
}

/// A number in the spelling that is compared. A spelling that can be read in several ways, or has its unit elsewhere, is
/// what the manuscript states, where that is among them.
fn says(number: &ReadNumber, keys: &[Key]) -> String {
    let values = || number.keys.iter().map(|key| &keys[*key].value);
    let likeliest = || spelled(number.readings[0], number.unit);
    if values().any(|value| matches!(value, KeyValue::Count(_) | KeyValue::Grid(..))) {
        return likeliest();
    }
    let lengths: Vec<Length> = values().flat_map(lengths).collect();
    let units =
        number.unit.map_or(&UNITS[..], |unit| UNITS.iter().find(|own| **own == unit).map_or(&[], std::slice::from_ref));
    let mut stated = number.readings.iter().flat_map(|ratio| units.iter().map(move |unit| (*ratio, *unit)));
    match stated.find(|(ratio, unit)| lengths.contains(&ratio.of(*unit))) {
        Some((ratio, unit)) => spelled(ratio, Some(unit)),
        None => likeliest(),
    }
}

/// The units, those that a bare number is likeliest in first.
const UNITS: [Unit; 6] = [Unit::Inch, Unit::Yard, Unit::Cm, Unit::Metre, Unit::Mm, Unit::Foot];

/// The lengths that a value has.
fn lengths(value: &KeyValue) -> Vec<Length> {
    match value {
        KeyValue::Count(_) | KeyValue::Grid(..) => Vec::new(),
        KeyValue::Length(lengths) | KeyValue::Amount(lengths) => lengths.clone(),
        KeyValue::Sides(sides) => sides.iter().flat_map(|(width, length)| [*width, *length]).collect(),
    }
}

/// A number as it is compared and told: with a fraction in inches and yards, with a decimal in metric units.
fn spelled(ratio: Ratio, unit: Option<Unit>) -> String {
    const PLACES: u32 = 4;
    let mark = unit.map(|unit| format!(" {}", unit.mark())).unwrap_or_default();
    let (top, over) = (i128::from(ratio.top), i128::from(ratio.over));
    let (whole, rest) = (top / over, top % over);
    let decimal = (1..=PLACES).find(|places| rest * 10_i128.pow(*places) % over == 0);
    match (decimal, whole) {
        (_, whole) if rest == 0 => format!("{whole}{mark}"),
        (Some(places), whole) if unit.is_some_and(Unit::is_metric) => {
            let digits = rest * 10_i128.pow(places) / over;
            format!("{whole}.{digits:0width$}{mark}", width = places as usize)
        }
        (_, whole) => {
            let divisor = common_divisor(rest, over);
            let (top, over) = (rest / divisor, over / divisor);
            if whole == 0 { format!("{top}/{over}{mark}") } else { format!("{whole} {top}/{over}{mark}") }
        }
    }
}
