//! Small fabrics, such as fat quarters and precut squares: the most pieces of a kind from one, and the fewest of them
//! for a list.

use super::cutting::{Cutting, DecidedSmall};
use super::even;
use super::few;
use super::guillotine::Rectangle;
use super::items::{Item, List};
use super::layout::{From, Strip};
use super::linear::PRICE;
use super::quick;
use super::whole::{Effort, Source, strips};
use crate::quantity::{Count, Length};

/// The most pieces of one kind that come out of a small fabric by cuts from edge to edge; `None` where the measures
/// are too fine for a table.
pub fn most_from(item: &Item, across: Length, along: Length) -> Option<Count> {
    let one = Item { count: Count(1), ..*item };
    let longest = across.max(along);
    if item.across.max(item.along) > longest {
        return Some(Count(0));
    }
    let list = small_list(&[one], across, along)?;
    let height = units(&list, along)?;
    let best = Rectangle::new(&list.kinds, list.width, height)?.best(&[1]);
    u64::try_from(best.worth).ok().map(Count)
}

/// Decides how many small fabrics a list takes; `None` where a piece fits no way round, or the measures are too fine.
pub fn decide_small(items: &[Item], across: Length, along: Length) -> Option<DecidedSmall> {
    let decided = decide_strip_by_strip(items, across, along)?;
    let of_one = |items: &[Item]| decide_strip_by_strip(items, across, along);
    Some(even::with_fewer(items, (across, along), decided, of_one))
}

/// The same by strips one after another.
fn decide_strip_by_strip(items: &[Item], across: Length, along: Length) -> Option<DecidedSmall> {
    let list = small_list(items, across, along)?;
    if list.kinds.is_empty() {
        return Some(DecidedSmall { fabrics: Vec::new(), across, count: Count(0), least: Count(0) });
    }
    if list.kinds.iter().any(|kind| kind.ways.is_empty()) {
        return None;
    }
    let height = units(&list, along)?;
    let source = Small { rectangle: Rectangle::new(&list.kinds, list.width, height)?, list: &list, height };
    let mut least = source.least();
    let mut best = strips(&source, EFFORT, least)?;
    if total(&best) > least
        && let Some(fabrics) = few::fewest(&list.kinds, &list.demand(), list.width, height)
    {
        // Every choice of the pieces was looked at: no way of cutting takes fewer.
        best = fabrics.into_iter().map(one_fabric).collect();
        least = total(&best);
    }
    let count = Count(u64::try_from(total(&best)).ok()?);
    let fabrics = Cutting::new(&list, &best).strips;
    Some(DecidedSmall { fabrics, across, count, least: Count(u64::try_from(least).ok()?) })
}

/// No fewer small fabrics have the area of all pieces.
pub fn fewest_by_area(items: &[Item], across: Length, along: Length) -> Count {
    let least = quick::least(items, across, &[]).0.ticks();
    let fabrics = if along.is_positive() { (least + along.ticks() - 1) / along.ticks() } else { 0 };
    Count(u64::try_from(fabrics).unwrap_or(0))
}

/// The effort for one list.
const EFFORT: Effort = Effort { steps: 120, nodes: 1000, work: 30_000_000 };

/// The list with the ways round that fit a small fabric.
fn small_list(items: &[Item], across: Length, along: Length) -> Option<List> {
    // Wide enough for any way round, so that what does not fit is left to the height.
    let mut list = List::new(items, across.max(along), &[])?;
    list.width = units(&list, across)?;
    let height = units(&list, along)?;
    for kind in &mut list.kinds {
        kind.ways.retain(|way| way.across <= list.width && way.along <= height);
    }
    Some(list)
}

fn units(list: &List, length: Length) -> Option<i64> {
    i64::try_from(length.ticks() / list.unit.ticks().max(1)).ok()
}

fn total(strips: &[Strip]) -> i64 {
    strips.iter().map(|strip| strip.times).sum()
}

