//! Lengths as plain whole numbers, how a writer may write them, and how a finding should print them.
//!
//! Inches are whole 64ths and metric lengths whole tenths of a millimetre. A pair such as `5/8 yd (60 cm)` needs
//! both at once, and half a strip needs halves: all of these are whole in 1/640 mm, since 1 in is 25.4 mm exactly.

use crate::support::rng::Rng;

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
pub(crate) fn decimal(value: i64, one: i64, places: u32) -> String {
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

/// A length as a finding prints it: as it is in inches to 64ths, in whole or tenths of a millimetre, in decimals or
/// other fractions of an inch, or in decimals of a millimetre; what is none of these is rounded.
pub(crate) fn printed(value: i64, metric: bool, round: Round) -> String {
    if let Some(exact) = printed_exactly(value, metric) {
        return exact;
    }
    let value = rounded(value, metric, round);
    printed_exactly(value, metric).expect("a step that is printed")
}

fn printed_exactly(value: i64, metric: bool) -> Option<String> {
    let fraction = |most: i64| {
        let over = (1..=most).find(|over| value * over % INCH == 0)?;
        let (whole, rest) = (value * over / INCH / over, value * over / INCH % over);
        Some(match (whole, rest) {
            (whole, 0) => format!("{whole} in"),
            (0, rest) => format!("{rest}/{over} in"),
            (whole, rest) => format!("{whole} {rest}/{over} in"),
        })
    };
    if !metric && value % SIXTY_FOURTH == 0 {
        return fraction(64);
    }
    if value % MM == 0 {
        return Some(format!("{} cm", decimal(value, CM, 1)));
    }
    if value % TENTH_OF_MM == 0 {
        return Some(format!("{} mm", decimal(value, MM, 1)));
    }
    if !metric && value * 10_000 % INCH == 0 {
        return Some(format!("{} in", decimal(value, INCH, 4)));
    }
    if let Some(fraction) = fraction(256).filter(|_| !metric) {
        return Some(fraction);
    }
    (value * 10_000 % MM == 0).then(|| format!("{} mm", decimal(value, MM, 4)))
}

/// The length that is printed, for a difference that a reader can work out again.
pub(crate) fn rounded(value: i64, metric: bool, round: Round) -> i64 {
    let step = match (metric, value >= INCH) {
        _ if printed_exactly(value, metric).is_some() => return value,
        (true, _) => MM,
        (false, true) => INCH / 8,
        (false, false) => SIXTY_FOURTH,
    };
    round.steps(value, step) * step
}

/// A fabric amount as a finding prints it: in yards where a shop sells such a fraction, from one metre in metres.
pub(crate) fn printed_fabric(value: i64, metric: bool, round: Round) -> String {
    if metric && value >= METRE {
        if value % TENTH_OF_MM == 0 {
            return format!("{} m", decimal(value, METRE, 4));
        }
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
        Mark::Inch => match mixed(value, INCH) {
            Some(number) => format!("{number} in"),
            None => in_decimals(value, INCH, "in").unwrap_or_else(|| up_to_decimals(value, MM, 4, "mm")),
        },
        Mark::Mm => up_to_decimals(value, MM, 4, "mm"),
        Mark::Cm => in_decimals(value, CM, "cm").unwrap_or_else(|| up_to_decimals(value, CM, 1, "cm")),
        Mark::Metre => in_decimals(value, METRE, "m").unwrap_or_else(|| up_to_decimals(value, METRE, 3, "m")),
    }
}

/// In as many decimals as are read, where that is exact.
fn in_decimals(value: i64, one: i64, mark: &str) -> Option<String> {
    (value * 10_000 % one == 0).then(|| format!("{} {mark}", decimal(value, one, 4)))
}

fn up_to_decimals(value: i64, one: i64, places: u32, mark: &str) -> String {
    let per_one = 10_i64.pow(places);
    let steps = (value * per_one + one - 1) / one;
    format!("{} {mark}", decimal_of(steps, per_one, places as usize))
}

fn in_yards(value: i64) -> Option<String> {
    let sold = [YARD / 6, YARD / 16].iter().any(|step| value % step == 0);
    if sold { mixed(value, YARD) } else { None }
}

/// Whether both halves of a pair that are enough can be meant: each is what to buy, or one is the other rounded, to the
/// nearest or up. `buy` and `step` are those of each half; a step up beyond what to buy is too much.
pub(crate) fn pair_can_be_meant(halves: [&Stated; 2], buy: [i64; 2], step: [i64; 2]) -> bool {
    let sold = |index: usize| (buy[index]..buy[index] + step[index]).contains(&halves[index].value);
    if sold(0) && sold(1) {
        return true;
    }
    let apart = (halves[0].value - halves[1].value).abs();
    if halves[0].mark.metric() == halves[1].mark.metric() {
        return apart <= step[0].max(step[1]);
    }
    let metric = usize::from(!halves[0].mark.metric());
    let (metres, yards, sold_by) = (halves[metric].value, halves[1 - metric].value, step[1 - metric]);
    let metres_by = step[metric];
    let near = apart == 0 || [1, 10, 50, 100].into_iter().any(|mm| metres % (mm * MM) == 0 && 2 * apart <= mm * MM);
    let up_to_sold = metres % metres_by == 0 && (0..metres_by).contains(&(metres - yards));
    let up = [50, 100, 250].into_iter().any(|mm| metres % (mm * MM) == 0 && (0..mm * MM).contains(&(metres - yards)));
    let yards_to = |by: i64| yards % by == 0 && (2 * apart <= by || (0..by).contains(&(yards - metres)));
    near || up || up_to_sold || yards_to(sold_by) || yards_to(YARD / 8)
}
