//! HTML: what is shown of it, as a browser lays it out.

use html5gum::Tokenizer;
use html5gum::emitters::default::{DefaultEmitter, StartTag, Token};

use super::builder::{Builder, Script};
use super::decode::decode;
use super::grid::Grid;
use super::heads::mark_first_row;
use super::html_elements::{
    heading_level, is_block, is_hidden, is_unseen, is_void, name, number, reference_length, referred, style_of,
};
use super::html_layout::layout_tables;
use super::lines::{lines, read_lines};
use crate::text::passage::{PassageKind, PrintedText, TextFormat, TextPlace};

/// How deep elements are told apart: what is nested deeper is read as text.
const MAX_DEPTH: usize = 64;

/// Reads HTML.
pub(super) fn read(bytes: &[u8]) -> PrintedText {
    let decoded = decode(bytes);
    let mut builder = Builder::new(TextFormat::Html);
    let has_tables = ["<table", "<TABLE"].iter().any(|tag| decoded.text.contains(tag));
    let layout_tables = if has_tables { layout_tables(&decoded.text) } else { Vec::new() };
    let mut html = Html { layout_tables, ..Html::default() };
    html.read(&decoded.text, 0, &mut builder);
    html.finish(&mut builder);
    let mut printed = builder.finish();
    decoded.place_in_file(&mut printed);
    printed
}

/// What is open at a place in HTML, or in the HTML of a Markdown text.
#[derive(Default)]
pub(super) struct Html {
    heading: Option<u8>,
    /// Whether each open list is in an item.
    lists: Vec<bool>,
    open_tables: Vec<OpenTable>,
    scripts: Vec<(&'static str, Script)>,
    /// What is open that is not shown, and how many of its name are open in it.
    hidden: Option<(String, usize)>,
    preformatted: usize,
    /// How many elements are open that are bold.
    bold: usize,
    /// Which tables only lay the page out, and how many have begun.
    layout_tables: Vec<bool>,
    tables_begun: usize,
    /// Up to which byte the text is read already.
    read_to: usize,
}

struct OpenTable {
    grid: Grid,
    /// The first passage that can be a cell of it.
    first: usize,
    cell: Option<PassageKind>,
    in_head: bool,
    /// Whether it only lays the page out, and its cells are none.
    lays_out: bool,
}

impl Html {
    /// Reads a stretch that begins at this byte of the file.
    pub(super) fn read(&mut self, text: &str, start: usize, builder: &mut Builder) {
        let mut emitter = DefaultEmitter::<usize>::new_with_span();
        emitter.naively_switch_states(true);
        self.read_to = 0;
        for token in Tokenizer::new_with_emitter(text, emitter) {
            if builder.is_full() {
                return;
            }
            let Ok(token) = token;
            match token {
                Token::StartTag(tag) => {
                    self.start(&tag, start, builder);
                    if *tag.name == b"pre"[..] && self.hidden.is_none() {
                        self.read_plain(text, tag.span.end, start, builder);
                    }
                }
                Token::EndTag(tag) => self.end(&name(&tag.name), tag.span.start + start, builder),
                Token::String(string) if self.hidden.is_none() && string.span.start >= self.read_to => {
                    let range = string.span.start..string.span.end.min(text.len());
                    self.write(text.get(range.clone()).unwrap_or_default(), range.start + start, builder);
                }
                _ => {}
            }
        }
    }

    /// Reads what is set as it was typed, if nothing but characters stands in it, as text without markup.
    fn read_plain(&mut self, text: &str, from: usize, start: usize, builder: &mut Builder) {
        let in_cell = self.open_tables.last().is_some_and(|table| table.cell.is_some());
        let rest = text.get(from..).unwrap_or_default();
        let length = rest.find(['<', '&']).unwrap_or(rest.len());
        let has_gap = |line: &&str| line.trim().contains("  ") || line.contains('\t');
        let has_rows = rest[..length].lines().filter(has_gap).take(2).count() == 2;
        if in_cell || !self.lists.is_empty() || !rest[length..].starts_with("</pre") || !has_rows {
            return;
        }
        read_lines(&lines(&rest[..length], start + from), builder);
        self.read_to = from + length;
    }

    /// Ends what is open at the end of the file.
    pub(super) fn finish(&mut self, builder: &mut Builder) {
        while !self.open_tables.is_empty() {
            self.end_table(builder);
        }
        self.flush(0, builder);
    }

    /// How the characters that come now stand to their line.
    pub(super) fn script(&self) -> Script {
        self.scripts.last().map_or(Script::Normal, |(_, script)| *script)
    }

