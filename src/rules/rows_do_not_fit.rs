//! Rows of blocks that are not all as long, or blocks of a row that are not all as wide as it.

use super::Context;
use super::wording::layout::sashes_of;
use crate::finding::{Correction, Finding, Label, Subject};
use crate::quantity::{Count, Length, Scale};
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::rows::{BlocksLaid, RowNeeds, RowsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.layouts;
    for laid in needs.sizes.iter().filter(|laid| laid.unchecked.is_none()) {
        let Some(rows) = &laid.rows else { continue };
        for (number, row) in rows.rows.iter().enumerate() {
            let odd = row.odd(needs.size_slack).next();
            match odd {
                Some(blocks) => findings.push(of_another_width(needs, laid, (rows, number, row), blocks)),
                None => findings.extend(of_another_length(context, laid, (rows, number, row))),
            }
        }
    }
}

/// How many blocks of a row are pointed at.
const MAX_SEEN: usize = 4;

/// What a row of a layout is called.
fn row_name(rows: &RowsNeeds<'_>, number: usize) -> String {
    format!("{} {}", if rows.are_columns { "column" } else { "row" }, number + 1)
}

/// A block that is not as wide as its row.
fn of_another_width(
    needs: &LayoutsNeeds<'_>,
    laid: &LayoutNeeds<'_>,
    (rows, number, row): (&RowsNeeds<'_>, usize, &RowNeeds<'_>),
    blocks: &BlocksLaid,
) -> Finding {
    let way = if rows.are_columns { "wide" } else { "high" };
    let width = row.width();
    let scale = Scale::of(needs.measure, &[blocks.across, width]);
    let name = needs.manuscript.blocks.get(blocks.block).map_or("", |block| block.name.as_str());
    let row_words = row_name(rows, number);
    let (stated, others) = (scale.up(blocks.across), scale.up(width));
    let message = format!("Block {name} finishes {stated} {way}; the other blocks of {row_words} are {others} {way}.");
    Finding::new(Label::new(blocks.at, format!("{stated} {way}")), message)
        .for_size(&laid.size.name)
        .about(Subject::number(&row_words))
        .see(needs.manuscript.blocks.get(blocks.block).and_then(|block| block.finished.at()), "how large it finishes")
        .help(format!(
            "All blocks of a {} must be as {way} as one another. Take another block, turn it or turn it back, or sew \
             something to it.",
            if rows.are_columns { "column" } else { "row" },
        ))
        .numbers(stated, others)
}

/// A row that is not as long as most.
fn of_another_length(
    context: &Context<'_>,
    laid: &LayoutNeeds<'_>,
    (rows, number, row): (&RowsNeeds<'_>, usize, &RowNeeds<'_>),
) -> Option<Finding> {
    let needs = &context.needs.layouts;
    let (length, others) = (row.length(), rows.length());
    if (length - others).abs() <= needs.size_slack {
        return None;
    }
    let scale = Scale::of(needs.measure, &[length, others, (length - others).abs()]);
    let way = if length < others { "short" } else { "long" };
    let (stated, needed, by) = (scale.up(length), scale.up(others), scale.up((length - others).abs()));
    let message = format!(
        "{} comes to {stated}; the others are {needed} long: {by} too {way}.",
        super::sentence(&row_name(rows, number))
    );
    let like = rows.rows.iter().find(|other| other.length() == others);
    let mut finding = Finding::new(Label::new(row.stated.at, format!("{by} too {way}")), message)
        .for_size(&laid.size.name)
        .about(Subject::number(&row_name(rows, number)))
        .see(like.map(|like| like.stated.at), "as long as the others")
        .see(laid.stated.sashing.at(), "the sashing, between every two blocks");
    for row in [Some(row), like].into_iter().flatten() {
        for blocks in row.blocks.iter().take(MAX_SEEN) {
            let laid = Scale::of(needs.measure, &[blocks.along]).up(blocks.along);
            finding = finding.see(Some(blocks.at), format!("{} x {laid}", blocks.count));
        }
    }
    Some(
        finding
            .help(format!("{}: {} = {stated}.", super::sentence(&row_name(rows, number)), sum(row, scale)))
            .numbers(stated, needed)
            .or_corrected(counts_that_fit(context, row, others - length)),
    )
}

/// How many of each block of a row there would be where the row came to its length.
fn counts_that_fit(context: &Context<'_>, row: &RowNeeds<'_>, lacks: Length) -> Vec<Correction> {
    let (_, sash) = row.sashes;
    let fitting = row.blocks.iter().filter_map(|blocks| {
        let each = (blocks.along + sash).ticks();
        let more = lacks.ticks().checked_div(each).filter(|more| more * each == lacks.ticks())?;
        let count = i128::from(blocks.count.0) + more;
        let text = blocks.at.text(&context.source.text);
        let name = text.strip_prefix(&format!("{} ", blocks.count)).unwrap_or(text);
        (count > 0).then(|| Correction::new(blocks.at, format!("{count} {name}")))
    });
    fitting.take(MAX_SEEN).collect()
}

/// The blocks of a row added up, and its sashes: `6 x 12 in + 1 x 6 in + 6 sashes x 2 in`.
fn sum(row: &RowNeeds<'_>, scale: Scale) -> String {
    let part = |(count, along): (Count, Length)| format!("{count} x {}", scale.up(along));
    let mut parts: Vec<String> = row.blocks.iter().map(|blocks| part((blocks.count, blocks.along))).collect();
    let (sashes, width) = row.sashes;
    parts.extend((sashes.0 > 0).then(|| format!("{} x {}", sashes_of(sashes), scale.up(width))));
    parts.join(" + ")
}
