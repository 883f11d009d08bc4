//! More pieces are cut than the design uses, by more than one set.

use std::collections::BTreeSet;

use super::Context;
use super::pieces_short::{counted_with, shared_subject, shared_words, stated_words};
use super::wording::count::piece_working;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::design::PieceRef;
use crate::quantity::Count;
use crate::requirement::counts::{PieceNeeds, SizeCounts, entry, supply};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let used: BTreeSet<PieceRef> =
        context.needs.counts.sizes.iter().flat_map(|counts| counts.pieces.keys()).copied().collect();
    let none = PieceNeeds::default();
    let manuscript = context.manuscript;
    // What one list has too many of, another use of the same name may take.
    let used_together = |piece: &PieceRef| {
        used.iter().find(|of| of.is_shared() && *of != piece && of.means(*piece, manuscript.fabrics.iter()))
    };
    // A piece that another use of it was not read for may be none too many.
    for counts in context.needs.counts.sizes.iter().filter(|counts| counts.whole) {
        for piece in &used {
            let fabrics = &context.needs.fabrics;
            if piece.is_shared() {
                findings.extend(finding(context, counts, *piece, &counts.needs_of(fabrics, *piece)));
            } else if used_together(piece).is_none() {
                // A size without the blocks that a piece is for takes none of it.
                findings.extend(finding(context, counts, *piece, counts.pieces.get(piece).unwrap_or(&none)));
            }
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
    // Each gives whole pieces: one fewer from each must be enough.
    if stated.from.is_some_and(|from| stated.count.less(from) < needed) {
        return None;
    }
    let (fabric, cut) = entry(&context.needs.fabrics, piece)?;
    if !cut.used_for.is_absent() {
        return None;
    }
    let name = fabric.name(piece.cut);
    let more = stated.count.less(needed);
    let working = if needed == Count(0) {
        format!("Nothing in the layout of {} uses {name}.", laid.size.name)
    } else {
        piece_working(&context.needs.layouts, counts, name, needs)
    };
    let words = shared_words(context, piece, &stated).unwrap_or_else(|| stated_words(&stated, name));
    let are = if needed == Count(1) { "is" } else { "are" };
    let message = format!("{words}; {needed} {are} enough: {more} more than the layout uses.");
    let written = stated.from.map_or(Some(needed), |from| needed.in_groups_of(from));
    let written = written.filter(|_| !piece.is_shared());
    let correction = written.map(|count| Correction::new(stated.at, count.to_string()));
    let finding = Finding::new(Label::new(stated.at, format!("{more} more than the layout uses")), message);
    let others = counted_with(context, piece, laid.index).into_iter().filter(|(at, _)| *at != stated.at);
    let finding = others.fold(finding, |finding, (at, words)| finding.see(Some(at), words));
    Some(
        finding
            .for_size(&laid.size.name)
            .about(shared_subject(context, piece))
            .see(needs.uses.first().map(|used| used.at), format!("{name} is used here"))
            .help(working)
            .numbers(stated.count.of("piece"), needed.of("piece"))
            .corrected(correction),
    )
}
