//! Sizes whose stated numbers are those of another size, all multiplied by one scale.
//!
//! It goes by the numbers that have an allowance in them, amounts of fabric and counts of strips: all of them are so
//! many times another size's, at least three numbers with the pieces are, and not all of them are what should be
//! printed. Counts of pieces do grow with the blocks, so they only add to it. It is a query: somebody may have rounded
//! to it.

use std::collections::{BTreeMap, BTreeSet};

use super::counts::supply;
use super::fabrics::FabricsNeeds;
use super::series::{AllSeries, Quantity, Series};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Bought, Size};
use crate::manuscript::{Span, SpanIndex};
use crate::quantity::common_divisor;

/// At least so many numbers must have been scaled.
const FEWEST: usize = 3;

/// At least so many of them must be numbers with an allowance.
const FEWEST_WITH_ALLOWANCE: usize = 2;

/// A size that is another multiplied by one scale.
#[derive(Debug)]
pub struct ScaledSize<'m> {
    /// The size that it is scaled from.
    pub from: &'m Size,
    /// The size.
    pub size: &'m Size,
    /// A number of the first size and the same of the second, in some unit that is the same for both.
    pub ratio: (i128, i128),
    /// The numbers that are in this ratio, those with an allowance first.
    pub numbers: Vec<Scaled>,
}

/// A number that two sizes state.
#[derive(Clone, Debug)]
pub struct Scaled {
    /// What it is.
    pub what: String,
    /// Where the first size states it.
    pub first_at: Span,
    /// Where the second does.
    pub at: Span,
}

/// A number with an allowance in it, which does not grow with the quilt.
#[derive(Clone, Copy, Debug)]
struct SizeNumber {
    value: i128,
    /// What should be printed, in the same unit, where that is known.
    needed: Option<i128>,
    at: Span,
    /// Whether it is what should be printed, by this computation.
    is_right: bool,
}

/// The numbers of one size, each with the place of its requirement among all, in the order of these.
type Numbers = Vec<(usize, SizeNumber)>;

/// The sizes that are scaled from an earlier one. All numbers with an allowance are in one ratio other than one, and
/// three numbers or more; numbers that are all as they should be printed happen to be so.
pub fn scaled<'m>(sizes: &'m [Size], series: &AllSeries<'m>, fabrics: &FabricsNeeds<'m>) -> Vec<ScaledSize<'m>> {
    if series.are_right() && fabrics.each().all(|(_, size)| bought(fabrics, size).is_none_or(|number| number.is_right))
    {
        return Vec::new();
    }
    let (names, by_size) = numbers(sizes, &series.layers, fabrics);
    let looks: Vec<Look> = by_size.iter().map(|numbers| Look::of(numbers)).collect();
    let from = |size: usize| {
        let mut others = (0..size).filter(|from| !looks[*from].is_unlike(&looks[size]));
        others.find_map(|from| scaled_from(sizes, &names, &by_size, fabrics, (from, size)))
    };
    (1..sizes.len()).filter_map(from).collect()
}

fn scaled_from<'m>(
    sizes: &'m [Size],
    names: &[String],
    by_size: &[Numbers],
    fabrics: &FabricsNeeds<'_>,
    (from, size): (usize, usize),
) -> Option<ScaledSize<'m>> {
    let (firsts, seconds) = (by_size.get(from)?, by_size.get(size)?);
    let first = |what: usize| firsts.binary_search_by_key(&what, |(what, _)| *what).ok().map(|at| firsts[at].1);
    let pairs = || seconds.iter().filter_map(|(what, second)| Some((*what, first(*what)?, *second)));
    let (_, one, other) = pairs().next()?;
    let ratio = (one.value, other.value);
    let in_ratio = |from: i128, to: i128| ratio.0 * to == ratio.1 * from;
    let scaled = ratio.0 != ratio.1
        && pairs().all(|(_, first, second)| in_ratio(first.value, second.value))
        && pairs().any(|(_, first, second)| !(first.is_right && second.is_right))
        && pairs().count() >= FEWEST_WITH_ALLOWANCE;
    if !scaled {
        return None;
    }
    let told = |(what, first, second): (usize, SizeNumber, SizeNumber)| {
        let what = names.get(what).cloned().unwrap_or_default();
        Scaled { what, first_at: first.at, at: second.at }
    };
    let mut numbers: Vec<Scaled> = pairs().map(told).collect();
    numbers.extend(pieces(fabrics, from, size, in_ratio));
    (numbers.len() >= FEWEST).then(|| ScaledSize { from: &sizes[from], size: &sizes[size], ratio, numbers })
}

