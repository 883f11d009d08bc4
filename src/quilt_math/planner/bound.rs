//! A length below which no way of cutting fits.
//!
//! Any cutting is looked at in slices as thin as one unit: across the fabric, each slice holds pieces side by side
//! that are no wider than the fabric; along it, no longer than the length (the bar relaxation of Scheithauer, 1999).
//! A linear programme proposes what each slice of a piece is worth, rounded to whole numbers; the most that one slice
//! can hold is then found exactly, and the worth of all pieces divided by it is the least number of slices.

use super::items::{Kind, List};
use super::linear::{Column, PRICE, Programme};
use crate::quantity::{Count, Length};

/// Why nothing shorter fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Nothing is cut.
    Nothing,
    /// The pieces cover so much of all the width that they can use.
    Area {
        /// The length that they cover.
        covers: Length,
        /// The width: what is beyond the last whole unit is in no way used.
        across: Length,
    },
    /// One piece is as long: the number of its item.
    LongestPiece(usize),
    /// However the pieces lie side by side across the fabric, all of an item take at least so much of its length.
    SideBySide(Vec<Share>),
    /// However the pieces lie one behind another in so much of the fabric's length, all of an item take at least so much
    /// of its width.
    OneBehindAnother(Length, Vec<Share>),
    /// The shapes of an item, cut edge to edge from strips, take so many strips by themselves.
    Strips(usize, Count),
    /// The pieces of an item, centered on the print, take so many repeats, of the last no more than a piece.
    Repeats(usize, Count),
}

/// What all pieces of an item take together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// The number of the item.
    pub item: usize,
    /// How much of the fabric's length, or of its width.
    pub takes: Length,
}

impl Reason {
    /// The same with other numbers for the items.
    #[must_use]
    pub fn numbered(self, number: impl Fn(usize) -> usize) -> Reason {
        let renumbered = |shares: Vec<Share>| -> Vec<Share> {
            shares.into_iter().map(|share| Share { item: number(share.item), ..share }).collect()
        };
        match self {
            Reason::LongestPiece(item) => Reason::LongestPiece(number(item)),
            Reason::SideBySide(shares) => Reason::SideBySide(renumbered(shares)),
            Reason::OneBehindAnother(length, shares) => Reason::OneBehindAnother(length, renumbered(shares)),
            Reason::Strips(item, strips) => Reason::Strips(number(item), strips),
            Reason::Repeats(item, repeats) => Reason::Repeats(number(item), repeats),
            Reason::Nothing | Reason::Area { .. } => self,
        }
    }
}

/// The least length so far.
struct Least {
    length: i64,
    reason: Reason,
    sums: Sums,
    best: i64,
}

impl Least {
    /// Raises it to a length, or to the next one that sides of pieces add up to.
    fn raise(&mut self, to: i64, reason: impl FnOnce() -> Reason) -> i64 {
        let to = self.sums.at_least(to).min(self.best);
        if to > self.length {
            (self.length, self.reason) = (to, reason());
        }
        self.length
    }
}

/// The least length of a list, in units, with the reason; what the offcuts may hold is allowed for.
pub(super) fn bound(list: &List, best: i64) -> (i64, Reason) {
    if list.kinds.is_empty() {
        return (0, Reason::Nothing);
    }
    let mut least = Least { length: 0, reason: Reason::Nothing, sums: Sums::new(list, best), best };
    if let Some((longest, kind)) = longest(list) {
        least.raise(longest, || Reason::LongestPiece(list.items[kind]));
    }
    let (covers, area) = area(list);
    least.raise(area, || Reason::Area { covers, across: list.length(list.width) });
    if least.length >= best {
        return (least.length, least.reason);
    }
    let slices = Slices::new(list);
    let reached = least.raise(slices.length(list), || Reason::SideBySide(slices.shares(list, list.width)));
    if list.offcuts.is_empty() {
        // Halving the lengths between what is proved and what is known to fit, from just below that.
        let (mut proved, mut tried) = (reached, best - 1);
        for _ in 0..MAX_LENGTHS {
            if tried < proved {
                break;
            }
            let failed = longest_that_fails(list, tried);
            let shown = failed.as_ref().map(|failed| failed.length);
            if let Some(failed) = failed.filter(|failed| failed.length >= proved) {
                proved = least
                    .raise(failed.length + 1, || Reason::OneBehindAnother(list.length(failed.length), failed.shares));
            }
            if shown == Some(tried) {
                break;
            }
            tried = proved.midpoint(tried - 1);
        }
    }
    (least.length, least.reason)
}

/// How many lengths are tried along the fabric.
const MAX_LENGTHS: usize = 8;

