//! Plans by many random restarts of filling strips piece by piece: a second planner that shares nothing with the first,
//! to see how often it finds a shorter plan.

use super::lists::Piece;
use super::rng::Rng;

/// The shortest length of so many random plans by cuts from edge to edge; `None` where a piece fits no way round.
pub(crate) fn shortest(pieces: &[Piece], width: i64, restarts: i64, rng: &mut Rng) -> Option<i64> {
    let mut best = None;
    for _ in 0..restarts {
        let mut bench = Bench { pieces, left: pieces.iter().map(|piece| piece.count).collect(), habit: rng.below(6) };
        let mut length = 0;
        while bench.left.iter().any(|left| *left > 0) {
            let (kind, (across, along)) = bench.choice((width, i64::MAX), rng)?;
            bench.left[kind] -= 1;
            length += along;
            bench.fill((width - across, along), rng);
            if best.is_some_and(|best| length >= best) {
                break;
            }
        }
        if bench.left.iter().all(|left| *left == 0) {
            best = Some(best.map_or(length, |best: i64| best.min(length)));
        }
    }
    best
}

struct Bench<'p> {
    pieces: &'p [Piece],
    left: Vec<i64>,
    /// What is looked at first in this restart.
    habit: i64,
}

impl Bench<'_> {
    /// A piece that fits a room, with a way round: mostly the one that this restart prefers.
    fn choice(&self, (across, along): (i64, i64), rng: &mut Rng) -> Option<(usize, (i64, i64))> {
        let mut fitting: Vec<(usize, (i64, i64))> = Vec::new();
        for (kind, piece) in self.pieces.iter().enumerate().filter(|(kind, _)| self.left[*kind] > 0) {
            let ways = piece.ways().into_iter().filter(|way| way.0 <= across && way.1 <= along);
            fitting.extend(ways.map(|way| (kind, way)));
        }
        if fitting.is_empty() {
            return None;
        }
        if rng.one_in(5) {
            return Some(rng.pick(&fitting));
        }
        fitting.into_iter().max_by_key(|(_, (wide, long))| match self.habit % 3 {
            0 => (wide * long, *long),
            1 => (*long, *wide),
            _ => (*wide, *long),
        })
    }

    /// Fills a room: a piece in its corner, then the rooms beside it and above it.
    fn fill(&mut self, (across, along): (i64, i64), rng: &mut Rng) {
        let Some((kind, (wide, long))) = self.choice((across, along), rng) else { return };
        self.left[kind] -= 1;
        if (self.habit < 3) ^ rng.one_in(4) {
            self.fill((wide, along - long), rng);
            self.fill((across - wide, along), rng);
        } else {
            self.fill((across - wide, long), rng);
            self.fill((across, along - long), rng);
        }
    }
}
