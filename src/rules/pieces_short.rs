//! Fewer pieces are cut than the design uses.

use super::Context;
use super::wording::count::piece_working;
use super::wording::subject::piece_of;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::design::PieceRef;
use crate::quantity::Count;
use crate::requirement::counts::{PieceNeeds, SizeCounts, Supply, UsedFor, entry, supply};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for counts in &context.needs.counts.sizes {
        for (piece, needs) in &counts.pieces {
            findings.extend(finding(context, counts, *piece, needs));
        }
    }
}

fn finding(context: &Context<'_>, counts: &SizeCounts<'_>, piece: PieceRef, needs: &PieceNeeds<'_>) -> Option<Finding> {
    let laid = context.needs.layouts.sizes.get(counts.index)?;
    let stated = supply(&context.needs.fabrics, piece, laid.index)?;
    let needed = needs.count();
    if stated.count >= needed {
        return None;
    }
    let (fabric, _) = entry(&context.needs.fabrics, piece)?;
    let name = fabric.name(piece.cut);
    let short = needed.less(stated.count);
    let message = format!("{}; {needed} needed: {short} short.", stated_words(&stated, name));
    let mut finding = Finding::new(Label::new(stated.at, format!("{short} short")), message)
        .for_size(&laid.size.name)
        .about(piece_of(context, piece));
    for used in &needs.uses {
        finding = finding.see(Some(used.at), format!("{name} is used here"));
        if let UsedFor::Unit { stated, .. } = &used.used_for {
            finding = finding.see(stated.yields.at(), "so many units from one set");
        }
    }
    // What strips give depends on how they are cut; a count of pieces, or of strips left whole, is mended by the count.
    let is_counted = stated.strips.is_none_or(|strips| strips == stated.count);
    let correction = (is_counted && needed <= Count::MAX).then(|| Correction::new(stated.at, needed.to_string()));
    Some(
        finding
            .help(piece_working(&context.needs.layouts, counts, name, needs))
            .numbers(stated.count.of("piece"), needed.of("piece"))
            .corrected(correction),
    )
}

/// What is stated, at the start of a message.
pub(super) fn stated_words(stated: &Supply, name: &str) -> String {
    match stated.strips {
        Some(strips) if strips == stated.count => format!("{} of {name} stated", strips.of("strip")),
        Some(strips) => format!("{} of {name} stated, which give {}", strips.of("strip"), stated.count.of("piece")),
        None => format!("{} of {name} stated", stated.count.of("piece")),
    }
}
