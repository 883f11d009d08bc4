//! The XML of Checkstyle, which many systems and editors read: a file with its findings, each with line, column,
//! severity, message and source.
//!
//! It has no published schema. The elements, the attributes and the three words for a severity are those that
//! Checkstyle's own `XMLLogger` and `SeverityLevel` write.

use std::io::{self, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesStart, Event};

use super::entry::{Entry, for_xml, of_file, of_problem};
use super::{Report, ReportInParts};
use crate::finding::Level;
use crate::run::{Checked, Total};
use crate::sanitize::defused;

/// The format of Checkstyle.
#[derive(Clone, Copy, Debug, Default)]
pub struct Checkstyle;

/// The version of the format: that of the Checkstyle which wrote it so.
const VERSION: &str = "4.3";

impl Report for Checkstyle {
    fn begin(&self) -> Box<dyn ReportInParts> {
        Box::new(Files { begun: false })
    }
}

/// The document that is being written.
struct Files {
    /// Whether its first lines are.
    begun: bool,
}

impl Files {
    /// Writes what was found in a file as one element, or nothing.
    fn entries(&mut self, entries: &[Entry], out: &mut dyn Write) -> io::Result<()> {
        if !self.begun {
            self.begun = true;
            let mut out = Writer::new_with_indent(&mut *out, b' ', 2);
            out.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
            let mut root = BytesStart::new("checkstyle");
            root.push_attribute(("version", VERSION));
            out.write_event(Event::Start(root))?;
        }
        let Some(first) = entries.first() else { return Ok(()) };
        let mut bytes = Vec::new();
        let mut element = Writer::new_with_indent(&mut bytes, b' ', 2);
        let mut file = BytesStart::new("file");
        file.push_attribute(("name", fit(&first.path).as_str()));
        element.write_event(Event::Start(file.borrow()))?;
        entries.iter().try_for_each(|entry| write_error(entry, &mut element))?;
        element.write_event(Event::End(file.to_end()))?;
        let lines = String::from_utf8_lossy(&bytes);
        write!(out, "\n  {}", lines.replace('\n', "\n  "))
    }
}

impl ReportInParts for Files {
    fn file(&mut self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        self.entries(&of_file(file), out)
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        total.problems.iter().try_for_each(|problem| self.entries(&[of_problem(problem)], out))?;
        self.entries(&[], out)?;
        writeln!(out, "\n</checkstyle>")
    }
}

fn write_error<W: Write>(entry: &Entry, out: &mut Writer<W>) -> io::Result<()> {
    let mut element = BytesStart::new("error");
    element.push_attribute(("line", entry.line().to_string().as_str()));
    if let Some(place) = entry.start {
        element.push_attribute(("column", place.column.to_string().as_str()));
    }
    let severity = match entry.level {
        Level::Error => "error",
        Level::Query => "warning",
        Level::Note => "info",
    };
    let about = entry.about.as_ref().map(|about| format!("{about}: ")).unwrap_or_default();
    element.push_attribute(("severity", severity));
    element.push_attribute(("message", fit(&format!("{about}{}", entry.in_full())).as_str()));
    // Readers take what follows the last dot for the kind.
    element.push_attribute(("source", format!("sparestrip.{}", entry.rule).as_str()));
    out.write_event(Event::Empty(element))
}

/// Text as XML can hold it, in which no log sees a command.
fn fit(text: &str) -> String {
    defused(&for_xml(text))
}
