//! From a linear programme to whole strips: rounding down and asking again for what is left, then a bounded search
//! over the strips that were found.

use super::layout::{Strip, length, trim};
use super::linear::{Column, PRICE, Programme};

/// What is wanted, and how strips for it are found.
pub(super) trait Source {
    /// How many of each kind are wanted.
    fn demand(&self) -> Vec<i64>;

    /// How much of each resource there is: how many of each offcut, how much length beside lengthwise pieces.
    fn resources(&self) -> Vec<i64>;

    /// The resource that a strip takes from, with how much, where it takes from one.
    fn takes(&self, strip: &Strip) -> Option<(usize, i64)>;

    /// What a piece is taken to cost that no strip gives: more than any strip.
    fn penalty(&self) -> i64;

    /// About how many steps it takes to make strips once.
    fn work(&self) -> usize;

    /// Strips that are worth more than they cost by the prices of the kinds and the resources.
    fn strips(&self, demand: &[i64], prices: &[i64], resource_prices: &[i64]) -> Vec<Strip>;
}

/// How much work is put into one list.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    /// The most steps of one linear programme.
    pub(super) steps: usize,
    /// The most branches of the search.
    pub(super) nodes: usize,
    /// About the most steps in making strips for prices, in all linear programmes together.
    pub(super) work: usize,
}

/// Whole strips that give all that is wanted, no longer than other ones found; `None` where none are found.
pub(super) fn strips(source: &impl Source, effort: Effort, at_least: i64) -> Option<Vec<Strip>> {
    let mut search = Search::new(source, effort);
    let dive = search.dive(&[], &source.demand(), &source.resources())?;
    search.offer(dive);
    if search.length() > at_least
        && let Some(strips) = search.hardest_first()
    {
        search.offer(strips);
    }
    if search.length() > at_least {
        search.branch();
    }
    search.best
}

/// The prices of the kinds by the linear programme.
pub(super) fn prices(source: &impl Source, effort: Effort) -> Vec<i64> {
    let mut search = Search::new(source, effort);
    let mut prices = search.solve(&source.demand(), &source.resources()).prices;
    prices.truncate(source.demand().len());
    prices
}

struct Search<'s, S: Source> {
    source: &'s S,
    effort: Effort,
    /// Every strip found so far, each once.
    found: Vec<Strip>,
    best: Option<Vec<Strip>>,
    /// How often strips may still be made.
    rounds: usize,
}

/// A price of a resource at which no strip is cut from it; times the length of a piece it is still a number.
const NEVER_WORTH: i64 = 1 << 44;

struct Solved {
    /// Strips with how often, in thousandths.
    used: Vec<(usize, i64)>,
    prices: Vec<i64>,
}

