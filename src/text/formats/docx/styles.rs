//! The styles of a Word text.

use std::ops::ControlFlow;

use crate::text::formats::builder::Script;
use crate::text::formats::office::{Style, Styles};
use crate::text::formats::xml::{Element, Node, XmlFault, walk};

/// Reads `styles.xml`; what is damaged of it leaves the styles before.
pub(super) fn read_styles(xml: &str) -> (Styles, Result<(), XmlFault>) {
    let mut styles = Styles::default();
    let mut open: Option<(String, Style)> = None;
    let read = walk(xml, |node| {
        match node {
            Node::Start(element) if element.name() == "style" => {
                open = element.attribute("styleId").map(|name| (name, Style::default()));
            }
            Node::Start(element) => {
                if let Some((_, style)) = &mut open {
                    read_property(element, style);
                }
            }
            Node::End("style") => styles.0.extend(open.take()),
            Node::End(_) | Node::Text(_) => {}
        }
        ControlFlow::Continue(())
    });
    (styles, read)
}

fn read_property(element: &Element, style: &mut Style) {
    let value = || element.attribute("val").unwrap_or_default();
    match element.name() {
        "name" => read_name(&value().to_lowercase(), style),
        "basedOn" => style.based_on = Some(value()),
        "outlineLvl" => style.heading = element.number("val").and_then(heading_of_outline).or(style.heading),
        "numId" if element.number("val").is_some_and(|list| list > 0) => style.list = style.list.or(Some(0)),
        "ilvl" => style.list = element.number("val").and_then(|level| u8::try_from(level).ok()),
        _ => {
            if let Some(script) = script_of(element) {
                style.script = Some(script);
            }
            match element.name() {
                "vanish" => style.hidden = Some(element.is_on()),
                "b" => style.bold = Some(element.is_on()),
                _ => {}
            }
        }
    }
}

/// What the names mean that Word gives its own styles in every language.
fn read_name(name: &str, style: &mut Style) {
    let number = name.chars().next_back().and_then(|last| last.to_digit(10)).and_then(|last| u8::try_from(last).ok());
    if name == "title" {
        style.heading = Some(1);
    } else if name.starts_with("heading ") {
        style.heading = number;
    } else if name.starts_with("list bullet") || name.starts_with("list number") {
        style.list = Some(number.map_or(0, |level| level.saturating_sub(1)));
    } else if name.starts_with("toc ") {
        style.contents = true;
    }
}

/// The level of a heading; outline levels are counted from 0, and 9 is that of text.
pub(super) fn heading_of_outline(level: u32) -> Option<u8> {
    u8::try_from(level).ok().filter(|level| *level < 9).map(|level| level + 1)
}

/// How a property of characters sets them to the line.
pub(super) fn script_of(element: &Element) -> Option<Script> {
    if element.name() != "vertAlign" {
        return None;
    }
    Some(match element.attribute("val").as_deref() {
        Some("superscript") => Script::Super,
        Some("subscript") => Script::Sub,
        _ => Script::Normal,
    })
}
