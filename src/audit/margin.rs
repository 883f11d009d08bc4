//! How much more is stated than is needed, or how much less, from the values themselves.
//!
//! Lengths are taken as they are shown, each rounded once, so that a reader who takes one column from the other comes to
//! the same.

use crate::quantity::{Amount, Count, Length, Measure, Round, Written, Yardage};
use crate::requirement::fabric::Shop;

/// The difference between what is stated and what is needed, in words; empty where there is none to tell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Margin {
    parts: Vec<Part>,
}

/// The difference of a number, or of one half of a pair of amounts.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Part {
    sign: Sign,
    words: String,
}

/// Which way a number differs from what is needed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Less is stated than is needed.
    Short,
    /// Exactly what is needed is stated.
    Even,
    /// More is stated than is needed.
    Extra,
}

impl Sign {
    const fn mark(self) -> &'static str {
        match self {
            Sign::Short => "-",
            Sign::Even => "",
            Sign::Extra => "+",
        }
    }
}

impl Margin {
    fn one(sign: Sign, words: String) -> Margin {
        Margin { parts: vec![Part { sign, words }] }
    }

    /// Whether there is nothing to tell.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }

    /// Which way the number differs; short where either half of a pair is.
    pub fn sign(&self) -> Option<Sign> {
        let any = |wanted: Sign| self.parts.iter().any(|part| part.sign == wanted).then_some(wanted);
        any(Sign::Short).or_else(|| any(Sign::Even)).or_else(|| any(Sign::Extra))
    }

    /// `+1`, `0`, `-1/8 yd (-10 cm)`.
    pub fn signed(&self) -> String {
        self.words(Sign::mark)
    }

    /// The same without the plus.
    pub fn plain(&self) -> String {
        self.words(|sign| if sign == Sign::Extra { "" } else { sign.mark() })
    }

    fn words(&self, mark: impl Fn(Sign) -> &'static str) -> String {
        let parts: Vec<String> = self.parts.iter().map(|part| format!("{}{}", mark(part.sign), part.words)).collect();
        match parts.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            [first, rest @ ..] => format!("{first} ({})", rest.join(", ")),
        }
    }
}

/// Of a number of things.
pub(super) fn of_counts(stated: Count, needed: Count) -> Margin {
    Margin::one(sign(stated.0.cmp(&needed.0)), stated.0.abs_diff(needed.0).to_string())
}

/// Of a length. What is enough is never shown as short, though its two numbers as shown may be a step apart.
pub(super) fn of_lengths(stated: Length, needed: Length, measure: Measure) -> Margin {
    let shown = stated.as_shown(measure, Round::Down) - needed.as_shown(measure, Round::Up);
    if stated < needed {
        return Margin::one(Sign::Short, shown.abs().show(measure, Round::Down));
    }
    let more = shown.max(Length::ZERO);
    Margin::one(sign(more.cmp(&Length::ZERO)), more.show(measure, Round::Down))
}

/// Of an amount of fabric, in the unit of each half.
pub(super) fn of_amounts(stated: &Amount, needed: impl Fn(&Written) -> Yardage) -> Margin {
    let half = |written: &Written| {
        let measure = if written.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        let more = written.length - needed(written).0;
        Part { sign: sign(more.cmp(&Length::ZERO)), words: Yardage(more.abs()).show(measure, Round::Down) }
    };
    let halves = std::iter::once(&stated.first).chain(stated.second.iter().map(|(second, _)| second));
    Margin { parts: halves.map(half).collect() }
}

/// Of an amount beside what is needed for fabric that is cut.
pub(super) fn of_purchase(shop: &Shop, stated: &Amount, cut: Yardage) -> Margin {
    of_amounts(stated, |written| needed_half(shop, written, cut))
}

/// Whether an amount is enough for fabric that is cut and squared up, both halves of a pair.
pub(super) fn is_enough(shop: &Shop, stated: &Amount, cut: Yardage) -> bool {
    stated.halves().all(|half| Yardage(half.length) >= cut + Yardage(shop.squaring))
}

/// What is needed for fabric that is cut, in the unit of one half: what to buy, but no more than what is stated where
/// that is enough, since a writer need not print a step in which a shop sells.
pub(super) fn needed_half(shop: &Shop, stated: &Written, cut: Yardage) -> Yardage {
    if !cut.0.is_positive() {
        return cut;
    }
    let buy = shop.to_buy(cut, stated.unit);
    let stated = Yardage(stated.length);
    if stated >= cut + Yardage(shop.squaring) { buy.min(stated) } else { buy }
}

const fn sign(order: std::cmp::Ordering) -> Sign {
    match order {
        std::cmp::Ordering::Less => Sign::Short,
        std::cmp::Ordering::Equal => Sign::Even,
        std::cmp::Ordering::Greater => Sign::Extra,
    }
}
