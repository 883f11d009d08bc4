//! The project's papers against the program: what they show is what it prints, what they name is there, and the
//! example manuscripts are as their comments say.
//!
//! What README.md and the chapters of the manual show of the program's output stands between marks. After a change of the output, print it anew
//! with `REFRESH_DOCS=1 cargo test --test program docs`, and read the difference before you commit it.

use crate::support;

mod developers;
mod examples;
mod format;
mod levels;
mod manual;
mod manuscript_words;
mod other_programs;
mod printed;
mod release;
#[cfg(unix)]
mod scripts;
mod walk;
mod word_text;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use sparestrip::discover::is_manuscript;
use sparestrip::report::manual::CHAPTERS;

/// The project's folder.
fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A paper of the project.
#[allow(clippy::disallowed_methods)] // The project's own papers are small and are text.
fn paper(name: &str) -> String {
    std::fs::read_to_string(project().join(name)).expect("a paper of the project")
}

/// A chapter of the manual, as it stands in the project.
fn chapter(name: &str) -> String {
    paper(&format!("src/report/manual/chapters/{name}.md"))
}

/// README.md and all chapters of the manual.
fn all_papers() -> String {
    let chapters = CHAPTERS.iter().map(|each| chapter(each.name));
    std::iter::once(paper("README.md")).chain(chapters).collect::<Vec<_>>().join("\n")
}

/// Runs the program in the project's folder, as a reader of the papers does.
fn sparestrip(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sparestrip"))
        .args(words)
        .current_dir(project())
        .output()
        .expect("the program runs")
}

/// What it prints.
fn printed(words: &[&str]) -> String {
    String::from_utf8(sparestrip(words).stdout).expect("text")
}

/// The example manuscripts of a folder, not of the folders in it.
fn manuscripts(folder: &str) -> Vec<PathBuf> {
    let entries = project().join(folder).read_dir().expect("a folder");
    let mut files: Vec<PathBuf> =
        entries.map(|entry| entry.expect("an entry").path()).filter(|path| is_manuscript(path)).collect();
    files.sort();
    files
}

/// The part of a paper from a heading to the next heading that is given.
fn section<'p>(paper: &'p str, from: &str, to: &str) -> &'p str {
    let start = paper.find(from).unwrap_or_else(|| panic!("there is no {from}"));
    let end = paper[start..].find(to).unwrap_or_else(|| panic!("there is no {to} after {from}"));
    &paper[start..start + end]
}

/// What stands in backticks on the lines of a text.
fn in_backticks(text: &str) -> Vec<&str> {
    text.lines().flat_map(|line| line.split('`').skip(1).step_by(2)).collect()
}

/// The blocks of a language.
fn fenced<'p>(paper: &'p str, language: &str) -> Vec<&'p str> {
    let fence = format!("```{language}\n");
    let blocks = paper.split(fence.as_str()).skip(1);
    blocks.map(|block| block.split("```").next().unwrap_or_default()).collect()
}
