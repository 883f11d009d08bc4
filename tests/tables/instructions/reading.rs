//! The lines of cutting instructions in their formats, by section and size.

use std::collections::BTreeSet;

use pulldown_cmark::{Event, HeadingLevel, Parser, Tag, TagEnd};
use scraper::Html;

use super::super::Fact;
use super::super::formats::{selector, text_of_element};
use super::grammar::{Numbers, row_of_table, step};

/// A heading with its level, a step of a list, or a paragraph.
#[derive(Debug)]
pub(crate) enum Read {
    Heading(u8, String),
    Step(String),
    Paragraph(String),
}

pub(crate) fn markdown_lines(text: &str) -> Vec<Read> {
    let (mut lines, mut here) = (Vec::new(), String::new());
    for event in Parser::new(text) {
        match event {
            Event::Text(text) => here.push_str(&text),
            Event::Start(Tag::Heading { .. } | Tag::Item | Tag::Paragraph) => here.clear(),
            Event::End(TagEnd::Heading(level)) => {
                let level = match level {
                    HeadingLevel::H1 => 1,
                    HeadingLevel::H2 => 2,
                    HeadingLevel::H3 => 3,
                    other => panic!("{other:?}"),
                };
                lines.push(Read::Heading(level, here.clone()));
            }
            Event::End(TagEnd::Item) => lines.push(Read::Step(here.clone())),
            Event::End(TagEnd::Paragraph) => lines.push(Read::Paragraph(here.clone())),
            Event::Start(Tag::List(None) | Tag::Strong) | Event::End(_) => {}
            other => panic!("markup that was not meant, {other:?}, in:\n{text}"),
        }
    }
    lines
}

pub(crate) fn html_lines(text: &str) -> Vec<Read> {
    let page = Html::parse_document(text);
    let read = |element: scraper::ElementRef<'_>| {
        let text = text_of_element(element);
        match element.value().name() {
            "h1" => Read::Heading(1, text),
            "h2" => Read::Heading(2, text),
            "h3" => Read::Heading(3, text),
            "li" => Read::Step(text),
            _ => Read::Paragraph(text),
        }
    };
    page.select(&selector("h1, h2, h3, li, p")).map(read).collect()
}

/// The sizes in the order that the instructions declare.
fn declared(lines: &[Read]) -> Option<&str> {
    lines.iter().find_map(|line| match line {
        Read::Paragraph(text) => {
            text.strip_prefix("Sizes: ")?.split_once(". Numbers are given in this order; ").map(|(order, _)| order)
        }
        _ => None,
    })
}

/// What a run of numbers for all sizes says.
pub(crate) fn run(lines: &[Read], sizes: &[String]) -> BTreeSet<Fact> {
    let order = match sizes {
        [] | [_] => None,
        [first, others @ ..] if sizes.iter().any(|size| size.contains(['(', ')', ','])) => {
            Some(format!("{first} [{}]", others.join("; ")))
        }
        [first, others @ ..] => Some(format!("{first} ({})", others.join(", "))),
    };
    assert_eq!(declared(lines), order.as_deref(), "{lines:#?}");
    let mut section = String::new();
    let mut facts = BTreeSet::new();
    for line in lines {
        match line {
            Read::Heading(2, heading) => section.clone_from(heading),
            Read::Step(text) => facts.extend(step(section_name(&section), text, Numbers::Run(sizes))),
            _ => {}
        }
    }
    facts
}

/// What the lists of all sizes say.
pub(crate) fn lists(lines: &[Read], sizes: &[String]) -> BTreeSet<Fact> {
    let (mut size, mut section) = (String::new(), String::new());
    let mut facts = BTreeSet::new();
    for line in lines {
        match line {
            Read::Heading(2, heading) => size.clone_from(heading),
            Read::Heading(3, heading) => section.clone_from(heading),
            Read::Step(text) => {
                assert!(sizes.contains(&size), "{size}");
                facts.extend(step(section_name(&section), text, Numbers::Of(&size)));
            }
            _ => {}
        }
    }
    facts
}

/// What the rows of tables say.
pub(crate) fn tables(cells: BTreeSet<Fact>) -> BTreeSet<Fact> {
    let rows = cells.into_iter().filter(|fact| fact[0] != "Note");
    rows.flat_map(|[section, row, _, size, cell]| row_of_table(&section, &row, &size, &cell)).collect()
}

fn section_name(heading: &str) -> &str {
    heading.strip_suffix(':').unwrap_or_else(|| panic!("{heading} does not end with a colon"))
}
