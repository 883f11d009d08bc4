//! Tables that the end of a page or a column parts: their rows on the next one, without the heads that are said again
//! there.

use super::fixed::percent;
use super::region::{Block, Row, column_of};
use super::rows::Segment;
use super::table::{Table, table};
use super::wrapped::{fits_above, needs_more};

/// How many rows the heads of a table have at most that are said again on each page.
const MAX_HEADS: usize = 3;
/// How many rows of a table are looked at for where its columns stand.
const MAX_ROWS: usize = 200;

/// The blocks of all pages in the order of reading, with tables that go on from one page to the next as one. What is
/// turned on its side comes after the rest of its page, and is told apart by the count of the other blocks.
pub(super) fn joined(pages: Vec<(Vec<Block>, usize)>) -> Vec<Block> {
    let mut all: Vec<Block> = Vec::new();
    for (blocks, upright) in pages {
        let mut begins = true;
        for (at, block) in blocks.into_iter().enumerate() {
            if matches!(block, Block::ColumnEnd) {
                begins = true;
                continue;
            }
            let left = match all.last_mut() {
                Some(Block::Table(open)) if begins && at < upright => go_on(open, block),
                Some(Block::Lines(lines)) if begins && at < upright => Some(with_heads(lines, block)),
                _ => Some(block),
            };
            if matches!(all.last(), Some(Block::Lines(lines)) if lines.is_empty()) {
                all.pop();
            }
            all.extend(left);
            begins = false;
        }
    }
    all
}

/// Takes into an open table what goes on with it; gives what is left.
fn go_on(open: &mut Table, first: Block) -> Option<Block> {
    match first {
        Block::Table(next) => go_on_with_table(open, next).map(Block::Table),
        Block::Lines(mut lines) => {
            let here = lines.first().map_or(Vec::new(), |first| shifted(&open.gutters, first.x0 - open.left()));
            let gutters = if lines.first().is_some_and(|first| row_of(first, &open.gutters).is_some()) {
                open.gutters.clone()
            } else {
                here
            };
            let rows: Vec<Row> = lines.iter().map_while(|line| row_of(line, &gutters)).collect();
            lines.drain(..rows.len());
            if !rows.is_empty() {
                let next = table(&rows, &gutters, &[]);
                if let Some(next) = go_on_with_table(open, next) {
                    return Some(Block::Table(next));
                }
            }
            (!lines.is_empty()).then_some(Block::Lines(lines))
        }
        Block::ColumnEnd => None,
    }
}

fn go_on_with_table(open: &mut Table, mut next: Table) -> Option<Table> {
    let by = next.left() - open.left();
    let own = in_columns(&next, &open.gutters).or_else(|| in_columns(&next, &shifted(&open.gutters, by)));
    let Some(rows) = own.or_else(|| {
        if open.rows.len() > MAX_ROWS {
            return None;
        }
        // The rows before the break may fill fewer columns.
        let gutters = [0, by].map(|by| shifted(&next.gutters, -by));
        let (rows, gutters) = gutters.into_iter().find_map(|gutters| Some((in_columns(open, &gutters)?, gutters)))?;
        (open.rows, open.gutters) = (rows, gutters);
        Some(std::mem::take(&mut next.rows))
    }) else {
        return Some(next);
    };
    let again = open.rows.iter().zip(&rows).take(MAX_HEADS).take_while(|(head, row)| texts(head) == texts(row)).count();
    let is_other = again == 0
        && open.rows.first().is_some_and(|head| is_bold(head))
        && rows.first().is_some_and(|row| is_bold(row));
    if is_other {
        return Some(Table { rows, ..next });
    }
    let mut rows = rows.into_iter().skip(again);
    if let Some(first) = rows.next() {
        let rights = open.rights();
        match open.rows.split_last_mut() {
            Some((last, [_, ..])) if goes_on_with_row(last, &first, &rights) => {
                last.iter_mut().zip(first).for_each(|(cell, lines)| cell.extend(lines));
            }
            _ => open.rows.push(first),
        }
    }
    open.rows.extend(rows);
    None
}

