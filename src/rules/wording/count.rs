//! The chain in words: which blocks, which units, which pieces, which strips.

use crate::quantity::{Count, Scale};
use crate::requirement::counts::{MAX_TOLD, PieceNeeds, SizeCounts, Units, Use, UsedFor};
use crate::requirement::layout::LayoutsNeeds;

/// How many units there are: `6 star x 4 + 6 chain x 1 = 30 geese`.
pub(crate) fn units_working(units: &Units<'_>) -> String {
    let total = format!("{} {}", units.count, units.unit.name);
    let in_blocks: Vec<String> = units
        .blocks
        .iter()
        .take(MAX_TOLD)
        .map(|(block, each)| format!("{} {} x {each}", block.count, block.stated.name))
        .collect();
    match (in_blocks.len(), units.in_blocks) {
        (0, _) => total,
        (told, all) if told < all => format!("{all} blocks with it: {total}"),
        _ => format!("{} = {total}", in_blocks.join(" + ")),
    }
}

/// What one use of a piece takes, from the layout on.
pub(crate) fn use_working(needs: &LayoutsNeeds<'_>, counts: &SizeCounts<'_>, name: &str, used: &Use<'_>) -> String {
    match &used.used_for {
        UsedFor::Unit { stated, units, gives, sets } => {
            let chain = counts.units.values().find(|units| std::ptr::eq(units.unit, *stated)).map(units_working);
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
