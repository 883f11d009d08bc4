//! The segments of a page as blocks in reading order: lines of text, columns of text beside each other, and tables.

use super::fixed::percent;
use super::lines::Rule;
use super::page_columns::{PageColumns, page_columns};
use super::rows::Segment;
use super::table::{Table, table};
use super::wrapped::{BESIDE, Wrapping, needs_more};

/// A gap that goes on from row to row is a gutter if it is wider than this part of the letters' size.
const GUTTER: i64 = 45;
/// Rows further apart than this part of the letters' size are not of one table.
const ROW_REACH: i64 = 450;
/// How deep columns may be parted into columns.
const MAX_DEPTH: usize = 6;

/// Something of a page.
pub(super) enum Block {
    Lines(Vec<Segment>),
    Table(Table),
    /// Another column comes.
    ColumnEnd,
}

/// Segments at one height.
#[derive(Clone)]
pub(super) struct Row {
    pub(super) segments: Vec<Segment>,
}

impl Row {
    pub(super) fn base(&self) -> i64 {
        self.segments.first().map_or(0, |segment| segment.base)
    }

    pub(super) fn size(&self) -> i64 {
        self.segments.iter().map(|segment| segment.size).max().unwrap_or(0)
    }

    pub(super) fn x0(&self) -> i64 {
        self.segments.first().map_or(0, |segment| segment.x0)
    }
}

/// The rows that segments make, from the top down, each from left to right.
pub(super) fn rows(mut segments: Vec<Segment>) -> Vec<Row> {
    segments.sort_by_key(|segment| -segment.base);
    let mut rows: Vec<Row> = Vec::new();
    for segment in segments {
        let joins = rows.last().is_some_and(|row| {
            row.base() - segment.base <= percent(segment.size.min(row.size()), 30)
                && row.segments.iter().all(|other| other.x1 <= segment.x0 || segment.x1 <= other.x0)
        });
        match rows.last_mut() {
            Some(row) if joins => row.segments.push(segment),
            _ => rows.push(Row { segments: vec![segment] }),
        }
    }
    for row in &mut rows {
        row.segments.sort_by_key(|segment| segment.x0);
    }
    rows
}

/// The blocks that rows make.
pub(super) fn blocks(rows: &[Row], rules: &[Rule], depth: usize) -> Vec<Block> {
    if depth < MAX_DEPTH
        && let Some(PageColumns { rows: within, gutter }) = page_columns(rows)
    {
        let mut blocks = self::blocks(&rows[..within.start], rules, depth + 1);
        add_columns(columns(&rows[within.clone()], &[gutter]), rules, depth, &mut blocks);
        blocks.extend(self::blocks(&rows[within.end..], rules, depth + 1));
        return blocks;
    }
    let mut blocks = Vec::new();
    let mut rest = rows;
    while !rest.is_empty() {
        let start = (0..rest.len()).find_map(|at| run_of_columns(&rest[at..]).map(|run| (at, run)));
        let Some((mut before, mut run)) = start else {
            add_lines(rest, &mut blocks);
            break;
        };
        if let Some(above) = before.checked_sub(1).and_then(|above| rest.get(above))
            && is_head_line(above, &run)
        {
            run.rows.insert(0, above.clone());
            before -= 1;
        }
        let is_text = depth < MAX_DEPTH && is_text(&run.rows, &run.gutters);
        // Text beside other text may begin above it: those lines are of its column, and not of what came before.
        let above = if is_text { lines_above(&rest[..before], &run) } else { 0 };
        add_lines(&rest[..before - above], &mut blocks);
        if is_text {
            let own = rest[before - above..before].iter().chain(&run.rows);
            add_columns(columns(own, &run.gutters), rules, depth, &mut blocks);
        } else {
            blocks.push(Block::Table(table(&run.rows, &run.gutters, rules)));
        }
        rest = &rest[before + run.rows.len()..];
    }
    blocks
}

fn add_columns(columns: Vec<Vec<Segment>>, rules: &[Rule], depth: usize, blocks: &mut Vec<Block>) {
    for (at, column) in columns.into_iter().enumerate() {
        if at > 0 {
            blocks.push(Block::ColumnEnd);
        }
        blocks.extend(self::blocks(&rows(column), rules, depth + 1));
    }
}

fn add_lines(rows: &[Row], blocks: &mut Vec<Block>) {
    let lines = rows.iter().filter_map(|row| {
        let mut segments = row.segments.iter().cloned();
        let mut line = segments.next()?;
        segments.for_each(|next| line.join_apart(next));
        Some(line)
    });
    match blocks.last_mut() {
        Some(Block::Lines(before)) => before.extend(lines),
        _ => {
            let lines: Vec<Segment> = lines.collect();
            if !lines.is_empty() {
                blocks.push(Block::Lines(lines));
            }
        }
    }
}

