//! Word texts. What is deleted in tracked changes is not read, and what is inserted is; macros and fields are not run.

mod elements;
mod styles;
mod tables;

use std::ops::ControlFlow;

use super::builder::{Builder, Char, Script};
use super::office::{OpenTable, Style, Styles, tell_part, tell_xml};
use super::package::{Package, PartFault};
use super::xml::{Element, Node, walk};
use crate::text::passage::{PassageKind, PrintedText, TextFormat, TextPlace};
use elements::{is_unread, sign_of};
use styles::{heading_of_outline, read_styles, script_of};

const PROGRAM: &str = "Word";
/// Where the text is if the package does not say.
const USUAL_PART: &str = "word/document.xml";
/// How deep tables, and text boxes, are told apart.
const MAX_DEPTH: usize = 32;

/// Reads a Word text.
pub(super) fn read(mut package: Package) -> PrintedText {
    let mut builder = Builder::new(TextFormat::Word);
    let main = main_part(&mut package);
    let text = match package.read(&main) {
        Ok(text) => text,
        Err(fault) => {
            tell_part(&mut builder, fault, "Word text", PROGRAM);
            return builder.finish();
        }
    };
    let folder = main.rsplit_once('/').map_or(String::new(), |(folder, _)| format!("{folder}/"));
    let styles = match package.read(&format!("{folder}styles.xml")) {
        Ok(xml) => {
            let (styles, read) = read_styles(&xml);
            if read.is_err() {
                builder
                    .problem("its styles are damaged: headings and lists may be read as paragraphs", TextPlace::Whole);
            }
            styles
        }
        Err(_) => Styles::default(),
    };
    let mut reader = Docx::new(&styles, builder);
    reader.read(&text, false);
    for notes in ["footnotes.xml", "endnotes.xml"] {
        match package.read(&format!("{folder}{notes}")) {
            Ok(xml) => reader.read(&xml, true),
            Err(PartFault::Missing) => {}
            Err(fault) => tell_part(&mut reader.builder, fault, "Word text", PROGRAM),
        }
    }
    reader.builder.finish()
}

/// The name of the part that holds the text.
fn main_part(package: &mut Package) -> String {
    let mut target = None;
    if let Ok(relations) = package.read("_rels/.rels") {
        // Damage here leaves the usual name.
        let _read = walk(&relations, |node| {
            if let Node::Start(element) = node
                && element.attribute("Type").is_some_and(|kind| kind.ends_with("/officeDocument"))
            {
                target = element.attribute("Target");
            }
            ControlFlow::Continue(())
        });
    }
    let target = target.map(|target| target.trim_start_matches('/').to_owned());
    target.filter(|target| package.has(target)).unwrap_or_else(|| USUAL_PART.to_owned())
}

struct Docx<'a> {
    styles: &'a Styles,
    builder: Builder,
    /// How many elements are open that are not read.
    skipped: usize,
    inside: Inside,
    paragraph: Paragraph,
    run: Run,
    tables: Vec<OpenTable>,
    cell: Cell,
    row_deleted: bool,
    /// What was begun when a text box began.
    boxes: Vec<(Vec<Char>, Paragraph)>,
    /// Whether notes are being read.
    notes: bool,
    /// The fraction of an equation that is being read: its upper or lower number.
    fraction: Option<Script>,
}

/// Which element decides what is read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Inside {
    ParagraphProperties,
    RowProperties,
    Text,
    Other,
}

#[derive(Clone, Copy, Default)]
struct Paragraph {
    style: Settled,
    list: Option<u8>,
    no_list: bool,
    heading: Option<u8>,
    contents: bool,
    /// Whether a tracked change deletes its end, so that the next paragraph goes on with it.
    end_deleted: bool,
}

/// What a paragraph's style says.
#[derive(Clone, Copy, Default)]
struct Settled {
    heading: Option<u8>,
    list: Option<u8>,
    bold: bool,
}

#[derive(Clone, Copy, Default)]
struct Run {
    script: Script,
    hidden: bool,
    bold: bool,
    /// Whether it is raised, or lowered, by a distance.
    raised: Option<bool>,
}

