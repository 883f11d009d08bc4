//! Plain plans: strips from selvedge to selvedge, pieces cut across each, alike pieces stacked in a strip that is
//! wide enough for them.

use super::fill::Fill;
use super::items::List;
use super::layout::{From, Strip, length, trim};
use super::linear::PRICE;
use super::whole::{Effort, Source, strips};
use crate::quantity::common_divisor;

/// The effort for a plain plan.
const EFFORT: Effort = Effort { steps: 400, nodes: 2000, work: 30_000_000 };

/// A plain plan that gives all pieces, the shortest that is found; none that is shorter than `at_least` is looked for.
pub(super) fn plan(list: &List, at_least: i64) -> Option<Vec<Strip>> {
    if list.kinds.is_empty() {
        return Some(Vec::new());
    }
    strips(&Plain::new(list), EFFORT, at_least)
}

/// The most kinds of which one more is planned.
const MAX_KINDS_OF_MORE: usize = 6;

/// A plain plan that gives one piece more of a kind and is shorter than a plan without: rounding goes other ways there.
/// None that is shorter than `at_least` is looked for.
pub(super) fn plan_with_one_more(list: &List, plain: &[Strip], at_least: i64) -> Option<Vec<Strip>> {
    if list.kinds.len() > MAX_KINDS_OF_MORE {
        return None;
    }
    let (mut shortest, mut least) = (None, length(plain));
    for kind in 0..list.kinds.len() {
        if least <= at_least {
            break;
        }
        let mut more = list.clone();
        more.kinds[kind].count += 1;
        if let Some(strips) = plan(&more, at_least).filter(|strips| length(strips) < least) {
            let strips = trim(strips, &list.demand());
            least = length(&strips);
            shortest = Some(strips);
        }
    }
    shortest
}

/// Strips across the fabric and out of its offcuts.
pub(super) struct Plain<'l> {
    pub(super) list: &'l List,
    pub(super) heights: Vec<i64>,
}

impl<'l> Plain<'l> {
    pub(super) fn new(list: &'l List) -> Plain<'l> {
        Plain { list, heights: list.heights() }
    }
}

impl Source for Plain<'_> {
    fn demand(&self) -> Vec<i64> {
        self.list.demand()
    }

    fn resources(&self) -> Vec<i64> {
        self.list.offcuts.iter().map(|offcut| offcut.count).collect()
    }

    fn takes(&self, strip: &Strip) -> Option<(usize, i64)> {
        match strip.from {
            From::Offcut(offcut) => Some((offcut, 1)),
            From::Fabric | From::Small | From::Beside(_) => None,
        }
    }

    fn penalty(&self) -> i64 {
        2 * self.heights.last().copied().unwrap_or(1)
    }

    fn work(&self) -> usize {
        plain_work(self.list, &self.heights)
    }

    fn strips(&self, demand: &[i64], prices: &[i64], resource_prices: &[i64]) -> Vec<Strip> {
        let mut made = plain_strips(self.list, &self.heights, demand, prices);
        made.extend(offcut_strips(self.list, demand, prices, resource_prices));
        made
    }
}

/// The best strip of each offcut that is worth more than its price.
pub(super) fn offcut_strips(list: &List, demand: &[i64], prices: &[i64], offcut_prices: &[i64]) -> Vec<Strip> {
    let mut made = Vec::new();
    for (number, (offcut, price)) in list.offcuts.iter().zip(offcut_prices).enumerate() {
        let fill = Fill::new(&list.kinds, demand, prices, offcut.across, offcut.along);
        if fill.value(offcut.across) > *price + PRICE / 1000 {
            let grids = fill.grids(offcut.across);
            made.push(Strip { from: From::Offcut(number), height: offcut.along, grids, times: 1 });
        }
    }
    made
}

/// About how many steps it takes to find the best strips of each width.
pub(super) fn plain_work(list: &List, heights: &[i64]) -> usize {
    let runs: usize = list.kinds.iter().map(|kind| kind.ways.len()).sum();
    let steps = list.kinds.iter().flat_map(|kind| &kind.ways).map(|way| i128::from(way.across)).fold(0, common_divisor);
    let width = i128::from(list.width) / steps.max(1);
    heights.len() * runs * usize::try_from(width).unwrap_or(usize::MAX)
}

/// The best strips of each width across the whole fabric that are worth more than they take.
pub(super) fn plain_strips(list: &List, heights: &[i64], demand: &[i64], prices: &[i64]) -> Vec<Strip> {
    let mut made = Vec::new();
    for height in heights {
        let fill = Fill::new(&list.kinds, demand, prices, list.width, *height);
        if fill.value(list.width) > height * PRICE + PRICE / 1000 {
            made.push(Strip { from: From::Fabric, height: *height, grids: fill.grids(list.width), times: 1 });
        }
    }
    made
}
