//! A printed text as passages: what each says, what it stands under, and where it stands in its file.

use std::ops::Range;

use crate::manuscript::Span;

/// The largest file of a text that is read: 100 MB.
pub const MAX_TEXT_BYTES: u64 = 100_000_000;

/// A printed text, as far as it could be read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PrintedText {
    /// Its passages, in reading order.
    pub passages: Vec<Passage>,
    /// What could not be read.
    pub problems: Vec<TextProblem>,
    /// What kind of file it is.
    pub format: TextFormat,
}

/// The kinds of files that texts are read from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TextFormat {
    /// Text without markup.
    #[default]
    Plain,
    /// Markdown, with tables and footnotes.
    Markdown,
    /// HTML.
    Html,
    /// Word, .docx.
    Word,
    /// The open format of office programs, .odt.
    OpenDocument,
    /// PDF.
    Pdf,
}

impl TextFormat {
    /// Whether its places are spans of the file, so that a line and a column can be told.
    pub const fn has_spans(self) -> bool {
        matches!(self, TextFormat::Plain | TextFormat::Markdown | TextFormat::Html)
    }
}

/// Something that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextProblem {
    /// What it is, in words for the writer.
    pub says: String,
    /// Where it is.
    pub at: TextPlace,
}

/// Where something stands in the file of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextPlace {
    /// In these bytes of the file.
    Span(Span),
    /// On this page, the first being 1.
    Page(u32),
    /// In this paragraph or cell, the first being 1.
    Paragraph(u32),
    /// In the file as a whole.
    Whole,
}

/// A heading, a paragraph, an item of a list, or a cell of a table.
///
/// All white space in its text is single spaces, but a line break that the writer set is `\n`. Soft hyphens and signs
/// without width are left out, and so are the marks and numbers of list items. A fraction set as a superscript over a
/// subscript is written with U+2044 and parted from the whole number before it by a space: `3 1⁄2`. Other superscript
/// digits are superscript characters, so that the mark of a note (`42²`) is no digit of the number before it. Notes
/// and text boxes are passages of their own, after all others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage {
    /// What it is.
    pub kind: PassageKind,
    /// What it says.
    pub text: String,
    /// The headings that it stands under, as indices of passages, outermost first.
    pub headings: Vec<usize>,
    /// The paragraph or item directly before a list or a table, or the item that a nested item belongs to.
    pub list_head: Option<usize>,
    /// Which bytes of `text` stand where, in order and without gaps between what is told.
    pub places: Vec<PlacedRun>,
}

/// What a passage is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassageKind {
    /// A heading of this level, 1 being the highest.
    Heading(u8),
    /// A paragraph.
    Paragraph,
    /// An item of a list.
    ListItem {
        /// How many lists it stands in, less one.
        depth: u8,
    },
    /// A cell of a table. Cells that hold nothing are no passages.
    Cell {
        /// Which table of the text, from 0.
        table: u32,
        /// The row, from 0; of a cell over several rows, the first.
        row: u32,
        /// The column, from 0; of a cell over several columns, the first.
        column: u32,
        /// How many rows it takes.
        rows: u32,
        /// How many columns it takes.
        columns: u32,
        /// Whether it is marked as a head, or stands in a row that is.
        is_head: bool,
    },
}

/// Bytes of a passage's text that stand together in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlacedRun {
    /// The bytes in the passage's text.
    pub bytes: Range<usize>,
    /// Where they stand.
    pub place: TextPlace,
    /// Whether the file says the same bytes there, so that a part of the run is found in it.
    pub verbatim: bool,
}

impl Passage {
    /// A passage of which all stands at one place.
    pub fn at(kind: PassageKind, text: impl Into<String>, place: TextPlace) -> Passage {
        let text = text.into();
        let places = vec![PlacedRun { bytes: 0..text.len(), place, verbatim: false }];
        Passage { kind, text, headings: Vec::new(), list_head: None, places }
    }

    /// Where the characters of a byte range of the text stand in the file.
    pub fn place(&self, range: Range<usize>) -> TextPlace {
        let mut touched = self.places.iter().filter(|run| run.bytes.start < range.end && range.start < run.bytes.end);
        let Some(first) = touched.next() else {
            return self.places.first().map_or(TextPlace::Whole, |run| run.place);
        };
        let last = touched.next_back().unwrap_or(first);
        match (first.span_of(&range), last.span_of(&range)) {
            (Some(start), Some(end)) => TextPlace::Span(start.to(end)),
            _ => first.place,
        }
    }
}

impl PlacedRun {
    /// The span of what lies both in the run and in the range.
    fn span_of(&self, range: &Range<usize>) -> Option<Span> {
        let TextPlace::Span(span) = self.place else { return None };
        if !self.verbatim {
            return Some(span);
        }
        let start = range.start.max(self.bytes.start) - self.bytes.start;
        let end = range.end.min(self.bytes.end) - self.bytes.start;
        Some(Span::new(span.start + start, span.start + end))
    }
}
