//! The cells of a table on a page.

use super::fixed::percent;
use super::lines::Rule;
use super::region::{Row, column_of};
use super::rows::Segment;

/// A table: the cells of its rows, by their columns, each of one or several lines.
pub(super) struct Table {
    pub(super) rows: Vec<Vec<Vec<Segment>>>,
}

/// The table that rows make whose columns stand between gutters.
pub(super) fn table(rows: &[Row], gutters: &[(i64, i64)], rules: &[Rule]) -> Table {
    let starts = starts_of_rows(rows, gutters, rules);
    let mut table = Table { rows: Vec::new() };
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
    by_rules(rows, rules).unwrap_or_else(|| by_distance(rows, gutters))
}

/// By the lines between them, where there is one for each row and not only for the head.
fn by_rules(rows: &[Row], rules: &[Rule]) -> Option<Vec<bool>> {
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
    // Three lines round a head and a body part no rows of the body.
    (parts >= 3).then_some(starts)
}

/// By their distance: lines that follow each other closely and leave cells empty go on with the row above them.
fn by_distance(rows: &[Row], gutters: &[(i64, i64)]) -> Vec<bool> {
    let distances: Vec<i64> = rows.windows(2).map(|pair| pair[0].base() - pair[1].base()).collect();
    let (closest, widest) =
        (distances.iter().min().copied().unwrap_or(0), distances.iter().max().copied().unwrap_or(0));
    let size = rows.iter().map(Row::size).max().unwrap_or(0);
    let has_close_lines = closest <= percent(size, 145) && widest > percent(closest, 130);
    let filled = |row: &Row| {
        let mut columns: Vec<usize> = row.segments.iter().map(|segment| column_of(segment, gutters)).collect();
        columns.dedup();
        columns
    };
    let mut starts = vec![true];
    let mut begun = rows.first().map(filled).unwrap_or_default();
    for (row, distance) in rows.iter().skip(1).zip(distances) {
        let own = filled(row);
        let goes_on = has_close_lines
            && distance <= percent(closest, 115)
            && own.len() < begun.len()
            && own.iter().all(|column| begun.contains(column));
        starts.push(!goes_on);
        if !goes_on {
            begun = own;
        }
    }
    starts
}
