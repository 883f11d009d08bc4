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

use super::Report;
use crate::run::Run;
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
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        // The totals stand first. The suites are made twice, so that they are never all in memory.
        let mut totals = Totals::default();
        self.suites(run).for_each(|suite| totals.add(suite.totals()));
        let mut out = Writer::new_with_indent(out, b' ', 2);
        out.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
        let mut root = BytesStart::new("testsuites");
        root.push_attribute(("name", env!("CARGO_PKG_NAME")));
        push_totals(&mut root, totals);
        out.write_event(Event::Start(root.borrow()))?;
        for suite in self.suites(run) {
            write_suite(&suite, &mut out)?;
        }
        out.write_event(Event::End(root.to_end()))?;
        writeln!(out.get_mut())
    }
}

impl Junit {
    /// The manuscripts in order, then what could not be read.
    fn suites(self, run: &Run) -> impl Iterator<Item = Suite> {
        let files = run.files.iter().map(move |file| of_file(file, self));
        files.chain(run.problems.iter().map(of_problem))
    }
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