/// The longest length, in units, that is looked at in slices along the fabric.
const MAX_LENGTHWISE: i64 = 4000;

/// How much of the whole width the pieces cover, exactly and in whole units.
fn area(list: &List) -> (Length, i64) {
    let pieces: i128 = list.kinds.iter().map(Kind::area).sum();
    let there: i128 =
        list.offcuts.iter().map(|offcut| i128::from(offcut.across * offcut.along) * i128::from(offcut.count)).sum();
    let (area, width) = ((pieces - there).max(0), i128::from(list.width));
    (Length::from_ticks(list.unit.ticks() * area / width.max(1)), up(area, width))
}

/// The longest side that must lie along the fabric of a piece that no offcut holds, and the kind of that piece.
fn longest(list: &List) -> Option<(i64, usize)> {
    let must = |kind: &Kind| list.offcuts.iter().all(|offcut| !kind.fits(offcut.across, offcut.along));
    let least = |kind: &Kind| kind.ways.iter().map(|way| way.along).min();
    let kinds = list.kinds.iter().enumerate().filter(|(_, kind)| must(kind));
    kinds
        .filter_map(|(number, kind)| Some((least(kind)?, number)))
        .max_by_key(|(long, number)| (*long, usize::MAX - number))
}

fn up(value: i128, by: i128) -> i64 {
    i64::try_from((value + by - 1).div_euclid(by.max(1))).unwrap_or(i64::MAX)
}

impl Kind {
    fn area(&self) -> i128 {
        self.ways.first().map_or(0, |way| i128::from(way.across * way.along) * i128::from(self.count))
    }
}

/// A length that the pieces do not fit.
struct Failed {
    length: i64,
    /// What they take of the width.
    shares: Vec<Share>,
}

/// The longest length at which slices along the fabric prove that the pieces do not fit, found with the prices at one
/// length; `None` where it proves nothing.
fn longest_that_fails(list: &List, length: i64) -> Option<Failed> {
    if length > MAX_LENGTHWISE || length <= 0 {
        return None;
    }
    let Some(turned) = list.transposed(length) else { return Some(Failed { length, shares: Vec::new() }) };
    let slices = Slices::new(&turned);
    let worth = slices.worth(&turned);
    let holds = |length: i64| i128::from(list.width) * i128::from(slices.most[slot(length)]) >= worth;
    let length = (0..=length).rev().find(|length| !holds(*length))?;
    Some(Failed { length, shares: slices.shares(&turned, length) })
}

/// Whole worths of slices, and the most worth that a slice can hold.
struct Slices {
    /// For each kind and way round, what one slice of it is worth.
    prices: Vec<Vec<i64>>,
    /// The most worth of pieces side by side, for each width.
    most: Vec<i64>,
}

/// The steps of the linear programme that proposes worths.
const MAX_STEPS: usize = 300;

/// About the most steps in finding the best slices for one linear programme.
const MAX_WORK: usize = 4_000_000;

/// Worths are rounded to this many parts of the worth of a whole slice.
const PARTS: i64 = 1 << 20;

impl Slices {
    /// Worths that make the least number of slices as large as a linear programme can make it.
    fn new(list: &List) -> Slices {
        let rows = Rows::new(list);
        let mut programme = Programme::new(&rows.sides, rows.turning(list), 2 * rows.longest);
        let mut work = MAX_WORK;
        programme.solve(MAX_STEPS, |prices| {
            let prices = rows.of_ways(prices);
            if work == 0 {
                return Vec::new();
            }
            let holds = Held::new(list, &prices);
            work = work.saturating_sub(holds.work());
            let whole = holds.most.last().copied().unwrap_or(0);
            if whole <= PRICE + PRICE / 10_000 {
                return Vec::new();
            }
            vec![rows.column(&holds.pieces(list.width))]
        });
        let prices = rows.of_ways(&programme.fixed_prices());
        let round = |price: &i64| price / (PRICE / PARTS);
        let prices: Vec<Vec<i64>> = prices.iter().map(|ways| ways.iter().map(round).collect()).collect();
        let most = Held::new(list, &prices).most;
        Slices { prices, most }
    }

    /// The worth of all pieces of each kind, each the way round in which it is worth least.
    fn worths<'l>(&'l self, list: &'l List) -> impl Iterator<Item = i128> + 'l {
        list.kinds.iter().zip(&self.prices).map(|(kind, prices)| {
            let ways = kind.ways.iter().zip(prices).map(|(way, price)| i128::from(way.along) * i128::from(*price));
            ways.min().unwrap_or(0) * i128::from(kind.count)
        })
    }

    fn worth(&self, list: &List) -> i128 {
        self.worths(list).sum()
    }

