//! Strips joined end to end against a search of every way of joining: all scraps are kept, and each piece is made of any
//! row of scraps and whole strips.

use std::collections::BTreeSet;

use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::joined::Joining;

use super::rng;

/// Every set of scraps that may be left when one more piece is sewn with so many new strips at most.
fn after(scraps: &[i64], run: i64, strip: i64, loss: i64, new: i64) -> BTreeSet<(i64, Vec<i64>)> {
    let mut ways = BTreeSet::new();
    for chosen in 0..1_u32 << scraps.len() {
        let taken = |index: &usize| chosen & (1 << index) != 0;
        let rest: Vec<i64> = (0..scraps.len()).filter(|index| !taken(index)).map(|index| scraps[index]).collect();
        let parts: Vec<i64> = (0..scraps.len()).filter(taken).map(|index| scraps[index]).collect();
        for strips in 0..=new {
            let joined = i64::try_from(parts.len()).unwrap() + strips;
            let long = parts.iter().sum::<i64>() + strips * strip - (joined - 1).max(0) * loss;
            if joined == 0 || long < run {
                continue;
            }
            let mut left = rest.clone();
            left.push(long - run);
            left.retain(|scrap| *scrap > 0);
            left.sort_unstable();
            ways.insert((strips, left));
        }
    }
    ways
}

fn fewest(runs: &[i64], strip: i64, loss: i64) -> i64 {
    let mut states = BTreeSet::from([(0, Vec::new(), runs.to_vec())]);
    let mut best = i64::MAX;
    while let Some((strips, scraps, left)) = states.pop_first() {
        if left.is_empty() {
            best = best.min(strips);
            continue;
        }
        for index in 0..left.len() {
            let mut others = left.clone();
            let run = others.remove(index);
            let most = (run - loss).max(1) / (strip - loss) + 1;
            for (new, scraps) in after(&scraps, run, strip, loss, most) {
                states.insert((strips + new, scraps, others.clone()));
            }
        }
    }
    best
}

#[test]
fn joined_strips_are_as_few_as_any_way_of_joining_takes() {
    let inches = |length: i64| Length::inch_fraction(length, 2);
    for index in 0..3_000 {
        let rng = &mut rng(17, index);
        let (strip, loss) = (rng.between(4, 12), rng.between(0, 3));
        let (one, other) = (rng.between(1, 25), rng.between(1, 25));
        let (ones, others) = (rng.between(1, 2), rng.between(0, 2));
        let mut runs = vec![one; usize::try_from(ones).unwrap()];
        runs.extend(vec![other; usize::try_from(others).unwrap()]);
        let joining = Joining { strip_length: inches(strip), loss: inches(loss) };
        let count = |count: i64| Count(u64::try_from(count).unwrap());
        let joined = joining.fewest(&[(count(ones), inches(one)), (count(others), inches(other))]).unwrap();
        assert_eq!(
            joined.strips,
            count(fewest(&runs, strip, loss)),
            "{runs:?} from strips of {strip}, a join takes {loss}"
        );
    }
}

/// Of more pieces than are counted one by one the number is never too high, and pieces and strips agree.
#[test]
fn many_joined_pieces_are_never_asked_for_too_many_strips() {
    for index in 0..300 {
        let rng = &mut rng(18, index);
        let (strip, loss, run) = (rng.between(20, 80), rng.between(0, 5), rng.between(1, 200));
        let joining = Joining { strip_length: Length::inches(strip), loss: Length::inches(loss) };
        let fewest = |pieces: u64| joining.fewest(&[(Count(pieces), Length::inches(run))]).unwrap().strips.0;
        // 199 pieces and 3 more are 202.
        assert!(fewest(202) <= fewest(199) + fewest(3), "{run} from {strip}");
        let strips = Count(rng.between(1, 60).unsigned_abs());
        let pieces = joining.pieces(strips, Length::inches(run)).0;
        assert!(fewest(pieces) <= strips.0 && fewest(pieces + 1) > strips.0, "{run} from {strips} of {strip}");
    }
}
