//! Log cabins: how long each log is, by the side that it meets when it is sewn on.
//!
//! Plain addition. Round: each log goes on the next side in turn. Opposite (courthouse steps): two on facing sides, then
//! two on the others. Two sides (a quarter log cabin): always on the same two. Handbooks print the same lengths with a
//! seam at each end (center 3 in cut, logs 1 3/4 in cut: 3, 4 1/4, 4 1/4, 5 1/2, ...).

use super::rectangle::Rectangle;
use crate::keywords::keywords;
use crate::quantity::{Count, Length};

keywords!(
    /// The order in which logs are sewn on.
    LogOrder {
    /// On one side after another, round the center.
    Round = "round",
    /// On facing sides, two by two, as courthouse steps are.
    Opposite = "opposite",
    /// On two sides only.
    TwoSides = "two_sides",
});

impl LogOrder {
    /// Whether the log of a number, from 0, goes on at a side and makes the unit wider.
    pub const fn is_at_side(self, number: usize) -> bool {
        match self {
            LogOrder::Round | LogOrder::TwoSides => number.is_multiple_of(2),
            LogOrder::Opposite => number % 4 < 2,
        }
    }
}

/// A log, finished.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Log {
    /// How wide.
    pub width: Length,
    /// How long: as the side that it meets.
    pub length: Length,
}

/// The logs of so many widths, in the order in which they are sewn on, and how large they make the center.
pub fn log_cabin(center: Rectangle, widths: &[Length], order: LogOrder) -> (Vec<Log>, Rectangle) {
    let mut size = center;
    let mut logs = Vec::with_capacity(widths.len());
    for (number, width) in widths.iter().copied().enumerate() {
        // A log at a side is as long as the quilt is high, and makes it wider.
        if order.is_at_side(number) {
            logs.push(Log { width, length: size.length });
            size.width = size.width + width;
        } else {
            logs.push(Log { width, length: size.width });
            size.length = size.length + width;
        }
    }
    (logs, size)
}

/// How many strips so many pieces of these lengths are cut from, none of them joined: the fewest that is proven, and so
/// many as are enough. `None` where one is longer than a strip.
///
/// Proven are the sum of all lengths over that of a strip, and, of pieces of which no more than two, three or four lie in a
/// strip, so many strips. Enough are those that are filled with the longest first.
pub fn strips_for(lengths: &[(Count, Length)], strip: Length) -> Option<(Count, Count)> {
    if lengths.iter().any(|(_, length)| !length.is_positive() || *length > strip) {
        return None;
    }
    let sum = lengths.iter().map(|(count, length)| *length * *count).sum::<Length>();
    let mut fewest = sum.covered_by(strip)?;
    for in_one in 1..=4_u64 {
        let is_long = |length: Length| length * Count(in_one + 1) > strip;
        let long = lengths.iter().filter(|(_, length)| is_long(*length));
        let count = long.fold(Count(0), |sum, (count, _)| sum + *count);
        fewest = fewest.max(count.in_groups_of(Count(in_one))?);
    }
    Some((fewest, filled(lengths, strip).max(fewest)))
}

/// How many strips are filled, the longest pieces first, each strip like the one before it as long as there are pieces.
fn filled(lengths: &[(Count, Length)], strip: Length) -> Count {
    let mut left: Vec<(u64, Length)> = lengths.iter().map(|(count, length)| (count.0, *length)).collect();
    left.sort_by_key(|(_, length)| std::cmp::Reverse(*length));
    let mut strips = 0;
    while left.iter().any(|(count, _)| *count > 0) {
        let mut room = strip;
        let mut taken: Vec<u64> = Vec::new();
        for (count, length) in &left {
            let fit = room.pieces_of(*length).0.min(*count);
            room = room - *length * Count(fit);
            taken.push(fit);
        }
        let alike = |((count, _), taken): (&(u64, Length), &u64)| if *taken == 0 { u64::MAX } else { count / taken };
        let times = left.iter().zip(&taken).map(alike).min().unwrap_or(1).max(1);
        for ((count, _), taken) in left.iter_mut().zip(&taken) {
            *count -= (taken * times).min(*count);
        }
        strips += times;
    }
    Count(strips)
}
