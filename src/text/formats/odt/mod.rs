//! OpenDocument texts. What is deleted in tracked changes is not read, and what is inserted is; macros are not run.

mod styles;
mod tables;

use std::ops::ControlFlow;

use super::builder::{Builder, Char, Script};
use super::office::{OpenTable, Style, Styles, tell_part, tell_xml};
use super::package::Package;
use super::xml::{Element, Node, walk};
use crate::text::passage::{PassageKind, PrintedText, TextFormat, TextPlace};
use styles::read_styles;

const PROGRAM: &str = "the program that wrote it";
/// How deep lists, tables and boxes are told apart.
const MAX_DEPTH: usize = 32;
/// The most cells that one element stands for: rows and columns that are repeated are the empty ones of a sheet.
const MAX_REPEATED: u32 = 256;

/// Reads an OpenDocument text.
pub(super) fn read(mut package: Package) -> PrintedText {
    let mut builder = Builder::new(TextFormat::OpenDocument);
    if package.has("encrypted-package")
        || package.read("META-INF/manifest.xml").is_ok_and(|manifest| manifest.contains("encryption-data"))
    {
        builder.problem(format!("it is protected by a password: save it in {PROGRAM} without one"), TextPlace::Whole);
        return builder.finish();
    }
    let text = match package.read("content.xml") {
        Ok(text) => text,
        Err(fault) => {
            tell_part(&mut builder, fault, "OpenDocument text", PROGRAM);
            return builder.finish();
        }
    };
    let mut styles = Styles::default();
    if let Ok(xml) = package.read("styles.xml")
        && read_styles(&xml, &mut styles).is_err()
    {
        builder.problem("its styles are damaged: headings may be read as paragraphs", TextPlace::Whole);
    }
    // Damage of the content is told below.
    let _read = read_styles(&text, &mut styles);
    let mut reader = Odt::new(&styles, builder);
    let read = walk(&text, |node| reader.node(&node));
    reader.finish();
    if let Err(fault) = read {
        tell_xml(&mut reader.builder, fault, PROGRAM);
    }
    reader.builder.finish()
}

struct Odt<'a> {
    styles: &'a Styles,
    builder: Builder,
    /// How many elements are open that are not read.
    skipped: usize,
    /// Whether the text itself is being read, rather than what stands before it.
    in_body: bool,
    /// The heading or paragraph that is open.
    kind: Option<PassageKind>,
    bold: bool,
    /// The spans that are open.
    spans: Vec<(Script, bool)>,
    /// Whether each open list is in an item.
    lists: Vec<bool>,
    tables: Vec<OpenTable>,
    in_head_rows: bool,
    /// What was begun when a note or a text box began.
    apart: Vec<Begun>,
}

/// What was begun when a note or a text box began.
struct Begun {
    chars: Vec<Char>,
    kind: Option<PassageKind>,
    lists: Vec<bool>,
}

