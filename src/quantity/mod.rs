//! Exact lengths, fabric amounts and counts: what they are, how they are read and how they are printed.
//!
//! A [`Length`] is a whole number of ticks, so that sums, halves and comparisons are exact.
//! A [`Yardage`] is fabric measured along the bolt; it is a type of its own so that the length of a strip
//! is never taken for an amount to buy. A [`Count`] is neither.

mod count;
mod divisor;
mod grammar;
mod length;
mod show;
mod unit;
mod written;
mod yardage;

pub use count::Count;
pub(crate) use divisor::common_divisor;
pub use grammar::{Fault, FaultKind, read_amount, read_count, read_dimensions, read_length};
pub use length::Length;
pub use show::Round;
pub use unit::{Measure, Unit};
pub use written::{Amount, Written};
pub use yardage::Yardage;
