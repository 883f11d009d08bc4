//! Cutting instructions, with the numbers of several sizes in a run, in a list for each size, or in tables.

mod html;
mod prose;
mod rows;

use super::sanitize_line;
use super::tables::{escaped_markdown, tables_as_csv, tables_as_html, tables_as_markdown};
use crate::tables::instructions::Step;
use crate::tables::{Instructions, Tables};

/// How the numbers of several sizes stand in cutting instructions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizesStyle {
    /// One after another, in the order of the sizes: `6 (13, 18) strips`.
    Run,
    /// A list of its own for each size.
    Lists,
    /// A table with a column for each size.
    Table,
}

/// The instructions for all sizes, or those for one.
struct Part {
    /// The size, where they are for one.
    size: Option<String>,
    sections: Vec<Listed>,
}

/// What is cut from one fabric, as text.
struct Listed {
    heading: String,
    steps: Vec<String>,
}

/// The instructions as parts of sections of lines.
fn parts(instructions: &Instructions, style: SizesStyle) -> Vec<Part> {
    let listed = |step: &dyn Fn(&Step) -> Option<String>| {
        let sections = instructions.sections.iter().map(|section| Listed {
            heading: sanitize_line(&section.heading),
            steps: section.steps.iter().filter_map(step).map(|text| sanitize_line(&text)).collect(),
        });
        sections.filter(|section| !section.steps.is_empty()).collect::<Vec<Listed>>()
    };
    if style == SizesStyle::Run {
        // Of one size alone nothing is told that it takes none of.
        let one = instructions.sizes.len() == 1;
        let told = |step: &Step| if one { prose::for_size(step, 0) } else { Some(prose::for_all(step)) };
        return vec![Part { size: None, sections: listed(&told) }];
    }
    let sizes = instructions.sizes.iter().enumerate();
    let parts = sizes.map(|(place, size)| Part {
        size: Some(sanitize_line(size)),
        sections: listed(&|step| prose::for_size(step, place)),
    });
    parts.collect()
}

/// The lines under the heading: the order of the sizes, and what short words stand for.
fn notes(instructions: &Instructions, style: SizesStyle) -> Vec<String> {
    let order = (style == SizesStyle::Run).then(|| prose::order(instructions)).flatten();
    order.into_iter().chain(instructions.notes.iter().cloned()).map(|note| sanitize_line(&note)).collect()
}

/// The instructions as Markdown.
pub fn instructions_as_markdown(instructions: &Instructions, style: SizesStyle) -> String {
    if style == SizesStyle::Table {
        return tables_as_markdown(&rows::as_tables(instructions));
    }
    let escaped = escaped_markdown;
    let mut text = format!("# {}\n", escaped(&sanitize_line(&instructions.head.title)));
    if let Some(warning) = instructions.head.warning() {
        text.push_str(&format!("\n**{}**\n", escaped(&warning)));
    }
    for note in notes(instructions, style) {
        text.push_str(&format!("\n{}\n", escaped(&note)));
    }
    for part in parts(instructions, style) {
        let mark = if part.size.is_some() { "###" } else { "##" };
        if let Some(size) = &part.size {
            text.push_str(&format!("\n## {}\n", escaped(size)));
        }
        for Listed { heading, steps } in &part.sections {
            text.push_str(&format!("\n{mark} {}:\n\n", escaped(heading)));
            text.extend(steps.iter().map(|step| format!("- {}\n", escaped(step))));
        }
    }
    if !instructions.head.cautions.is_empty() {
        text.push_str(&format!("\n## {}\n", escaped(&sanitize_line(&instructions.head.take_care))));
    }
    for caution in &instructions.head.cautions {
        text.push_str(&format!("\n{}\n", escaped(caution)));
    }
    text
}

/// The instructions as a page of HTML.
pub fn instructions_as_html(instructions: &Instructions, style: SizesStyle) -> String {
    match style {
        SizesStyle::Table => tables_as_html(&rows::as_tables(instructions)),
        SizesStyle::Run | SizesStyle::Lists => html::page(instructions, style),
    }
}

/// The instructions as tables, with a column for each size.
pub fn instructions_as_tables(instructions: &Instructions) -> Tables {
    rows::as_tables(instructions)
}

/// The instructions as comma-separated values, with a record for each number.
pub fn instructions_as_csv(instructions: &Instructions) -> String {
    tables_as_csv(&rows::as_tables(instructions))
}
