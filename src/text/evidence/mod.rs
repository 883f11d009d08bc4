//! How much speaks for each number of a manuscript being the one that a number of a text says.
//!
//! What stands around a number is a list of signs; each sign has a weight, fitted on texts of which the truth of each
//! number is known (`rules/words/text-weights.txt`). What its value is counts for nothing here: so a number that differs
//! is seen against what it should be. All sums are whole numbers.

mod constants;
mod digest;
mod fitting;
mod gathered;
mod kinship;
mod number;
mod of_key;
mod of_number;
mod sign;
mod slips;
mod sums;
mod tally;
mod unstated;
mod verdict;
mod weights;

pub use fitting::{KeySigns, NumberSigns, signs_of};

use super::assign::CameTo;
pub(super) use gathered::Gathered;
use number::Number;
use sign::Mark;
use sums::Sums;

/// How much speaks for one key.
#[derive(Clone, Copy, Debug)]
pub(super) struct Score {
    /// The key.
    pub(super) key: usize,
    /// The sum of the weights of its signs.
    pub(super) sum: i32,
}

impl Gathered<'_, '_> {
    /// What a number comes to by the weights: what it did before, unless these say otherwise.
    pub(super) fn judge(&self, index: usize, before: &CameTo) -> CameTo {
        let number = Number::new(self, index);
        let (none, scores) = scores(&number);
        verdict::verdict(&number, before, none, &scores)
    }
}

/// How much speaks for none of the keys, and for each that a number can be.
fn scores(number: &Number<'_, '_>) -> (i32, Vec<Score>) {
    let mut none = 0;
    of_number::of_none(number, &mut |sign: Mark| none += weights::of(sign));
    let mut sums = Sums::new(number);
    let keys = number.candidates.fits.like().iter().copied().filter(|key| number.can_be(*key));
    (none, keys.map(|key| Score { key, sum: sums.of(key) }).collect())
}
