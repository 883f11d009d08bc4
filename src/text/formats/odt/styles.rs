//! The styles of an OpenDocument text.

use std::ops::ControlFlow;

use crate::text::formats::builder::Script;
use crate::text::formats::office::{Style, Styles};
use crate::text::formats::xml::{Element, Node, XmlFault, walk};

/// Adds the styles of a part to those that are known.
pub(super) fn read_styles(xml: &str, styles: &mut Styles) -> Result<(), XmlFault> {
    let mut open: Option<(String, Style)> = None;
    walk(xml, |node| {
        match node {
            Node::Start(element) if element.name() == "body" => return ControlFlow::Break(()),
            Node::Start(element) if element.name() == "style" => open = begin(element),
            Node::Start(element) => {
                if let Some((_, style)) = &mut open {
                    read_property(element, style);
                }
            }
            Node::End("style") => styles.0.extend(open.take()),
            Node::End(_) | Node::Text(_) => {}
        }
        ControlFlow::Continue(())
    })
}

fn begin(element: &Element) -> Option<(String, Style)> {
    let name = element.attribute("name")?;
    let outline = element.number("default-outline-level").and_then(|level| u8::try_from(level).ok());
    let heading = outline.filter(|level| *level > 0).or((name == "Title").then_some(1));
    Some((name, Style { based_on: element.attribute("parent-style-name"), heading, ..Style::default() }))
}

fn read_property(element: &Element, style: &mut Style) {
    if element.name() != "text-properties" {
        return;
    }
    if let Some(position) = element.attribute("text-position") {
        style.script = Some(script_of(&position));
    }
    if let Some(weight) = element.attribute("font-weight") {
        style.bold = Some(weight == "bold" || weight.parse().is_ok_and(|weight: u32| weight >= 600));
    }
    let struck = element.attribute("text-line-through-style").is_some_and(|line| line != "none");
    let hidden = element.attribute("display").is_some_and(|display| display == "none");
    if struck || hidden {
        style.hidden = Some(true);
    }
}

/// `super 58%`, `sub`, or how far the characters are raised, in percent.
fn script_of(position: &str) -> Script {
    let first = position.split_whitespace().next().unwrap_or_default();
    match first {
        "super" => Script::Super,
        "sub" => Script::Sub,
        _ if first.starts_with('-') => Script::Sub,
        _ if first.trim_start_matches('0').starts_with(|ch: char| ch.is_ascii_digit()) => Script::Super,
        _ => Script::Normal,
    }
}
