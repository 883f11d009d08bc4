//! A length below which no way of cutting fits, found without tables: to see at once that a plan can hardly be beaten.
//!
//! A slice across the fabric holds pieces side by side. Rounding what each takes of the width to a fraction with one
//! denominator, by a dual feasible function (Fekete and Schepers, 2001), never makes what lies side by side more than
//! the whole width; so the rounded slices of all pieces together take no more than the fabric.

use super::bound::{Reason, Share};
use super::items::{Item, Remnant};
use crate::quantity::Length;

/// The largest denominator that is tried: about as many pieces as lie side by side.
const MAX_PARTS: i128 = 24;

/// The least length by area, by the longest piece and by slices across the fabric, less what is there anyway, and why.
pub(super) fn least(items: &[Item], width: Length, remnants: &[Remnant]) -> (Length, Reason) {
    if !width.is_positive() {
        return (Length::ZERO, Reason::Nothing);
    }
    let by_area = Length::from_ticks(area(items, remnants).map_or(0, |area| area.max(0) / width.ticks()));
    let mut least = (by_area, Reason::Area { covers: by_area, across: width });
    if !remnants.is_empty() {
        return least;
    }
    for (number, item) in items.iter().enumerate().filter(|(_, item)| item.count.0 > 0) {
        if let Some(long) = ways(item, width).map(|(_, along)| along).min().filter(|long| *long > least.0.ticks()) {
            least = (Length::from_ticks(long), Reason::LongestPiece(number));
        }
    }
    for parts in 1..=MAX_PARTS {
        if let Some(shares) = slices(items, width, parts) {
            let sum: Length = shares.iter().map(|share| share.takes).sum();
            if sum > least.0 {
                least = (sum, Reason::SideBySide(shares));
            }
        }
    }
    least
}

/// The area of all pieces less that of the remnants; `None` where it is no number of 128 bits.
fn area(items: &[Item], remnants: &[Remnant]) -> Option<i128> {
    let area = |across: Length, along: Length, count: u64| {
        across.ticks().checked_mul(along.ticks())?.checked_mul(i128::from(count))
    };
    let sum = |sum: i128, area: Option<i128>| sum.checked_add(area?);
    let all = items.iter().map(|item| area(item.across, item.along, item.count.0)).try_fold(0, sum)?;
    let there = remnants.iter().map(|there| area(there.across, there.along, there.count.0)).try_fold(0, sum)?;
    all.checked_sub(there)
}

/// The ways round in which a piece fits the width: across and along.
fn ways(item: &Item, width: Length) -> impl Iterator<Item = (i128, i128)> {
    let (across, along) = (item.across.ticks(), item.along.ticks());
    let ways = [Some((across, along)), item.turns.then_some((along, across))];
    ways.into_iter().flatten().filter(move |(across, _)| *across <= width.ticks())
}

/// What all pieces of each item take when each piece takes a whole number of so many parts of the width, or what it is
/// where that is a whole number of one part more.
fn slices(items: &[Item], width: Length, parts: i128) -> Option<Vec<Share>> {
    let rounded = |(across, along): (i128, i128)| {
        let of_one_more = across.checked_mul(parts + 1)?;
        let whole = of_one_more / width.ticks();
        let rounded = if of_one_more % width.ticks() == 0 { whole * parts } else { whole * (parts + 1) };
        along.checked_mul(rounded)
    };
    let mut shares = Vec::new();
    for (number, item) in items.iter().enumerate().filter(|(_, item)| item.count.0 > 0) {
        let mut least: Option<i128> = None;
        for way in ways(item, width) {
            let rounded = rounded(way)?;
            least = Some(least.map_or(rounded, |least| least.min(rounded)));
        }
        let takes = least?.checked_mul(i128::from(item.count.0))? / (parts * (parts + 1));
        shares.push(Share { item: number, takes: Length::from_ticks(takes) });
    }
    shares.retain(|share| share.takes.is_positive());
    Some(shares)
}
