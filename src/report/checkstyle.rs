//! The XML of Checkstyle, which many systems and editors read: a file with its findings, each with line, column,
//! severity, message and source.
//!
//! It has no published schema. The elements, the attributes and the three words for a severity are those that
//! Checkstyle's own `XMLLogger` and `SeverityLevel` write.

use std::io::{self, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesStart, Event};

use super::Report;
use super::entry::{Entry, for_xml, of_run};
use crate::finding::Level;
use crate::run::Run;
use crate::sanitize::defused;

/// The format of Checkstyle.
#[derive(Clone, Copy, Debug, Default)]
pub struct Checkstyle;

/// The version of the format: that of the Checkstyle which wrote it so.
const VERSION: &str = "4.3";

impl Report for Checkstyle {
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        let mut out = Writer::new_with_indent(out, b' ', 2);
        out.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
        let mut root = BytesStart::new("checkstyle");
        root.push_attribute(("version", VERSION));
        out.write_event(Event::Start(root.borrow()))?;
        let mut entries = of_run(run).peekable();
        while let Some(entry) = entries.next() {
            let mut file = BytesStart::new("file");
            file.push_attribute(("name", fit(&entry.path).as_str()));
            out.write_event(Event::Start(file.borrow()))?;
            write_error(&entry, &mut out)?;
            while let Some(next) = entries.next_if(|next| next.path == entry.path) {
                write_error(&next, &mut out)?;
            }
            out.write_event(Event::End(file.to_end()))?;
        }
        out.write_event(Event::End(root.to_end()))?;
        writeln!(out.get_mut())
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
