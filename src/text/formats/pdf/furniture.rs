//! What stands on page after page and is no text: the pattern's name at the head, the number of the page.

use std::collections::BTreeMap;

use super::fixed::{ONE, percent};
use super::region::Row;

/// The part of a page's height, at its head and its foot, that holds them.
const MARGIN: i64 = 9;
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
    for page in pages {
        let gone: Vec<usize> = page
            .margin_rows()
            .into_iter()
            .filter(|at| is_page_number(&text(&page.rows[*at])) || seen.get(&key(&page.rows[*at])) >= Some(&often))
            .collect();
        let mut at = 0;
        page.rows.retain(|_| {
            at += 1;
            !gone.contains(&(at - 1))
        });
    }
}

impl PageRows {
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
    let lower = text.to_lowercase();
    let words: Vec<&str> =
        lower.split(|ch: char| ch.is_whitespace() || "-–—|/·".contains(ch)).filter(|word| !word.is_empty()).collect();
    let numbers = words.iter().filter(|word| word.len() <= 3 && word.bytes().all(|byte| byte.is_ascii_digit())).count();
    let others = words.iter().filter(|word| !matches!(**word, "page" | "of" | "p." | "pg.")).count();
    (1..=2).contains(&numbers) && others == numbers
}