/// The properties of the cell that is being read.
#[derive(Clone, Copy, Default)]
struct Cell {
    columns: u32,
    goes_on: bool,
    placed: bool,
    deleted: bool,
}

impl<'a> Docx<'a> {
    fn new(styles: &'a Styles, builder: Builder) -> Docx<'a> {
        Docx {
            styles,
            builder,
            skipped: 0,
            inside: Inside::Other,
            paragraph: Paragraph::default(),
            run: Run::default(),
            tables: Vec::new(),
            cell: Cell::default(),
            row_deleted: false,
            boxes: Vec::new(),
            notes: false,
            fraction: None,
        }
    }

    fn read(&mut self, xml: &str, notes: bool) {
        self.notes = notes;
        self.skipped = 0;
        let read = walk(xml, |node| {
            match node {
                Node::Start(element) => self.start(element),
                Node::End(name) => self.end(name),
                Node::Text(text) => self.text(text),
            }
            if self.builder.is_full() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        self.end_paragraph();
        while let Some(table) = self.tables.pop() {
            table.end(&mut self.builder);
        }
        if let Err(fault) = read {
            tell_xml(&mut self.builder, fault, PROGRAM);
        }
    }

    fn text(&mut self, text: &str) {
        if self.skipped > 0 || self.inside != Inside::Text || self.run.hidden {
            return;
        }
        let place = self.builder.next_paragraph();
        self.builder.push_str(text, self.fraction.unwrap_or(self.run.script), place);
    }

    fn start(&mut self, element: &Element) {
        let name = element.name();
        if self.skipped > 0 {
            self.skipped += 1;
            return;
        }
        if is_unread(name) || self.is_separator(element) {
            let deletes = matches!(name, "del" | "moveFrom");
            self.row_deleted |= self.inside == Inside::RowProperties && deletes;
            self.paragraph.end_deleted |= self.inside == Inside::ParagraphProperties && deletes;
            self.skipped = 1;
            return;
        }
        match name {
            "p" => self.paragraph = Paragraph::default(),
            "pPr" => self.inside = Inside::ParagraphProperties,
            "r" => self.start_run(),
            "t" => self.inside = Inside::Text,
            "tab" | "ptab" if self.inside != Inside::ParagraphProperties => {
                let place = self.builder.next_paragraph();
                self.builder.tab(place);
            }
            "noBreakHyphen" => self.write("-"),
            "sym" => self.write(sign_of(element)),
            "br" | "cr" if !self.run.hidden => {
                let place = self.builder.next_paragraph();
                self.builder.line_break(place);
            }
            "num" | "den" => self.start_fraction_part(name),
            "tbl" => self.start_table(),
            "tr" => self.start_row(),
            "trPr" => self.inside = Inside::RowProperties,
            "tc" => self.cell = Cell { columns: 1, ..Cell::default() },
            "txbxContent" => self.start_box(),
            _ if self.inside == Inside::ParagraphProperties => self.paragraph_property(element),
            _ => self.property(element),
        }
    }

    fn end(&mut self, name: &str) {
        if self.skipped > 0 {
            self.skipped -= 1;
            return;
        }
        match name {
            "p" => self.end_paragraph(),
            "pPr" | "trPr" | "t" => self.inside = Inside::Other,
            "num" => {
                self.fraction = None;
                self.write("\u{2044}");
            }
            "den" => self.fraction = None,
            "tc" => self.end_cell(),
            "tbl" => self.end_table(),
            "txbxContent" => self.end_box(),
            _ => {}
        }
    }

    /// Whether it is one of the notes that only part the text from the notes.
    fn is_separator(&self, element: &Element) -> bool {
        self.notes
            && matches!(element.name(), "footnote" | "endnote")
            && element.attribute("type").is_some_and(|kind| kind != "normal")
    }

    fn write(&mut self, text: &str) {
        if self.run.hidden {
            return;
        }
        let place = self.builder.next_paragraph();
        self.builder.push_str(text, Script::Normal, place);
    }

    fn start_run(&mut self) {
        self.run = Run { bold: self.paragraph.style.bold, ..Run::default() };
        self.builder.set_bold(self.run.bold);
    }

    fn start_fraction_part(&mut self, name: &str) {
        self.fraction = Some(if name == "num" { Script::Super } else { Script::Sub });
    }

    fn paragraph_property(&mut self, element: &Element) {
        match element.name() {
            "pStyle" => {
                let style = self.style(element);
                self.paragraph.style =
                    Settled { heading: style.heading, list: style.list, bold: style.bold == Some(true) };
                self.paragraph.contents = style.contents;
            }
            "outlineLvl" => self.paragraph.heading = element.number("val").and_then(heading_of_outline),
            "ilvl" => self.paragraph.list = element.number("val").and_then(|level| u8::try_from(level).ok()),
            "numId" => {
                self.paragraph.no_list = element.number("val") == Some(0);
                self.paragraph.list = self.paragraph.list.or(Some(0));
            }
            _ => {}
        }
    }

    fn style(&self, element: &Element) -> Style {
        self.styles.resolved(&element.attribute("val").unwrap_or_default())
    }

    /// A property of a run, a row or a cell.
    fn property(&mut self, element: &Element) {
        match element.name() {
            "vertAlign" => self.run.script = script_of(element).unwrap_or_default(),
            "position" => self.run.raised = element.attribute("val").map(|by| !by.starts_with(['-', '0'])),
            // Small letters that are raised or lowered are superscripts and subscripts; large ones stand higher as a whole.
            "sz" if self.run.script == Script::Normal => {
                self.run.script = match self.run.raised {
                    Some(true) => Script::Super,
                    Some(false) => Script::Sub,
                    None => Script::Normal,
                };
            }
            "vanish" => self.run.hidden = element.is_on(),
            "strike" | "dstrike" => self.run.hidden |= element.is_on(),
            "b" => {
                self.run.bold = element.is_on();
                self.builder.set_bold(self.run.bold);
            }
            "rStyle" => {
                let style = self.style(element);
                self.run.script = style.script.unwrap_or_default();
                self.run.hidden = style.hidden == Some(true);
                self.run.bold |= style.bold == Some(true);
                self.builder.set_bold(self.run.bold);
            }
            "gridBefore" => {
                if let Some(table) = self.tables.last_mut() {
                    table.grid.skip(element.number("val").unwrap_or(0));
                }
            }
            "tblHeader" => {
                if let Some(table) = self.tables.last_mut() {
                    table.is_head = element.is_on();
                }
            }
            "cellDel" => self.cell.deleted = true,
            "gridSpan" => self.cell.columns = element.number("val").unwrap_or(1),
            "vMerge" => self.cell.goes_on = element.attribute("val").as_deref() != Some("restart"),
            _ => {}
        }
    }

    fn end_paragraph(&mut self) {
        let Paragraph { style, list, no_list, heading, contents, end_deleted } = self.paragraph;
        self.paragraph = Paragraph::default();
        self.run = Run::default();
        self.builder.set_bold(false);
        if contents {
            self.builder.take();
            return;
        }
        if end_deleted && !self.in_cell() {
            return;
        }
        if self.in_cell() {
            self.place_cell();
            let place = self.builder.next_paragraph();
            self.builder.line_break(place);
            return;
        }
        let list = list.or(style.list).filter(|_| !no_list);
        let kind = match (heading.or(style.heading), list) {
            (Some(level), _) => PassageKind::Heading(level),
            (None, Some(depth)) => PassageKind::ListItem { depth },
            (None, None) => PassageKind::Paragraph,
        };
        if self.notes || !self.boxes.is_empty() {
            self.builder.end_later(kind);
        } else {
            self.builder.end(kind);
        }
    }

    fn start_box(&mut self) {
        if self.boxes.len() < MAX_DEPTH {
            self.boxes.push((self.builder.take(), self.paragraph));
        }
    }

    fn end_box(&mut self) {
        self.builder.end_later(PassageKind::Paragraph);
        if let Some((chars, paragraph)) = self.boxes.pop() {
            self.builder.put_back(chars);
            self.paragraph = paragraph;
        }
        self.run = Run::default();
    }
}
