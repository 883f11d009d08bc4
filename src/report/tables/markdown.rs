//! The tables as Markdown, with tables as many programs read them (GitHub Flavored Markdown 0.29, section 4.10).

use unicode_width::UnicodeWidthStr;

use super::super::sanitize_line;
use super::{heads, rows, shown};
use crate::tables::{Item, Line, Table, Tables};

/// How wide a column is made at most: one long text must not fill every other line with spaces.
const WIDEST: usize = 60;

/// The tables as Markdown.
pub fn tables_as_markdown(tables: &Tables) -> String {
    let mut text = format!("# {}\n", escaped(&sanitize_line(&tables.head.title)));
    if let Some(warning) = tables.head.warning() {
        text.push_str(&format!("\n**{}**\n", escaped(&warning)));
    }
    for note in &tables.notes {
        text.push_str(&format!("\n{}\n", escaped(&sanitize_line(note))));
    }
    for table in &tables.tables {
        text.push_str(&format!("\n## {}\n\n{}", escaped(&sanitize_line(&table.caption)), in_columns(table)));
    }
    if !tables.head.cautions.is_empty() {
        text.push_str(&format!("\n## {}\n", escaped(&sanitize_line(&tables.head.take_care))));
    }
    for caution in &tables.head.cautions {
        text.push_str(&format!("\n{}\n", escaped(caution)));
    }
    text
}

/// A table whose columns stand under one another.
fn in_columns(table: &Table) -> String {
    let mut lines: Vec<Vec<String>> = vec![heads(table)];
    for item in &table.items {
        lines.extend(rows(item).into_iter().map(|line| row(table, item, line)));
    }
    let lines: Vec<Vec<String>> = lines.iter().map(|line| line.iter().map(|cell| escaped(cell)).collect()).collect();
    let columns = lines.first().map_or(0, Vec::len);
    let widest =
        |column: usize| lines.iter().map(|line| line[column].width()).max().unwrap_or_default().clamp(3, WIDEST);
    let widths: Vec<usize> = (0..columns).map(widest).collect();
    let rule = widths.iter().map(|width| "-".repeat(*width)).collect::<Vec<_>>().join(" | ");
    let mut text = String::new();
    for (index, line) in lines.iter().enumerate() {
        let padded = line
            .iter()
            .zip(&widths)
            .map(|(cell, width)| cell.clone() + &" ".repeat(width.saturating_sub(cell.width())));
        text.push_str(&format!("| {} |\n", padded.collect::<Vec<_>>().join(" | ")));
        if index == 0 {
            text.push_str(&format!("| {rule} |\n"));
        }
    }
    text
}

fn row(table: &Table, item: &Item, line: Option<&Line>) -> Vec<String> {
    let mut cells = vec![sanitize_line(&item.name)];
    cells.extend(item.attributes.iter().map(shown));
    if let Some(line) = line {
        cells.extend(table.has_words_on_lines().then(|| sanitize_line(&line.what)));
        cells.extend(line.cells.iter().map(shown));
    }
    cells
}

/// The text with each character that could be markup in a line kept from being it.
pub(in super::super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '{' | '}' | '[' | ']' | '<' | '>' | '#' | '|' | '~' | '!' | '&' | '$') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}
