//! Chapters of the manual as text for a terminal, and the list of them.

use super::blocks::{Block, Inline, Inlines, blocks, plain};
use super::{CHAPTERS, Chapter};
use crate::report::RenderStyle;
use crate::report::rule_pages::{table, trimmed};

/// All chapters, a row each: name and title.
pub fn chapter_list(look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["chapter", "what it is about"]);
    for chapter in CHAPTERS {
        table.add_row([chapter.name, chapter.title()]);
    }
    format!("{}\n", trimmed(&table))
}

/// A chapter, with its paragraphs broken to the width.
pub fn chapter_text(chapter: &Chapter, look: RenderStyle) -> String {
    let blocks = blocks(chapter.markdown);
    let mut text = String::new();
    for (index, block) in blocks.iter().enumerate() {
        let in_list = matches!(block, Block::Item(_)) && index > 0 && matches!(blocks[index - 1], Block::Item(_));
        if index > 0 && !in_list {
            text.push('\n');
        }
        text.push_str(&block_text(block, look));
    }
    text
}

fn block_text(block: &Block, look: RenderStyle) -> String {
    let width = look.width.min(100);
    match block {
        Block::Title(words) => underlined(&plain(words), if look.ascii { "=" } else { "═" }),
        Block::Heading(words) => underlined(&plain(words), if look.ascii { "-" } else { "─" }),
        Block::Paragraph(words) => format!("{}\n", textwrap::fill(&quoted(words), unbroken(width))),
        Block::Item(words) => {
            let options = unbroken(width).initial_indent("- ").subsequent_indent("  ");
            format!("{}\n", textwrap::fill(&quoted(words), options))
        }
        Block::Typed(text) => text.lines().map(|line| format!("{}\n", format!("    {line}").trim_end())).collect(),
        Block::Listing(text) => text.clone(),
        Block::Table(rows) => {
            let mut table = table(look);
            let (head, rows) = rows.split_first().expect("a table has a head");
            table.set_header(head.iter().map(quoted));
            for row in rows {
                table.add_row(row.iter().map(quoted));
            }
            format!("{}\n", trimmed(&table))
        }
    }
}

/// Lines broken at spaces only, so that a name with a hyphen can be copied whole.
fn unbroken(width: usize) -> textwrap::Options<'static> {
    textwrap::Options::new(width)
        .word_separator(textwrap::WordSeparator::AsciiSpace)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
}

fn underlined(heading: &str, line: &str) -> String {
    format!("{heading}\n{}\n", line.repeat(heading.chars().count()))
}

/// Text with what is typed in backticks.
fn quoted(words: &Inlines) -> String {
    words
        .iter()
        .map(|inline| match inline {
            Inline::Plain(text) | Inline::Strong(text) => text.clone(),
            Inline::Code(text) => format!("`{text}`"),
        })
        .collect()
}
