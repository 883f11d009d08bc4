//! The formats that texts are read from, a file each.

mod builder;
mod columns;
mod decode;
mod fractions;
mod grid;
mod heads;
mod html;
mod lines;
mod markdown;
mod plain;

use std::path::Path;

use super::passage::{PrintedText, TextFormat, TextPlace};
use builder::Builder;

/// Reads a text. What it is, its bytes tell, and where they do not, the ending of its name.
pub fn read_text(path: &Path, bytes: &[u8]) -> PrintedText {
    let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_ascii_lowercase();
    match ending.as_str() {
        "md" | "markdown" => markdown::read(bytes),
        "html" | "htm" | "xhtml" => html::read(bytes),
        _ => plain::read(bytes),
    }
}

/// A text of which nothing could be read, and why.
fn unread(format: TextFormat, says: impl Into<String>) -> PrintedText {
    let mut builder = Builder::new(format);
    builder.problem(says, TextPlace::Whole);
    builder.finish()
}