    /// What the pieces of each kind take at least, where slices hold what fits a width.
    fn shares(&self, list: &List, width: i64) -> Vec<Share> {
        let most = i128::from(self.most[slot(width)]);
        let share = |(worth, item): (i128, &usize)| {
            let takes = if most > 0 { list.unit.ticks() * worth / most } else { 0 };
            Share { item: *item, takes: Length::from_ticks(takes) }
        };
        self.worths(list).zip(&list.items).map(share).filter(|share| share.takes.is_positive()).collect()
    }

    /// The least length of fabric, less what the offcuts can hold.
    fn length(&self, list: &List) -> i64 {
        let there = |offcut: &super::items::Offcut| {
            i128::from(self.most[slot(offcut.across.min(list.width))])
                * i128::from(offcut.along)
                * i128::from(offcut.count)
        };
        let left = self.worth(list) - list.offcuts.iter().map(there).sum::<i128>();
        let whole = self.most.last().copied().unwrap_or(0);
        if whole <= 0 || left <= 0 { 0 } else { up(left, i128::from(whole)) }
    }
}

/// The rows of the linear programme: one a way round of each kind, and one that says how many may be turned.
struct Rows {
    sides: Vec<i64>,
    /// The first row of each kind's ways.
    first: Vec<usize>,
    ways: Vec<usize>,
    longest: i64,
}

impl Rows {
    fn new(list: &List) -> Rows {
        let (mut sides, mut first, mut longest) = (Vec::new(), Vec::new(), 1);
        for kind in &list.kinds {
            first.push(sides.len());
            for (number, way) in kind.ways.iter().enumerate() {
                sides.push(if number == 0 { way.along * kind.count } else { 0 });
                longest = longest.max(way.along);
            }
        }
        // How many may be turned is limited by how many there are.
        for kind in list.kinds.iter().filter(|kind| kind.ways.len() > 1) {
            sides.push(-kind.count);
        }
        Rows { sides, first, ways: list.kinds.iter().map(|kind| kind.ways.len()).collect(), longest }
    }

    /// For each kind that turns, a column that turns one piece.
    fn turning(&self, list: &List) -> Vec<Column> {
        let mut limit: usize = self.ways.iter().sum();
        let mut columns = Vec::new();
        for (kind, first) in list.kinds.iter().zip(&self.first) {
            if let [given, turned] = kind.ways.as_slice() {
                let entries = vec![(*first, given.along), (first + 1, -turned.along), (limit, -1)];
                columns.push(Column { cost: 0, entries });
                limit += 1;
            }
        }
        columns
    }

    fn of_ways(&self, prices: &[i64]) -> Vec<Vec<i64>> {
        let ways = |(first, ways): (&usize, &usize)| {
            prices[*first..first + ways].iter().map(|price| (*price).max(0)).collect()
        };
        self.first.iter().zip(&self.ways).map(ways).collect()
    }

    fn column(&self, pieces: &[(usize, usize, i64)]) -> Column {
        let mut entries: Vec<(usize, i64)> =
            pieces.iter().map(|(kind, way, count)| (self.first[*kind] + way, *count)).collect();
        entries.sort_unstable();
        Column { cost: 1, entries }
    }
}

/// The most worth that pieces side by side have, for each width; no slice holds more of a kind than there are.
struct Held {
    most: Vec<i64>,
    layers: Vec<Layer>,
}

/// The choices of one kind, and the one that is taken at each width, counted from one; nought for none.
struct Layer {
    kind: usize,
    choices: Vec<Choice>,
    taken: Vec<u16>,
}

/// So many pieces one way round and so many the other.
struct Choice {
    width: i64,
    worth: i64,
    counts: [i64; 2],
}

/// The most choices of one kind; beyond them as many pieces as fit may lie in a slice, which only holds more.
const MAX_CHOICES: usize = 400;

impl Held {
    fn new(list: &List, prices: &[Vec<i64>]) -> Held {
        let mut held = Held { most: vec![0; slot(list.width) + 1], layers: Vec::new() };
        for (number, (kind, prices)) in list.kinds.iter().zip(prices).enumerate() {
            held.add(number, kind, prices, list.width);
        }
        held
    }

    fn add(&mut self, number: usize, kind: &Kind, prices: &[i64], width: i64) {
        match choices(kind, prices, width) {
            Some(choices) => {
                let mut taken = vec![0_u16; self.most.len()];
                let before = self.most.clone();
                for (number, choice) in (1_u16..).zip(&choices) {
                    let wide = slot(choice.width).min(self.most.len());
                    let best = self.most[wide..].iter_mut().zip(&mut taken[wide..]);
                    for ((most, taken), rest) in best.zip(&before) {
                        let worth = rest + choice.worth;
                        let is_more = worth > *most;
                        *most = if is_more { worth } else { *most };
                        *taken = if is_more { number } else { *taken };
                    }
                }
                self.layers.push(Layer { kind: number, choices, taken });
            }
            None => {
                for (turned, (way, price)) in kind.ways.iter().zip(prices).enumerate() {
                    let counts = if turned == 0 { [1, 0] } else { [0, 1] };
                    self.add_any_number(number, &Choice { width: way.across, worth: *price, counts });
                }
            }
        }
    }