    /// Whether what comes now is not shown.
    pub(super) const fn is_hidden(&self) -> bool {
        self.hidden.is_some()
    }

    /// What a passage is that would be this one but for the elements that are open.
    pub(super) fn kind(&self, otherwise: PassageKind) -> PassageKind {
        let open = self.open_tables.last().and_then(|table| table.cell);
        let item = self.lists.len().checked_sub(1).filter(|_| self.lists.last() == Some(&true));
        match (open, self.heading, item) {
            (Some(cell), _, _) => cell,
            (None, Some(level), _) => PassageKind::Heading(level),
            (None, None, Some(depth)) => PassageKind::ListItem { depth: u8::try_from(depth).unwrap_or(u8::MAX) },
            (None, None, None) => otherwise,
        }
    }

    /// Ends what a passage's end ends: superscripts that were left open.
    pub(super) fn end_inline(&mut self) {
        self.scripts.clear();
    }

    fn start(&mut self, tag: &StartTag<usize>, start: usize, builder: &mut Builder) {
        let name = name(&tag.name);
        let at = tag.span.start + start;
        if name == "table" {
            self.tables_begun += 1;
        }
        if let Some((hidden, depth)) = &mut self.hidden {
            if *hidden == name && !is_void(&name) {
                *depth += 1;
            }
            // A paragraph ends where another block begins.
            if hidden != "p" || !is_block(&name) {
                return;
            }
            self.hidden = None;
        }
        if !is_void(&name) && (is_unseen(&name) || is_hidden(tag)) {
            if is_block(&name) {
                self.flush(at, builder);
            }
            self.hidden = Some((name, 1));
            return;
        }
        match name.as_str() {
            "br" => builder.line_break(TextPlace::Span((at..at).into())),
            "sup" if self.scripts.len() < MAX_DEPTH => self.scripts.push(("sup", Script::Super)),
            "sub" if self.scripts.len() < MAX_DEPTH => self.scripts.push(("sub", Script::Sub)),
            "span" | "font" | "small" if self.scripts.len() < MAX_DEPTH => self.start_span(&name, tag),
            "b" | "strong" => self.set_bold(self.bold + 1, builder),
            "table" => self.start_table(at, builder),
            "thead" | "tbody" | "tfoot" => self.start_rows(name == "thead", builder),
            "tr" => self.start_row(builder),
            "td" | "th" => self.start_cell(tag, name == "th", builder),
            "caption" | "div" | "hr" | "p" => self.flush(at, builder),
            "ul" | "ol" | "dl" | "menu" => {
                self.flush(at, builder);
                if self.lists.len() < MAX_DEPTH {
                    self.lists.push(false);
                }
            }
            "li" | "dd" | "dt" => {
                self.flush(at, builder);
                if self.lists.is_empty() {
                    self.lists.push(false);
                }
                if let Some(in_item) = self.lists.last_mut() {
                    *in_item = name != "dt";
                }
            }
            "pre" => {
                self.flush(at, builder);
                self.preformatted += 1;
            }
            _ => match heading_level(&name) {
                Some(level) => {
                    self.flush(at, builder);
                    self.heading = Some(level);
                }
                None if is_block(&name) => self.flush(at, builder),
                None => {}
            },
        }
    }

    fn end(&mut self, name: &str, at: usize, builder: &mut Builder) {
        if let Some((hidden, depth)) = &mut self.hidden {
            if hidden == name {
                *depth -= 1;
                if *depth == 0 {
                    self.hidden = None;
                }
            }
            return;
        }
        match name {
            "sup" | "sub" | "span" | "font" | "small" => {
                if let Some(open) = self.scripts.iter().rposition(|(open, _)| *open == name) {
                    self.scripts.truncate(open);
                }
            }
            "b" | "strong" => self.set_bold(self.bold.saturating_sub(1), builder),
            "table" => self.end_table(builder),
            "thead" => self.start_rows(false, builder),
            "tr" | "td" | "th" => self.end_cell(builder),
            "ul" | "ol" | "dl" | "menu" => {
                self.flush(at, builder);
                self.lists.pop();
            }
            "li" | "dd" => {
                self.flush(at, builder);
                if let Some(in_item) = self.lists.last_mut() {
                    *in_item = false;
                }
            }
            "pre" => {
                self.flush(at, builder);
                self.preformatted = self.preformatted.saturating_sub(1);
            }
            _ if heading_level(name).is_some() => {
                self.flush(at, builder);
                self.heading = None;
            }
            _ if is_block(name) => self.flush(at, builder),
            _ => {}
        }
    }

