//! The cells of a table on a page.

use super::fixed::percent;
use super::lines::Rule;
use super::region::{Row, column_of};
use super::rows::Segment;
use super::wrapped::Wrapping;

/// A table: the cells of its rows, by their columns, each of one or several lines.
pub(super) struct Table {
    pub(super) rows: Vec<Vec<Vec<Segment>>>,
    /// From where to where each gutter between its columns is free; a line is one without width.
    pub(super) gutters: Vec<(i64, i64)>,
}

/// The table that rows make whose columns stand between gutters.
pub(super) fn table(rows: &[Row], gutters: &[(i64, i64)], rules: &[Rule]) -> Table {
    let starts = starts_of_rows(rows, gutters, rules);
    let mut table = Table { rows: Vec::new(), gutters: gutters.to_vec() };
    for (row, starts) in rows.iter().zip(starts) {
        if starts || table.rows.is_empty() {
            table.rows.push(vec![Vec::new(); gutters.len() + 1]);
        }
        let Some(cells) = table.rows.last_mut() else { continue };
        let mut own: Vec<Option<Segment>> = vec![None; cells.len()];
        for segment in &row.segments {
            match &mut own[column_of(segment, gutters)] {
                Some(cell) => cell.join(segment.clone()),
                cell => *cell = Some(segment.clone()),
            }
        }
        for (cell, line) in cells.iter_mut().zip(own) {
            cell.extend(line);
        }
    }
    table
}

/// Which rows begin a row of the table, and do not go on with cells of several lines.
fn starts_of_rows(rows: &[Row], gutters: &[(i64, i64)], rules: &[Rule]) -> Vec<bool> {
    by_rules(rows, gutters, rules).unwrap_or_else(|| Wrapping::of(rows, gutters).starts(rows, gutters))
}

/// By the lines between them, where there is one for each row and not only for the head.
fn by_rules(rows: &[Row], gutters: &[(i64, i64)], rules: &[Rule]) -> Option<Vec<bool>> {
    let left = rows.iter().map(Row::x0).min()?;
    let right = rows.iter().flat_map(|row| &row.segments).map(|segment| segment.x1).max()?;
    let (top, bottom) = (rows.first()?.base(), rows.last()?.base());
    let mut heights: Vec<i64> = rules
        .iter()
        .filter(|rule| rule.y < top && rule.y > bottom && rule.x0 < right && rule.x1 > left)
        .map(|rule| rule.y)
        .collect();
    heights.sort_unstable();
    let parted = |above: &Row, below: &Row| {
        let next = heights.partition_point(|y| *y < below.base());
        heights.get(next).is_some_and(|y| *y < above.base())
    };
    let starts: Vec<bool> =
        std::iter::once(true).chain(rows.windows(2).map(|pair| parted(&pair[0], &pair[1]))).collect();
    let parts = starts.iter().filter(|starts| **starts).count();
    let is_full = |row: &Row| row.segments.len() > gutters.len();
    let holds_rows = rows.windows(2).zip(&starts[1..]).any(|(pair, starts)| {
        !starts
            && is_full(&pair[0])
            && is_full(&pair[1])
            && pair[0].base() - pair[1].base() > percent(pair[0].size(), 145)
    });
    // Three lines round a head and a body part no rows of the body.
    (parts >= 3 && !holds_rows).then_some(starts)
}
