//! XML as a row of elements and text. Nothing is fetched, and entities that a file declares are not read.

use std::ops::ControlFlow;

use quick_xml::escape::resolve_predefined_entity;
use quick_xml::events::{BytesRef, BytesStart, Event};
use quick_xml::{Reader, XmlVersion};

/// How deep elements may be nested: a text has some tens.
const MAX_DEPTH: usize = 512;

/// A part of an XML document. Names are without their prefix.
pub(super) enum Node<'a> {
    Start(&'a Element<'a>),
    End(&'a str),
    Text(&'a str),
}

/// The start of an element.
pub(super) struct Element<'a> {
    tag: &'a BytesStart<'a>,
}

/// Why XML could not be read to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum XmlFault {
    /// It breaks off, or is no XML from some place on.
    Damaged,
    /// It is nested too deep.
    TooDeep,
    /// It declares entities of its own, which are not read.
    Entities,
}

impl Element<'_> {
    /// Its name.
    pub(super) fn name(&self) -> &str {
        self.tag.local_name().into_inner()
    }

    /// What an attribute says, whatever the prefix of its name.
    pub(super) fn attribute(&self, name: &str) -> Option<String> {
        let mut attributes = self.tag.attributes();
        let attributes = attributes.with_checks(false);
        let found = attributes.flatten().find(|attribute| attribute.key.local_name().into_inner() == name)?;
        found.normalized_value(XmlVersion::Implicit1_0).ok().map(std::borrow::Cow::into_owned)
    }

    /// The number that an attribute says.
    pub(super) fn number(&self, name: &str) -> Option<u32> {
        self.attribute(name)?.trim().parse().ok()
    }

    /// Whether a property is set: one without a value is.
    pub(super) fn is_on(&self) -> bool {
        !matches!(self.attribute("val").as_deref(), Some("0" | "false" | "off" | "none"))
    }
}

/// Hands each part of a document to `visit`, until that says that it has enough.
pub(super) fn walk(xml: &str, mut visit: impl FnMut(Node) -> ControlFlow<()>) -> Result<(), XmlFault> {
    let mut reader = Reader::from_str(xml);
    let mut depth = 0_usize;
    let mut outcome = Ok(());
    loop {
        let Ok(event) = reader.read_event() else { return Err(XmlFault::Damaged) };
        let flow = match &event {
            Event::Start(tag) => {
                depth += 1;
                if depth > MAX_DEPTH {
                    return Err(XmlFault::TooDeep);
                }
                visit(Node::Start(&Element { tag }))
            }
            Event::Empty(tag) => {
                let element = Element { tag };
                match visit(Node::Start(&element)) {
                    ControlFlow::Continue(()) => visit(Node::End(element.name())),
                    enough @ ControlFlow::Break(()) => enough,
                }
            }
            Event::End(tag) => {
                depth = depth.saturating_sub(1);
                visit(Node::End(tag.local_name().into_inner()))
            }
            Event::Text(text) => visit(Node::Text(&text.xml10_content())),
            Event::CData(text) => visit(Node::Text(&text.xml10_content())),
            Event::GeneralRef(reference) => visit(Node::Text(&referred(reference))),
            Event::DocType(_) => {
                outcome = Err(XmlFault::Entities);
                ControlFlow::Continue(())
            }
            Event::Eof if depth > 0 => return Err(XmlFault::Damaged),
            Event::Eof => return outcome,
            _ => ControlFlow::Continue(()),
        };
        if flow.is_break() {
            return outcome;
        }
    }
}

/// What a reference stands for; for one that nothing says, the sign for what cannot be read.
fn referred(reference: &BytesRef) -> String {
    match reference.resolve_char_ref() {
        Ok(Some(ch)) => ch.to_string(),
        Ok(None) => resolve_predefined_entity(&reference.xml10_content()).unwrap_or("\u{fffd}").to_owned(),
        Err(_) => "\u{fffd}".to_owned(),
    }
}
