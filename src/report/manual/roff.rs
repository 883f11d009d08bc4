//! Chapters of the manual as sections of a manual page, in the macros of man(7).

use super::CHAPTERS;
use super::blocks::{Block, Inline, Inlines, blocks, plain};

/// All chapters, a section each.
pub fn chapters_as_roff() -> String {
    CHAPTERS.iter().flat_map(|chapter| blocks(chapter.markdown)).map(|block| block_roff(&block)).collect()
}

fn block_roff(block: &Block) -> String {
    match block {
        Block::Title(words) => format!(".SH \"{}\"\n", escaped(&plain(words).to_uppercase())),
        Block::Heading(words) => format!(".SS \"{}\"\n", escaped(&plain(words))),
        Block::Paragraph(words) => format!(".PP\n{}\n", line(words)),
        Block::Item(words) => format!(".IP \\(bu 2\n{}\n", line(words)),
        Block::Typed(text) | Block::Listing(text) => {
            let lines: String = text
                .lines()
                .map(|line| if line.trim().is_empty() { ".sp\n".to_string() } else { text_line(&escaped(line)) })
                .collect();
            format!(".PP\n.RS 4\n.nf\n{lines}.fi\n.RE\n")
        }
        Block::Table(rows) => {
            let (head, rows) = rows.split_first().expect("a table has a head");
            rows.iter().map(|row| row_roff(head, row)).collect()
        }
    }
}

/// A row of a table as a word with its meaning. Where there are several meanings, each has its heading.
fn row_roff(head: &[Inlines], row: &[Inlines]) -> String {
    let first = format!(".TP\n\\fB{}\\fR\n", escaped(&plain(&row[0])));
    let others = head.iter().zip(row).skip(1);
    let several = row.len() > 2;
    let cells = others.map(|(head, cell)| {
        if several { text_line(&format!("{}: {}.", line(head), line(cell))) } else { text_line(&line(cell)) }
    });
    first + &cells.collect::<String>()
}

/// Text on one line; what is typed and what is strong are bold.
fn line(words: &Inlines) -> String {
    words
        .iter()
        .map(|inline| match inline {
            Inline::Plain(text) => escaped(text),
            Inline::Strong(text) | Inline::Code(text) => format!("\\fB{}\\fR", escaped(text)),
        })
        .collect()
}

/// A line that is no request, whatever it begins with.
fn text_line(line: &str) -> String {
    let request = line.starts_with(['.', '\'']);
    format!("{}{line}\n", if request { "\\&" } else { "" })
}

/// Text in which no sign is taken for a request, and each can be copied as it was.
fn escaped(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\\' => "\\e".to_string(),
            '-' => "\\-".to_string(),
            '\'' => "\\(aq".to_string(),
            '`' => "\\(ga".to_string(),
            '^' => "\\(ha".to_string(),
            '~' => "\\(ti".to_string(),
            '"' => "\\(dq".to_string(),
            c => c.to_string(),
        })
        .collect()
}

/// A page with each sign that is not ASCII by its number, as every reader of manual pages knows it.
pub fn only_ascii(page: &str) -> String {
    page.chars().map(|c| if c.is_ascii() { c.to_string() } else { format!("\\[u{:04X}]", u32::from(c)) }).collect()
}
