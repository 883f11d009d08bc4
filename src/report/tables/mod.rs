//! The tables to publish, as Markdown, CSV or HTML. Each holds the same cells.

mod csv;
mod html;
mod markdown;
mod wide;

pub use csv::tables_as_csv;
pub(super) use csv::{BYTE_ORDER_MARK, kept_from_running};
pub(super) use html::render_page;
pub use html::tables_as_html;
pub(super) use markdown::escaped as escaped_markdown;
pub use markdown::tables_as_markdown;
pub use wide::{Separator, table_as_wide};

use super::sanitize_line;
use crate::tables::{Cell, Item, Line, Table};

/// The heads of a table's columns.
fn heads(table: &Table) -> Vec<String> {
    let mut heads = vec![table.items_are.clone()];
    heads.extend(table.attributes.iter().map(|head| sanitize_line(head)));
    if table.has_words_on_lines() {
        heads.push(table.how_many.clone());
    }
    heads.extend(table.sizes.iter().map(|size| sanitize_line(size)));
    heads
}

/// The rows of an item: its lines, or one row where it has none.
fn rows(item: &Item) -> Vec<Option<&Line>> {
    if item.lines.is_empty() { vec![None] } else { item.lines.iter().map(Some).collect() }
}

fn shown(cell: &Cell) -> String {
    sanitize_line(cell.text())
}
