//! More pieces are cut than the design uses, by more than one set.

use std::collections::BTreeSet;

use super::Context;
use super::pieces_short::stated_words;
use super::wording::count::piece_working;
use super::wording::subject::piece_of;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::design::PieceRef;
use crate::quantity::Count;
use crate::requirement::counts::{PieceNeeds, SizeCounts, entry, supply};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let used: BTreeSet<PieceRef> =
        context.needs.counts.sizes.iter().flat_map(|counts| counts.pieces.keys()).copied().collect();
    let none = PieceNeeds::default();
    // A piece that another use of it was not read for may be none too many.
    for counts in context.needs.counts.sizes.iter().filter(|counts| counts.whole) {
        for piece in &used {
            // A size without the blocks that a piece is for takes none of it.
            findings.extend(finding(context, counts, *piece, counts.pieces.get(piece).unwrap_or(&none)));
        }
    }
}

fn finding(context: &Context<'_>, counts: &SizeCounts<'_>, piece: PieceRef, needs: &PieceNeeds<'_>) -> Option<Finding> {
    let laid = context.needs.layouts.sizes.get(counts.index)?;
    let stated = supply(&context.needs.fabrics, piece, laid.index)?;
    let (needed, set) = (needs.count(), needs.set());
    // Whole strips give what they give: only a strip too many is too many.
    if stated.strips.is_some_and(|strips| strips != stated.count) || stated.count <= needed + set {
        return None;
    }
    let (fabric, _) = entry(&context.needs.fabrics, piece)?;
    let name = fabric.name(piece.cut);
    let more = stated.count.less(needed);
    let working = if needed == Count(0) {
        format!("Nothing in the layout of {} uses {name}.", laid.size.name)
    } else {
        piece_working(&context.needs.layouts, counts, name, needs)
    };
    let message = format!("{}; {needed} is enough: {more} more than the layout uses.", stated_words(&stated, name));
    Some(
        Finding::new(Label::new(stated.at, format!("{more} more than the layout uses")), message)
            .for_size(&laid.size.name)
            .about(piece_of(context, piece))
            .see(needs.uses.first().map(|used| used.at), format!("{name} is used here"))
            .help(working)
            .numbers(stated.count.of("piece"), needed.of("piece"))
            .corrected(Some(Correction::new(stated.at, needed.to_string()))),
    )
}