/// Strips one after another as one small fabric.
fn one_fabric(strips: Vec<Strip>) -> Strip {
    let mut fabric = Strip { from: From::Small, height: 0, grids: Vec::new(), times: 1 };
    for strip in strips {
        fabric.grids.extend(strip.grids.into_iter().map(|mut grid| {
            grid.above += fabric.height;
            grid
        }));
        fabric.height += strip.height;
    }
    fabric
}

struct Small<'l> {
    list: &'l List,
    rectangle: Rectangle<'l>,
    height: i64,
}

impl Small<'_> {
    /// The fewest small fabrics, by area and by what prices say that one holds at most.
    fn least(&self) -> i64 {
        let area = |kind: &super::items::Kind| kind.ways.first().map_or(0, |way| way.across * way.along);
        let by = |prices: &[i64], most: i64| {
            let worth: i128 = self
                .list
                .kinds
                .iter()
                .zip(prices)
                .map(|(kind, price)| i128::from(kind.count) * i128::from(*price))
                .sum();
            let most = i128::from(most.max(1));
            i64::try_from((worth + most - 1) / most).unwrap_or(1)
        };
        let areas: Vec<i64> = self.list.kinds.iter().map(area).collect();
        let mut least = by(&areas, self.list.width * self.height);
        for kind in 0..self.list.kinds.len() {
            let alone: Vec<i64> = (0..self.list.kinds.len()).map(|other| i64::from(other == kind)).collect();
            least = least.max(by(&alone, self.rectangle.best(&alone).worth));
        }
        if self.list.kinds.len() > 1 {
            let prices: Vec<i64> = super::whole::prices(self, EFFORT).iter().map(|price| (*price).max(0)).collect();
            least = least.max(by(&prices, self.rectangle.best(&prices).worth));
        }
        least
    }
}

impl Source for Small<'_> {
    fn demand(&self) -> Vec<i64> {
        self.list.demand()
    }

    fn resources(&self) -> Vec<i64> {
        Vec::new()
    }

    fn takes(&self, _: &Strip) -> Option<(usize, i64)> {
        None
    }

    fn penalty(&self) -> i64 {
        2
    }

    fn work(&self) -> usize {
        self.rectangle.steps()
    }

    fn strips(&self, demand: &[i64], prices: &[i64], _: &[i64]) -> Vec<Strip> {
        let mut left = prices.to_vec();
        for (price, wanted) in left.iter_mut().zip(demand) {
            *price = if *wanted > 0 { *price } else { 0 };
        }
        let mut best = self.rectangle.best(&left);
        // A kind of which more came than are wanted makes room for the others, where its surplus is worth nothing.
        let mut wanted = demand.to_vec();
        for grid in &mut best.grids {
            grid.count = grid.count.min(wanted[grid.kind]);
            wanted[grid.kind] -= grid.count;
        }
        best.grids.retain(|grid| grid.count > 0);
        let strip = Strip { from: From::Small, height: self.height, grids: best.grids, times: 1 };
        let mut made = vec![strip];
        made.extend(few_strip(self, demand));
        made.retain(|strip| {
            strip.grids.iter().map(|grid| grid.count * prices[grid.kind]).sum::<i64>() > PRICE + PRICE / 1000
        });
        made
    }
}

/// The most pairs of choices of pieces that are looked at for what is left.
const MAX_PAIRS_LEFT: i64 = 1500;

/// What is left, in one small fabric, where it is little enough and fits.
fn few_strip(small: &Small<'_>, demand: &[i64]) -> Option<Strip> {
    let area = |(kind, wanted): (&super::items::Kind, &i64)| {
        kind.ways.first().map_or(0, |way| way.across * way.along) * wanted
    };
    let all: i64 = small.list.kinds.iter().zip(demand).map(area).sum();
    if all > small.list.width * small.height {
        return None;
    }
    few::shortest(&small.list.kinds, demand, (small.list.width, small.height + 1), MAX_PAIRS_LEFT).map(one_fabric)
}
