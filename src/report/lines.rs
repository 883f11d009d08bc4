//! One line for each thing that was found, as compilers print theirs: what the quickfix list of an editor, its compile
//! mode and a problem matcher read.
//!
//! Nothing else is printed, so that no reader takes anything else for a finding. A query is a `warning` here: these
//! readers know `error`, `warning` and `note`, the words of the GNU Coding Standards, section "Formatting Error Messages".

use std::io::{self, Write};

use super::Report;
use super::entry::{Entry, of_file};
use crate::finding::Level;
use crate::run::{Checked, Run};

/// The format of lines.
#[derive(Clone, Copy, Debug, Default)]
pub struct Lines;

impl Report for Lines {
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        run.files.iter().try_for_each(|file| self.file(file, out))
    }
}

impl Lines {
    /// Writes everything that was found in one file.
    ///
    /// # Errors
    /// Where the output cannot be written.
    pub fn file(self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        of_file(file).iter().try_for_each(|entry| writeln!(out, "{}", line(entry)))
    }
}

/// `file:line:column: level: rule (size): message`.
fn line(entry: &Entry) -> String {
    let level = match entry.level {
        Level::Error => "error",
        Level::Query => "warning",
        Level::Note => "note",
    };
    let (path, title) = (path(&entry.path), entry.title());
    let column = entry.start.map_or(1, |place| place.column);
    format!("{path}:{}:{column}: {level}: {title}: {}", entry.line(), entry.message)
}

/// A path that begins as a command of a log does is named from this folder, so that the door does not break it.
fn path(path: &str) -> String {
    if path.trim_start().starts_with("::") { format!("./{path}") } else { path.to_string() }
}
