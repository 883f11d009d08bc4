//! Tables in text without markup: cells parted by bars, by tabs, or by columns of spaces.

use super::lines::{Line, is_mark};

/// A line that is indented so far can be a row whose first cells are empty.
const DEEP: usize = 6;

/// A cell, where there is one.
type Row<'a> = Vec<Option<Line<'a>>>;

/// The lines before a table, its rows, and the lines after it.
type TableInLines<'a, 'b> = (&'b [Line<'a>], Vec<Row<'a>>, &'b [Line<'a>]);

/// The first table in a block of lines.
pub(super) fn table_rows<'a, 'b>(block: &'b [Line<'a>]) -> Option<TableInLines<'a, 'b>> {
    let delimiter = ['|', '\t'].into_iter().find(|mark| longest_run(block, *mark).1 >= 2);
    if let Some(mark) = delimiter {
        let (start, length) = longest_run(block, mark);
        let lines = &block[start..start + length];
        let rows: Vec<Row> = lines.iter().filter(|line| !is_rule(line.text)).map(|line| split_at(line, mark)).collect();
        if rows.len() >= 2 {
            return Some((&block[..start], rows, &block[start + length..]));
        }
    }
    let start = block.iter().position(|line| has_gap(line.text))?;
    let goes_on = |line: &&Line| has_gap(line.text) || is_rule(line.text) || line.indent() >= DEEP;
    let length = block[start..].iter().take_while(goes_on).count();
    let rows = by_gaps(&block[start..start + length])?;
    Some((&block[..start], rows, &block[start + length..]))
}

/// Where the first lines stand that hold a mark between words, and how many they are.
fn longest_run(block: &[Line], mark: char) -> (usize, usize) {
    let holds = |line: &Line| line.text.trim().trim_matches(mark).contains(mark) || is_rule(line.text);
    let start = block.iter().position(|line| holds(line) && !is_rule(line.text)).unwrap_or(block.len());
    (start, block[start..].iter().take_while(|line| holds(line)).count())
}

/// Whether a line only parts rows.
fn is_rule(text: &str) -> bool {
    let text = text.trim();
    text.len() >= 3
        && text.chars().all(|ch| "-=+|:_ \u{2500}\u{2014}".contains(ch))
        && text.contains(['-', '=', '_', '\u{2500}', '\u{2014}'])
}

fn split_at<'a>(line: &Line<'a>, mark: char) -> Row<'a> {
    let mut at = line.start;
    let mut cells: Row = Vec::new();
    for part in line.text.split(mark) {
        cells.push(cell(part, at));
        at += part.len() + mark.len_utf8();
    }
    if mark == '|' && line.text.trim_start().starts_with('|') {
        cells.remove(0);
    }
    if mark == '|' && line.text.ends_with('|') {
        cells.pop();
    }
    cells
}

fn cell(part: &str, start: usize) -> Option<Line<'_>> {
    let words = part.trim_start();
    let text = words.trim_end();
    (!text.is_empty()).then(|| Line { text, start: start + (part.len() - words.len()) })
}

/// Whether there is a gap of at least two spaces between words.
fn has_gap(text: &str) -> bool {
    text.trim_start().contains("  ")
}

/// The rows of lines whose columns are parted by spaces that stand under each other.
fn by_gaps<'a>(lines: &[Line<'a>]) -> Option<Vec<Row<'a>>> {
    let lines: Vec<&Line> = lines.iter().filter(|line| !is_rule(line.text)).collect();
    if lines.len() < 2 {
        return None;
    }
    let width = lines.iter().map(|line| line.text.chars().count()).max().unwrap_or(0);
    let mut is_space = vec![true; width];
    for line in &lines {
        for (column, ch) in line.text.chars().enumerate() {
            is_space[column] &= ch.is_whitespace();
        }
    }
    let starts = column_starts(&is_space);
    if starts.len() < 2 {
        return None;
    }
    let rows: Vec<Row> = lines.iter().map(|line| at_columns(line, &starts)).collect();
    let full = rows.iter().filter(|row| row.iter().flatten().count() >= 2).count();
    // What stands under each other at the start are the marks of items, and not cells.
    if rows.iter().filter_map(|row| row[0]).all(|first| is_mark(first.text)) {
        return None;
    }
    (full * 3 >= rows.len() * 2 && full >= 2).then_some(rows)
}

/// Where columns begin: after each gap that all lines share and that is two spaces wide or wider.
fn column_starts(is_space: &[bool]) -> Vec<usize> {
    let mut starts = Vec::new();
    let mut gap = 2;
    for (column, space) in is_space.iter().enumerate() {
        if *space {
            gap += 1;
            continue;
        }
        if gap >= 2 {
            starts.push(column);
        }
        gap = 0;
    }
    starts
}

fn at_columns<'a>(line: &Line<'a>, starts: &[usize]) -> Row<'a> {
    let offsets: Vec<usize> = line.text.char_indices().map(|(offset, _)| offset).collect();
    let offset = |column: usize| offsets.get(column).copied().unwrap_or(line.text.len());
    let ends = starts.iter().skip(1).map(|start| offset(*start)).chain([line.text.len()]);
    let parts = starts.iter().map(|start| offset(*start)).zip(ends);
    parts.map(|(start, end)| cell(line.text.get(start..end).unwrap_or_default(), line.start + start)).collect()
}