impl<'a> Odt<'a> {
    fn new(styles: &'a Styles, builder: Builder) -> Odt<'a> {
        Odt {
            styles,
            builder,
            skipped: 0,
            in_body: false,
            kind: None,
            bold: false,
            spans: Vec::new(),
            lists: Vec::new(),
            tables: Vec::new(),
            in_head_rows: false,
            apart: Vec::new(),
        }
    }

    fn node(&mut self, node: &Node) -> ControlFlow<()> {
        match node {
            Node::Start(element) => self.start(element),
            Node::End(name) => self.end(name),
            Node::Text(text) if self.skipped == 0 && self.kind.is_some() => self.write(text),
            Node::Text(_) => {}
        }
        if self.builder.is_full() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }

    fn finish(&mut self) {
        self.end_paragraph();
        while let Some(table) = self.tables.pop() {
            table.end(&mut self.builder);
        }
    }

    fn write(&mut self, text: &str) {
        let script = self.spans.last().map_or(Script::Normal, |(script, _)| *script);
        let place = self.builder.next_paragraph();
        self.builder.push_str(text, script, place);
    }

    fn start(&mut self, element: &Element) {
        let name = element.name();
        if self.skipped > 0 {
            self.skipped += 1;
            return;
        }
        if name == "body" {
            self.in_body = true;
        }
        if !self.in_body {
            return;
        }
        if is_unread(name) {
            self.skipped = 1;
            return;
        }
        match name {
            "h" | "p" => self.start_paragraph(element),
            "span" => self.start_span(element),
            "s" => self.write(" "),
            "tab" => {
                let place = self.builder.next_paragraph();
                self.builder.tab(place);
            }
            "line-break" => {
                let place = self.builder.next_paragraph();
                self.builder.line_break(place);
            }
            "list" if self.lists.len() < MAX_DEPTH => self.lists.push(false),
            "list-item" | "list-header" => {
                if let Some(in_item) = self.lists.last_mut() {
                    *in_item = true;
                }
            }
            "note" | "text-box" => self.start_apart(),
            "table" => self.start_table(),
            "table-header-rows" => self.in_head_rows = true,
            "table-row" => {
                let in_head = self.in_head_rows;
                if let Some(table) = self.table() {
                    table.grid.next_row();
                    table.is_head = in_head;
                }
            }
            "table-cell" => self.start_cell(element),
            _ => {}
        }
    }

    fn end(&mut self, name: &str) {
        if self.skipped > 0 {
            self.skipped -= 1;
            return;
        }
        if !self.in_body {
            return;
        }
        match name {
            "body" => self.in_body = false,
            "h" | "p" => self.end_paragraph(),
            "span" => {
                self.spans.pop();
                self.builder.set_bold(self.bold || self.spans.last().is_some_and(|(_, bold)| *bold));
            }
            "list" => {
                self.lists.pop();
            }
            "list-item" | "list-header" => {
                if let Some(in_item) = self.lists.last_mut() {
                    *in_item = false;
                }
            }
            "note" | "text-box" => self.end_apart(),
            "table" => self.end_table(),
            "table-header-rows" => self.in_head_rows = false,
            "table-cell" => self.end_cell(),
            _ => {}
        }
    }

    fn style(&self, element: &Element) -> Style {
        element.attribute("style-name").map(|name| self.styles.resolved(&name)).unwrap_or_default()
    }

    fn start_paragraph(&mut self, element: &Element) {
        let style = self.style(element);
        let outline = element.number("outline-level").and_then(|level| u8::try_from(level).ok());
        let level = if element.name() == "h" { outline.or(style.heading).or(Some(1)) } else { style.heading };
        let item = self.lists.len().checked_sub(1).filter(|_| self.lists.last() == Some(&true));
        self.kind = Some(match (level, item) {
            (Some(level), _) => PassageKind::Heading(level),
            (None, Some(depth)) => PassageKind::ListItem { depth: u8::try_from(depth).unwrap_or(u8::MAX) },
            (None, None) => PassageKind::Paragraph,
        });
        self.bold = style.bold == Some(true);
        self.builder.set_bold(self.bold);
        self.spans.clear();
        if style.hidden == Some(true) {
            self.skipped = 1;
            self.kind = None;
        }
    }

    fn end_paragraph(&mut self) {
        let Some(kind) = self.kind.take() else { return };
        self.spans.clear();
        if !self.apart.is_empty() {
            self.builder.end_later(kind);
        } else if self.tables.last().is_some_and(|table| table.cell.is_some()) {
            let place = self.builder.next_paragraph();
            self.builder.line_break(place);
        } else {
            self.builder.end(kind);
        }
    }

    fn start_span(&mut self, element: &Element) {
        let style = self.style(element);
        if style.hidden == Some(true) {
            self.skipped = 1;
            return;
        }
        let (script, bold) = self.spans.last().copied().unwrap_or((Script::Normal, self.bold));
        let bold = style.bold.unwrap_or(bold);
        self.spans.push((style.script.unwrap_or(script), bold));
        self.builder.set_bold(bold);
    }

    fn start_apart(&mut self) {
        if self.apart.len() < MAX_DEPTH {
            let lists = std::mem::take(&mut self.lists);
            self.apart.push(Begun { chars: self.builder.take(), kind: self.kind.take(), lists });
        }
    }

    fn end_apart(&mut self) {
        self.end_paragraph();
        if let Some(Begun { chars, kind, lists }) = self.apart.pop() {
            self.builder.put_back(chars);
            self.kind = kind;
            self.lists = lists;
        }
    }
}

/// Elements whose text is not the text that readers get.
fn is_unread(name: &str) -> bool {
    matches!(
        name,
        "annotation"
            | "annotation-end"
            | "desc"
            | "forms"
            | "hidden-paragraph"
            | "hidden-text"
            | "note-citation"
            | "object"
            | "ruby-text"
            | "script"
            | "table-of-content"
            | "title"
            | "tracked-changes"
            | "variable-decls"
    )
}
