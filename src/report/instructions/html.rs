//! The instructions as a page of HTML.

use serde::Serialize;

use super::super::sanitize_line;
use super::super::tables::render_page;
use super::{SizesStyle, notes, parts};
use crate::tables::Instructions;

const PAGE: &str = include_str!("page.html");

#[derive(Serialize)]
struct Page<'t> {
    title: String,
    warning: Option<String>,
    notes: Vec<String>,
    parts: Vec<PartOnPage>,
    language: &'t str,
    take_care: &'t str,
    cautions: &'t [String],
}

#[derive(Serialize)]
struct PartOnPage {
    size: Option<String>,
    sections: Vec<SectionOnPage>,
}

#[derive(Serialize)]
struct SectionOnPage {
    heading: String,
    steps: Vec<String>,
}

/// The page.
///
/// # Panics
/// Never for what a manuscript says: only where the template asks for what no page has, which tests find.
pub(super) fn page(instructions: &Instructions, style: SizesStyle) -> String {
    let parts = parts(instructions, style).into_iter().map(|part| PartOnPage {
        size: part.size,
        sections: part
            .sections
            .into_iter()
            .map(|section| SectionOnPage { heading: section.heading, steps: section.steps })
            .collect(),
    });
    let page = Page {
        title: sanitize_line(&instructions.head.title),
        warning: instructions.head.warning(),
        notes: notes(instructions, style),
        parts: parts.collect(),
        language: &instructions.head.language,
        take_care: &instructions.head.take_care,
        cautions: &instructions.head.cautions,
    };
    render_page(PAGE, &page).expect("the template asks for what the page has")
}
