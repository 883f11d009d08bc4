//! The order of the sizes in runs of which no word says it: the one in which most of them are numbers of the manuscript.

use std::collections::{BTreeMap, BTreeSet};

use super::context::ReadPassages;
use super::fits::Comparing;
use super::keys::Keys;
use super::runs::{OpenRun, OrderedRun, open_runs};

/// How many runs must be numbers of the manuscript in an order, and by how many more than in any other.
const ENOUGH: usize = 3;
const MORE: usize = 2;

/// The most orders of one run that are looked at.
const ORDERS: usize = 64;

/// Runs that look alike: how many numbers, the sign between them, and whether words stand before it.
type Look = (usize, char, bool);

/// Gives runs that have no sizes those that they fit.
pub(super) fn order_runs(read: &mut ReadPassages<'_>, keys: &Keys<'_>) {
    let sizes = read.sizes();
    if sizes < 2 {
        return;
    }
    let mut looks: BTreeMap<Look, Vec<(usize, OpenRun)>> = BTreeMap::new();
    for (passage, here) in read.list.iter().enumerate() {
        for run in open_runs(&here.tokens, &here.elements, sizes) {
            looks.entry((run.heads.len(), run.sign, run.has_words)).or_default().push((passage, run));
        }
    }
    looks.retain(|_, runs| runs.len() >= ENOUGH);
    if looks.is_empty() {
        return;
    }
    let mut comparing = Comparing::new(keys, keys.manuscript.measure.bare_unit());
    let mut ordered: BTreeMap<usize, Vec<OrderedRun>> = BTreeMap::new();
    for runs in looks.into_values() {
        if let Some(order) = order_of(read, &mut comparing, &runs) {
            for (passage, run) in runs {
                ordered.entry(passage).or_default().push(OrderedRun { heads: run.heads, order: order.clone() });
            }
        }
    }
    for (passage, runs) in ordered {
        read.order_runs(passage, &runs);
    }
}

/// The order in which at least half of some runs are numbers of the manuscript, and clearly more than in any other.
fn order_of(
    read: &ReadPassages<'_>,
    comparing: &mut Comparing<'_, '_>,
    runs: &[(usize, OpenRun)],
) -> Option<Vec<usize>> {
    let mut votes: BTreeMap<Vec<usize>, usize> = BTreeMap::new();
    for (passage, run) in runs {
        for order in orders(read, comparing, *passage, run) {
            *votes.entry(order).or_default() += 1;
        }
    }
    let (best, count) = votes.iter().max_by_key(|(_, count)| **count)?;
    let second = votes.iter().filter(|(order, _)| *order != best).map(|(_, count)| *count).max().unwrap_or(0);
    (*count >= ENOUGH && count * 2 >= runs.len() && *count >= second + MORE).then(|| best.clone())
}

/// The orders of sizes in which the numbers of a run are those of one thing.
fn orders(
    read: &ReadPassages<'_>,
    comparing: &mut Comparing<'_, '_>,
    passage: usize,
    run: &OpenRun,
) -> BTreeSet<Vec<usize>> {
    let here = &read.list[passage];
    let keys = comparing.keys;
    let mut known: BTreeMap<usize, Vec<Vec<usize>>> = BTreeMap::new();
    for (place, head) in run.heads.iter().enumerate() {
        let fits = comparing.fits(&here.elements[*head], here);
        let mut longer: BTreeMap<usize, Vec<Vec<usize>>> = BTreeMap::new();
        for key in fits.same().iter().filter(|key| fits.is_form(keys, **key) && keys.list[**key].is_stated()) {
            let Some(size) = keys.list[*key].size else { continue };
            let line = keys.groups.lines.of[*key];
            let begun = if place == 0 { vec![Vec::new()] } else { known.get(&line).cloned().unwrap_or_default() };
            let free = begun.into_iter().filter(|order| !order.contains(&size)).take(ORDERS);
            longer.entry(line).or_default().extend(free.map(|mut order| {
                order.push(size);
                order
            }));
        }
        known = longer;
    }
    known.into_values().flatten().collect()
}
