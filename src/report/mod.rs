//! Printing what was found. Every format is fed the same findings.

pub mod figure;
mod glue;
mod json;
mod rule_pages;
mod tame;
mod text;
mod words;
mod worksheet;
mod worksheet_json;

use std::io::{self, Write};

use crate::run::Run;

pub use json::Json;
pub use rule_pages::{rule_list, rule_page};
pub use tame::{tame, tame_line};
pub use text::{Look, Text};
pub use words::summary;
pub(crate) use words::total_in_words;
pub use worksheet::worksheet;
pub use worksheet_json::worksheet_json;

/// A format in which a run is told.
pub trait Report {
    /// Writes all of it.
    ///
    /// # Errors
    /// Where the output cannot be written.
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()>;
}
