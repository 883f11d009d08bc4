//! The caution about cribs, as the formats for programs tell it.

use serde::Serialize;

use crate::caution::{CRIB, CribQuilt};
use crate::run::Checked;

/// The caution of one manuscript, with the first size that it is due to.
#[derive(Debug, Serialize)]
pub(super) struct Caution<'a> {
    #[serde(rename = "caution")]
    pub(super) words: &'static str,
    pub(super) size: &'a str,
    pub(super) file: String,
    pub(super) line: usize,
    pub(super) column: usize,
}

impl<'a> Caution<'a> {
    /// The caution of a file; `None` where none of its sizes is for a crib.
    pub(super) fn of(file: &'a Checked) -> Option<Caution<'a>> {
        let CribQuilt { size, place } = file.outcome.crib.as_ref()?;
        let file = file.path.to_string_lossy().into_owned();
        Some(Caution { words: CRIB, size, file, line: place.line, column: place.column })
    }
}
