//! The chain in words: which blocks, which units, which pieces, which strips.

use super::layout::places_working;
use crate::manuscript::design::Block;
use crate::quantity::{Count, Scale};
use crate::requirement::counts::{MAX_TOLD, PieceNeeds, SizeCounts, Units, Use, UsedFor};
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};

/// How many units there are: `6 star x 4 + 6 chain x 1 = 30 geese`.
pub(crate) fn units_working(units: &Units<'_>) -> String {
    let total = format!("{} {}", units.count, units.unit.name);
    let in_blocks: Vec<String> = units
        .blocks
        .iter()
        .take(MAX_TOLD)
        .map(|(block, each)| format!("{} {} x {each}", block.count, block.stated.name))
        .collect();
    let around = units.in_borders.iter().fold(Count(0), |sum, (_, count)| sum + *count);
    let in_borders = (around.0 > 0).then(|| format!("{around} around the quilt"));
    match (in_blocks.len(), units.in_blocks) {
        (0, _) if units.in_borders.is_empty() => total,
        (told, all) if told < all => format!("{all} blocks with it: {total}"),
        _ => format!("{} = {total}", in_blocks.into_iter().chain(in_borders).collect::<Vec<_>>().join(" + ")),
    }
}

/// How many of a block there are: `3 across x 4 down = 12 blocks`, `12 star x 4 = 48 quarter`.
pub(crate) fn block_counts_working(
    laid: &LayoutNeeds<'_>,
    counts: &SizeCounts<'_>,
    block: &Block,
    place: usize,
) -> String {
    let all = counts.blocks.get(&place).copied().unwrap_or_default();
    let own = laid.blocks.iter().filter(|own| own.block == place).fold(Count(0), |sum, own| sum + own.count);
    let around = counts.blocks_around.get(&place).copied().unwrap_or_default();
    if around.0 > 0 {
        let within = all.less(own + around);
        let parts = [(own, "in the layout"), (around, "around the quilt"), (within, "within other blocks")];
        let parts = parts.into_iter().filter(|(count, _)| count.0 > 0);
        let parts: Vec<String> = parts.map(|(count, what)| format!("{count} {what}")).collect();
        return format!("{} = {all} {}", parts.join(" + "), block.name);
    }
    match (own.0, all.0) {
        (_, 0) => format!("nothing in the layout takes {}", block.name),
        (own, all) if own == all && laid.fills_with_one_block() => places_working(laid).unwrap_or_default(),
        (own, all) if own == all => format!("the layout has {all} {}", block.name),
        (0, all) => format!("the blocks of the layout have {all} {} in them", block.name),
        (own, all) => format!("{own} in the layout + {} within other blocks = {all} {}", all - own, block.name),
    }
}

/// What one use of a piece takes, from the layout on.
pub(crate) fn use_working(needs: &LayoutsNeeds<'_>, counts: &SizeCounts<'_>, name: &str, used: &Use<'_>) -> String {
    match &used.used_for {
        UsedFor::Unit { stated, units, gives, sets, of } => {
            let all = || counts.units.values().find(|units| std::ptr::eq(units.unit, *stated));
            let chain = of.as_deref().or_else(all).map(units_working);
            let chain = chain.unwrap_or_else(|| format!("{units} {}", stated.name));
            if *gives == Count(1) {
                format!("{chain}, {} {name} each = {}", used.set, used.count)
            } else {
                format!(
                    "{chain}, {gives} from each set, so {} with {} {name} each: cut {} {name}",
                    sets.of("set"),
                    used.set,
                    used.count
                )
            }
        }
        UsedFor::Logs { logs } => {
            let scale = Scale::of(needs.measure, &logs.iter().map(|(_, length)| *length).collect::<Vec<_>>());
            let told = logs.iter().take(MAX_TOLD).map(|(count, length)| format!("{count} x {}", scale.up(*length)));
            let mut told: Vec<String> = told.collect();
            told.extend((logs.len() > MAX_TOLD).then(|| format!("{} more lengths", logs.len() - MAX_TOLD)));
            format!("logs of {}: {} {name}, none joined", told.join(" + "), used.count)
        }
        UsedFor::Sashes => format!("{} {name} for sashes", used.count),
        UsedFor::LongSashes { run } => {
            format!("long sashes, {} in all: {} {name}, joined", needs.up(*run), used.count)
        }
        UsedFor::Cornerstones => format!("{} {name} where sashes cross", used.count),
        UsedFor::Border { index, runs, joined } => {
            let scale = Scale::of(needs.measure, &runs.iter().map(|(_, run)| *run).collect::<Vec<_>>());
            let runs: Vec<String> = runs.iter().map(|(count, run)| format!("{count} x {}", scale.up(*run))).collect();
            let how = if *joined { ", joined" } else { "" };
            format!("{}, {}: {} {name}{how}", border_name(*index), runs.join(" + "), used.count)
        }
        UsedFor::BorderCornerstones { index } => {
            format!("{} {name} at the corners of {}", used.count, border_name(*index))
        }
    }
}

/// `border 2`, counted from the inside.
pub(in crate::rules) fn border_name(index: usize) -> String {
    format!("border {}", index + 1)
}

/// Every use of a piece, and all of them together.
pub(crate) fn piece_working(
    needs: &LayoutsNeeds<'_>,
    counts: &SizeCounts<'_>,
    name: &str,
    piece: &PieceNeeds<'_>,
) -> String {
    let told = piece.uses.iter().take(MAX_TOLD).map(|used| use_working(needs, counts, name, used));
    let mut told: Vec<String> = told.collect();
    if piece.uses.len() > MAX_TOLD {
        told.push(format!("{} more uses", piece.uses.len() - MAX_TOLD));
    }
    let total = if piece.uses.len() > 1 { format!("; together {}", piece.count()) } else { String::new() };
    format!("{}{total}.", super::super::sentence(&told.join("; ")))
}