impl<'s, S: Source> Search<'s, S> {
    /// Begins with strips of each kind alone, so that there is always one that serves.
    fn new(source: &'s S, effort: Effort) -> Search<'s, S> {
        let rounds = effort.work / source.work().max(1) + 4;
        let mut search = Search { source, effort, found: Vec::new(), best: None, rounds };
        let demand = source.demand();
        for kind in (0..demand.len()).filter(|kind| demand[*kind] > 0) {
            let mut prices = vec![0; demand.len()];
            prices[kind] = source.penalty() * PRICE;
            for strip in source.strips(&demand, &prices, &vec![NEVER_WORTH; source.resources().len()]) {
                search.remember(&strip);
            }
        }
        search
    }

    fn length(&self) -> i64 {
        self.best.as_ref().map_or(i64::MAX, |best| length(best))
    }

    fn offer(&mut self, strips: Vec<Strip>) {
        let strips = trim(strips, &self.source.demand());
        if length(&strips) < self.length() {
            self.best = Some(strips);
        }
    }

    fn column(&self, strip: &Strip, demand: &[i64]) -> Column {
        let pieces = strip.pieces(demand.len());
        let mut entries: Vec<(usize, i64)> =
            pieces.iter().zip(demand).enumerate().map(|(kind, (made, wanted))| (kind, *made.min(wanted))).collect();
        entries.retain(|(_, made)| *made > 0);
        if let Some((resource, amount)) = self.source.takes(strip) {
            entries.push((demand.len() + resource, -amount));
        }
        Column { cost: strip.cost(), entries }
    }

    /// The linear programme for a demand, over the strips found so far and those that it asks for.
    fn solve(&mut self, demand: &[i64], resources: &[i64]) -> Solved {
        let kinds = demand.len();
        let mut sides = demand.to_vec();
        sides.extend(resources.iter().map(|resource| -resource));
        let known: Vec<usize> = (0..self.found.len()).filter(|found| self.serves(*found, demand, resources)).collect();
        let columns = known.iter().map(|found| self.column(&self.found[*found], demand)).collect();
        let mut strips: Vec<Strip> = known.iter().map(|found| self.found[*found].clone()).collect();
        let source = self.source;
        let mut rounds = self.rounds;
        let mut programme = Programme::new(&sides, columns, source.penalty());
        programme.solve(self.effort.steps, |prices| {
            let mut columns = Vec::new();
            let Some(fewer) = rounds.checked_sub(1) else { return columns };
            rounds = fewer;
            for strip in source.strips(demand, &prices[..kinds], &prices[kinds..]) {
                let column = self.column(&strip, demand);
                let fits = source.takes(&strip).is_none_or(|(resource, amount)| resources[resource] >= amount);
                if !fits || strips.contains(&strip) || columns.contains(&column) {
                    continue;
                }
                columns.push(column);
                strips.push(strip);
            }
            columns
        });
        self.rounds = rounds;
        // Columns alike were taken in once: find the strip of each again by its column.
        let columns: Vec<Column> = strips.iter().map(|strip| self.column(strip, demand)).collect();
        let used = programme.used().into_iter().filter_map(|(column, amount)| {
            let strip = columns.iter().position(|made| *made == programme.columns[column])?;
            Some((self.remember(&strips[strip]), amount))
        });
        let used: Vec<(usize, i64)> = used.collect();
        for strip in &strips {
            self.remember(strip);
        }
        Solved { used, prices: programme.fixed_prices() }
    }

    fn remember(&mut self, strip: &Strip) -> usize {
        if let Some(known) = self.found.iter().position(|found| found == strip) {
            return known;
        }
        self.found.push(strip.clone());
        self.found.len() - 1
    }

    fn serves(&self, found: usize, demand: &[i64], resources: &[i64]) -> bool {
        let strip = &self.found[found];
        strip.grids.iter().any(|grid| demand[grid.kind] > 0)
            && self.source.takes(strip).is_none_or(|(resource, amount)| resources[resource] >= amount)
    }

    /// Rounds down, and asks again for what is left, until nothing is left.
    fn dive(&mut self, fixed: &[Strip], demand: &[i64], resources: &[i64]) -> Option<Vec<Strip>> {
        let (mut demand, mut resources) = (demand.to_vec(), resources.to_vec());
        let mut strips = fixed.to_vec();
        while demand.iter().any(|wanted| *wanted > 0) {
            let solved = self.solve(&demand, &resources);
            let mut rounded: Vec<(usize, i64)> =
                solved.used.iter().map(|(strip, used)| (*strip, used / 1000)).collect();
            rounded.retain(|(_, times)| *times > 0);
            if rounded.is_empty() {
                // The strip that is nearest to a whole one.
                let (strip, _) = solved.used.iter().max_by_key(|(strip, used)| (*used, std::cmp::Reverse(*strip)))?;
                rounded.push((*strip, 1));
            }
            let before = demand.clone();
            for (strip, times) in rounded {
                let strip = Strip { times, ..self.found[strip].clone() };
                self.take(&strip, &mut demand, &mut resources);
                strips.push(strip);
            }
            if demand == before {
                return None;
            }
        }
        Some(strips)
    }

    /// Strip by strip for the piece that costs most alone of those left, filled up with the others by their prices.
    fn hardest_first(&mut self) -> Option<Vec<Strip>> {
        let (mut demand, mut resources) = (self.source.demand(), self.source.resources());
        let (kinds, solved) = (demand.len(), self.solve(&demand, &resources));
        let mut strips = Vec::new();
        while let Some(kind) =
            (0..kinds).filter(|kind| demand[*kind] > 0).max_by_key(|kind| (solved.prices[*kind], *kind))
        {
            self.rounds = self.rounds.checked_sub(1)?;
            let mut prices = solved.prices.clone();
            prices[kind] += self.source.penalty() * PRICE;
            let waste = |strip: &Strip| {
                let worth: i64 =
                    strip.grids.iter().map(|grid| grid.count.min(demand[grid.kind]) * solved.prices[grid.kind]).sum();
                strip.cost() * PRICE - worth
            };
            let made = self.source.strips(&demand, &prices[..kinds], &prices[kinds..]);
            let fits = |strip: &&Strip| {
                self.source.takes(strip).is_none_or(|(resource, amount)| resources[resource] >= amount)
                    && strip.grids.iter().any(|grid| grid.kind == kind && grid.count > 0)
            };
            let mut strip = made.iter().filter(fits).min_by_key(|strip| waste(strip))?.clone();
            let pieces = strip.pieces(kinds);
            let often = pieces.iter().zip(&demand).filter(|(made, _)| **made > 0).map(|(made, left)| left / made).min();
            strip.times = match self.source.takes(&strip) {
                Some(_) => 1,
                None => often.unwrap_or(1).max(1),
            };
            self.take(&strip, &mut demand, &mut resources);
            strips.push(strip);
        }
        Some(strips)
    }

    fn take(&self, strip: &Strip, demand: &mut [i64], resources: &mut [i64]) {
        let pieces = strip.pieces(demand.len());
        for (wanted, made) in demand.iter_mut().zip(pieces) {
            *wanted = (*wanted - made).max(0);
        }
        if let Some((resource, amount)) = self.source.takes(strip) {
            resources[resource] -= amount * strip.times;
        }
    }

    /// Searches among the strips found for what is left beyond the whole parts of the linear programme.
    fn branch(&mut self) {
        let (mut demand, mut resources) = (self.source.demand(), self.source.resources());
        let solved = self.solve(&demand, &resources);
        let mut fixed = Vec::new();
        for (strip, used) in &solved.used {
            let strip = Strip { times: (used / 1000 - 1).max(0), ..self.found[*strip].clone() };
            if strip.times > 0 {
                self.take(&strip, &mut demand, &mut resources);
                fixed.push(strip);
            }
        }
        let columns: Vec<Column> = self.found.iter().map(|strip| self.column(strip, &demand)).collect();
        let mut tree = Tree { columns, prices: solved.prices, nodes: self.effort.nodes, best: None, limit: 0 };
        tree.limit = self.length() - length(&fixed);
        let mut chosen = Vec::new();
        tree.visit(&mut demand, &mut resources, 0, &mut chosen);
        if let Some(best) = tree.best {
            let strips = best.into_iter().map(|strip| self.found[strip].clone());
            self.offer(fixed.into_iter().chain(strips).collect());
        }
    }
}

/// A search by branches over columns, each taken once or more.
struct Tree {
    columns: Vec<Column>,
    prices: Vec<i64>,
    nodes: usize,
    best: Option<Vec<usize>>,
    /// Only what is shorter than this is looked for.
    limit: i64,
}

/// How many strips are tried for the piece that is dearest of those left.
const MAX_BRANCHES: usize = 8;

impl Tree {
    fn visit(&mut self, demand: &mut Vec<i64>, resources: &mut Vec<i64>, cost: i64, chosen: &mut Vec<usize>) {
        if demand.iter().all(|wanted| *wanted <= 0) {
            if cost < self.limit {
                self.limit = cost;
                self.best = Some(chosen.clone());
            }
            return;
        }
        if self.nodes == 0 || cost + self.still(demand, resources) >= self.limit {
            return;
        }
        self.nodes -= 1;
        let Some(kind) = (0..demand.len()).max_by_key(|kind| self.prices[*kind] * demand[*kind].max(0)) else { return };
        for (_, column) in self.branches(kind, demand, resources) {
            self.apply(column, demand, resources, 1);
            chosen.push(column);
            self.visit(demand, resources, cost + self.columns[column].cost, chosen);
            chosen.pop();
            self.apply(column, demand, resources, -1);
        }
    }

