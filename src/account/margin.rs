//! How much more is stated than is needed, from the values themselves; less than nothing where it is short.
//!
//! Lengths are taken as they are told, each rounded once, so that a reader who takes one column from the other comes to
//! the same.

use crate::quantity::{Amount, Count, Length, Measure, Round, Written, Yardage};
use crate::requirement::fabric::Shop;

/// Of a number of things.
pub(super) fn of_counts(stated: Count, needed: Count) -> String {
    let sign = if stated < needed { "-" } else { "" };
    format!("{sign}{}", stated.0.abs_diff(needed.0))
}

/// Of a length. What is enough is never told as short, though its two numbers as told may be a step apart.
pub(super) fn of_lengths(stated: Length, needed: Length, measure: Measure) -> String {
    let told = stated.as_shown(measure, Round::Down) - needed.as_shown(measure, Round::Up);
    let more = if stated < needed { told } else { told.max(Length::ZERO) };
    format!("{}{}", sign(more), more.abs().show(measure, Round::Down))
}

/// Of an amount of fabric, in the unit of each half.
pub(super) fn of_amounts(stated: &Amount, needed: impl Fn(&Written) -> Yardage) -> String {
    let half = |written: &Written| {
        let measure = if written.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        let more = written.length - needed(written).0;
        format!("{}{}", sign(more), Yardage(more.abs()).show(measure, Round::Down))
    };
    match &stated.second {
        Some((second, _)) => format!("{} ({})", half(&stated.first), half(second)),
        None => half(&stated.first),
    }
}

/// Of an amount beside what to buy for fabric that is cut.
pub(super) fn of_purchase(shop: &Shop, stated: &Amount, cut: Yardage) -> String {
    of_amounts(stated, |written| shop.to_buy(cut, written.unit))
}

const fn sign(length: Length) -> &'static str {
    if length.is_negative() { "-" } else { "" }
}
