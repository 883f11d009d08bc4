//! Reading printed texts: each format against the same text in the others, places against the file, damage, and files
//! that mean harm.

mod damage;
pub(crate) mod document;
mod hostile;
mod markup;
mod office;
pub(crate) mod package;
mod pdf_breaks;
mod pdf_file;
mod pdf_pages;
mod places;
mod plain_text;
mod same_text;

use std::path::Path;

use sparestrip::text::{Passage, PassageKind, PrintedText, read_text};

/// What was read of a file of this name.
pub(crate) fn read(name: &str, bytes: impl AsRef<[u8]>) -> PrintedText {
    read_text(Path::new(name), bytes.as_ref())
}

/// A passage in one line: `h2 Cutting`, `- 8 strips`, `[1,0] Ink`, with `*` for the head of a table.
fn line(passage: &Passage) -> String {
    let text = passage.text.replace('\n', " / ");
    match passage.kind {
        PassageKind::Heading(level) => format!("h{level} {text}"),
        PassageKind::Paragraph => text,
        PassageKind::ListItem { depth } => format!("{}- {text}", "  ".repeat(usize::from(depth))),
        PassageKind::Cell { row, column, rows, columns, is_head, .. } => {
            let size = if rows * columns > 1 { format!(" {rows}x{columns}") } else { String::new() };
            format!("[{row},{column}{size}]{} {text}", if is_head { "*" } else { "" })
        }
    }
}

/// All passages, a line each.
pub(crate) fn lines(printed: &PrintedText) -> Vec<String> {
    printed.passages.iter().map(line).collect()
}

/// What was read of a file in which nothing is wrong, a line a passage.
fn read_lines(name: &str, bytes: impl AsRef<[u8]>) -> Vec<String> {
    let printed = read(name, bytes);
    assert_eq!(printed.problems, [], "{name}");
    lines(&printed)
}

/// What was said to be wrong.
fn problems(printed: &PrintedText) -> Vec<&str> {
    printed.problems.iter().map(|problem| problem.says.as_str()).collect()
}
