//! Text without markup.

use super::builder::Builder;
use super::decode::decode;
use super::lines::{lines, read_lines};
use crate::text::passage::{PrintedText, TextFormat};

/// Reads text without markup.
pub(super) fn read(bytes: &[u8]) -> PrintedText {
    let decoded = decode(bytes);
    let mut builder = Builder::new(TextFormat::Plain);
    read_lines(&lines(&decoded.text, 0), &mut builder);
    let mut printed = builder.finish();
    decoded.place_in_file(&mut printed);
    printed
}
