//! The sums of those signs that go by a few answers, whatever number is asked of.

use std::cell::OnceCell;

use super::super::keys::{Keys, ValueKind, What};
use super::of_key::{
    KIN, Nearest, PLACES, SIZES, Side, TIMES, near_key, near_kind, near_size, near_what, of_count, of_kept,
    of_likeness, of_neighbor, of_stated, of_told, of_told_in_line,
};
use super::sign::{Mark, Word, sign, word};
use super::weights;

/// For each of two answers.
type Either<T> = [T; 2];

pub(super) struct Constants {
    /// For each key.
    pub(super) stated: Vec<i32>,
    /// By whether it is of its kind, and of its form.
    pub(super) likeness: Either<Either<i32>>,
    /// By whether the key is a count, and the number has a unit.
    pub(super) count: Either<Either<i32>>,
    /// By how often it is told, and whether it is stated.
    pub(super) told: [Either<i32>; TIMES.len()],
    pub(super) told_in_line: [Either<i32>; What::COUNT],
    /// By whether its names leave it, whether they do in the wide sense, whether it is fitted and named.
    pub(super) kept: Either<Either<Either<Either<i32>>>>,
    pub(super) neighbors: [Neighbor; Side::ALL.len()],
    near: [Near; PLACES.len()],
}

/// The sums of what the number at a place beside one came to before the weights.
pub(super) struct Near {
    is_key: Either<i32>,
    /// By kin and size.
    sizes: [[i32; SIZES.len()]; KIN.len()],
    /// By size, and whether it is of the same kind.
    is_what: [Either<i32>; SIZES.len()],
    /// By kin and kind, and by the kind that is asked of; found once they are asked for.
    whats: [[OnceCell<Box<[i32; What::COUNT]>>; What::COUNT]; KIN.len()],
}

impl Near {
    fn new(place: usize) -> Near {
        let of = |words: &[Word<'_>]| sum(|add| add(words));
        Near {
            is_key: either(|is| of(&near_key(place, is))),
            sizes: std::array::from_fn(|kin| std::array::from_fn(|size| of(&near_size(place, kin, size)))),
            is_what: std::array::from_fn(|size| either(|is| of(&near_kind(place, size, is)))),
            whats: std::array::from_fn(|_| std::array::from_fn(|_| OnceCell::new())),
        }
    }
}

/// The sums of what a number before or after one says.
pub(super) struct Neighbor {
    none: i32,
    some: i32,
    of_it: [[i32; What::COUNT]; What::COUNT],
}

/// The sum of signs.
pub(super) fn sum(signs: impl FnOnce(&mut dyn FnMut(&[Word<'_>]))) -> i32 {
    let mut sum = 0;
    signs(&mut |words| sum += weights::of(sign::<Mark>(words)));
    sum
}

fn either<T>(of: impl Fn(bool) -> T) -> Either<T> {
    [of(false), of(true)]
}

impl Constants {
    pub(super) fn new(keys: &Keys<'_>) -> Constants {
        let form = |is_count| (What::Count, if is_count { ValueKind::Count } else { ValueKind::Length });
        let kept = |is_kept, is_wide, is_fitted, is_named| {
            sum(|mut add| of_kept((is_kept, is_wide), (is_fitted, is_named), &mut add))
        };
        Constants {
            stated: keys.list.iter().map(|key| sum(|mut add| of_stated(key, &mut add))).collect(),
            likeness: either(|kind| either(|form| sum(|mut add| of_likeness((kind, form), &mut add)))),
            count: either(|count| either(|unit| sum(|mut add| of_count(form(count), unit, &mut add)))),
            told: std::array::from_fn(|times| either(|stated| sum(|mut add| of_told(times, stated, &mut add)))),
            told_in_line: What::ALL.map(|what| either(|is| sum(|mut add| of_told_in_line(is, what, &mut add)))),
            kept: either(|is| either(|wide| either(|fitted| either(|named| kept(is, wide, fitted, named))))),
            neighbors: Side::ALL.map(Neighbor::new),
            near: std::array::from_fn(Near::new),
        }
    }

    /// The sum of what [`of_near`](super::of_key::of_near) says.
    pub(super) fn near(&self, nearest: Nearest, own: What) -> i32 {
        let Nearest { place, is_key, kin, size, what, is_what } = nearest;
        let near = &self.near[place];
        let whats = near.whats[kin][what as usize]
            .get_or_init(|| Box::new(What::ALL.map(|own| sum(|add| add(&near_what(place, kin, what, own))))));
        near.is_key[usize::from(is_key)]
            + near.sizes[kin][size]
            + near.is_what[size][usize::from(is_what)]
            + whats[own as usize]
    }
}

impl Neighbor {
    fn new(side: Side) -> Neighbor {
        let of = |whats: u32, own: What| sum(|mut add| of_neighbor(side, whats, own, &mut add));
        let none = of(0, What::Count);
        let some = sum(|add| add(&[side.word(), word!("same"), word!("yes")]));
        let of_it = What::ALL.map(|own| What::ALL.map(|what| of(1 << what as u32, own) - some));
        Neighbor { none, some, of_it }
    }

    /// The sum for a kind of number, where it is of the same thing by its value what these bits say.
    pub(super) fn sum(&self, mut whats: u32, own: What) -> i32 {
        if whats == 0 {
            return self.none;
        }
        let mut sum = self.some;
        while whats != 0 {
            sum += self.of_it[own as usize][whats.trailing_zeros() as usize];
            whats &= whats - 1;
        }
        sum
    }
}