/// Puts the heads at the foot of a page before their table on the next one.
fn with_heads(lines: &mut Vec<Segment>, first: Block) -> Block {
    let Block::Table(mut next) = first else { return first };
    let head = lines.last().and_then(|line| row_of(line, &next.gutters));
    if let Some(head) = head {
        let head = table(&[head], &next.gutters, &[]);
        let is_bold_below = next.rows.first().is_some_and(|row| is_bold(row));
        let again = texts(&head.rows[0]) == texts(&next.rows[0]);
        if again || is_bold(&head.rows[0]) && !is_bold_below {
            lines.pop();
            if !again {
                next.rows.splice(0..0, head.rows);
            }
        }
    }
    Block::Table(next)
}

/// Gutters so much further to the right.
fn shifted(gutters: &[(i64, i64)], by: i64) -> Vec<(i64, i64)> {
    gutters.iter().map(|(from, to)| (from + by, to + by)).collect()
}

/// A line as a row of a table of these columns, if it fills several of them.
fn row_of(line: &Segment, gutters: &[(i64, i64)]) -> Option<Row> {
    let row = Row { segments: line.clone().parted(gutters, false) };
    (row.segments.len() > 1 && row.segments.iter().all(|segment| is_in_column(segment, gutters))).then_some(row)
}

fn is_in_column(segment: &Segment, gutters: &[(i64, i64)]) -> bool {
    gutters.get(column_of(segment, gutters)).is_none_or(|(_, to)| segment.x1 <= to + percent(segment.size, 20))
}

/// The rows of a table in the columns of another, if each of its cells stands in one, and no two in the same.
fn in_columns(table: &Table, gutters: &[(i64, i64)]) -> Option<Vec<Vec<Vec<Segment>>>> {
    let mut rows = Vec::with_capacity(table.rows.len());
    let mut filled = vec![false; gutters.len() + 1];
    for row in &table.rows {
        let mut cells = vec![Vec::new(); gutters.len() + 1];
        for cell in row.iter().filter(|cell| !cell.is_empty()) {
            let column = column_of(&cell[0], gutters);
            let fits = cell.iter().all(|line| column_of(line, gutters) == column && is_in_column(line, gutters));
            if !fits || !cells[column].is_empty() {
                return None;
            }
            filled[column] = true;
            cells[column].clone_from(cell);
        }
        rows.push(cells);
    }
    (filled.iter().filter(|filled| **filled).count() > 1).then_some(rows)
}

/// Whether the first row on a page is the rest of a row that the page break parts.
fn goes_on_with_row(last: &[Vec<Segment>], first: &[Vec<Segment>], rights: &[i64]) -> bool {
    let mut cells = last.iter().zip(first).zip(rights);
    let fills_other = last.iter().zip(first).all(|(above, own)| above.is_empty() != own.is_empty());
    let leaves_some = last.iter().zip(first).any(|(above, own)| !above.is_empty() && own.is_empty());
    fills_other
        || leaves_some
            && cells.all(|((above, own), right)| match (above.last(), own.first()) {
                (Some(above), Some(own)) => !fits_above(above, own, *right) && needs_more(above, own),
                _ => true,
            })
}

impl Table {
    /// Its last rows, as many as are looked at for where its columns stand.
    fn last_rows(&self) -> &[Vec<Vec<Segment>>] {
        &self.rows[self.rows.len().saturating_sub(MAX_ROWS)..]
    }

    /// Where its first column begins.
    fn left(&self) -> i64 {
        self.last_rows().iter().flatten().flatten().map(|line| line.x0).min().unwrap_or(0)
    }

    /// How far the lines of each column reach.
    fn rights(&self) -> Vec<i64> {
        let mut rights = vec![i64::MIN; self.gutters.len() + 1];
        for row in self.last_rows() {
            for (right, cell) in rights.iter_mut().zip(row) {
                *right = cell.iter().map(|line| line.x1).fold(*right, i64::max);
            }
        }
        rights
    }
}

fn texts(row: &[Vec<Segment>]) -> Vec<String> {
    row.iter().map(|cell| cell.iter().map(Segment::text).collect::<Vec<_>>().join(" ")).collect()
}

fn is_bold(row: &[Vec<Segment>]) -> bool {
    row.iter().flatten().all(|line| line.is_bold)
}
