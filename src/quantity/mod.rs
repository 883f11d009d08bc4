//! Exact lengths, fabric amounts and counts: what they are, how they are read and how they are printed.
//!
//! A [`Length`] is a whole number of ticks, so that sums, halves and comparisons are exact.
//! A [`Yardage`] is fabric measured along the bolt; it is a type of its own so that the length of a strip
//! is never taken for an amount to buy. A [`Count`] is neither.

mod count;
mod digits;
mod divisor;
mod grammar;
mod length;
mod percent;
mod run_together;
mod scale;
mod show;
mod unit;
mod written;
mod yardage;

pub use count::Count;
pub(crate) use divisor::common_divisor;
pub(crate) use grammar::has_times;
pub use grammar::{Fault, FaultKind, read_amount, read_count, read_dimensions, read_length};
pub use length::Length;
pub use percent::{Percent, read_percent};
pub use run_together::{RunTogether, run_together};
pub use scale::Scale;
pub use show::Round;
pub(crate) use show::{rewrite_sides, rewrite_square_or_sides};
pub use unit::{Measure, Unit};
pub(crate) use written::first_half;
pub use written::{Amount, OtherHalf, Written};
pub use yardage::Yardage;