/// Rows that have gutters in common.
struct Run {
    /// The rows, parted where wide spaces stand in gutters.
    rows: Vec<Row>,
    /// From where to where each gutter is free, from left to right.
    gutters: Vec<(i64, i64)>,
}

/// The rows from the first on that have a gutter in common, if the first has one, or has another row beside it.
fn run_of_columns(rows: &[Row]) -> Option<Run> {
    let first = rows.first()?;
    let gap = |pair: &[Segment]| Gutter { from: pair[0].x1, to: pair[1].x0, clear: 1, is_space: false };
    let mut gutters: Vec<Gutter> = first.segments.windows(2).map(gap).collect();
    if gutters.is_empty() {
        let (from, to) = gutter_beside(first, rows.get(1)?)?;
        gutters.push(Gutter { from, to, clear: 0, is_space: false });
    }
    // A space of the first row is a gutter if other rows have gaps there.
    let spaces = first.segments.iter().flat_map(|segment| &segment.gaps);
    gutters.extend(spaces.map(|space| Gutter { from: space.from, to: space.to, clear: 0, is_space: true }));
    gutters.sort_by_key(|gutter| gutter.from);
    let mut run = vec![first.clone()];
    let mut full = usize::from(first.segments.len() > 1);
    for (at, (before, row)) in rows.iter().zip(&rows[1..]).enumerate() {
        let parted = parted(row, &gutters, false);
        let left = narrowed(&gutters, before, &parted, row);
        let crosses = parted.segments.len() == 1 && clear(&left) < clear(&gutters);
        if crosses && !rows.get(at + 2).is_some_and(|next| goes_on_after(row, next, before, first, &gutters)) {
            break;
        }
        if crosses {
            run.push(row.clone());
            continue;
        }
        let far = before.base() - row.base() > percent(row.size().max(before.size()), ROW_REACH);
        if left.iter().all(|gutter| gutter.clear == 0) || far || begins_anew(before, row, &run) {
            break;
        }
        gutters = left;
        gutters.extend(gutters_beyond(&run, &parted));
        gutters.extend(gutter_after(&run, before, &parted, rows.get(at + 2)));
        gutters.sort_by_key(|gutter| gutter.from);
        full += usize::from(parted.segments.len() > 1 || gutter_beside(before, row).is_some());
        run.push(parted);
    }
    gutters.retain(|gutter| gutter.clear > 0);
    let last = gutters.clone();
    // Two words of a head over one column are no two columns.
    gutters.retain(|gutter| {
        let next = last.iter().map(|other| other.from).filter(|from| *from > gutter.from).min().unwrap_or(i64::MAX);
        let mut below = run.iter().skip(1).flat_map(|row| &row.segments);
        !gutter.is_space || below.any(|segment| segment.x0 >= gutter.from && segment.x0 < next)
    });
    let gutters: Vec<(i64, i64)> = gutters.iter().map(|gutter| (gutter.from, gutter.to)).collect();
    run[0] = parted(first, &gutters, true);
    // What stands under the first column alone is what comes after a table, but for the last line of a cell.
    let mut starts =
        if is_after(&run, &gutters) { Wrapping::of(&run, &gutters).starts(&run, &gutters) } else { Vec::new() };
    while run.len() > 1 && is_after(&run, &gutters) && starts.pop() == Some(true) {
        run.pop();
    }
    (full >= 2 && run.len() >= 2 && !gutters.is_empty()).then_some(Run { rows: run, gutters })
}

/// The gutters that a row adds to the left or the right of all rows before it: the head of a table may have no cell there.
fn gutters_beyond(run: &[Row], row: &Row) -> Vec<Gutter> {
    let segments = || run.iter().flat_map(|row| &row.segments);
    let (left, right) = (segments().map(|segment| segment.x0).min(), segments().map(|segment| segment.x1).max());
    let (Some(left), Some(right)) = (left, right) else { return Vec::new() };
    let gaps = row.segments.windows(2).map(|pair| (pair[0].x1, pair[1].x0));
    let beyond = gaps.filter_map(|(from, to)| match () {
        () if from <= left => Some((from, to.min(left))),
        () if to >= right => Some((from.max(right), to)),
        () => None,
    });
    let wide = beyond.filter(|(from, to)| to - from >= percent(row.size(), GUTTER));
    wide.map(|(from, to)| Gutter { from, to, clear: 1, is_space: false }).collect()
}

