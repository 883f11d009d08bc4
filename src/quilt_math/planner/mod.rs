//! How much fabric a list of pieces takes, decided by proof: plans that can be cut, and a length below which no way
//! of cutting fits.
//!
//! Whole numbers decide. A linear programme proposes prices and strips in floating point; the length of a plan is
//! counted, and a bound is checked again, without it. Work is limited by counts of steps and never by time, so that
//! the same list has the same answer on every machine.
//!
//! A plan that can be cut proves that an amount is enough; a bound that holds for any cutting proves that it is not;
//! between them it is undecided, and said to be.
//! It is asked for lists whose strips the text does not state, and only where the first plan is longer than what is
//! stated, or so much more is stated that a shorter plan would make it generous (`quick.rs`); an answer is kept by the
//! list (`cache.rs`).

mod bound;
mod cache;
mod clever;
mod cutting;
mod decision;
mod even;
mod few;
mod fill;
mod guillotine;
mod items;
mod layout;
mod linear;
mod parts;
mod plain;
mod quick;
mod scales;
mod sections;
mod small;
mod whole;

pub use bound::{Reason, Share};
pub use cache::decision;
pub use cutting::{CutGrid, CutStrips, Cutting, DecidedSmall};
pub use decision::{Decision, Verdict};
pub use even::alike;
pub use items::{Item, Remnant};
pub use parts::{LeftOver, Made, Part, parts};
pub use scales::fewest_by_scales;
pub use small::{decide_small, fewest_by_area, most_from};
