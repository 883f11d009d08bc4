//! The printed text of a pattern: read from its file into passages with places.

pub mod formats;
pub mod passage;

pub use formats::read_text;
pub use passage::{Passage, PassageKind, PrintedText, TextFormat, TextPlace, TextProblem};
