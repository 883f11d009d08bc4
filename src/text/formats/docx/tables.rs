//! The cells of tables in Word texts.

use super::{Cell, Docx, MAX_DEPTH};
use crate::text::formats::office::OpenTable;

impl Docx<'_> {
    /// Whether passages are cells now: in a text box or in notes they are not.
    pub(super) fn in_cell(&self) -> bool {
        self.boxes.is_empty() && !self.notes && !self.tables.is_empty()
    }

    pub(super) fn start_table(&mut self) {
        if self.in_cell() {
            self.end_cell_text();
        } else {
            self.end_paragraph();
        }
        if self.boxes.is_empty() && self.tables.len() < MAX_DEPTH {
            self.tables.push(OpenTable::new(&mut self.builder));
        }
    }

    pub(super) fn end_table(&mut self) {
        if self.boxes.is_empty()
            && let Some(table) = self.tables.pop()
        {
            table.end(&mut self.builder);
        }
    }

    pub(super) fn start_row(&mut self) {
        self.row_deleted = false;
        if self.in_cell()
            && let Some(table) = self.tables.last_mut()
        {
            table.grid.next_row();
            table.is_head = false;
        }
    }

    /// Gives the cell its place once its properties are read.
    pub(super) fn place_cell(&mut self) {
        let Cell { columns, goes_on, placed, .. } = self.cell;
        if placed {
            return;
        }
        self.cell.placed = true;
        let Some(table) = self.tables.last_mut() else { return };
        if goes_on {
            table.continue_cell(columns, &mut self.builder);
        } else {
            table.cell = Some(table.grid.cell(1, columns, table.is_head));
        }
    }

    /// Ends what stands in a cell before a table in it.
    pub(super) fn end_cell_text(&mut self) {
        self.place_cell();
        if let Some(cell) = self.tables.last().and_then(|table| table.cell) {
            self.builder.end(cell);
        }
    }

    pub(super) fn end_cell(&mut self) {
        if !self.in_cell() {
            return;
        }
        self.place_cell();
        if self.row_deleted || self.cell.deleted {
            self.builder.take();
        }
        if let Some(table) = self.tables.last_mut() {
            table.end_cell(&mut self.builder);
        }
        // The next that ends may be the cell round this one's table, which has its place.
        self.cell.placed = true;
    }
}
