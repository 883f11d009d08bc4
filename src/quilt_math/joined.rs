//! Long pieces from short strips joined end to end: how many strips they take, and what is left of the last.
//!
//! What is left of a strip begins the next piece where it is longer than a join takes; otherwise the next piece begins
//! with a whole strip. So no join is counted where one piece ends at the end of a strip: 32 squares of 4 1/2 in make
//! four sides of 32 1/2 in, eight to each.
//!
//! The strips are the fewest of any order of joining, so that a right count is never called short; an exhaustive search
//! in the tests agrees.

use std::cmp::Reverse;

use crate::quantity::{Count, Length};

/// So many pieces of each length.
pub type Runs = Vec<(Count, Length)>;

/// The strips that pieces take.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Joined {
    /// How many.
    pub strips: Count,
    /// How long the rest of the last strip is.
    pub rest: Length,
}

/// Strips that are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Joining {
    /// How long each strip is.
    pub strip_length: Length,
    /// What one join takes.
    pub loss: Length,
}

/// The most pieces that are counted one after another.
const MAX_IN_TURN: u64 = 200;

/// The most pieces of two lengths for which every order is tried: the sides of a border.
const MAX_IN_ANY_ORDER: u64 = 6;

impl Joining {
    /// The fewest strips for these pieces; `None` where strips are no longer than a join takes. Of more pieces than
    /// anybody sews it is a number that is never too high.
    pub fn fewest(self, runs: &[(Count, Length)]) -> Option<Joined> {
        let runs: Runs = runs.iter().filter(|(count, run)| count.0 > 0 && run.is_positive()).copied().collect();
        let all = runs.iter().fold(Count(0), |sum, (count, _)| sum + *count);
        if all.0 > MAX_IN_TURN {
            return self.at_least(&runs);
        }
        if all.0 <= MAX_IN_ANY_ORDER {
            let mut left = runs;
            return self.in_the_best_order(&mut left, Joined::default());
        }
        let given = self.in_turn(runs.iter());
        let turned = self.in_turn(runs.iter().rev());
        given.into_iter().chain(turned).min_by_key(better)
    }

    /// How many pieces of one length come out of so many strips.
    pub fn pieces(self, strips: Count, run: Length) -> Count {
        if !run.is_positive() {
            return Count(0);
        }
        let enough = |pieces: u64| self.fewest(&[(Count(pieces), run)]).is_some_and(|needed| needed.strips <= strips);
        let (mut some, mut more) = (0, (self.strip_length * strips).pieces_of(run).0 + 1);
        while more - some > 1 {
            let middle = u64::midpoint(some, more);
            if enough(middle) { some = middle } else { more = middle }
        }
        Count(some)
    }

    /// How long so many strips are when joined.
    pub fn length(self, strips: Count) -> Length {
        self.strip_length * strips - self.loss * strips.less(Count(1))
    }

    /// One piece more, begun with what is left of the last strip where that is longer than a join takes.
    fn one_more(self, so_far: Joined, run: Length) -> Option<Joined> {
        if so_far.rest >= run {
            return Some(Joined { rest: so_far.rest - run, ..so_far });
        }
        let begun = so_far.rest.max(self.loss);
        let each = self.strip_length - self.loss;
        let strips = match (run - begun).covered_by(each) {
            Some(strips) => strips.max(Count(1)),
            // A strip that a join takes whole can still be a piece by itself.
            None if run <= self.strip_length => Count(1),
            None => return None,
        };
        let rest = if each.is_positive() { begun + each * strips - run } else { self.strip_length - run };
        Some(Joined { strips: so_far.strips + strips, rest })
    }

    fn in_turn<'r>(self, runs: impl Iterator<Item = &'r (Count, Length)>) -> Option<Joined> {
        let mut pieces = runs.flat_map(|(count, run)| (0..count.0).map(|_| *run));
        pieces.try_fold(Joined::default(), |so_far, run| self.one_more(so_far, run))
    }

    fn in_the_best_order(self, left: &mut Runs, so_far: Joined) -> Option<Joined> {
        if left.iter().all(|(count, _)| count.0 == 0) {
            return Some(so_far);
        }
        let mut best: Option<Joined> = None;
        for kind in 0..left.len() {
            let (count, run) = left[kind];
            if count.0 == 0 {
                continue;
            }
            left[kind].0 = count.less(Count(1));
            let joined = self.one_more(so_far, run).and_then(|so_far| self.in_the_best_order(left, so_far));
            left[kind].0 = count;
            best = best.into_iter().chain(joined).min_by_key(better);
        }
        best
    }

    /// A number that the fewest strips are never below: the length of all pieces and of the joins that each cannot do
    /// without.
    fn at_least(self, runs: &[(Count, Length)]) -> Option<Joined> {
        let mut all = Length::ZERO;
        for (count, run) in runs {
            let strips = self.one_more(Joined::default(), *run)?.strips;
            all = all + (*run + self.loss * strips.less(Count(1))) * *count;
        }
        Some(Joined { strips: all.covered_by(self.strip_length)?, rest: Length::ZERO })
    }
}

/// Fewer strips first, and of as many those that leave more.
fn better(joined: &Joined) -> (Count, Reverse<Length>) {
    (joined.strips, Reverse(joined.rest))
}
