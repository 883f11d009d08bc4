//! The weights of signs, from `rules/words/text-weights.txt`.

use super::digest::find;
use super::sign::Mark;

// Nobody reads the numbers of the table.
#[allow(clippy::unreadable_literal)]
mod table {
    include!(concat!(env!("OUT_DIR"), "/text_weights.rs"));
}

/// The weight of a sign; none where it was not fitted.
pub(super) fn of(sign: Mark) -> i32 {
    i32::from(table::WEIGHTS[find(&table::TAGS, sign.0)])
}