    /// As many pieces as fit: a choice again and again.
    fn add_any_number(&mut self, kind: usize, choice: &Choice) {
        let wide = slot(choice.width);
        let mut taken = vec![0_u16; self.most.len()];
        for at in wide..self.most.len() {
            let with = self.most[at - wide] + choice.worth;
            if with > self.most[at] {
                self.most[at] = with;
                taken[at] = taken[at - wide] + 1;
            }
        }
        let times = |times: i64| Choice {
            width: choice.width * times,
            worth: choice.worth * times,
            counts: choice.counts.map(|count| count * times),
        };
        let most = taken.iter().copied().max().unwrap_or(0);
        self.layers.push(Layer { kind, choices: (1..=i64::from(most)).map(times).collect(), taken });
    }

    /// About how many steps it took.
    fn work(&self) -> usize {
        self.layers.iter().map(|layer| layer.choices.len() * self.most.len()).sum()
    }

    /// What the best slice of a width holds: kind, way round and how many.
    fn pieces(&self, width: i64) -> Vec<(usize, usize, i64)> {
        let mut at = slot(width);
        let mut pieces = Vec::new();
        for Layer { kind, choices, taken } in self.layers.iter().rev() {
            let Some(choice) = usize::from(taken[at]).checked_sub(1).map(|number| &choices[number]) else { continue };
            at -= slot(choice.width);
            for (way, count) in choice.counts.iter().enumerate().filter(|(_, count)| **count > 0) {
                pieces.push((*kind, way, *count));
            }
        }
        pieces
    }
}

/// The choices of a kind, the narrowest first, without those that hold no more than a narrower one; `None` where they
/// are too many.
fn choices(kind: &Kind, prices: &[i64], width: i64) -> Option<Vec<Choice>> {
    let mut choices = Vec::new();
    let [first, second] = [kind.ways.first()?, kind.ways.last()?];
    let both = kind.ways.len() > 1;
    for given in 0..=kind.count.min(width / first.across) {
        let room = width - given * first.across;
        let turned = if both { (kind.count - given).min(room / second.across) } else { 0 };
        for turned in 0..=turned {
            let worth = given * prices[0] + if both { turned * prices[1] } else { 0 };
            let across = given * first.across + turned * second.across;
            if worth > 0 {
                choices.push(Choice { width: across, worth, counts: [given, turned] });
            }
        }
        if choices.len() > 20 * MAX_CHOICES {
            return None;
        }
    }
    choices.sort_by_key(|choice| (choice.width, -choice.worth));
    let mut most = 0;
    choices.retain(|choice| {
        let more = choice.worth > most;
        most = most.max(choice.worth);
        more
    });
    (choices.len() <= MAX_CHOICES).then_some(choices)
}

/// The lengths that sides of pieces one behind another make.
struct Sums {
    reached: Vec<bool>,
}

/// The longest length, in units, for which sums are made.
const MAX_SUM: i64 = 60_000;

impl Sums {
    fn new(list: &List, most: i64) -> Sums {
        if !(0..=MAX_SUM).contains(&most) {
            return Sums { reached: Vec::new() };
        }
        let mut reached = vec![false; slot(most) + 1];
        reached[0] = true;
        let mut used = vec![0_i64; reached.len()];
        for kind in &list.kinds {
            // Any way round, and no more of a kind than there are: both ways share the count.
            used.fill(0);
            let before = reached.clone();
            for at in 0..reached.len() {
                if before[at] {
                    continue;
                }
                let steps = kind.ways.iter().filter_map(|way| {
                    let from = at.checked_sub(slot(way.along))?;
                    (reached[from] && used[from] < kind.count).then(|| used[from] + 1)
                });
                if let Some(least) = steps.min() {
                    reached[at] = true;
                    used[at] = least;
                }
            }
        }
        Sums { reached }
    }

    /// The next sum at or above a length; the length itself where there is none.
    fn at_least(&self, length: i64) -> i64 {
        let next = self.reached.iter().skip(slot(length)).position(|reached| *reached);
        next.map_or(length, |next| length + i64::try_from(next).unwrap_or(0))
    }
}

fn slot(units: i64) -> usize {
    usize::try_from(units).unwrap_or(0)
}
