//! The most valuable pieces that come out of one rectangle by cuts from edge to edge, exactly, as many of each kind
//! as one likes: the recursion of Gilmore and Gomory (1966) over the lengths that sides of pieces add up to.

use super::items::Kind;
use super::layout::Grid;

/// The most steps of one table.
const MAX_STEPS: usize = 12_000_000;

/// Tables for one rectangle.
pub(super) struct Rectangle<'k> {
    kinds: &'k [Kind],
    /// The lengths across and along that sides of pieces add up to, from nothing up to the side itself.
    across: Vec<i64>,
    along: Vec<i64>,
    /// For each length up to the side, the last of those that is no longer.
    across_at: Vec<u16>,
    along_at: Vec<u16>,
}

/// How the best of a part is cut.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Cut {
    Nothing,
    Piece { kind: u16, way: u8 },
    Across { at: u16 },
    Along { at: u16 },
}

/// The best of one rectangle for some prices.
pub(super) struct Best {
    /// What it is worth.
    pub(super) worth: i64,
    /// Its pieces.
    pub(super) grids: Vec<Grid>,
}

impl<'k> Rectangle<'k> {
    /// Tables for a rectangle; `None` where they would be too large.
    pub(super) fn new(kinds: &'k [Kind], width: i64, height: i64) -> Option<Rectangle<'k>> {
        let fitting =
            || kinds.iter().flat_map(|kind| &kind.ways).filter(|way| way.across <= width && way.along <= height);
        let across = sums(width, fitting().map(|way| way.across))?;
        let along = sums(height, fitting().map(|way| way.along))?;
        (steps(&across, &along) <= MAX_STEPS).then(|| Rectangle {
            kinds,
            across_at: places(&across, width),
            along_at: places(&along, height),
            across,
            along,
        })
    }

    /// About how many steps it takes to find the best pieces.
    pub(super) fn steps(&self) -> usize {
        steps(&self.across, &self.along)
    }

    /// The best pieces for prices; those that are not wanted have no price.
    pub(super) fn best(&self, prices: &[i64]) -> Best {
        let rows = self.along.len();
        let mut worth = vec![0; self.across.len() * rows];
        let mut cuts = vec![Cut::Nothing; worth.len()];
        for (x, wide) in self.across.iter().enumerate() {
            for (y, long) in self.along.iter().enumerate() {
                let (mut best, mut cut) = self.piece(*wide, *long, prices);
                for one in 1..=Self::at(&self.across_at, wide / 2) {
                    let other = Self::at(&self.across_at, wide - self.across[one]);
                    let both = worth[one * rows + y] + worth[other * rows + y];
                    if both > best {
                        (best, cut) = (both, Cut::Across { at: small(one) });
                    }
                }
                for one in 1..=Self::at(&self.along_at, long / 2) {
                    let other = Self::at(&self.along_at, long - self.along[one]);
                    let both = worth[x * rows + one] + worth[x * rows + other];
                    if both > best {
                        (best, cut) = (both, Cut::Along { at: small(one) });
                    }
                }
                worth[x * rows + y] = best;
                cuts[x * rows + y] = cut;
            }
        }
        let mut grids = Vec::new();
        self.grids(&cuts, (self.across.len() - 1, rows - 1), (0, 0), &mut grids);
        Best { worth: worth.last().copied().unwrap_or(0), grids }
    }

    fn at(places: &[u16], length: i64) -> usize {
        usize::from(places[usize::try_from(length).unwrap_or(0)])
    }

    fn piece(&self, wide: i64, long: i64, prices: &[i64]) -> (i64, Cut) {
        let mut best = (0, Cut::Nothing);
        for (number, (kind, price)) in self.kinds.iter().zip(prices).enumerate() {
            for (turned, way) in kind.ways.iter().enumerate() {
                if way.across <= wide && way.along <= long && *price > best.0 {
                    best = (*price, Cut::Piece { kind: small(number), way: u8::from(turned > 0) });
                }
            }
        }
        best
    }

    fn grids(&self, cuts: &[Cut], (x, y): (usize, usize), (from, above): (i64, i64), grids: &mut Vec<Grid>) {
        match cuts[x * self.along.len() + y] {
            Cut::Nothing => {}
            Cut::Piece { kind, way } => {
                let kind = usize::from(kind);
                let way = self.kinds[kind].ways[usize::from(way)];
                grids.push(Grid { kind, from, above, across: way.across, along: way.along, rows: 1, count: 1 });
            }
            Cut::Across { at } => {
                let at = usize::from(at);
                let other = Self::at(&self.across_at, self.across[x] - self.across[at]);
                self.grids(cuts, (at, y), (from, above), grids);
                self.grids(cuts, (other, y), (from + self.across[at], above), grids);
            }
            Cut::Along { at } => {
                let at = usize::from(at);
                let other = Self::at(&self.along_at, self.along[y] - self.along[at]);
                self.grids(cuts, (x, at), (from, above), grids);
                self.grids(cuts, (x, other), (from, above + self.along[at]), grids);
            }
        }
    }
}

fn steps(across: &[i64], along: &[i64]) -> usize {
    across.len() * along.len() * (across.len() + along.len()) / 4
}

fn small(number: usize) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}

/// The sums of sides up to a length, with nothing; `None` where they are too many.
fn sums(longest: i64, sides: impl Iterator<Item = i64>) -> Option<Vec<i64>> {
    let mut reached = vec![false; usize::try_from(longest).ok()? + 1];
    reached[0] = true;
    let sides: Vec<usize> = sides.filter_map(|side| usize::try_from(side).ok()).collect();
    for at in 0..reached.len() {
        reached[at] |= sides.iter().any(|side| *side <= at && reached[at - side]);
    }
    let sums: Vec<i64> = (0_i64..).zip(reached).filter(|(_, reached)| *reached).map(|(sum, _)| sum).collect();
    (sums.len() < usize::from(u16::MAX)).then_some(sums)
}

fn places(sums: &[i64], longest: i64) -> Vec<u16> {
    let mut place = 0;
    let mut places = Vec::new();
    for length in 0..=longest {
        while sums.get(place + 1).is_some_and(|next| *next <= length) {
            place += 1;
        }
        places.push(small(place));
    }
    places
}