/// The gutter after a row that stands to the left of all before it, where the heads have none over the first column: the
/// name of the rows that come next, or the head of the column in the middle between the lines of the others.
fn gutter_after(run: &[Row], before: &Row, row: &Row, next: Option<&Row>) -> Option<Gutter> {
    let [only] = row.segments.as_slice() else { return None };
    let left = run.iter().flat_map(|row| &row.segments).map(|segment| segment.x0).min()?;
    let is_clear = |segment: &Segment| left - segment.x1 >= percent(segment.size, GUTTER);
    let is_beside = before.base() - row.base() < percent(only.size, BESIDE);
    let names_next = next.is_some_and(|next| next.segments.len() > 1 && is_clear(&next.segments[0]));
    let gutter = Gutter { from: only.x1, to: left, clear: 1, is_space: false };
    (is_clear(only) && (is_beside || names_next)).then_some(gutter)
}

/// How many gutters are such that rows are clear of.
fn clear(gutters: &[Gutter]) -> usize {
    gutters.iter().filter(|gutter| gutter.clear > 0).count()
}

/// Whether a table goes on after a row across it, such as the name of what comes now.
fn goes_on_after(across: &Row, next: &Row, before: &Row, head: &Row, gutters: &[Gutter]) -> bool {
    let (above, below) = (before.base() - across.base(), across.base() - next.base());
    let parted = parted(next, gutters, false);
    let left = narrowed(gutters, across, &parted, next);
    next.segments.len() > 1
        && clear(&left) == clear(gutters)
        && !says_heads_again(next, head)
        && above <= percent(across.size(), 240)
        && below <= percent(across.size(), 240)
        && (across.size() - next.size()).abs() <= percent(next.size(), 8)
}

/// A stretch that segments leave free from row to row.
#[derive(Clone, Copy)]
struct Gutter {
    from: i64,
    to: i64,
    /// How many rows have segments that end before it and begin after it.
    clear: usize,
    /// Whether it is only a space in the first row.
    is_space: bool,
}

fn parted<G: Copy + Into<(i64, i64)>>(row: &Row, gutters: &[G], all: bool) -> Row {
    let gutters: Vec<(i64, i64)> = gutters.iter().map(|gutter| (*gutter).into()).collect();
    let parts = row.segments.iter().cloned().flat_map(|segment| segment.parted(&gutters, all));
    Row { segments: parts.collect() }
}

impl From<Gutter> for (i64, i64) {
    fn from(gutter: Gutter) -> (i64, i64) {
        (gutter.from, gutter.to)
    }
}

/// The gutter between two rows of one segment each that stand beside each other, a little higher and lower.
fn gutter_beside(above: &Row, below: &Row) -> Option<(i64, i64)> {
    let ([one], [other]) = (above.segments.as_slice(), below.segments.as_slice()) else { return None };
    let size = one.size.max(other.size);
    let (left, right) = if one.x0 < other.x0 { (one, other) } else { (other, one) };
    let beside = one.base - other.base < percent(size, 85) && right.x0 - left.x1 >= percent(size, GUTTER);
    beside.then_some((left.x1, right.x0))
}

/// What a row leaves free of gutters; `whole` is the row before it was parted at them.
fn narrowed(gutters: &[Gutter], before: &Row, row: &Row, whole: &Row) -> Vec<Gutter> {
    let least = percent(row.size(), GUTTER);
    let mut left = Vec::new();
    // A row that fills more columns than those above it stands in their gutters too, and so does a line beside them.
    let fills_more = row.segments.len() > before.segments.len().max(gutters.len() + 1)
        || before.segments.len() > 1 && before.base() - row.base() < percent(row.size(), BESIDE);
    for gutter in gutters {
        let within = |segment: &&Segment| segment.x0 >= gutter.from + least && segment.x1 + least <= gutter.to;
        if fills_more && let Some(cell) = row.segments.iter().find(within) {
            let clear = gutter.clear + 1;
            left.push(Gutter { to: cell.x0, clear, ..*gutter });
            left.push(Gutter { from: cell.x1, clear, ..*gutter });
            continue;
        }
        // The widest stretch of the gutter that no segment of the row covers.
        let (mut at, mut best) = (gutter.from, (0, 0));
        for segment in row.segments.iter().filter(|segment| segment.x1 > gutter.from && segment.x0 < gutter.to) {
            if segment.x0 - at > best.1 - best.0 {
                best = (at, segment.x0);
            }
            at = at.max(segment.x1);
        }
        if gutter.to - at > best.1 - best.0 {
            best = (at, gutter.to);
        }
        let meets = |(from, to): (i64, i64)| from <= best.1 && to >= best.0;
        let is_clear = whole.segments.windows(2).any(|pair| meets((pair[0].x1, pair[1].x0)))
            || gutter_beside(before, whole).is_some_and(meets);
        // A space of the first row may be narrower than a gutter, until a gap stands there.
        let enough = if gutter.clear == 0 && !is_clear { 1 } else { least.min(gutter.to - gutter.from) };
        if best.1 - best.0 >= enough {
            left.push(Gutter { from: best.0, to: best.1, clear: gutter.clear + usize::from(is_clear), ..*gutter });
        }
    }
    left
}