/// The numbers of all sizes, to ask which of them would make a size look scaled once it is right.
#[derive(Debug)]
pub struct SizeNumbers {
    by_size: Vec<(Numbers, Look)>,
    by_place: SpanIndex,
    /// The size of each place.
    sizes: Vec<usize>,
}

impl SizeNumbers {
    /// The numbers of a manuscript.
    pub fn of(sizes: &[Size], series: &AllSeries<'_>, fabrics: &FabricsNeeds<'_>) -> SizeNumbers {
        let (_, by_size) = numbers(sizes, &series.layers, fabrics);
        let places =
            by_size.iter().enumerate().flat_map(|(size, numbers)| numbers.iter().map(move |(_, n)| (size, n.at)));
        let (sizes, places): (Vec<usize>, Vec<Span>) = places.unzip();
        let with_look = |numbers: Numbers| {
            let look = Look::of(&numbers);
            (numbers, look)
        };
        let by_size = by_size.into_iter().map(with_look).collect();
        SizeNumbers { by_size, by_place: SpanIndex::new(places), sizes }
    }

    /// Whether a size would have all its numbers in one ratio to another's with those at a place as they should be.
    pub fn are_scaled_with(&self, at: Span) -> bool {
        let corrected = |(what, number): &(usize, SizeNumber)| {
            let value = number.needed.filter(|_| number.at.overlaps(at)).unwrap_or(number.value);
            (*what, SizeNumber { value, ..*number })
        };
        let touched: BTreeSet<usize> = self.by_place.overlapping(at).map(|place| self.sizes[place]).collect();
        touched.into_iter().any(|size| {
            let numbers: Numbers = self.by_size[size].0.iter().map(corrected).collect();
            let look = Look::of(&numbers);
            let others = self.by_size.iter().enumerate().filter(|(other, _)| *other != size);
            let mut alike = others.filter(|(_, (_, other))| !look.is_unlike(other));
            alike.any(|(_, (other, _))| are_in_one_ratio(&numbers, other))
        })
    }
}

/// Whether all numbers that two sizes have are in one ratio other than one.
fn are_in_one_ratio(one: &Numbers, other: &Numbers) -> bool {
    let of_other = |what: usize| other.binary_search_by_key(&what, |(what, _)| *what).ok().map(|at| other[at].1.value);
    let mut pairs = one.iter().filter_map(|(what, number)| Some((number.value, of_other(*what)?)));
    let Some((first, second)) = pairs.next() else { return false };
    first != second && pairs.all(|(one, other)| first * other == second * one)
}

/// The first two numbers of a size, where nothing is none of them: most sizes are told apart by these.
#[derive(Clone, Copy, Debug)]
struct Look(Option<FirstTwo>);

#[derive(Clone, Copy, Debug)]
struct FirstTwo {
    /// What they are of.
    what: (usize, usize),
    first: i128,
    /// Their ratio in lowest terms.
    ratio: (i128, i128),
}

impl Look {
    fn of(numbers: &[(usize, SizeNumber)]) -> Look {
        let [(first, one), (second, other), ..] = numbers else { return Look(None) };
        // Nothing is in any ratio to nothing.
        if one.value <= 0 || other.value <= 0 {
            return Look(None);
        }
        let divisor = common_divisor(one.value, other.value);
        let ratio = (one.value / divisor, other.value / divisor);
        Look(Some(FirstTwo { what: (*first, *second), first: one.value, ratio }))
    }

