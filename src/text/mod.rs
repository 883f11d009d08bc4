//! The printed text of a pattern, checked against its manuscript.
//!
//! A text is read into passages (`passage`, `formats`), these into words and numbers (`tokens`, `numbers`, `elements`); the
//! manuscript gives the keys (`keys`, `lexicon`); what stands around a number leaves some of them (`context`), and each
//! line goes to what fits it as a whole (`assign`).

mod assign;
mod compare;
mod context;
mod elements;
pub mod formats;
mod keys;
mod lexicon;
mod not_required;
mod number_words;
mod numbers;
pub mod passage;
mod tokens;

pub use formats::read_text;
pub use passage::{Passage, PassageKind, PlacedRun, PrintedText, TextFormat, TextPlace, TextProblem};
