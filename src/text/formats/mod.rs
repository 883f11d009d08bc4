//! The formats that texts are read from, a file each.

use std::path::Path;

use super::passage::PrintedText;

/// Reads a text. What it is, its bytes tell, and where they do not, the ending of its name.
pub fn read_text(_path: &Path, _bytes: &[u8]) -> PrintedText {
    PrintedText::default()
}
