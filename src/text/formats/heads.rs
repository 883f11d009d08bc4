//! Which row of a table is its head where the file does not say so.

use super::builder::Builder;
use crate::text::passage::{Passage, PassageKind};

/// Marks the first row as heads where no cell is marked, several rows follow each other, and it holds words rather
/// than numbers.
pub(super) fn mark_first_row(builder: &mut Builder, first: usize, of_table: u32) {
    let mut last_row = 0;
    let mut wordy = true;
    for passage in builder.passages(first) {
        let PassageKind::Cell { table, row, column, is_head, .. } = passage.kind else { continue };
        if table != of_table {
            continue;
        }
        if is_head && (row > 0 || column > 0) {
            return;
        }
        last_row = last_row.max(row);
        wordy &= row > 0 || column == 0 || !is_number(passage);
    }
    if last_row > 0 && wordy {
        let end = builder.len();
        builder.mark_heads(first..end, 0);
    }
}

/// Whether a cell begins with a digit and holds few letters: `12`, `2 1/2 yd`, `(8) 2 1/2 in`, but not `54 x 72 throw`.
fn is_number(passage: &Passage) -> bool {
    let text = passage.text.as_str();
    let starts = text.trim_start_matches(['(', '[', ' ']).starts_with(|ch: char| ch.is_numeric());
    let words = text.split(|ch: char| !ch.is_alphabetic()).filter(|word| word.chars().count() > 3).count();
    starts && words == 0
}
