//! Where the cells of a table stand, some of them over several rows or columns.

use crate::text::passage::PassageKind;

/// The most columns that a table has.
const MAX_COLUMNS: u32 = 256;
/// The most rows that a cell takes.
const MAX_ROWS: u32 = 10_000;

/// A table whose cells come one after the other, row by row.
pub(super) struct Grid {
    table: u32,
    /// The row that cells go into; the one before the first is none.
    row: Option<u32>,
    column: u32,
    /// The first row in which each column is free.
    free_from: Vec<u32>,
}

impl Grid {
    pub(super) const fn new(table: u32) -> Grid {
        Grid { table, row: None, column: 0, free_from: Vec::new() }
    }

    pub(super) const fn table(&self) -> u32 {
        self.table
    }

    pub(super) fn row(&self) -> u32 {
        self.row.unwrap_or(0)
    }

    /// The column that the next cell is looked for from.
    pub(super) const fn column(&self) -> u32 {
        self.column
    }

    pub(super) fn next_row(&mut self) {
        self.row = Some(self.row.map_or(0, |row| row.saturating_add(1)));
        self.column = 0;
    }

    /// The next cell, over so many rows and columns.
    pub(super) fn cell(&mut self, rows: u32, columns: u32, is_head: bool) -> PassageKind {
        if self.row.is_none() {
            self.next_row();
        }
        let row = self.row();
        while self.free_from.get(self.column as usize).is_some_and(|free| *free > row) {
            self.column += 1;
        }
        let column = self.column.min(MAX_COLUMNS);
        let columns = columns.clamp(1, (MAX_COLUMNS - column).max(1));
        let rows = rows.clamp(1, MAX_ROWS);
        let end = column + columns;
        if self.free_from.len() < end as usize {
            self.free_from.resize(end as usize, 0);
        }
        self.free_from[column as usize..end as usize].fill(row.saturating_add(rows));
        self.column = end;
        PassageKind::Cell { table: self.table, row, column, rows, columns, is_head }
    }

    /// Leaves columns of this row empty.
    pub(super) fn skip(&mut self, columns: u32) {
        self.column = self.column.saturating_add(columns).min(MAX_COLUMNS);
    }
}
