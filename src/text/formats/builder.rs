//! Putting passages together: white space, fractions, headings that passages stand under, and places.

use super::assembly::{introduces, is_titled, placed, tabbed_rows, tidied, typed_mark};
use super::fractions::write_fractions;
use super::heads::mark_first_row;
use crate::text::passage::{Passage, PassageKind, PrintedText, TextFormat, TextPlace, TextProblem};

/// How much text is read, in characters: a book of three hundred pages.
const MAX_CHARACTERS: usize = 1_000_000;
/// How many passages are read.
const MAX_PASSAGES: usize = 50_000;
/// How many problems are told of one file.
const MAX_PROBLEMS: usize = 20;

/// The level of a paragraph that is a heading by being bold and short.
pub(super) const BOLD_HEADING: u8 = 7;

/// How a character stands to its line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Script {
    #[default]
    Normal,
    Super,
    Sub,
}

/// One character of a passage, and where it stands. A `\n` is a break that the writer set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Char {
    pub(super) ch: char,
    pub(super) script: Script,
    pub(super) place: TextPlace,
}

/// The passages of a text, as they are found.
pub(super) struct Builder {
    text: PrintedText,
    /// The passage that is being written.
    chars: Vec<Char>,
    /// Whether what is written now is bold.
    bold: bool,
    /// Whether all that is written of the passage is.
    all_bold: bool,
    /// The headings that what comes stands under: level and passage.
    headings: Vec<(u8, usize)>,
    /// What introduces the list or table that is being read.
    group: Option<Group>,
    /// The last item of each depth.
    items: Vec<usize>,
    /// How many tables there are.
    tables: u32,
    /// The table whose cells are parted by tabs: its number, its first passage, and its next row.
    tabbed: Option<(u32, usize, u32)>,
    /// Passages for after the last: notes and text boxes.
    later: Vec<Passage>,
    characters: usize,
    full: bool,
}

#[derive(Clone, Copy)]
struct Group {
    table: Option<u32>,
    head: Option<usize>,
}

impl Builder {
    pub(super) fn new(format: TextFormat) -> Builder {
        Builder {
            text: PrintedText { format, ..PrintedText::default() },
            chars: Vec::new(),
            bold: false,
            all_bold: true,
            headings: Vec::new(),
            group: None,
            items: Vec::new(),
            tables: 0,
            tabbed: None,
            later: Vec::new(),
            characters: 0,
            full: false,
        }
    }

    /// Tells of something that could not be read, once.
    pub(super) fn problem(&mut self, says: impl Into<String>, at: TextPlace) {
        let problem = TextProblem { says: says.into(), at };
        if self.text.problems.len() < MAX_PROBLEMS && !self.text.problems.contains(&problem) {
            self.text.problems.push(problem);
        }
    }

    /// Whether no more is read.
    pub(super) const fn is_full(&self) -> bool {
        self.full
    }

    /// How many passages there are.
    pub(super) fn len(&self) -> usize {
        self.text.passages.len()
    }

    /// The number of the next passage, from 1.
    pub(super) fn next_paragraph(&self) -> TextPlace {
        let number = self.text.passages.len() + self.later.len() + 1;
        TextPlace::Paragraph(u32::try_from(number).unwrap_or(u32::MAX))
    }

    /// Writes one character.
    pub(super) fn push(&mut self, ch: char, script: Script, place: TextPlace) {
        if self.characters >= MAX_CHARACTERS {
            self.say_full();
            return;
        }
        self.characters += 1;
        self.all_bold &= self.bold || ch.is_whitespace();
        self.chars.push(Char { ch: if ch.is_whitespace() { ' ' } else { ch }, script, place });
    }

    /// Writes a tab: in paragraphs it parts the cells of a table.
    pub(super) fn tab(&mut self, place: TextPlace) {
        self.chars.push(Char { ch: '\t', script: Script::Normal, place });
    }

    /// The number of another table.
    pub(super) const fn next_table(&mut self) -> u32 {
        self.tables += 1;
        self.tables - 1
    }

    /// Writes characters that all stand at one place.
    pub(super) fn push_str(&mut self, text: &str, script: Script, place: TextPlace) {
        for ch in text.chars() {
            self.push(ch, script, place);
        }
    }

    /// Writes characters of which each stands in the file as it is, from this byte on.
    pub(super) fn push_verbatim(&mut self, text: &str, script: Script, start: usize) {
        for (offset, ch) in text.char_indices() {
            let at = start + offset;
            self.push(ch, script, TextPlace::Span((at..at + ch.len_utf8()).into()));
        }
    }

    /// Writes a break that the writer set.
    pub(super) fn line_break(&mut self, place: TextPlace) {
        self.chars.push(Char { ch: '\n', script: Script::Normal, place });
    }

    /// Says whether what is written from now on is bold.
    pub(super) const fn set_bold(&mut self, bold: bool) {
        self.bold = bold;
    }

    /// Whether nothing of the passage is written yet but white space.
    pub(super) fn is_blank(&self) -> bool {
        self.chars.iter().all(|char| char.ch.is_whitespace())
    }

    /// The characters of the passage that is being written, taken away from it.
    pub(super) fn take(&mut self) -> Vec<Char> {
        self.all_bold = true;
        std::mem::take(&mut self.chars)
    }

    /// Writes characters that were taken before.
    pub(super) fn put_back(&mut self, chars: Vec<Char>) {
        self.chars = chars;
        self.all_bold = false;
    }

