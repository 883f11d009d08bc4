//! The cells of tables in OpenDocument texts.

use super::{MAX_DEPTH, MAX_REPEATED, Odt};
use crate::text::formats::office::OpenTable;
use crate::text::formats::xml::Element;

impl Odt<'_> {
    /// The table whose cells are passages now: those in notes and boxes are read as paragraphs.
    pub(super) fn table(&mut self) -> Option<&mut OpenTable> {
        if self.apart.is_empty() { self.tables.last_mut() } else { None }
    }

    pub(super) fn start_table(&mut self) {
        if !self.apart.is_empty() || self.tables.len() >= MAX_DEPTH {
            return;
        }
        match self.tables.last().and_then(|table| table.cell) {
            Some(cell) => {
                self.builder.end(cell);
            }
            None => self.end_paragraph(),
        }
        self.tables.push(OpenTable::new(&mut self.builder));
    }

    pub(super) fn end_table(&mut self) {
        if self.apart.is_empty()
            && let Some(table) = self.tables.pop()
        {
            table.end(&mut self.builder);
        }
    }

    pub(super) fn start_cell(&mut self, element: &Element) {
        let rows = element.number("number-rows-spanned").unwrap_or(1);
        let columns = element.number("number-columns-spanned").unwrap_or(1);
        let repeated = element.number("number-columns-repeated").unwrap_or(1).clamp(1, MAX_REPEATED);
        if let Some(table) = self.table() {
            let is_head = table.is_head;
            table.cell = Some(table.grid.cell(rows, columns, is_head));
            table.grid.skip(repeated - 1);
        }
    }

    pub(super) fn end_cell(&mut self) {
        if !self.apart.is_empty() {
            return;
        }
        if let Some(table) = self.tables.last_mut() {
            table.end_cell(&mut self.builder);
        }
    }
}
