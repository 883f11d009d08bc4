//! The blocks that are counted are not as many as the layout has places for.

use super::Context;
use super::wording::layout::places_working;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::model::Blocks;
use crate::quantity::Count;
use crate::requirement::layout::LayoutNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.needs.layouts.sizes.iter().filter_map(finding));
}

fn finding(laid: &LayoutNeeds<'_>) -> Option<Finding> {
    // Of a layout that cannot be checked, it is not known how many places it has.
    if laid.unchecked.is_some() {
        return None;
    }
    let blocks = laid.stated.blocks.stated().filter(|_| laid.blocks_whole)?;
    if !matches!(blocks.value, Blocks::Each(_)) {
        return None;
    }
    let (counted, places) = (laid.blocks.iter().fold(Count(0), |sum, block| sum + block.count), laid.places?);
    if counted == places {
        return None;
    }
    let by = if counted < places {
        format!("{} too few", places.less(counted))
    } else {
        format!("{} too many", counted.less(places))
    };
    let each: Vec<String> = laid.blocks.iter().map(|block| format!("{} {}", block.count, block.stated.name)).collect();
    let message = format!("{} stated; the layout has {places}: {by}.", counted.of("block"));
    let mut finding = Finding::new(Label::new(blocks.at, by), message).for_size(&laid.size.name);
    if let (Some(across), Some(down)) = (laid.stated.across.at(), laid.stated.down.at()) {
        finding = finding.see(Some(across), "blocks across").see(Some(down), "blocks down");
    }
    Some(
        finding
            .help(format!("{}; stated are {}.", places_working(laid)?, each.join(" + ")))
            .numbers(counted.of("block"), places.of("block"))
            .or_corrected(counts_that_fill(laid, counted, places)),
    )
}

/// How many kinds of blocks are tried.
const MAX_TRIED: usize = 8;

/// The count of each block with which all are as many as there are places.
fn counts_that_fill(laid: &LayoutNeeds<'_>, counted: Count, places: Count) -> Vec<Correction> {
    let filling = laid.blocks.iter().filter_map(|block| {
        let count = (block.count + places).less(counted);
        (count.0 > 0).then(|| Correction::new(block.at, count.to_string()))
    });
    filling.take(MAX_TRIED).collect()
}
