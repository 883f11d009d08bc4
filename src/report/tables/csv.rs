//! The tables as comma-separated values (RFC 4180): one record for each cell that is not empty, so that all records
//! have the same fields, whatever the table.
//!
//! Tables of different widths one below the other would not have that, and a file for each table would be many. The
//! byte-order mark is for spreadsheets, which otherwise spoil a ½.

use super::super::sanitize_line;
use super::shown;
use crate::tables::{Cell, Table, Tables};

/// The names of the fields.
const FIELDS: [&str; 7] = ["pattern", "edition", "table", "row", "number", "size", "stated"];

/// Says that the text is UTF-8 to spreadsheets, which would otherwise spoil a fraction such as ½.
pub(in super::super) const BYTE_ORDER_MARK: &str = "\u{feff}";

/// The tables as CSV.
pub fn tables_as_csv(tables: &Tables) -> String {
    let mut sheet = Sheet { tables, writer: writer(BYTE_ORDER_MARK.into()) };
    sheet.write(FIELDS);
    if let Some(warning) = tables.head.warning() {
        sheet.record(["Not complete", "", "", "", &warning]);
    }
    for note in &tables.notes {
        sheet.record(["Note", "", "", "", note]);
    }
    for table in &tables.tables {
        sheet.table(table);
    }
    for caution in &tables.head.cautions {
        sheet.record(["Take care", "", "", "", caution]);
    }
    sheet.finish()
}

fn writer(bytes: Vec<u8>) -> csv::Writer<Vec<u8>> {
    csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(bytes)
}

struct Sheet<'t> {
    tables: &'t Tables,
    writer: csv::Writer<Vec<u8>>,
}

impl Sheet<'_> {
    fn table(&mut self, table: &Table) {
        let caption = &table.caption;
        for item in &table.items {
            for (attribute, cell) in table.attributes.iter().zip(&item.attributes) {
                self.cell([caption, &item.name, attribute, ""], cell);
            }
            for line in &item.lines {
                for (size, cell) in table.sizes.iter().zip(&line.cells) {
                    self.cell([caption, &item.name, &line.what, size], cell);
                }
            }
        }
    }

    fn cell(&mut self, [table, row, number, size]: [&str; 4], cell: &Cell) {
        if !cell.is_nothing() {
            self.record([table, row, number, size, &shown(cell)]);
        }
    }

    fn record(&mut self, fields: [&str; 5]) {
        let edition = if self.tables.head.edition.is_nothing() { "" } else { self.tables.head.edition.text() };
        let [table, row, number, size, stated] = fields;
        let record = [self.tables.head.pattern.text(), edition, table, row, number, size, stated];
        self.write(record.map(|field| kept_from_running(&sanitize_line(field))));
    }

    fn write<F: AsRef<[u8]>>(&mut self, fields: [F; 7]) {
        // It writes to memory, and every record has as many fields as the first.
        let _ = self.writer.write_record(fields);
    }

    fn finish(self) -> String {
        self.writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
    }
}

/// A name that a spreadsheet would run as a formula, with an apostrophe before it, which makes it text. No number
/// starts like one: none is less than nothing.
pub(in super::super) fn kept_from_running(text: &str) -> String {
    let runs = ['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];
    // One that starts with an apostrophe gets another, so that taking one away always gives the name back.
    if text.starts_with(runs) || text.starts_with('\'') { format!("'{text}") } else { text.to_string() }
}
