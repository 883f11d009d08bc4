//! Where output goes and how it looks.

use std::env;
use std::io::{self, IsTerminal, Write};
use std::path::Path;
use std::process::ExitCode;

use sparestrip::atomic_write::{precious, write_whole};
use sparestrip::discover::{Problem, reason};
use sparestrip::place_links::terminal_has_links;
use sparestrip::report::{RenderStyle, sanitize_line};
use sparestrip::safe_output::{SafeOutput, made_safe};

use super::manuscript::is_dash;
use super::{Colour, EXIT_FAILURE, RenderArgs};

impl RenderArgs {
    /// The look for standard output.
    pub(super) fn look(&self) -> RenderStyle {
        let terminal = io::stdout().is_terminal();
        let colour = match self.color {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => terminal && env::var_os("NO_COLOR").is_none_or(|value| value.is_empty()),
        };
        let width = if terminal { terminal_width() } else { None };
        RenderStyle { colour, ascii: self.ascii, width: width.unwrap_or(100) }
    }
}

/// Whether places are printed as links: on a terminal that has them and takes colors, or where that is asked for.
pub(super) fn wants_links(colours: bool) -> bool {
    let is_terminal = || io::stdout().is_terminal() || env::var_os("FORCE_HYPERLINK").is_some();
    colours && is_terminal() && terminal_has_links()
}

/// How many characters fit on a line of the terminal, where standard output is one.
pub(super) fn terminal_width() -> Option<usize> {
    terminal_size::terminal_size().map(|(width, _)| usize::from(width.0))
}

/// Says on standard error what could not be read.
pub(super) fn print_problem(problem: &Problem) {
    print_error(&format!("{}: {}", show(&problem.path), sanitize_line(&problem.why)));
}

/// Says on standard error what could not be done.
pub(super) fn print_error(words: &str) {
    write_stderr(&format!("sparestrip: {words}\n"));
}

/// Prints on standard error, through the door.
pub(super) fn write_stderr(text: &str) {
    // Where even that cannot be said there is nothing left to say it to.
    let _ = io::stderr().write_all(&made_safe(text.as_bytes()));
}

/// A path as it can be shown.
pub(super) fn show(path: &Path) -> String {
    sanitize_line(&path.to_string_lossy())
}

/// Writes to standard output, without colours. A reader that has gone away, as `head` does, is no fault.
pub(super) fn print(write: impl FnOnce(&mut dyn Write) -> io::Result<()>, status: ExitCode) -> ExitCode {
    if print_with(false, write) { status } else { ExitCode::from(EXIT_FAILURE) }
}

/// Writes to standard output, and says where that cannot be done. Whether it was.
pub(super) fn print_with(colours: bool, write: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> bool {
    print_report(colours, false, write)
}

/// The same for a report that may be made of commands for a workflow.
pub(super) fn print_report(
    colours: bool,
    commands: bool,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> bool {
    let out = SafeOutput::new(io::BufWriter::new(io::stdout().lock()));
    print_through(out.colours(colours).commands(commands).links(wants_links(colours)), write)
}

fn print_through<W: Write>(mut out: SafeOutput<W>, write: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> bool {
    match write(&mut out).and_then(|()| out.flush()) {
        Ok(()) => true,
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => true,
        Err(error) => {
            print_error(&format!("the report cannot be written: {error}"));
            false
        }
    }
}

/// Writes what was asked for to a file, whole or not at all, and says so on standard error; `-` stands for standard
/// output. Whether it was written.
pub(super) fn write_file(path: &Path, bytes: &[u8]) -> bool {
    if is_dash(path) {
        return print_report(false, false, |out| out.write_all(bytes));
    }
    write_report(path, false, |out| out.write_all(bytes))
}

/// The same for a report to a file, which may be made of commands for a workflow.
pub(super) fn write_report(path: &Path, commands: bool, write: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> bool {
    if let Some(what) = precious(path) {
        print_error(&format!("{} is {what}: nothing is written over it", show(path)));
        return false;
    }
    let safely = |out: &mut dyn Write| {
        let mut out = SafeOutput::new(io::BufWriter::new(out)).commands(commands);
        write(&mut out).and_then(|()| out.flush())
    };
    match write_whole(path, safely) {
        Ok(()) => {
            print_error(&format!("wrote {}", show(path)));
            true
        }
        Err(error) => {
            print_error(&format!("{} cannot be written: {}", show(path), reason(&error)));
            false
        }
    }
}
