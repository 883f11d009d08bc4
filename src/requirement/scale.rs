//! Sizes whose stated numbers are those of another size, all multiplied by one scale.

use super::counts::{CountsNeeds, supply};
use super::fabrics::FabricsNeeds;
use super::layout_of_size::LayoutsNeeds;
use super::series::{Quantity, Series};
use crate::manuscript::Span;
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Bought, Size};

/// A number that two sizes state.
#[derive(Clone, Debug)]
pub struct Scaled {
    /// What it is.
    pub what: String,
    /// Of the first size and of the second, in some unit that is the same for both.
    pub numbers: (i128, i128),
    /// Where the second states it.
    pub at: Span,
    /// Where the first does.
    pub first_at: Span,
    /// Whether there is an allowance in it, which does not grow with the quilt.
    pub has_allowance: bool,
    /// Whether both are what should be printed, by this computation.
    pub is_right: bool,
}

/// A size that is another multiplied by one scale.
#[derive(Debug)]
pub struct ScaledSize<'m> {
    /// The size that it is scaled from.
    pub from: &'m Size,
    /// The size.
    pub size: &'m Size,
    /// Every number that both state.
    pub numbers: Vec<Scaled>,
}

/// One number of one size.
struct Number {
    what: String,
    size: usize,
    value: i128,
    at: Span,
    has_allowance: bool,
    is_right: bool,
}

/// At least so many numbers must have been scaled.
const FEWEST: usize = 3;

/// The sizes that are scaled from an earlier one.
pub fn scaled<'m>(
    series: &[Series<'m>],
    layouts: &LayoutsNeeds<'m>,
    fabrics: &FabricsNeeds<'m>,
    counts: &CountsNeeds<'m>,
) -> Vec<ScaledSize<'m>> {
    let sizes = &layouts.manuscript.sizes;
    let mut numbers = of_series(series, sizes);
    numbers.extend(of_fabrics(fabrics));
    numbers.extend(of_pieces(layouts, fabrics, counts));
    let mut by_size: Vec<Vec<&Number>> = sizes.iter().map(|_| Vec::new()).collect();
    for number in &numbers {
        if let Some(known) = by_size.get_mut(number.size) {
            known.push(number);
        }
    }
    let from = |index: usize| (0..index).find_map(|from| scaled_from(sizes, &by_size, from, index));
    (1..sizes.len()).filter_map(from).collect()
}

fn scaled_from<'m>(sizes: &'m [Size], by_size: &[Vec<&Number>], from: usize, size: usize) -> Option<ScaledSize<'m>> {
    // Both lists are in the same order of requirements, and a size may lack some of them.
    let mut firsts = by_size.get(from)?.iter().peekable();
    let mut numbers = Vec::new();
    for second in by_size.get(size)? {
        let rest = firsts.clone().position(|first| first.what == second.what);
        let Some(first) = rest.and_then(|skipped| firsts.nth(skipped)) else { continue };
        numbers.push(Scaled {
            what: second.what.clone(),
            numbers: (first.value, second.value),
            at: second.at,
            first_at: first.at,
            has_allowance: second.has_allowance,
            is_right: first.is_right && second.is_right,
        });
    }
    is_scaled(&numbers).then(|| ScaledSize { from: &sizes[from], size: &sizes[size], numbers })
}

/// Whether all numbers with an allowance, and three numbers or more, are in one ratio other than one. Numbers that are
/// all as they should be printed happen to be so.
fn is_scaled(numbers: &[Scaled]) -> bool {
    let Some(first) = numbers.iter().find(|number| number.has_allowance) else { return false };
    let in_ratio = |number: &&Scaled| {
        let ((one, other), (from, to)) = (first.numbers, number.numbers);
        one * to == other * from
    };
    let bearing: Vec<&Scaled> = numbers.iter().filter(|number| number.has_allowance).collect();
    let scaled = first.numbers.0 != first.numbers.1;
    scaled
        && bearing.len() >= 2
        && bearing.iter().all(in_ratio)
        && bearing.iter().any(|number| !number.is_right)
        && numbers.iter().filter(in_ratio).count() >= FEWEST
}

impl ScaledSize<'_> {
    /// The numbers that are in the ratio of the first with an allowance.
    pub fn in_ratio(&self) -> impl Iterator<Item = &Scaled> {
        let first = self.numbers.iter().find(|number| number.has_allowance).map_or((1, 1), |first| first.numbers);
        self.numbers.iter().filter(move |number| first.0 * number.numbers.1 == first.1 * number.numbers.0)
    }
}

fn of_series(series: &[Series<'_>], sizes: &[Size]) -> Vec<Number> {
    let mut numbers = Vec::new();
    for one in series {
        for number in &one.numbers {
            let value = match number.stated {
                Quantity::Count(count) => i128::from(count.0),
                Quantity::Fabric(fabric) => fabric.0.ticks(),
                Quantity::Sheet(_) => continue,
            };
            let Some(size) = sizes.iter().position(|size| size.name == number.size.name) else { continue };
            let is_right = number.stated == number.needed;
            if value > 0 {
                numbers.push(Number {
                    what: one.what.clone(),
                    size,
                    value,
                    at: number.at,
                    has_allowance: true,
                    is_right,
                });
            }
        }
    }
    numbers
}

fn of_fabrics(fabrics: &FabricsNeeds<'_>) -> Vec<Number> {
    let mut numbers = Vec::new();
    for (fabric, size) in fabrics.each() {
        let (value, at, is_right) = match size.required {
            Some(Bought::Amount(amount)) => {
                let unit = amount.value.first.unit;
                let right = size
                    .from_bolt()
                    .is_some_and(|bolt| fabrics.shop.to_buy(bolt.to_print, unit) == amount.value.yardage());
                (amount.value.yardage().0.ticks(), amount.at, right)
            }
            Some(Bought::Count(count)) => {
                let right = size.small().is_some_and(|small| small.to_print == count.value);
                (i128::from(count.value.0), count.at, right)
            }
            None => continue,
        };
        if value > 0 {
            let what = fabric.stated.name.clone();
            numbers.push(Number { what, size: size.index, value, at, has_allowance: true, is_right });
        }
    }
    numbers
}

fn of_pieces(layouts: &LayoutsNeeds<'_>, fabrics: &FabricsNeeds<'_>, counts: &CountsNeeds<'_>) -> Vec<Number> {
    let mut numbers = Vec::new();
    for (fabric, needs) in fabrics.fabrics.iter().enumerate() {
        for cut in 0..needs.stated.cut.len() {
            let piece = PieceRef { fabric, cut };
            for size in 0..layouts.manuscript.sizes.len() {
                let Some(supply) = supply(fabrics, piece, size).filter(|supply| supply.count.0 > 0) else { continue };
                let laid = counts.sizes.iter().find(|counts| layouts.sizes[counts.index].index == size);
                let needed = laid.and_then(|counts| counts.pieces.get(&piece)).map(super::counts::PieceNeeds::count);
                let what = format!("{} {}", needs.stated.name, needs.name(cut));
                let value = i128::from(supply.strips.unwrap_or(supply.count).0);
                let is_right = needed == Some(supply.count);
                numbers.push(Number { what, size, value, at: supply.at, has_allowance: false, is_right });
            }
        }
    }
    numbers
}
