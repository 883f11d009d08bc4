//! Which rows of a table begin a row, and which go on with cells of several lines.

use super::fixed::percent;
use super::region::{Row, column_of};
use super::rows::Segment;

/// Rows that are nearer than this part of the letters' size cannot be lines of one column: cells that are centered
/// beside cells of several lines stand so.
pub(super) const BESIDE: i64 = 90;
/// The last words of a line that more must follow.
const OPEN_ENDS: &[&str] = &["and", "by", "each", "for", "from", "of", "or", "the", "to", "with", "x", "×"];

/// How far the rows of a table are apart, and how wide its columns are.
pub(super) struct Wrapping {
    closest: i64,
    /// Whether lines of one cell are clearly closer than rows.
    has_close_lines: bool,
    /// Whether they may be.
    may_have_close_lines: bool,
    rights: Vec<i64>,
}

/// The last line of each cell of a row.
type Cells<'a> = Vec<Option<&'a Segment>>;

impl Wrapping {
    pub(super) fn of(rows: &[Row], gutters: &[(i64, i64)]) -> Wrapping {
        let size = rows.iter().map(Row::size).max().unwrap_or(0);
        let distances = rows.windows(2).map(|pair| pair[0].base() - pair[1].base());
        let distances: Vec<i64> = distances.filter(|distance| *distance >= percent(size, BESIDE)).collect();
        let widest = distances.iter().max().copied().unwrap_or(0);
        let mut closest = distances.iter().min().copied().unwrap_or(0);
        let mut rights = vec![i64::MIN; gutters.len() + 1];
        let mut last = vec![None; gutters.len() + 1];
        for segment in rows.iter().flat_map(|row| &row.segments) {
            let column = column_of(segment, gutters);
            rights[column] = rights[column].max(segment.x1);
            if let Some(above) = last[column].replace(segment.base)
                && above - segment.base >= percent(size, BESIDE)
            {
                closest = closest.min(above - segment.base);
            }
        }
        let is_close = closest <= percent(size, 145);
        Wrapping {
            closest,
            has_close_lines: is_close && widest > percent(closest, 130),
            may_have_close_lines: is_close && widest > percent(closest, 112),
            rights,
        }
    }

    /// Which rows begin a row of the table.
    pub(super) fn starts(&self, rows: &[Row], gutters: &[(i64, i64)]) -> Vec<bool> {
        let mut starts = vec![true];
        let mut begun: Cells = rows.first().map(|row| cells(row, gutters)).unwrap_or_default();
        let mut is_first = true;
        for pair in rows.windows(2) {
            let own = cells(&pair[1], gutters);
            let distance = pair[0].base() - pair[1].base();
            let goes_on = distance < percent(pair[1].size().min(pair[0].size()), BESIDE)
                || self.goes_on(&begun, &own, distance, is_first);
            starts.push(!goes_on);
            if goes_on {
                begun.iter_mut().zip(own).for_each(|(begun, own)| *begun = own.or(*begun));
            } else {
                begun = own;
                is_first = false;
            }
        }
        starts
    }

    fn goes_on(&self, begun: &Cells, own: &Cells, distance: i64, is_first: bool) -> bool {
        let both = || begun.iter().zip(own).filter_map(|(above, own)| Some(((*above)?, (*own)?)));
        // Numbers under each other are of two rows.
        if both().any(|(above, own)| are_numbers(above, own)) {
            return false;
        }
        let within =
            |few: &Cells, many: &Cells| few.iter().zip(many).all(|(few, many)| few.is_none() || many.is_some());
        let fills_less = within(own, begun) && !within(begun, own);
        // Heads of one line stand beside the last line of those of several.
        let is_head = is_first && begun[0].is_none() && within(begun, own);
        let distance = both().map(|(above, own)| above.base - own.base).min().unwrap_or(distance);
        let close = |part: i64| distance <= percent(self.closest, part);
        if (fills_less || is_head) && self.has_close_lines && close(115) {
            return true;
        }
        let mut both = (0..).zip(begun.iter().zip(own)).filter_map(|(at, (above, own))| Some((at, (*above)?, (*own)?)));
        let fills_same = within(own, begun) && within(begun, own);
        let nearer = self.may_have_close_lines && close(105) && !fills_same;
        let mut any = false;
        let all = both.all(|(at, above, own)| {
            any = true;
            !fits_above(above, own, self.rights[at]) && (nearer || close(120) && needs_more(above, own))
        });
        any && all && (fills_less || fills_same || is_head)
    }
}

fn cells<'a>(row: &'a Row, gutters: &[(i64, i64)]) -> Cells<'a> {
    let mut cells = vec![None; gutters.len() + 1];
    for segment in &row.segments {
        cells[column_of(segment, gutters)] = Some(segment);
    }
    cells
}

/// Whether the first word of a line had room at the end of the line above it.
pub(super) fn fits_above(above: &Segment, line: &Segment, right: i64) -> bool {
    let letters = i64::try_from(line.chars.len().max(1)).unwrap_or(i64::MAX);
    let word = line.chars.iter().take_while(|(ch, _)| !ch.is_whitespace()).count();
    let word = i64::try_from(word).unwrap_or(0);
    above.x1 + (line.x1 - line.x0) / letters * (word + 2) < right
}

/// Whether a line and the one above it are a number each, and not one that is parted before its fraction.
fn are_numbers(above: &Segment, line: &Segment) -> bool {
    let is_number = |line: &Segment| {
        line.chars.iter().any(|(ch, _)| ch.is_ascii_digit())
            && line.chars.iter().all(|(ch, _)| ch.is_numeric() || " /\u{2044}.,-".contains(*ch))
    };
    is_number(above) && is_number(line) && !needs_more(above, line)
}

/// Whether a line reads as going on with the one above it.
pub(super) fn needs_more(above: &Segment, line: &Segment) -> bool {
    let (above, text) = (above.text(), line.text());
    let word = text.split_whitespace().next().unwrap_or_default();
    let last = above.split_whitespace().next_back().unwrap_or_default();
    let Some(first) = word.chars().next() else { return false };
    let is_fraction = word.contains(['/', '\u{2044}', '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞', '⅓', '⅔']);
    let is_short_for_more = word.len() > 1 && word.chars().all(char::is_uppercase);
    first.is_lowercase()
        || matches!(first, '(' | '&' | '×')
        || is_fraction && last.ends_with(|ch: char| ch.is_ascii_digit() || ch == '-')
        || is_short_for_more && !last.ends_with(['.', ':'])
        || last.ends_with([',', '-', '/', '+', '&'])
        || OPEN_ENDS.contains(&last)
}