    /// What is left costs at least this by the prices, which only steer the search.
    fn still(&self, demand: &[i64], resources: &[i64]) -> i64 {
        let kinds: i64 = demand.iter().zip(&self.prices).map(|(wanted, price)| (*wanted).max(0) * price).sum();
        let limits = resources.iter().zip(&self.prices[demand.len()..]);
        let limits: i64 = limits.map(|(left, price)| left * price).sum();
        (kinds - limits - PRICE / 100 + PRICE - 1) / PRICE
    }

    fn branches(&self, kind: usize, demand: &[i64], resources: &[i64]) -> Vec<(i64, usize)> {
        let mut branches = Vec::new();
        for (index, column) in self.columns.iter().enumerate() {
            let (mut waste, mut serves) = (column.cost * PRICE, false);
            for (row, entry) in &column.entries {
                match demand.get(*row) {
                    Some(wanted) => {
                        waste -= (*entry).min((*wanted).max(0)) * self.prices[*row];
                        serves |= *row == kind;
                    }
                    None if resources[*row - demand.len()] < -*entry => waste = i64::MAX,
                    None => waste = waste.saturating_sub(entry * self.prices[*row]),
                }
                if waste == i64::MAX {
                    break;
                }
            }
            if serves && waste < i64::MAX {
                branches.push((waste, index));
            }
        }
        branches.sort_unstable();
        branches.truncate(MAX_BRANCHES);
        branches
    }

    fn apply(&self, column: usize, demand: &mut [i64], resources: &mut [i64], times: i64) {
        for (row, entry) in &self.columns[column].entries {
            if let Some(wanted) = demand.get_mut(*row) {
                *wanted -= entry * times;
            } else {
                resources[*row - demand.len()] += entry * times;
            }
        }
    }
}
