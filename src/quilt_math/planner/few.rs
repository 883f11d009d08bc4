//! The shortest cutting of a few pieces, exactly: for every choice of some of them, every box that holds them by cuts
//! from edge to edge and is in no way smaller than another.

use super::items::Kind;
use super::layout::{From, Grid, Strip};

/// The most pairs of choices of pieces that are looked at for a whole list.
pub(super) const MAX_PAIRS: i64 = 30_000;

/// The most boxes in all.
const MAX_BOXES: usize = 60_000;

/// A box that holds a choice of pieces.
#[derive(Clone, Copy)]
struct Held {
    across: i64,
    along: i64,
    made: Made,
}

/// How a box is put together; the numbers are those of two smaller boxes.
#[derive(Clone, Copy)]
enum Made {
    Piece { kind: usize },
    SideBySide { one: usize, other: usize },
    OneAfterAnother { one: usize, other: usize },
}

/// The shortest cutting in a width, where it is shorter than `limit`; `None` where there is none, or the pieces are
/// too many for every choice of them to be looked at in so many pairs.
pub(super) fn shortest(
    kinds: &[Kind],
    demand: &[i64],
    (width, limit): (i64, i64),
    max_pairs: i64,
) -> Option<Vec<Strip>> {
    let choices = Choices::new(demand, max_pairs)?;
    let mut boxes = Boxes { kinds, width, limit, all: Vec::new(), of: Vec::new() };
    for choice in 0..choices.count {
        boxes.add(&choices, choice);
        if boxes.all.len() > MAX_BOXES {
            return None;
        }
    }
    let best = boxes.of.last()?.iter().copied().min_by_key(|held| boxes.all[*held].along)?;
    let mut strips = Vec::new();
    boxes.strips(best, &mut strips);
    Some(strips)
}

/// The fewest rectangles of one size that hold all pieces, each as the strips that are cut from it; `None` where the
/// pieces are too many for every choice of them to be looked at, or do not fit.
pub(super) fn fewest(kinds: &[Kind], demand: &[i64], width: i64, height: i64) -> Option<Vec<Vec<Strip>>> {
    let choices = Choices::new(demand, MAX_PAIRS)?;
    let mut boxes = Boxes { kinds, width, limit: height + 1, all: Vec::new(), of: Vec::new() };
    // For each choice, how many rectangles it takes, and the part of it that fills one of them.
    let mut fewest: Vec<Option<(usize, usize)>> = Vec::new();
    for choice in 0..choices.count {
        boxes.add(&choices, choice);
        if boxes.all.len() > MAX_BOXES {
            return None;
        }
        let fits = |choice: usize| !boxes.of[choice].is_empty();
        let mut best = if choice == 0 { Some((0, 0)) } else { fits(choice).then_some((1, choice)) };
        for (one, other) in choices.pairs(choice) {
            for (part, rest) in [(one, other), (other, one)] {
                let Some((others, _)) = fewest[rest].filter(|_| fits(part)) else { continue };
                if best.is_none_or(|(count, _)| others + 1 < count) {
                    best = Some((others + 1, part));
                }
            }
        }
        fewest.push(best);
    }
    let (mut choice, mut all) = (choices.count - 1, Vec::new());
    while choice > 0 {
        let (_, part) = fewest[choice]?;
        let mut strips = Vec::new();
        boxes.strips(*boxes.of[part].first()?, &mut strips);
        all.push(strips);
        choice -= part;
    }
    Some(all)
}

/// Choices of some of the pieces, numbered so that smaller choices come first.
struct Choices {
    demand: Vec<i64>,
    count: usize,
}

impl Choices {
    fn new(demand: &[i64], max_pairs: i64) -> Option<Choices> {
        let (mut count, mut pairs) = (1_i64, 1_i64);
        for wanted in demand {
            count = count.checked_mul(wanted + 1)?;
            pairs = pairs.checked_mul((wanted + 1) * (wanted + 2) / 2).filter(|pairs| *pairs <= 2 * max_pairs)?;
        }
        Some(Choices { demand: demand.to_vec(), count: usize::try_from(count).ok()? })
    }

    fn counts(&self, mut choice: usize) -> Vec<i64> {
        let mut counts = Vec::new();
        for wanted in &self.demand {
            let each = usize::try_from(wanted + 1).unwrap_or(1);
            counts.push(i64::try_from(choice % each).unwrap_or(0));
            choice /= each;
        }
        counts
    }

