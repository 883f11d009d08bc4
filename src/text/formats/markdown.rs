//! Markdown, with tables, footnotes and the HTML that stands in it.

use std::ops::Range;

use pulldown_cmark::{Event, HeadingLevel, Options, Parser, Tag, TagEnd};

use super::builder::Builder;
use super::decode::decode;
use super::grid::Grid;
use super::heads::mark_first_row;
use super::html::Html;
use super::lines::{lines, read_lines};
use crate::text::passage::{PassageKind, PrintedText, TextFormat, TextPlace};

/// Reads Markdown.
pub(super) fn read(bytes: &[u8]) -> PrintedText {
    let decoded = decode(bytes);
    let text = decoded.text.strip_prefix('\u{feff}').unwrap_or(&decoded.text);
    let text = text.get(front_matter(text)..).unwrap_or_default();
    let mut reader = Markdown {
        text,
        offset: decoded.text.len() - text.len(),
        builder: Builder::new(TextFormat::Markdown),
        html: Html::default(),
        lists: Vec::new(),
        table: None,
        is_head: false,
        struck: 0,
        strong: 0,
        skipped: 0,
        note: 0,
        code: None,
        lines: false,
    };
    // `wall [lap] {queen}` in a heading are sizes; `{#cutting}` and `{.wide}` are its marks.
    let has_marks = text.contains("{#") || text.contains("{.");
    let of_headings = if has_marks { Options::ENABLE_HEADING_ATTRIBUTES } else { Options::empty() };
    let options = Options::ENABLE_TABLES
        | Options::ENABLE_FOOTNOTES
        | Options::ENABLE_STRIKETHROUGH
        | Options::ENABLE_TASKLISTS
        | of_headings;
    for (event, range) in Parser::new_ext(text, options).into_offset_iter() {
        if reader.builder.is_full() {
            break;
        }
        reader.event(event, range);
    }
    let mut printed = reader.builder.finish();
    decoded.place_in_file(&mut printed);
    printed
}

/// How many bytes at the very beginning of a text are words about it that are not printed: between two lines `---`, each
/// a key and a value. Rules further down are printed, and so is what stands between them.
fn front_matter(text: &str) -> usize {
    let is_mark = |line: &str, marks: &[&str]| marks.contains(&line.trim_end());
    let mut lines = text.split_inclusive('\n');
    let Some(first) = lines.next().filter(|line| is_mark(line, &["---"])) else { return 0 };
    let mut end = first.len();
    for line in lines {
        end += line.len();
        if is_mark(line, &["---", "..."]) {
            return end;
        }
        let has_key = || line.split_once(':').is_some_and(|(key, _)| !key.contains([' ', '*', '|']));
        if !(line.trim().is_empty() || line.starts_with([' ', '-', '#']) || has_key()) {
            return 0;
        }
    }
    0
}

struct Markdown<'a> {
    text: &'a str,
    /// How many bytes of the file stand before the text.
    offset: usize,
    builder: Builder,
    html: Html,
    /// The item that each open list is at: whether it has one.
    lists: Vec<bool>,
    table: Option<(Grid, usize)>,
    is_head: bool,
    /// How many spans are open that are struck out.
    struck: usize,
    /// How many spans are open that are bold.
    strong: usize,
    /// How many things are open that are not printed.
    skipped: usize,
    /// Whether the lines of the paragraph that is open are read one by one, as items of a list.
    lines: bool,
    /// How many notes are open.
    note: usize,
    /// The code block that is open, from its first to its last byte.
    code: Option<Range<usize>>,
}

