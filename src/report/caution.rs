//! The caution about cribs, as the formats for programs tell it.

use serde::Serialize;

use crate::caution::{CRIB, CribQuilts};
use crate::run::Checked;

/// The caution of one manuscript, with the sizes that it is due to, and the place of the first.
#[derive(Debug, Serialize)]
pub(super) struct Caution<'a> {
    #[serde(rename = "caution")]
    pub(super) words: &'static str,
    pub(super) size: &'a str,
    pub(super) sizes: Vec<&'a str>,
    pub(super) file: String,
    pub(super) line: usize,
    pub(super) column: usize,
}

impl<'a> Caution<'a> {
    /// `crib size (baby)`, or `crib sizes (baby, crib)`.
    pub(super) fn head(&self) -> String {
        match self.sizes.as_slice() {
            [size] => format!("crib size ({size})"),
            sizes => format!("crib sizes ({})", sizes.join(", ")),
        }
    }

    /// The caution of a file; `None` where none of its sizes is for a crib.
    pub(super) fn of(file: &'a Checked) -> Option<Caution<'a>> {
        let CribQuilts { sizes, place } = file.outcome.cribs.as_ref()?;
        let sizes: Vec<&str> = sizes.iter().map(String::as_str).collect();
        let size = sizes.first()?;
        let file = file.path.to_string_lossy().into_owned();
        Some(Caution { words: CRIB, size, sizes, file, line: place.line, column: place.column })
    }
}
