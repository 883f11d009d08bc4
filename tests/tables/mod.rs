//! The tables to publish, read back as others read them: every number that the manuscript states stands in each of
//! the three formats, and nothing else does.

mod asking;
mod binding;
mod choices;
mod examples;
mod formats;
mod instructions;
mod missing;
mod names;
mod random;
use crate::support::rng;
mod stated;
mod stated_design;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use sparestrip::manuscript::Source;
use sparestrip::report::{tables_as_csv, tables_as_html, tables_as_markdown};
use sparestrip::tables::{Tables, tables};

/// One number or word in a table: the table, the row, which number of the row, the size, and what is stated.
type Fact = [String; 5];

/// What stands in the tables of a manuscript, by the three formats. Fails where they differ.
fn facts(text: &str) -> BTreeSet<Fact> {
    facts_for(text, &tables(&Source::from_text("x.pattern.yaml", text)), &stated::sizes(text))
}

/// The same for a manuscript that nobody else can read, which says by itself what its sizes are.
fn formats_agree(text: &str) {
    let tables = tables(&Source::from_text("x.pattern.yaml", text));
    let sizes = tables.tables.iter().map(|table| table.sizes.clone()).find(|sizes| !sizes.is_empty());
    facts_for(text, &tables, &sizes.unwrap_or_default());
    instructions::made_in_every_style(text);
}

fn facts_for(text: &str, tables: &Tables, sizes: &[String]) -> BTreeSet<Fact> {
    let csv = formats::of_csv(&tables_as_csv(tables));
    assert_eq!(formats::of_markdown(&tables_as_markdown(tables), sizes), csv, "Markdown, then CSV, of:\n{text}");
    assert_eq!(formats::of_html(&tables_as_html(tables), sizes), csv, "HTML, then CSV, of:\n{text}");
    csv
}

/// The example manuscripts of a folder, not of the folders in it.
fn manuscripts(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut files: Vec<PathBuf> = folder.read_dir().unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.to_string_lossy().ends_with(".pattern.yaml"));
    files.sort();
    files
}

#[allow(clippy::disallowed_methods)] // The project's own examples are small and are text.
fn text_of(file: &Path) -> String {
    std::fs::read_to_string(file).unwrap()
}