    /// Ends the passage that is being written; one that holds nothing is none. Gives its index.
    pub(super) fn end(&mut self, kind: PassageKind) -> Option<usize> {
        if kind == PassageKind::Paragraph
            && let Some(rows) = tabbed_rows(&self.chars)
        {
            return self.end_rows(&rows);
        }
        if !self.is_blank() {
            self.end_tabbed();
        }
        self.end_passage(kind)
    }

    fn end_passage(&mut self, kind: PassageKind) -> Option<usize> {
        let (kind, passage) = self.assemble(kind)?;
        if self.text.passages.len() + self.later.len() >= MAX_PASSAGES {
            self.say_full();
            return None;
        }
        let index = self.text.passages.len();
        let list_head = self.list_head(kind, index);
        if let PassageKind::Heading(level) = kind {
            while self.headings.last().is_some_and(|(above, _)| *above >= level) {
                self.headings.pop();
            }
        }
        let headings = self.headings.iter().map(|(_, heading)| *heading).collect();
        if let PassageKind::Heading(level) = kind {
            self.headings.push((level, index));
        }
        self.text.passages.push(Passage { headings, list_head, ..passage });
        Some(index)
    }

    /// Ends the passage that is being written as one that comes after all others.
    pub(super) fn end_later(&mut self, kind: PassageKind) {
        let Some((_, passage)) = self.assemble(kind) else { return };
        if self.text.passages.len() + self.later.len() >= MAX_PASSAGES {
            self.say_full();
            return;
        }
        let headings = self.headings.iter().map(|(_, heading)| *heading).collect();
        self.later.push(Passage { headings, ..passage });
    }

    /// Ends a paragraph as rows of a table, the one before it if that was one too.
    fn end_rows(&mut self, rows: &[Vec<Vec<Char>>]) -> Option<usize> {
        self.take();
        let (table, first, mut row) =
            self.tabbed.take().unwrap_or_else(|| (self.next_table(), self.text.passages.len(), 0));
        let mut last = None;
        for cells in rows {
            for (column, cell) in (0..).zip(cells) {
                self.chars.clone_from(cell);
                let kind = PassageKind::Cell { table, row, column, rows: 1, columns: 1, is_head: false };
                last = self.end_passage(kind).or(last);
            }
            row += 1;
        }
        self.tabbed = Some((table, first, row));
        last
    }

    fn end_tabbed(&mut self) {
        if let Some((table, first, _)) = self.tabbed.take() {
            mark_first_row(self, first, table);
            self.end_group();
        }
    }

    /// Makes a cell that was ended one over more rows.
    pub(super) fn set_rows(&mut self, cell: usize, taken: u32) {
        if let Some(Passage { kind: PassageKind::Cell { rows, .. }, .. }) = self.text.passages.get_mut(cell) {
            *rows = taken;
        }
    }

    /// Marks the cells of a row as heads.
    pub(super) fn mark_heads(&mut self, cells: std::ops::Range<usize>, of_row: u32) {
        for passage in self.text.passages.get_mut(cells).unwrap_or_default() {
            if let PassageKind::Cell { row, is_head, .. } = &mut passage.kind
                && *row == of_row
            {
                *is_head = true;
            }
        }
    }

    /// The passages from this one on.
    pub(super) fn passages(&self, from: usize) -> &[Passage] {
        self.text.passages.get(from..).unwrap_or_default()
    }

    /// The list or table that is being read ends, though another may follow at once.
    pub(super) fn end_group(&mut self) {
        self.group = None;
        self.items.clear();
    }

    /// The whole text.
    pub(super) fn finish(mut self) -> PrintedText {
        self.end(PassageKind::Paragraph);
        self.end_tabbed();
        self.text.passages.append(&mut self.later);
        self.text
    }

    fn assemble(&mut self, kind: PassageKind) -> Option<(PassageKind, Passage)> {
        let all_bold = self.all_bold;
        let mut chars = write_fractions(tidied(&self.take()));
        let mut kind = kind;
        if kind == PassageKind::Paragraph
            && let Some(mark) = typed_mark(&chars)
        {
            chars.drain(..mark);
            kind = PassageKind::ListItem { depth: 0 };
        }
        if chars.is_empty() {
            return None;
        }
        let (text, places) = placed(&chars);
        if kind == PassageKind::Paragraph && all_bold && is_titled(&text) {
            kind = PassageKind::Heading(BOLD_HEADING);
        }
        Some((kind, Passage { kind, text, headings: Vec::new(), list_head: None, places }))
    }

    fn list_head(&mut self, kind: PassageKind, index: usize) -> Option<usize> {
        let table = match kind {
            PassageKind::Cell { table, .. } => Some(table),
            PassageKind::ListItem { .. } => None,
            PassageKind::Heading(_) | PassageKind::Paragraph => {
                self.end_group();
                return None;
            }
        };
        let group = match self.group {
            Some(group) if group.table == table => group,
            _ => {
                self.items.clear();
                let head = index.checked_sub(1).filter(|last| introduces(&self.text.passages[*last]));
                Group { table, head }
            }
        };
        self.group = Some(group);
        let PassageKind::ListItem { depth } = kind else { return group.head };
        self.items.truncate(usize::from(depth));
        let above = self.items.last().copied();
        self.items.resize(usize::from(depth) + 1, index);
        above.or(group.head)
    }

    fn say_full(&mut self) {
        if !self.full {
            self.full = true;
            self.problem(
                "it is too long: what comes after the first million characters, or the first 50,000 paragraphs, is not read",
                TextPlace::Whole,
            );
        }
    }
}
