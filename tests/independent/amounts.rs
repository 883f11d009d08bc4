//! Lengths as plain whole numbers, how a writer may write them, and how a finding should print them.
//!
//! Inches are whole 64ths and metric lengths whole tenths of a millimetre. A pair such as `5/8 yd (60 cm)` needs
//! both at once, and half a strip needs halves: all of these are whole in 1/640 mm, since 1 in is 25.4 mm exactly.

use crate::rng::Rng;

pub(crate) const MM: i64 = 640;
pub(crate) const CM: i64 = 10 * MM;
pub(crate) const METRE: i64 = 1000 * MM;
pub(crate) const TENTH_OF_MM: i64 = MM / 10;
pub(crate) const INCH: i64 = 254 * TENTH_OF_MM;
pub(crate) const SIXTY_FOURTH: i64 = INCH / 64;
pub(crate) const YARD: i64 = 36 * INCH;

/// The mark after a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mark {
    Inch,
    Yard,
    Mm,
    Cm,
    Metre,
}

impl Mark {
    pub(crate) const fn metric(self) -> bool {
        matches!(self, Mark::Mm | Mark::Cm | Mark::Metre)
    }

    /// What a number without a mark means.
    pub(crate) const fn bare(metric: bool) -> Mark {
        if metric { Mark::Cm } else { Mark::Inch }
    }

    /// The finest step in which this crate writes a length with the mark.
    pub(crate) const fn grid(self) -> i64 {
        if self.metric() { TENTH_OF_MM } else { SIXTY_FOURTH }
    }
}

/// A length that stands in a manuscript.
#[derive(Clone, Debug)]
pub(crate) struct Stated {
    pub(crate) value: i64,
    pub(crate) mark: Mark,
    pub(crate) text: String,
}

impl Stated {
    /// Writes a length in one of the ways in which writers do.
    pub(crate) fn new(rng: &mut Rng, value: i64, mark: Mark, metric: bool) -> Stated {
        let mut text = number(rng, value, mark);
        if mark != Mark::bare(metric) || rng.one_in(3) {
            text += suffix(rng, mark);
        }
        Stated { value, mark, text }
    }
}

/// A mark in one of its spellings.
pub(crate) fn suffix(rng: &mut Rng, mark: Mark) -> &'static str {
    rng.pick(match mark {
        Mark::Inch => &[" in", "in", "\"", " inches", "″"],
        Mark::Yard => &[" yd", "yd", " yards", " yard"],
        Mark::Mm => &[" mm", "mm"],
        Mark::Cm => &[" cm", "cm"],
        Mark::Metre => &[" m", "m"],
    })
}

/// The number alone, in one of its spellings.
pub(crate) fn number(rng: &mut Rng, value: i64, mark: Mark) -> String {
    match mark {
        Mark::Mm => decimal(value, MM, 1),
        Mark::Cm => decimal(value, CM, 2),
        Mark::Metre => decimal(value, METRE, 4),
        Mark::Yard => mixed(value, YARD).expect("an amount in yards is a fraction to 1/64"),
        Mark::Inch => {
            let plain = mixed(value, INCH).expect("a length in inches is a fraction to 1/64");
            match rng.below(6) {
                0 => plain.replace(' ', "-"),
                1 => plain.replace(" 1/2", "½").replace(" 3/4", " ¾").replace(" 5/8", "⅝").replace(" 1/8", " ⅛"),
                2 if value % (INCH / 16) == 0 => decimal(value, INCH, 4),
                _ => plain,
            }
        }
    }
}

/// A decimal number that is exact in so many places.
fn decimal(value: i64, one: i64, places: u32) -> String {
    let per_one = 10_i64.pow(places);
    assert_eq!(value * per_one % one, 0, "{value} has more than {places} decimals");
    decimal_of(value * per_one / one, per_one, places as usize)
}

fn decimal_of(steps: i64, per_one: i64, places: usize) -> String {
    let text = format!("{}.{:0places$}", steps / per_one, steps % per_one);
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// A whole number and a fraction, by trying one denominator after another.
pub(crate) fn mixed(value: i64, one: i64) -> Option<String> {
    let over = (1..=64).find(|over| value * over % one == 0)?;
    let top = value * over / one;
    Some(match (top / over, top % over) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{over}"),
        (whole, rest) => format!("{whole} {rest}/{over}"),
    })
}

/// What is there is printed rounded down, what is needed rounded up.
#[derive(Clone, Copy)]
pub(crate) enum Round {
    Up,
    Down,
}

impl Round {
    fn steps(self, value: i64, step: i64) -> i64 {
        match self {
            Round::Up => (value + step - 1) / step,
            Round::Down => value / step,
        }
    }
}

/// A length as a finding prints it: inches to 64ths where exact and else to 8ths, centimetres to one decimal.
pub(crate) fn printed(value: i64, metric: bool, round: Round) -> String {
    let value = rounded(value, metric, round);
    if metric { format!("{} cm", decimal_of(value / MM, 10, 1)) } else { format!("{} in", mixed(value, INCH).unwrap()) }
}

/// The length that is printed, for a difference that a reader can work out again.
pub(crate) fn rounded(value: i64, metric: bool, round: Round) -> i64 {
    let step = match (metric, value >= INCH) {
        (true, _) => MM,
        (false, _) if mixed(value, INCH).is_some() => return value,
        (false, true) => INCH / 8,
        (false, false) => SIXTY_FOURTH,
    };
    round.steps(value, step) * step
}

/// A fabric amount as a finding prints it: in yards where a shop sells such a fraction, from one metre in metres.
pub(crate) fn printed_fabric(value: i64, metric: bool, round: Round) -> String {
    if metric && value >= METRE {
        return format!("{} m", decimal_of(round.steps(value, MM), 1000, 3));
    }
    match in_yards(value) {
        Some(yards) if !metric => format!("{yards} yd"),
        _ => printed(value, metric, round),
    }
}

/// The same with the inches beside the yards.
pub(crate) fn printed_fabric_both(value: i64, metric: bool, round: Round) -> String {
    let amount = printed_fabric(value, metric, round);
    if amount.ends_with("yd") { format!("{amount} ({})", printed(value, metric, round)) } else { amount }
}

/// An amount as it is told beside a stated one, in the same units. A half of a pair keeps its mark, and has no inches
/// beside its yards, which would look like the other half.
pub(crate) fn printed_like(stated: &Stated, paired: bool, value: i64, round: Round) -> String {
    match stated.mark {
        mark if !paired => printed_fabric_both(value, mark.metric(), round),
        Mark::Yard => printed_fabric(value, false, round),
        Mark::Inch => printed(value, false, Round::Up),
        Mark::Mm => format!("{} mm", decimal_of(Round::Up.steps(value, TENTH_OF_MM), 10, 1)),
        Mark::Cm => printed(value, true, Round::Up),
        Mark::Metre => format!("{} m", decimal_of(Round::Up.steps(value, MM), 1000, 3)),
    }
}

fn in_yards(value: i64) -> Option<String> {
    let sold = [YARD / 6, YARD / 16].iter().any(|step| value % step == 0);
    if sold { mixed(value, YARD) } else { None }
}
