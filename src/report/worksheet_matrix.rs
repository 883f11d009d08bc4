//! The numbers of a manuscript in text, sizes side by side: stated over needed, with a mark where one is not OK.
//!
//! Sizes that do not fit beside one another go on in a further part below.

use unicode_width::UnicodeWidthStr;

use super::nonbreaking::{breaking, nonbreaking};
use super::{RenderStyle, sanitize_line};
use crate::audit::{Line, Status};
use crate::finding::Level;
use crate::worksheet::{MatrixRow, Section, Worksheet, needed_beside};

/// How far the numbers are set in below their section.
const INDENT: usize = 2;

/// What stands between two columns.
const GAP: usize = 2;

/// How wide the names of numbers are at most.
const WIDEST_NAME: usize = 27;

/// How wide a column is at least: what needs more is broken at its spaces.
const NARROWEST: usize = 8;

/// How a number is marked that is not OK; nothing where it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Sign {
    Bad,
    Query,
    Open,
    Accepted,
}

impl Sign {
    fn of(line: &Line) -> Option<Sign> {
        match (line.status, line.level()) {
            (Status::Short | Status::Wrong, _) => Some(Sign::Bad),
            (_, Some(Level::Error | Level::Query)) => Some(Sign::Query),
            (Status::NotChecked, _) => Some(Sign::Open),
            (Status::Accepted, _) => Some(Sign::Accepted),
            (Status::Ok | Status::AsGiven, _) => None,
        }
    }

    const fn letter(self, ascii: bool) -> &'static str {
        match (self, ascii) {
            (Sign::Bad, false) => "✗",
            (Sign::Bad, true) => "x",
            (Sign::Query, _) => "?",
            (Sign::Open, false) => "○",
            (Sign::Open, true) => "o",
            (Sign::Accepted, false) => "✓",
            (Sign::Accepted, true) => "+",
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Sign::Bad => "short or wrong",
            Sign::Query => "to ask the writer",
            Sign::Open => "not checked",
            Sign::Accepted => "accepted",
        }
    }
}

/// The numbers with the sizes side by side; nothing where there are none.
pub(super) fn matrix(worksheet: &Worksheet, look: RenderStyle) -> String {
    let matrix = worksheet.matrix();
    if matrix.parts.is_empty() {
        return String::new();
    }
    let rows = || matrix.parts.iter().flat_map(|part| &part.rows);
    let name = rows().map(|row| nonbreaking(&sanitize_line(row.number)).width()).max().unwrap_or_default();
    let name = name.min(WIDEST_NAME);
    let signed = rows().flat_map(MatrixRow::lines).any(|(_, line)| Sign::of(line).is_some());
    let columns: Vec<Column> = (0..matrix.sizes.len())
        .map(|size| {
            let cells = rows().filter_map(|row| row.cells.get(size).copied().flatten());
            Column::new(size, matrix.sizes[size], cells, signed)
        })
        .collect();
    let room = look.width.clamp(60, 160).saturating_sub(INDENT + name);
    let mut text = legend(rows(), look);
    for (number, columns) in parts(columns, room).iter().enumerate() {
        text.push('\n');
        text.push_str(&heads(name, columns));
        for part in &matrix.parts {
            let shown = |row: &&MatrixRow<'_>| {
                !row.all.is_empty() && number == 0 || columns.iter().any(|column| row.cells[column.size].is_some())
            };
            let mut shown = part.rows.iter().filter(shown).peekable();
            if shown.peek().is_some() {
                let section = part.section.and_then(|section| worksheet.sections.get(section));
                let heading = section.map_or_else(|| "Other".to_string(), Section::heading);
                text.push_str(&format!("{}\n", sanitize_line(&heading)));
            }
            for row in shown {
                text.push_str(&row_text(row, (name, columns), number == 0, look));
            }
        }
    }
    breaking(&text)
}

/// What a cell says, and by which marks.
fn legend<'r, 'l: 'r>(rows: impl Iterator<Item = &'r MatrixRow<'l>>, look: RenderStyle) -> String {
    let lines: Vec<&Line> = rows.flat_map(|row| row.lines().map(|(_, line)| line).collect::<Vec<_>>()).collect();
    let mut signs: Vec<Sign> = lines.iter().filter_map(|line| Sign::of(line)).collect();
    signs.sort_unstable();
    signs.dedup();
    let mut words = "Stated, and under it what is needed where that says more.".to_string();
    for sign in signs {
        words.push_str(&format!(" {} {}.", sign.letter(look.ascii), sign.words()));
    }
    format!("{}\n", textwrap::fill(&words, look.width.clamp(60, 100)))
}

/// The column of a size.
#[derive(Clone, Debug)]
struct Column {
    size: usize,
    head: String,
    /// How wide it is as a whole, and how wide its longest word or quantity is.
    wide: usize,
    narrow: usize,
    width: usize,
    signed: bool,
}

impl Column {
    fn new<'l>(size: usize, name: &str, cells: impl Iterator<Item = &'l Line>, signed: bool) -> Column {
        let head = sanitize_line(name);
        let margin = if signed { 2 } else { 0 };
        let (mut wide, mut narrow) = (head.width() + margin, longest_word(&head) + margin);
        for line in cells {
            for text in [line.stated.as_str(), needed_beside(line).unwrap_or_default()] {
                let text = cell_text(text);
                wide = wide.max(text.width() + margin);
                narrow = narrow.max(longest_word(&text) + margin);
            }
        }
        let narrow = narrow.max(NARROWEST.min(wide));
        Column { size, head, wide, narrow, width: narrow, signed }
    }
}

