//! Log cabins: how long each log is, by the side that it meets when it is sewn on.
//!
//! Plain addition. Round: each log goes on the next side in turn. Opposite (courthouse steps): two on facing sides, then
//! two on the others. Two sides (a quarter log cabin): always on the same two. Handbooks print the same lengths with a
//! seam at each end (center 3 in cut, logs 1 3/4 in cut: 3, 4 1/4, 4 1/4, 5 1/2, ...).

use super::rectangle::Rectangle;
use crate::keywords::keywords;
use crate::quantity::Length;

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
