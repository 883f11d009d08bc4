//! The printed text: reading its files, matching its numbers with a manuscript's, and the texts that this is measured by.

mod checking;
mod corpus;
mod follows;
mod matching;
pub(crate) mod readers;
mod telling;
mod traps;
mod unsaid_sizes;
mod unstated;
mod ways_of_writing;

use std::fs;
use std::path::{Path, PathBuf};

use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::text::{MatchedText, TextFile, match_text};

/// The text of an example manuscript.
fn example(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("example-patterns/{name}.pattern.yaml"));
    String::from_utf8(fs::read(path).expect("an example")).expect("UTF-8")
}

/// A text matched with an example manuscript.
fn matched_by(manuscript: &str, name: &str, text: &str) -> MatchedText {
    matched_with(&example(manuscript), name, text)
}

/// A text matched with a manuscript.
fn matched_with(manuscript: &str, name: &str, text: &str) -> MatchedText {
    let source = Source::from_text("made.pattern.yaml", manuscript.to_string());
    let file = TextFile::new(PathBuf::from(name), text.as_bytes().to_vec());
    match_text(&file, &source, &Settings::default())
}