impl Markdown<'_> {
    fn event(&mut self, event: Event, range: Range<usize>) {
        match event {
            Event::Start(tag) => self.start(&tag, &range),
            Event::End(tag) => self.end(tag),
            Event::Text(text) => self.write(&text, range),
            Event::Code(text) => {
                // The marks stand round it, however many they are.
                let inner = self.text.get(range.clone()).and_then(|all| all.find(&*text)).unwrap_or(0);
                self.write(&text, range.start + inner..range.start + inner + text.len());
            }
            Event::Html(_) | Event::InlineHtml(_) => self.html(range),
            Event::SoftBreak if self.is_in_paragraph() && is_line_of_its_own(self.text, &range) => {
                self.lines |= !is_head_of_lines(line_before(self.text, &range));
                self.finish_passage();
                self.lines = true;
            }
            Event::SoftBreak => self.write(" ", range),
            Event::HardBreak => {
                let place = self.place(&range);
                self.builder.line_break(place);
            }
            Event::Rule => {
                self.finish_passage();
                self.builder.end_group();
            }
            Event::FootnoteReference(_) | Event::TaskListMarker(_) | Event::InlineMath(_) | Event::DisplayMath(_) => {}
        }
    }

    fn start(&mut self, tag: &Tag, range: &Range<usize>) {
        match tag {
            Tag::Paragraph | Tag::HtmlBlock if self.lists.is_empty() && self.table.is_none() => self.finish_passage(),
            Tag::Paragraph if !self.builder.is_blank() => self.finish_passage(),
            Tag::Heading { .. } | Tag::BlockQuote(_) => self.finish_passage(),
            Tag::CodeBlock(_) => {
                self.finish_passage();
                self.code = Some(range.end..range.start);
            }
            Tag::List(_) => {
                self.finish_passage();
                self.lists.push(false);
            }
            Tag::Item => {
                self.finish_passage();
                if let Some(last) = self.lists.last_mut() {
                    *last = true;
                }
            }
            Tag::FootnoteDefinition(_) => {
                self.finish_passage();
                self.note += 1;
            }
            Tag::Table(_) => {
                self.finish_passage();
                self.table = Some((Grid::new(self.builder.next_table()), self.builder.len()));
            }
            Tag::TableHead => {
                self.next_row();
                self.is_head = true;
            }
            Tag::TableRow => self.next_row(),
            Tag::Strikethrough => self.struck += 1,
            Tag::Strong => {
                self.strong += 1;
                self.builder.set_bold(true);
            }
            Tag::Image { .. } => self.skipped += 1,
            _ => {}
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Heading(level) => {
                self.builder.end(PassageKind::Heading(level_of(level)));
            }
            TagEnd::Paragraph if self.lines => {
                self.finish_passage();
                self.lines = false;
                self.builder.end_group();
            }
            TagEnd::Paragraph | TagEnd::Item | TagEnd::BlockQuote(_) => self.finish_passage(),
            TagEnd::CodeBlock => self.end_code(),
            TagEnd::List(_) => {
                self.finish_passage();
                self.lists.pop();
                if self.lists.is_empty() && self.note == 0 {
                    self.builder.end_group();
                }
            }
            TagEnd::FootnoteDefinition => {
                self.finish_passage();
                self.note = self.note.saturating_sub(1);
            }
            TagEnd::TableCell => self.end_cell(),
            TagEnd::TableHead => self.is_head = false,
            TagEnd::Table => {
                if let Some((grid, first)) = self.table.take() {
                    mark_first_row(&mut self.builder, first, grid.table());
                }
                self.builder.end_group();
            }
            TagEnd::Strong => {
                self.strong = self.strong.saturating_sub(1);
                self.builder.set_bold(self.strong > 0);
            }
            TagEnd::Strikethrough => self.struck = self.struck.saturating_sub(1),
            TagEnd::Image => self.skipped = self.skipped.saturating_sub(1),
            _ => {}
        }
    }

    fn next_row(&mut self) {
        if let Some((grid, _)) = &mut self.table {
            grid.next_row();
        }
    }

    fn end_cell(&mut self) {
        let Some((grid, _)) = &mut self.table else { return };
        let kind = grid.cell(1, 1, self.is_head);
        self.builder.end(kind);
        self.html.end_inline();
    }

    fn is_in_paragraph(&self) -> bool {
        self.lists.is_empty() && self.table.is_none() && self.note == 0 && self.code.is_none()
    }

    fn finish_passage(&mut self) {
        let kind = match self.lists.len().checked_sub(1) {
            None if self.lines => PassageKind::ListItem { depth: 0 },
            Some(depth) if self.lists.last() == Some(&true) => {
                PassageKind::ListItem { depth: u8::try_from(depth).unwrap_or(u8::MAX) }
            }
            _ => PassageKind::Paragraph,
        };
        if self.note > 0 {
            self.builder.end_later(kind);
        } else if !self.builder.is_blank() {
            let kind = self.html.kind(kind);
            self.builder.end(kind);
        } else {
            self.builder.take();
        }
        self.html.end_inline();
    }

    fn place(&self, range: &Range<usize>) -> TextPlace {
        TextPlace::Span((range.start + self.offset..range.end + self.offset).into())
    }

    fn write(&mut self, text: &str, range: Range<usize>) {
        if let Some(code) = &mut self.code {
            *code = code.start.min(range.start)..code.end.max(range.end);
            return;
        }
        if self.struck > 0 || self.skipped > 0 || self.html.is_hidden() {
            return;
        }
        let script = self.html.script();
        if self.text.get(range.clone()) == Some(text) {
            self.builder.push_verbatim(text, script, range.start + self.offset);
        } else {
            self.builder.push_str(text, script, self.place(&range));
        }
    }

    /// What is set as code is read as text without markup: its lines are the writer's.
    fn end_code(&mut self) {
        let Some(code) = self.code.take().filter(|code| code.start < code.end) else { return };
        // The indent of the first line is none of the code, but that of the others is found in the text.
        let before = self.text.get(..code.start).unwrap_or_default();
        let code = before.trim_end_matches([' ', '\t']).len()..code.end;
        let Some(text) = self.text.get(code.clone()) else { return };
        read_lines(&lines(text, code.start + self.offset), &mut self.builder);
    }

    fn html(&mut self, range: Range<usize>) {
        let Some(text) = self.text.get(range.clone()) else { return };
        self.html.read(text, range.start + self.offset, &mut self.builder);
    }
}