    fn set_bold(&mut self, bold: usize, builder: &mut Builder) {
        self.bold = bold;
        builder.set_bold(bold > 0);
    }

    fn start_span(&mut self, name: &str, tag: &StartTag<usize>) {
        let script = match style_of(tag).as_str() {
            style if style.contains("vertical-align:super") => Script::Super,
            style if style.contains("vertical-align:sub") => Script::Sub,
            _ => self.script(),
        };
        let name = match name {
            "span" => "span",
            "font" => "font",
            _ => "small",
        };
        self.scripts.push((name, script));
    }

    /// Ends the passage, or the line within a cell.
    fn flush(&mut self, at: usize, builder: &mut Builder) {
        let in_cell = self.open_tables.last().is_some_and(|table| table.cell.is_some());
        if in_cell {
            builder.line_break(TextPlace::Span((at..at).into()));
        } else {
            builder.end(self.kind(PassageKind::Paragraph));
            self.scripts.clear();
        }
    }

    fn start_table(&mut self, at: usize, builder: &mut Builder) {
        // A table in a cell is one of its own: what stood before it in the cell is a passage by itself.
        match self.open_tables.last().and_then(|table| table.cell) {
            Some(cell) => {
                builder.end(cell);
            }
            None => self.flush(at, builder),
        }
        if self.open_tables.len() < MAX_DEPTH {
            let lays_out = self.layout_tables.get(self.tables_begun.wrapping_sub(1)) == Some(&true);
            let grid = if lays_out { Grid::new(0) } else { Grid::new(builder.next_table()) };
            self.open_tables.push(OpenTable { grid, first: builder.len(), cell: None, in_head: false, lays_out });
        }
    }

    fn end_table(&mut self, builder: &mut Builder) {
        self.end_cell(builder);
        let table = self.open_tables.pop();
        if let Some(table) = table.filter(|table| !table.lays_out) {
            mark_first_row(builder, table.first, table.grid.table());
            builder.end_group();
        }
    }

    fn start_rows(&mut self, in_head: bool, builder: &mut Builder) {
        self.end_cell(builder);
        if let Some(table) = self.open_tables.last_mut() {
            table.in_head = in_head;
        }
    }

    fn start_row(&mut self, builder: &mut Builder) {
        self.end_cell(builder);
        if let Some(table) = self.open_tables.last_mut() {
            table.grid.next_row();
        }
    }

    fn start_cell(&mut self, tag: &StartTag<usize>, is_head: bool, builder: &mut Builder) {
        self.end_cell(builder);
        let (rows, columns) = (number(tag, "rowspan"), number(tag, "colspan"));
        if self.lays_out() {
            self.flush(tag.span.start, builder);
        } else if let Some(table) = self.open_tables.last_mut() {
            builder.end(PassageKind::Paragraph);
            table.cell = Some(table.grid.cell(rows, columns, is_head || table.in_head));
        }
    }

    /// Whether the innermost table only lays the page out.
    fn lays_out(&self) -> bool {
        self.open_tables.last().is_some_and(|table| table.lays_out)
    }

    fn end_cell(&mut self, builder: &mut Builder) {
        if self.lays_out() {
            self.flush(0, builder);
        }
        if let Some(cell) = self.open_tables.last_mut().and_then(|table| table.cell.take()) {
            builder.end(cell);
            self.scripts.clear();
        }
    }

    /// Writes text, with its character references.
    fn write(&self, text: &str, start: usize, builder: &mut Builder) {
        let mut at = 0;
        while let Some(rest) = text.get(at..).filter(|rest| !rest.is_empty()) {
            let plain = rest.find('&').unwrap_or(rest.len());
            self.write_plain(&rest[..plain], start + at, builder);
            at += plain;
            let length = reference_length(&rest[plain..]);
            let reference = &rest[plain..plain + length];
            let place = TextPlace::Span((start + at..start + at + length).into());
            if length == 1 {
                builder.push('&', self.script(), place);
            } else if length > 1 {
                builder.push_str(&referred(reference), self.script(), place);
            }
            at += length;
        }
    }

    fn write_plain(&self, text: &str, start: usize, builder: &mut Builder) {
        if self.preformatted == 0 {
            builder.push_verbatim(text, self.script(), start);
            return;
        }
        let mut at = start;
        for line in text.split_inclusive('\n') {
            builder.push_verbatim(line, self.script(), at);
            at += line.len();
            if line.ends_with('\n') {
                builder.line_break(TextPlace::Span((at - 1..at).into()));
            }
        }
    }
}
