//! What stands on page after page and is no text: the pattern's name at the head, the number of the page.

use std::collections::BTreeMap;

use super::fixed::{ONE, percent};
use super::region::Row;

/// The part of a page's height, at its head and its foot, that holds them.
const MARGIN: i64 = 9;
/// The part in which a line by itself is the page's number if it says it.
const FOOT: i64 = 18;
/// How many rows of each margin are looked at.
const ROWS: usize = 3;

/// A page's rows, and how high it is.
pub(super) struct PageRows {
    pub(super) rows: Vec<Row>,
    pub(super) bottom: i64,
    pub(super) top: i64,
}

/// Takes away what is on several pages alike, and the numbers of pages.
pub(super) fn remove(pages: &mut [PageRows]) {
    let mut seen: BTreeMap<(String, i64), usize> = BTreeMap::new();
    for page in pages.iter() {
        for at in page.margin_rows() {
            *seen.entry(key(&page.rows[at])).or_default() += 1;
        }
    }
    let often = if pages.len() > 5 { 3 } else { 2 };
    for (number, page) in (1..).zip(pages) {
        let gone: Vec<usize> = page
            .margin_rows()
            .into_iter()
            .filter(|at| is_page_number(&text(&page.rows[*at])) || seen.get(&key(&page.rows[*at])) >= Some(&often))
            .collect();
        if gone.is_empty()
            && let Some(last) = page.rows.pop_if(|row| page_number(&text(row)) == Some(number))
            && !page.is_foot(&last)
        {
            page.rows.push(last);
        }
        let mut at = 0;
        page.rows.retain(|_| {
            at += 1;
            !gone.contains(&(at - 1))
        });
    }
}

impl PageRows {
    /// Whether a row stands by itself at the foot of the page, though not at its very edge.
    fn is_foot(&self, row: &Row) -> bool {
        let is_low = row.base() < self.bottom + percent(self.top - self.bottom, FOOT);
        is_low && self.rows.last().is_none_or(|above| above.base() - row.base() > 2 * row.size())
    }

    fn margin_rows(&self) -> Vec<usize> {
        let margin = percent(self.top - self.bottom, MARGIN);
        let in_margin = |at: &usize| {
            let base = self.rows[*at].base();
            base < self.bottom + margin || base > self.top - margin
        };
        let (count, ends) = (self.rows.len(), self.rows.len().saturating_sub(ROWS));
        let mut rows: Vec<usize> = (0..count.min(ROWS)).chain(ends.max(count.min(ROWS))..count).collect();
        rows.retain(in_margin);
        rows
    }
}

fn text(row: &Row) -> String {
    row.segments.iter().map(super::rows::Segment::text).collect::<Vec<_>>().join(" ")
}

/// What is alike from page to page: the words, whatever the number, and about the height.
fn key(row: &Row) -> (String, i64) {
    let text = text(row).chars().map(|ch| if ch.is_ascii_digit() { '#' } else { ch }).collect::<String>();
    (text.replace("##", "#").replace("##", "#"), row.base() / (4 * ONE))
}

/// Whether a line at the edge of a page is its number: `3`, `- 3 -`, `Page 3 of 8`.
fn is_page_number(text: &str) -> bool {
    page_number(text).is_some()
}

fn page_number(text: &str) -> Option<u32> {
    let lower = text.to_lowercase();
    let words: Vec<&str> =
        lower.split(|ch: char| ch.is_whitespace() || "-–—|/·".contains(ch)).filter(|word| !word.is_empty()).collect();
    let is_number = |word: &&&str| word.len() <= 3 && word.bytes().all(|byte| byte.is_ascii_digit());
    let numbers: Vec<&&str> = words.iter().filter(is_number).collect();
    let others = words.iter().filter(|word| !matches!(**word, "page" | "of" | "p." | "pg.")).count();
    let is_only = (1..=2).contains(&numbers.len()) && others == numbers.len();
    numbers.first().filter(|_| is_only)?.parse().ok()
}