const fn level_of(level: HeadingLevel) -> u8 {
    match level {
        HeadingLevel::H1 => 1,
        HeadingLevel::H2 => 2,
        HeadingLevel::H3 => 3,
        HeadingLevel::H4 => 4,
        HeadingLevel::H5 => 5,
        HeadingLevel::H6 => 6,
    }
}

/// Lines up to this many characters are no wrapped ones.
const SHORT_LINE: usize = 55;

fn line_before<'t>(text: &'t str, range: &Range<usize>) -> &'t str {
    let before = &text[..range.start];
    before.strip_suffix('\r').unwrap_or(before).rsplit(['\n', '\r']).next().unwrap_or_default()
}

/// Whether the line after a break is meant as one: it has a head, `Rose: 5 strips`, or begins anew after a short line.
fn is_line_of_its_own(text: &str, range: &Range<usize>) -> bool {
    let before = line_before(text, range);
    let mut lines = text[range.end..].split(['\n', '\r']);
    let (after, next) = (lines.next().unwrap_or_default(), lines.next().unwrap_or_default());
    let are_short = [before, after, next].iter().all(|line| line.chars().count() <= SHORT_LINE);
    let after = after.trim_start_matches([' ', '*', '_', '>', '\t']);
    let begins = after.starts_with(|ch: char| ch.is_uppercase() || ch.is_ascii_digit() || ch == '(');
    let head = after.split_once(':').map_or("", |(head, _)| head);
    let is_short =
        |most: usize| !head.is_empty() && head.split_whitespace().count() <= most && !head.contains(['.', ';']);
    // `Outer border, 4 1/2" strips: 5`
    let is_item = is_short(6) && head.contains(',') && head.contains(|ch: char| ch.is_ascii_digit());
    // A number may be wrapped: `2` at the end of a line, `1/2 in` at the beginning of the next.
    let is_parted = before.ends_with(|ch: char| ch.is_ascii_digit()) && starts_with_fraction(after);
    // Prose is not wrapped as narrow as a list of short lines.
    let is_listed =
        are_short && after.starts_with(char::is_lowercase) && !before.ends_with([',', '-', '\u{2013}', '\u{2014}']);
    !is_parted && (begins || is_listed) && (before.chars().count() <= SHORT_LINE || is_short(3)) || is_item
}

/// Whether a line is the head of those after it: it says no number but in brackets, or ends with a colon.
fn is_head_of_lines(line: &str) -> bool {
    let outside = line.split('(').next().unwrap_or_default();
    line.trim_end_matches(['*', '_', ' ']).ends_with(':') || !outside.contains(|ch: char| ch.is_ascii_digit())
}

fn starts_with_fraction(text: &str) -> bool {
    let rest = text.trim_start_matches(|ch: char| ch.is_ascii_digit());
    rest.len() < text.len() && rest.starts_with(['/', '\u{2044}'])
}
