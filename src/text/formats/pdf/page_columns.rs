//! Columns of a page that are read one after the other, whatever stands in them: text, lists, and tables.

use std::collections::BTreeMap;
use std::ops::Range;

use super::fixed::{ONE, percent};
use super::region::Row;
use super::rows::Segment;

/// How many rows a column has at least.
const MIN_ROWS: usize = 4;
/// How many letters its lines have at least, on the whole.
const MIN_LETTERS: usize = 14;
/// How wide the space between columns is at least, where the letters are no smaller.
const MIN_SPACE: i64 = 9 * ONE;
/// How many places are tried where many lines begin.
const MAX_PLACES: usize = 8;

/// Two columns of a page: the rows that they stand in, and where the second begins.
pub(super) struct PageColumns {
    pub(super) rows: Range<usize>,
    /// From where to where the space between them is free.
    pub(super) gutter: (i64, i64),
}

/// The columns among rows. In a table, what stands on the right has something beside it on the left; in columns, many
/// lines of either have none.
pub(super) fn page_columns(rows: &[Row]) -> Option<PageColumns> {
    if rows.len() < 2 * MIN_ROWS {
        return None;
    }
    let segments = || rows.iter().flat_map(|row| &row.segments);
    let (left, right) = (segments().map(|segment| segment.x0).min()?, segments().map(|segment| segment.x1).max()?);
    let mut begin: BTreeMap<i64, usize> = BTreeMap::new();
    let middle = left + percent(right - left, 25)..left + percent(right - left, 75);
    for segment in segments().filter(|segment| middle.contains(&segment.x0)) {
        *begin.entry(segment.x0 / (2 * ONE)).or_default() += 1;
    }
    let mut places: Vec<(i64, usize)> = begin.into_iter().filter(|(_, count)| *count > 1).collect();
    places.sort_by_key(|(place, count)| (std::cmp::Reverse(*count), *place));
    let columns = places.iter().take(MAX_PLACES).filter_map(|(place, _)| at(rows, place * 2 * ONE));
    columns.max_by_key(|columns| columns.rows.len())
}

/// The columns of which the second begins here.
fn at(rows: &[Row], place: i64) -> Option<PageColumns> {
    let crosses = |row: &Row| {
        let near = place - row.size().min(MIN_SPACE);
        row.segments.iter().any(|segment| segment.x0 < place && segment.x1 > near)
    };
    let mut longest = 0..0;
    let mut start = 0;
    for (at, row) in rows.iter().enumerate() {
        if crosses(row) {
            start = at + 1;
        } else if at + 1 - start > longest.len() {
            longest = start..at + 1;
        }
    }
    let own = &rows[longest.clone()];
    let (left, right) = (Side::of(own, |segment| segment.x0 < place), Side::of(own, |segment| segment.x0 >= place));
    if !left.is_column_beside(&right) || !right.is_column_beside(&left) {
        return None;
    }
    let end = own.iter().flat_map(|row| &row.segments).filter(|segment| segment.x0 < place).map(|segment| segment.x1);
    Some(PageColumns { rows: longest, gutter: (end.max()?, place) })
}

/// What stands on one side of a place.
struct Side {
    /// How high each of its lines stands, from the top down, and how large its letters are.
    lines: Vec<(i64, i64)>,
    letters: usize,
}

impl Side {
    fn of(rows: &[Row], is_own: impl Fn(&Segment) -> bool) -> Side {
        let mut side = Side { lines: Vec::new(), letters: 0 };
        for row in rows {
            let mut own = row.segments.iter().filter(|segment| is_own(segment)).peekable();
            if own.peek().is_some() {
                side.lines.push((row.base(), row.size()));
                side.letters += own.map(|segment| segment.chars.len()).sum::<usize>();
            }
        }
        side
    }

    /// Whether enough of its lines have none of the other side beside them, and they are long enough to be text.
    fn is_column_beside(&self, other: &Side) -> bool {
        let count = self.lines.len();
        // What stands above or below all of the other side says nothing, unless it is most of this one.
        let beside = &self.lines[self.within(other)];
        let lines = if beside.len() * 2 >= count { beside } else { &self.lines };
        let alone = lines.iter().filter(|line| !other.has_line_near(**line, 10)).count();
        count >= MIN_ROWS && self.letters >= MIN_LETTERS * count && alone * 4 >= lines.len()
    }

    /// Which of its lines stand no higher than the first of the other side, and no lower than the last.
    fn within(&self, other: &Side) -> Range<usize> {
        let (Some((top, high)), Some((bottom, low))) = (other.lines.first(), other.lines.last()) else { return 0..0 };
        let start = self.lines.partition_point(|(base, _)| *base > top + high);
        let end = self.lines.partition_point(|(base, _)| *base >= bottom - low);
        start.min(end)..end
    }

    /// Whether a line stands as high as another, but for a part of its letters' size.
    fn has_line_near(&self, (base, size): (i64, i64), part: i64) -> bool {
        let reach = percent(size, part);
        let at = self.lines.partition_point(|(own, _)| *own > base + reach);
        self.lines.get(at).is_some_and(|(own, _)| *own >= base - reach)
    }
}
