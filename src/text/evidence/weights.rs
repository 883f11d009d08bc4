//! The weights of signs, from `rules/words/text-weights.txt`.

use std::sync::OnceLock;

use super::sign::Mark;

include!(concat!(env!("OUT_DIR"), "/text_weights.rs"));

/// The weights by their digests, each at the first free place from there on.
fn table() -> &'static [(u64, i16)] {
    static TABLE: OnceLock<Vec<(u64, i16)>> = OnceLock::new();
    TABLE.get_or_init(|| {
        let mut table = vec![(0, 0); (WEIGHTS.len() * 3).next_power_of_two()];
        for (digest, weight) in WEIGHTS {
            let mut at = place(*digest, table.len());
            while table[at].1 != 0 {
                at = (at + 1) % table.len();
            }
            table[at] = (*digest, *weight);
        }
        table
    })
}

/// By the upper bits, which all of a sign has gone into.
#[allow(clippy::cast_possible_truncation)] // Only some bits are asked for.
const fn place(digest: u64, length: usize) -> usize {
    (digest >> 32) as usize & (length - 1)
}

/// The weight of a sign; none where it was not fitted.
pub(super) fn of(sign: Mark) -> i32 {
    let table = table();
    let mut at = place(sign.0, table.len());
    while table[at].1 != 0 {
        if table[at].0 == sign.0 {
            return i32::from(table[at].1);
        }
        at = (at + 1) % table.len();
    }
    0
}