    /// Whether these are of the same things and in different ratios, or the same to begin with, so that one size is not
    /// the other scaled.
    fn is_unlike(&self, other: &Look) -> bool {
        let both = self.0.as_ref().zip(other.0.as_ref());
        both.is_some_and(|(one, other)| {
            one.what == other.what && (one.ratio != other.ratio || one.first == other.first)
        })
    }
}

/// The counts of pieces and strips that are in a ratio.
fn pieces(
    fabrics: &FabricsNeeds<'_>,
    from: usize,
    size: usize,
    in_ratio: impl Fn(i128, i128) -> bool,
) -> impl Iterator<Item = Scaled> {
    let each =
        fabrics.fabrics.iter().enumerate().flat_map(|(fabric, needs)| {
            (0..needs.stated.cut.len()).map(move |cut| (needs, PieceRef::entry(fabric, cut)))
        });
    each.filter_map(move |(needs, piece)| {
        let count = |size| supply(fabrics, piece, size).filter(|supply| supply.count.0 > 0);
        let (first, second) = (count(from)?, count(size)?);
        let value = |supply: &super::counts::Supply| i128::from(supply.strips.unwrap_or(supply.count).0);
        let what = || format!("{} {}", needs.stated.name, needs.name(piece.cut));
        in_ratio(value(&first), value(&second)).then(|| Scaled { what: what(), first_at: first.at, at: second.at })
    })
}

/// The names of all requirements with an allowance, and the numbers of each size.
fn numbers(sizes: &[Size], series: &[Series<'_>], fabrics: &FabricsNeeds<'_>) -> (Vec<String>, Vec<Numbers>) {
    let mut names: Vec<String> = series.iter().map(|series| series.what.to_string()).collect();
    let mut by_size: Vec<Numbers> = sizes.iter().map(|_| Numbers::new()).collect();
    let places: BTreeMap<&str, usize> = sizes.iter().enumerate().map(|(at, size)| (size.name.as_str(), at)).collect();
    for (what, series) in series.iter().enumerate() {
        for number in &series.numbers {
            let in_units = |quantity: Quantity| match quantity {
                Quantity::Count(count) => Some(i128::from(count.0)),
                Quantity::Fabric(fabric) => Some(fabric.0.ticks()),
                Quantity::Sheet(_) => None,
            };
            let Some(value) = in_units(number.stated) else { continue };
            let needed = in_units(number.needed);
            let is_right = number.stated == number.needed;
            if let Some(size) = places.get(number.size.name.as_str()).filter(|_| value > 0) {
                by_size[*size].push((what, SizeNumber { value, needed, at: number.at, is_right }));
            }
        }
    }
    for fabric in &fabrics.fabrics {
        for size in &fabric.sizes {
            let number = bought(fabrics, size).filter(|number| number.value > 0 && size.sharing.is_none());
            if let Some((number, known)) = number.zip(by_size.get_mut(size.index)) {
                known.push((names.len(), number));
            }
        }
        names.push(fabric.stated.name.clone());
    }
    (names, by_size)
}

/// What the pattern tells to buy of a fabric.
fn bought(fabrics: &FabricsNeeds<'_>, size: &super::fabrics::FabricSize<'_>) -> Option<SizeNumber> {
    Some(match size.required? {
        Bought::Amount(amount) => {
            let unit = amount.value.first.unit;
            let stated = amount.value.yardage();
            let needed = size.from_bolt().map(|bolt| fabrics.shop.to_buy(bolt.to_print, unit));
            let is_right = needed == Some(stated);
            SizeNumber {
                value: stated.0.ticks(),
                needed: needed.map(|needed| needed.0.ticks()),
                at: amount.at,
                is_right,
            }
        }
        Bought::Count(count) => {
            let needed = size.small().map(|small| small.sold(small.to_print));
            let is_right = needed == Some(count.value);
            let needed = needed.map(|needed| i128::from(needed.0));
            SizeNumber { value: i128::from(count.value.0), needed, at: count.at, is_right }
        }
    })
}
