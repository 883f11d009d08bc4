//! A chapter as blocks: what the terminal and the manual page both print.

use std::mem::take;

use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

/// A part of a line of text.
#[derive(Debug)]
pub(super) enum Inline {
    Plain(String),
    Strong(String),
    /// Something to type, or a word of the program.
    Code(String),
}

pub(super) type Inlines = Vec<Inline>;

#[derive(Debug)]
pub(super) enum Block {
    /// The chapter's title.
    Title(Inlines),
    /// The heading of a part of it.
    Heading(Inlines),
    Paragraph(Inlines),
    /// An item of a list.
    Item(Inlines),
    /// Lines to type, within the text.
    Typed(String),
    /// A whole file, or what the program prints.
    Listing(String),
    /// The first row is the head.
    Table(Vec<Vec<Inlines>>),
}

/// The blocks of a chapter, in order. Comments are left out.
pub(super) fn blocks(markdown: &str) -> Vec<Block> {
    let mut reader = Reader::default();
    Parser::new_ext(markdown, Options::ENABLE_TABLES).for_each(|event| reader.event(event));
    reader.blocks
}

#[derive(Default)]
struct Reader {
    blocks: Vec<Block>,
    words: Inlines,
    row: Vec<Inlines>,
    rows: Vec<Vec<Inlines>>,
    strong: bool,
    in_item: bool,
    fenced: bool,
}

impl Reader {
    fn event(&mut self, event: Event) {
        match event {
            Event::Start(Tag::Strong) => self.strong = true,
            Event::Start(Tag::Item) => self.in_item = true,
            Event::Start(Tag::CodeBlock(kind)) => self.fenced = matches!(kind, CodeBlockKind::Fenced(_)),
            Event::Text(text) if self.strong => self.words.push(Inline::Strong(text.into_string())),
            Event::Text(text) => self.words.push(Inline::Plain(text.into_string())),
            Event::Code(text) => self.words.push(Inline::Code(text.into_string())),
            Event::SoftBreak | Event::HardBreak => self.words.push(Inline::Plain(" ".to_string())),
            Event::End(end) => self.end(end),
            _ => {}
        }
    }

    fn end(&mut self, end: TagEnd) {
        match end {
            TagEnd::Strong => self.strong = false,
            TagEnd::TableCell => self.row.push(take(&mut self.words)),
            TagEnd::TableHead | TagEnd::TableRow => self.rows.push(take(&mut self.row)),
            TagEnd::Table => self.blocks.push(Block::Table(take(&mut self.rows))),
            TagEnd::Heading(HeadingLevel::H1) => self.blocks.push(Block::Title(take(&mut self.words))),
            TagEnd::Heading(_) => self.blocks.push(Block::Heading(take(&mut self.words))),
            TagEnd::Paragraph if !self.in_item => self.blocks.push(Block::Paragraph(take(&mut self.words))),
            TagEnd::Item => {
                self.in_item = false;
                self.blocks.push(Block::Item(take(&mut self.words)));
            }
            TagEnd::CodeBlock => {
                let text = plain(&take(&mut self.words));
                self.blocks.push(if self.fenced { Block::Listing(text) } else { Block::Typed(text) });
            }
            _ => {}
        }
    }
}

/// The text alone.
pub(super) fn plain(words: &Inlines) -> String {
    words
        .iter()
        .map(|inline| match inline {
            Inline::Plain(text) | Inline::Strong(text) | Inline::Code(text) => text.as_str(),
        })
        .collect()
}