/// A quantity with its parts held together, a pair of lengths as its two.
fn cell_text(text: &str) -> String {
    let text = nonbreaking(&sanitize_line(text));
    text.replace("\u{a0}x\u{a0}", " x\u{a0}")
}

fn longest_word(text: &str) -> usize {
    text.split(' ').map(UnicodeWidthStr::width).max().unwrap_or_default()
}

/// The columns that fit beside one another, part by part, each as wide as there is room.
fn parts(columns: Vec<Column>, room: usize) -> Vec<Vec<Column>> {
    let mut parts: Vec<Vec<Column>> = vec![Vec::new()];
    let mut taken = 0;
    for column in columns {
        let needed = column.narrow + GAP;
        if taken + needed > room && taken > 0 {
            parts.push(Vec::new());
            taken = 0;
        }
        taken += needed;
        if let Some(last) = parts.last_mut() {
            last.push(column);
        }
    }
    for part in &mut parts {
        let mut left = room.saturating_sub(part.iter().map(|column| column.narrow + GAP).sum());
        while left > 0 {
            let Some(column) =
                part.iter_mut().filter(|column| column.width < column.wide).min_by_key(|column| column.width)
            else {
                break;
            };
            column.width += 1;
            left -= 1;
        }
    }
    parts
}

fn heads(name: usize, columns: &[Column]) -> String {
    let mut cells = vec![(name + INDENT, Vec::new())];
    cells.extend(columns.iter().map(|column| {
        let margin = if column.signed { "  " } else { "" };
        let lines = textwrap::wrap(&column.head, column.width.saturating_sub(margin.len()).max(1));
        (column.width, lines.iter().map(|line| format!("{margin}{line}")).collect())
    }));
    beside(&cells)
}

fn row_text(row: &MatrixRow<'_>, (name, columns): (usize, &[Column]), first: bool, look: RenderStyle) -> String {
    let options = textwrap::Options::new(name).subsequent_indent("  ");
    let number = sanitize_line(row.number);
    let names = textwrap::wrap(&number, options);
    let mut cells = vec![(name + INDENT, names.iter().map(|line| format!("{:INDENT$}{line}", "")).collect::<Vec<_>>())];
    if let Some(line) = row.all.first().filter(|_| first) {
        let room = look.width.clamp(60, 160).saturating_sub(name + INDENT + GAP);
        let needed = needed_beside(line).map_or_else(String::new, |needed| format!("; needed: {needed}"));
        let times = if row.all.len() > 1 { format!(" ({} times)", row.all.len()) } else { String::new() };
        let said = format!("{}{}{times}{needed}", sign(line, look, false), line.stated);
        let said = nonbreaking(&sanitize_line(&said));
        cells.push((room, textwrap::wrap(&said, room).iter().map(ToString::to_string).collect()));
        if row.cells.iter().all(Option::is_none) {
            return beside(&cells);
        }
        let mut text = beside(&cells);
        cells.truncate(1);
        cells[0].1.clear();
        cells.extend(columns.iter().map(|column| (column.width, cell(row.cells[column.size], column, look))));
        text.push_str(&beside(&cells));
        return text;
    }
    cells.extend(columns.iter().map(|column| (column.width, cell(row.cells[column.size], column, look))));
    beside(&cells)
}

/// The mark before a number; where a column has marks, room for one.
fn sign(line: &Line, look: RenderStyle, room: bool) -> String {
    match Sign::of(line) {
        Some(sign) => format!("{} ", sign.letter(look.ascii)),
        None if room => "  ".to_string(),
        None => String::new(),
    }
}

fn cell(line: Option<&Line>, column: &Column, look: RenderStyle) -> Vec<String> {
    let Some(line) = line else { return Vec::new() };
    let mark = sign(line, look, column.signed);
    let room = column.width.saturating_sub(mark.width()).max(1);
    let broken = |text: &str| -> Vec<String> {
        let options = textwrap::Options::new(room)
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .break_words(false);
        textwrap::wrap(&cell_text(text), options).iter().map(ToString::to_string).collect()
    };
    let below = " ".repeat(mark.width());
    let mut lines: Vec<String> = Vec::new();
    for (index, part) in broken(&line.stated).into_iter().enumerate() {
        lines.push(format!("{}{part}", if index == 0 { &mark } else { &below }));
    }
    for part in needed_beside(line).map(broken).unwrap_or_default() {
        lines.push(format!("{below}{part}"));
    }
    lines
}

/// Cells side by side, each in its width.
fn beside(cells: &[(usize, Vec<String>)]) -> String {
    let high = cells.iter().map(|(_, lines)| lines.len()).max().unwrap_or_default();
    let mut text = String::new();
    for place in 0..high {
        let mut row = String::new();
        for (number, (width, lines)) in cells.iter().enumerate() {
            let line = lines.get(place).map(String::as_str).unwrap_or_default();
            let gap = if number == 0 { 0 } else { GAP };
            row.push_str(&format!("{:gap$}{line}{:fill$}", "", "", fill = width.saturating_sub(line.width())));
        }
        text.push_str(row.trim_end());
        text.push('\n');
    }
    text
}