/// Whether a row begins something else: the head of another table, or the heading of what comes after the table.
fn begins_anew(before: &Row, row: &Row, run: &[Row]) -> bool {
    let gap = before.base() - row.base();
    let gaps = run.windows(2).map(|pair| pair[0].base() - pair[1].base());
    let usual = gaps.filter(|gap| *gap >= percent(row.size(), 90)).min().unwrap_or(gap);
    let is_bold = |row: &Row| row.segments.iter().all(|segment| segment.is_bold);
    let is_head = is_bold(row) && !is_bold(before) && gap > percent(usual, 140);
    let [only] = row.segments.as_slice() else {
        let differs = (row.size() - before.size()).abs() > percent(before.size(), 15);
        return run.len() > 1 && (is_head || differs || says_heads_again(row, &run[0]));
    };
    let larger = percent(only.size, 92) > before.size();
    larger
        || run.len() > 1 && is_head
        || (run.len() > 1 && gap > percent(usual, 165) && row.x0() <= run[0].x0() + only.size)
}

/// Whether a row says the heads of a table again, but for what the rows are of: those of another table of its kind.
fn says_heads_again(row: &Row, head: &Row) -> bool {
    let sizes = |row: &Row| row.segments.iter().skip(1).map(Segment::text).collect::<Vec<_>>();
    let heads = sizes(head);
    heads.len() > 1 && heads.iter().all(|head| !head.contains(|ch: char| ch.is_ascii_digit())) && sizes(row) == heads
}

/// Whether the last row stands under the first column alone.
fn is_after(rows: &[Row], gutters: &[(i64, i64)]) -> bool {
    let (Some(row), Some((from, _))) = (rows.last(), gutters.first()) else { return false };
    matches!(row.segments.as_slice(), [only] if only.x1 <= *from + only.size)
}

/// Whether columns hold text that is read one after the other, and not the cells of rows.
fn is_text(rows: &[Row], gutters: &[(i64, i64)]) -> bool {
    let parts = columns(rows, gutters);
    if rows.len() < 4 || parts.len() > 3 {
        return false;
    }
    let both = rows.iter().filter(|row| row.segments.len() > 1).count();
    let letters = |column: &Vec<Segment>| {
        let all: usize = column.iter().map(|segment| segment.chars.len()).sum();
        all / column.len().max(1)
    };
    let is_long = parts.iter().all(|column| letters(column) >= 28);
    let apart = both * 10 < rows.len() * 6;
    is_long || (apart && parts.iter().all(|column| letters(column) >= 14 && column.len() >= 3))
}

/// Whether a row above a run is the first line of heads that have several, where the first column's has none.
fn is_head_line(above: &Row, run: &Run) -> bool {
    let Some(first) = run.rows.first() else { return false };
    let distance = above.base() - first.base();
    distance <= percent(first.size(), 145)
        && above.segments.iter().all(|segment| {
            let column = column_of(segment, &run.gutters);
            let ends_before = run.gutters.get(column).is_none_or(|(_, to)| segment.x1 <= *to);
            let mut below = run.rows.iter().take(2).flat_map(|row| &row.segments);
            let line = below.find(|line| column_of(line, &run.gutters) == column);
            column > 0 && ends_before && line.is_some_and(|line| needs_more(segment, line))
        })
}

/// How many of the lines before a run stand in one of its columns.
fn lines_above(rows: &[Row], run: &Run) -> usize {
    let fits = |row: &&Row| {
        row.segments.iter().all(|segment| run.gutters.iter().all(|(from, to)| segment.x1 <= *to || segment.x0 >= *from))
            && row
                .segments
                .iter()
                .all(|segment| segment.x1 <= run.gutters[0].0 + segment.size || segment.x0 >= run.gutters[0].0)
    };
    let right = |row: &Row| row.segments.iter().all(|segment| segment.x0 >= run.gutters[0].0);
    let count = rows.iter().rev().take_while(fits).count();
    // Lines above the left column alone may as well be headings over both.
    let above = &rows[rows.len() - count..];
    if above.iter().any(right) { count } else { 0 }
}

/// The segments of each column.
fn columns<'a>(rows: impl IntoIterator<Item = &'a Row>, gutters: &[(i64, i64)]) -> Vec<Vec<Segment>> {
    let mut columns = vec![Vec::new(); gutters.len() + 1];
    for segment in rows.into_iter().flat_map(|row| &row.segments) {
        columns[column_of(segment, gutters)].push(segment.clone());
    }
    columns.retain(|column| !column.is_empty());
    columns
}

/// The column that a segment begins in.
pub(super) fn column_of(segment: &Segment, gutters: &[(i64, i64)]) -> usize {
    gutters.iter().filter(|(from, to)| segment.x0 >= from.midpoint(*to) || segment.x0 >= *to).count()
}
