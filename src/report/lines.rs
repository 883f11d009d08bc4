//! One line for each thing that was found, as compilers print theirs: what the quickfix list of an editor, its compile
//! mode and a problem matcher read.
//!
//! Nothing else is printed, so that no reader takes anything else for a finding. A query is a `warning` here: these
//! readers know `error`, `warning` and `note`, the words of the GNU Coding Standards, section "Formatting Error Messages".

use std::io::{self, Write};

use super::entry::{Entry, of_file};
use super::{Report, ReportInParts};
use crate::finding::Level;
use crate::run::{Checked, Total};

/// The format of lines.
#[derive(Clone, Copy, Debug, Default)]
pub struct Lines;

impl Report for Lines {
    fn begin(&self) -> Box<dyn ReportInParts> {
        Box::new(Lines)
    }
}

impl ReportInParts for Lines {
    fn file(&mut self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        Lines::of_file(file, out)
    }

    fn finish(&mut self, _: &Total<'_>, _: &mut dyn Write) -> io::Result<()> {
        Ok(())
    }
}

impl Lines {
    /// Writes everything that was found in one file.
    ///
    /// # Errors
    /// Where the output cannot be written.
    pub fn of_file(file: &Checked, out: &mut dyn Write) -> io::Result<()> {
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
