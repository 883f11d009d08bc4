//! The computation against published values. Each row names the author, site or title that it is from.
//!
//! The handbooks ignore what the joins take: their rows are checked with a join that takes nothing.

mod backing;
mod batting;
mod bias;
mod borders;
mod cutting;
mod edges_of_enough;
mod fold;
mod joins;
mod log_cabin;
mod measures;
mod shapes;
mod strips;
mod units;

use sparestrip::quantity::{Length, Measure, read_length};

/// A length as it is printed, in inches where it bears no mark.
fn length(text: &str) -> Length {
    read_length(text, Measure::Inch).unwrap().length
}
