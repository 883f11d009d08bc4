//! What can be folded away: sections, entries and items of several lines, and comments.

use std::collections::BTreeMap;

use gen_lsp_types::{FoldingRange, FoldingRangeKind};

use super::document::Document;
use super::outline::with_outline;
use crate::manuscript::tree::Kind;
use crate::manuscript::{Source, Span};

/// All of it, by the first line.
pub(super) fn ranges(document: &Document) -> Vec<FoldingRange> {
    let source = &document.source;
    let mut ranges: BTreeMap<usize, FoldingRange> = BTreeMap::new();
    let entries = with_outline(source, document.kind.format(), |outline| {
        let entries = outline.spots.iter().filter(|spot| spot.parent.is_some());
        let entries = entries.filter(|spot| matches!(spot.node.kind, Kind::Table(_) | Kind::List(_)));
        entries.map(super::outline::Spot::whole).collect::<Vec<Span>>()
    });
    let entries = entries.unwrap_or_default().into_iter().map(|at| lines_of(source, at));
    for (first, last) in entries.filter(|(first, last)| first < last) {
        // Of several that begin on one line, the one that holds the others.
        ranges.entry(first).or_insert_with(|| range(first, last, None));
    }
    for (first, last) in comments(&source.text) {
        ranges.entry(first).or_insert_with(|| range(first, last, Some(FoldingRangeKind::Comment)));
    }
    ranges.into_values().collect()
}

/// The first and the last line of a place, from 0.
fn lines_of(source: &Source, at: Span) -> (usize, usize) {
    let end = at.end.saturating_sub(1).max(at.start);
    (source.place(at.start).line - 1, source.place(end).line - 1)
}

/// The first and the last line of each comment of several lines.
fn comments(text: &str) -> Vec<(usize, usize)> {
    let (mut comments, mut first) = (Vec::new(), None);
    let lines = text.replace("\r\n", "\n").replace('\r', "\n");
    for (number, line) in lines.split('\n').chain([""]).enumerate() {
        match (first, line.trim_start().starts_with('#')) {
            (None, true) => first = Some(number),
            (Some(start), false) => {
                comments.extend((number - start > 1).then_some((start, number - 1)));
                first = None;
            }
            _ => {}
        }
    }
    comments
}

fn range(first: usize, last: usize, kind: Option<FoldingRangeKind>) -> FoldingRange {
    let line = |number| u32::try_from(number).unwrap_or(u32::MAX);
    FoldingRange { start_line: line(first), end_line: line(last), kind, ..FoldingRange::default() }
}