    /// Pairs of choices that make up a choice, each pair once.
    fn pairs(&self, choice: usize) -> Vec<(usize, usize)> {
        let counts = self.counts(choice);
        let mut parts = vec![0_usize];
        let mut each = 1_usize;
        for (count, wanted) in counts.iter().zip(&self.demand) {
            let more: Vec<usize> = (0..=usize::try_from(*count).unwrap_or(0))
                .flat_map(|taken| parts.iter().map(move |part| part + taken * each))
                .collect();
            parts = more;
            each *= usize::try_from(wanted + 1).unwrap_or(1);
        }
        parts.into_iter().filter(|part| *part > 0 && *part <= choice - part).map(|part| (part, choice - part)).collect()
    }
}

struct Boxes<'k> {
    kinds: &'k [Kind],
    width: i64,
    limit: i64,
    all: Vec<Held>,
    /// The boxes of each choice, the narrowest first, each shorter than those before it.
    of: Vec<Vec<usize>>,
}

impl Boxes<'_> {
    fn add(&mut self, choices: &Choices, choice: usize) {
        let counts = choices.counts(choice);
        let mut found = Vec::new();
        if counts.iter().sum::<i64>() == 1 {
            let kind = counts.iter().position(|count| *count == 1).unwrap_or(0);
            let held = self.kinds[kind].ways.iter().map(|way| Held {
                across: way.across,
                along: way.along,
                made: Made::Piece { kind },
            });
            found.extend(held);
        }
        for (one, other) in choices.pairs(choice) {
            self.side_by_side(one, other, &mut found);
            self.one_after_another(one, other, &mut found);
        }
        found.retain(|held| held.across <= self.width && held.along < self.limit);
        found.sort_by_key(|held| (held.across, held.along));
        let mut shortest = i64::MAX;
        found.retain(|held| {
            let shorter = held.along < shortest;
            shortest = shortest.min(held.along);
            shorter
        });
        self.of.push((self.all.len()..self.all.len() + found.len()).collect());
        self.all.extend(found);
    }

    /// For each length, the narrowest of both.
    fn side_by_side(&self, one: usize, other: usize, found: &mut Vec<Held>) {
        let (ones, others) = (&self.of[one], &self.of[other]);
        let (mut first, mut second) = (0, 0);
        while let (Some(one), Some(other)) = (ones.get(first), others.get(second)) {
            let (one_held, other_held) = (&self.all[*one], &self.all[*other]);
            let along = one_held.along.max(other_held.along);
            let made = Made::SideBySide { one: *one, other: *other };
            found.push(Held { across: one_held.across + other_held.across, along, made });
            // The longer of the two decides: the next shorter one of it is wider.
            first += usize::from(one_held.along == along);
            second += usize::from(other_held.along == along);
        }
    }

    /// For each width, the shortest of both.
    fn one_after_another(&self, one: usize, other: usize, found: &mut Vec<Held>) {
        let (ones, others) = (&self.of[one], &self.of[other]);
        let (mut first, mut second) = (ones.len(), others.len());
        while first > 0 && second > 0 {
            let (one, other) = (ones[first - 1], others[second - 1]);
            let (one_held, other_held) = (&self.all[one], &self.all[other]);
            let across = one_held.across.max(other_held.across);
            let made = Made::OneAfterAnother { one, other };
            found.push(Held { across, along: one_held.along + other_held.along, made });
            first -= usize::from(one_held.across == across);
            second -= usize::from(other_held.across == across);
        }
    }

    /// The strips of a box: what lies one after another along the fabric is cut apart first.
    fn strips(&self, held: usize, strips: &mut Vec<Strip>) {
        if let Made::OneAfterAnother { one, other } = self.all[held].made {
            self.strips(one, strips);
            self.strips(other, strips);
            return;
        }
        let mut grids = Vec::new();
        self.grids(held, 0, 0, &mut grids);
        strips.push(Strip { from: From::Fabric, height: self.all[held].along, grids, times: 1 });
    }

    fn grids(&self, held: usize, from: i64, above: i64, grids: &mut Vec<Grid>) {
        let Held { across, along, made } = self.all[held];
        match made {
            Made::Piece { kind } => grids.push(Grid { kind, from, above, across, along, rows: 1, count: 1 }),
            Made::SideBySide { one, other } => {
                self.grids(one, from, above, grids);
                self.grids(other, from + self.all[one].across, above, grids);
            }
            Made::OneAfterAnother { one, other } => {
                self.grids(one, from, above, grids);
                self.grids(other, from, above + self.all[one].along, grids);
            }
        }
    }
}
