//! Texts of invented patterns in many styles, each with its manuscript and the truth of each of its numbers.
//!
//! A text in `texts` or `aside` is Markdown in which each number of the manuscript stands as ⟦its path|how it is
//! written⟧, and each that follows from others as ⟦=their sum⟧; all other numbers are no requirements. What the text says
//! is filled in from the manuscript, so that text and truth cannot differ. Nobody tunes on the texts in `aside`.
//! `traps.txt` has sentences with numbers that no manuscript states.

mod changes;
pub(crate) mod fill;
mod fitting;
mod itself;
mod measure;
pub(crate) mod value;

use std::fs;
use std::path::PathBuf;

use sparestrip::text::PassageKind;

use super::readers::document::Part;
use super::readers::read;
use fill::{CLOSE, Filled, OPEN, Truth, fill};

/// A text of the corpus.
pub(crate) struct Text {
    pub(crate) name: String,
    /// Its manuscript.
    pub(crate) manuscript: PathBuf,
    pub(crate) parts: Vec<Part>,
    /// The numbers that its manuscript states or that follow from it, in the order of reading.
    pub(crate) numbers: Vec<Number>,
}

/// A number of a text.
#[derive(Clone, Debug)]
pub(crate) struct Number {
    /// Which passage it stands in.
    pub(crate) passage: usize,
    /// Its bytes there.
    pub(crate) at: std::ops::Range<usize>,
    pub(crate) truth: Truth,
}

pub(crate) fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/text/corpus")
}

/// The texts of a folder, `texts` or `aside`, by their names.
pub(crate) fn texts(of: &str) -> Vec<Text> {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder().join(of)).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths.into_iter().map(|path| text(&path)).collect()
}

/// The sentences whose numbers are no requirements.
pub(crate) fn traps() -> Vec<String> {
    contents(&folder().join("traps.txt")).lines().map(str::to_owned).collect()
}

pub(crate) fn contents(path: &std::path::Path) -> String {
    String::from_utf8(fs::read(path).unwrap()).unwrap()
}

fn text(path: &std::path::Path) -> Text {
    let name = path.file_stem().unwrap().to_string_lossy().into_owned();
    let whole = contents(path);
    let (first, template) = whole.split_once('\n').unwrap();
    let of = first.strip_prefix("% ").unwrap_or_else(|| panic!("{name}: its first line names no manuscript"));
    let manuscript = folder().join("manuscripts").join(format!("{of}.pattern.yaml"));
    let Filled { text, truths } = fill(template, &contents(&manuscript), &name);
    let mut truths = truths.into_iter();
    let mut parts: Vec<Part> = Vec::new();
    let mut numbers = Vec::new();
    let mut table = None;
    for (passage, read) in read("a.md", text).passages.into_iter().enumerate() {
        let mut says = String::new();
        let mut start = 0;
        for ch in read.text.chars() {
            match ch {
                OPEN => start = says.len(),
                CLOSE => numbers.push(Number { passage, at: start..says.len(), truth: truths.next().unwrap() }),
                _ => says.push(ch),
            }
        }
        add(&mut parts, &mut table, read.kind, says);
    }
    assert!(truths.next().is_none(), "{name}: not all of it is read");
    Text { name, manuscript, parts, numbers }
}

fn add(parts: &mut Vec<Part>, table: &mut Option<u32>, kind: PassageKind, says: String) {
    let of = if let PassageKind::Cell { table, .. } = kind { Some(table) } else { None };
    match (kind, parts.last_mut()) {
        (PassageKind::Heading(level), _) => parts.push(Part::Heading(level, says)),
        (PassageKind::Paragraph, _) => parts.push(Part::Paragraph(says)),
        (PassageKind::ListItem { depth }, Some(Part::List(_, items))) => items.push((depth, says)),
        (PassageKind::ListItem { depth }, _) => parts.push(Part::List(false, vec![(depth, says)])),
        (PassageKind::Cell { row, column, .. }, last) => {
            if !matches!(last, Some(Part::Table(_)) if *table == of) {
                parts.push(Part::Table(Vec::new()));
            }
            let Some(Part::Table(rows)) = parts.last_mut() else { unreachable!() };
            let (row, column) = (usize::try_from(row).unwrap(), usize::try_from(column).unwrap());
            if rows.len() <= row {
                rows.resize(row + 1, Vec::new());
            }
            rows[row].resize(column, String::new());
            rows[row].push(says);
        }
    }
    *table = of;
}
