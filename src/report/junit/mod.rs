//! JUnit's XML, which most systems for continuous integration read: a suite a manuscript, a case a stated number.
//!
//! There is no standard, and readers differ. What all of them take is written: one outcome a case at most, names that
//! differ within a suite, text in CDATA.
//!
//! `junit-parser`, and most systems, keep one outcome a case, take two of a name in a suite for the same, and break a
//! class name at the dots of a file's ending; `junit-parser` loses what is written as `&lt;`. A finding is in the case
//! of the number at its place; lines of the account about one number, such as a piece's size and the cut of the unit
//! that takes it, are one case. `quick-xml` writes it: `quick-junit` writes no CDATA and drops control characters where
//! this report puts a sign in their place.

mod numbers;
mod suite;
mod words;

use std::io::{self, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesCData, BytesDecl, BytesStart, Event};

use super::{Report, ReportInParts, Spool};
use crate::run::{Checked, Total};
use suite::{Case, Ending, Suite, Totals, of_file, of_problem};

/// The JUnit format.
#[derive(Clone, Copy, Debug, Default)]
pub struct Junit {
    /// Whether a query is a failure.
    pub strict: bool,
    /// Whether a number that nothing checks is a failure.
    pub account: bool,
}

impl Report for Junit {
    fn begin(&self) -> Box<dyn ReportInParts> {
        Box::new(Suites { junit: *self, totals: Totals::default(), written: Spool::default() })
    }
}

/// The suites so far. The totals of all stand first in the document.
struct Suites {
    junit: Junit,
    totals: Totals,
    written: Spool,
}

impl Suites {
    fn add(&mut self, suite: &Suite) -> io::Result<()> {
        self.totals.add(suite.totals());
        let mut bytes = Vec::new();
        write_suite(suite, &mut Writer::new_with_indent(&mut bytes, b' ', 2))?;
        self.written.write_all(b"\n")?;
        self.written.write_all(&set_in(&bytes))
    }
}

impl ReportInParts for Suites {
    fn file(&mut self, file: &Checked, _: &mut dyn Write) -> io::Result<()> {
        self.add(&of_file(file, self.junit))
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        total.problems.iter().try_for_each(|problem| self.add(&of_problem(problem)))?;
        let mut head = Writer::new_with_indent(&mut *out, b' ', 2);
        head.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
        let mut root = BytesStart::new("testsuites");
        root.push_attribute(("name", env!("CARGO_PKG_NAME")));
        push_totals(&mut root, self.totals);
        head.write_event(Event::Start(root))?;
        self.written.copy_to(out)?;
        writeln!(out, "\n</testsuites>")
    }
}

/// Elements set in by one level; what stands in CDATA is left as it is.
fn set_in(elements: &[u8]) -> Vec<u8> {
    let mut out = b"  ".to_vec();
    let mut rest = elements;
    while let Some((at, byte)) = rest.iter().copied().enumerate().find(|(_, byte)| matches!(byte, b'\n' | b'<')) {
        let cdata = rest[at..].starts_with(b"<![CDATA[");
        let ends = if cdata {
            rest[at..].windows(3).position(|end| end == b"]]>").map_or(rest.len(), |end| at + end)
        } else {
            at + 1
        };
        out.extend_from_slice(&rest[..ends]);
        if byte == b'\n' {
            out.extend_from_slice(b"  ");
        }
        rest = &rest[ends..];
    }
    out.extend_from_slice(rest);
    out
}

fn push_totals(element: &mut BytesStart<'_>, totals: Totals) {
    let Totals { tests, failures, errors, skipped } = totals;
    for (name, number) in [("tests", tests), ("failures", failures), ("errors", errors), ("skipped", skipped)] {
        element.push_attribute((name, number.to_string().as_str()));
    }
}

fn write_suite<W: Write>(suite: &Suite, out: &mut Writer<W>) -> io::Result<()> {
    let mut element = BytesStart::new("testsuite");
    element.push_attribute(("name", suite.file.as_str()));
    push_totals(&mut element, suite.totals());
    element.push_attribute(("file", suite.file.as_str()));
    out.write_event(Event::Start(element.borrow()))?;
    if let Some(caution) = &suite.caution {
        write_caution(caution, out)?;
    }
    for case in &suite.cases {
        write_case(suite, case, out)?;
    }
    out.write_event(Event::End(element.to_end()))
}

/// A property of the suite, before its cases as readers expect: a caution is neither passed nor failed.
fn write_caution<W: Write>(caution: &str, out: &mut Writer<W>) -> io::Result<()> {
    let properties = BytesStart::new("properties");
    out.write_event(Event::Start(properties.borrow()))?;
    let mut property = BytesStart::new("property");
    property.push_attribute(("name", "caution"));
    property.push_attribute(("value", caution));
    out.write_event(Event::Empty(property))?;
    out.write_event(Event::End(properties.to_end()))
}

fn write_case<W: Write>(suite: &Suite, case: &Case, out: &mut Writer<W>) -> io::Result<()> {
    let mut element = BytesStart::new("testcase");
    element.push_attribute(("name", case.name.as_str()));
    element.push_attribute(("classname", suite.class.as_str()));
    element.push_attribute(("file", suite.file.as_str()));
    if let Some(line) = case.line {
        element.push_attribute(("line", line.to_string().as_str()));
    }
    if case.ending == Ending::Passed && case.told.is_empty() {
        return out.write_event(Event::Empty(element));
    }
    out.write_event(Event::Start(element.borrow()))?;
    match &case.ending {
        Ending::Passed => {}
        Ending::Skipped { message } => {
            let mut skipped = BytesStart::new("skipped");
            skipped.push_attribute(("message", message.as_str()));
            out.write_event(Event::Empty(skipped))?;
        }
        Ending::Failed { kind, message, text } => write_outcome("failure", kind, message, text, out)?,
        Ending::Unread { message, text } => write_outcome("error", "not-read", message, text, out)?,
    }
    if !case.told.is_empty() {
        write_text(&BytesStart::new("system-out"), &case.told, out)?;
    }
    out.write_event(Event::End(element.to_end()))
}

fn write_outcome<W: Write>(name: &str, kind: &str, message: &str, text: &str, out: &mut Writer<W>) -> io::Result<()> {
    let mut element = BytesStart::new(name);
    element.push_attribute(("type", kind));
    element.push_attribute(("message", message));
    write_text(&element, text, out)
}

/// An element with text in it. In CDATA, since some readers lose what is written as `&lt;` or `&amp;`.
fn write_text<W: Write>(element: &BytesStart<'_>, text: &str, out: &mut Writer<W>) -> io::Result<()> {
    out.write_event(Event::Start(element.borrow()))?;
    for part in BytesCData::escaped(text) {
        out.write_event(Event::CData(part))?;
    }
    out.write_event(Event::End(element.to_end()))
}
