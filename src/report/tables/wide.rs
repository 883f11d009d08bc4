//! One table as it is printed, a column for each size, for spreadsheets and layout programs that merge data into a page.

use super::super::sanitize_line;
use super::csv::{BYTE_ORDER_MARK, kept_from_running};
use super::{heads, rows, shown};
use crate::tables::Table;

/// What stands between two columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Separator {
    /// A comma, as RFC 4180 has it.
    Comma,
    /// A tab.
    Tab,
}

/// The table with a line for each row, its heads first.
pub fn table_as_wide(table: &Table, separator: Separator) -> String {
    let delimiter = match separator {
        Separator::Comma => b',',
        Separator::Tab => b'\t',
    };
    let mut builder = csv::WriterBuilder::new();
    let builder = builder.terminator(csv::Terminator::CRLF).delimiter(delimiter);
    let mut writer = builder.from_writer(BYTE_ORDER_MARK.as_bytes().to_vec());
    let mut write = |cells: Vec<String>| {
        // It writes to memory, and every row has as many cells as the heads.
        let _ = writer.write_record(cells.iter().map(|cell| kept_from_running(cell)));
    };
    write(heads(table));
    for item in &table.items {
        for line in rows(item) {
            let mut cells = vec![sanitize_line(&item.name)];
            cells.extend(item.attributes.iter().map(shown));
            if let Some(line) = line {
                cells.extend(table.has_words_on_lines().then(|| sanitize_line(&line.what)));
                cells.extend(line.cells.iter().map(shown));
            }
            write(cells);
        }
    }
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}
