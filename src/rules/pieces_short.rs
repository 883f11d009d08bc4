//! Fewer pieces are cut than the design uses.

use super::Context;
use super::wording::count::piece_working;
use super::wording::fabric::listed;
use super::wording::subject::piece_of;
use crate::finding::{Correction, Finding, Label, Subject, SubjectKind};
use crate::manuscript::Span;
use crate::manuscript::design::{Entries, PieceRef};
use crate::quantity::Count;
use crate::requirement::counts::{PieceNeeds, SizeCounts, Supply, UsedFor, entry, supply};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for counts in &context.needs.counts.sizes {
        for (piece, needs) in &counts.pieces {
            if piece.is_shared() {
                let needs = counts.needs_of(&context.needs.fabrics, *piece);
                findings.extend(finding(context, counts, *piece, &needs));
            } else {
                findings.extend(finding(context, counts, *piece, needs));
            }
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
    let words = shared_words(context, piece, &stated).unwrap_or_else(|| stated_words(&stated, name));
    let message = format!("{words}; {needed} needed: {short} short.");
    let mut finding = Finding::new(Label::new(stated.at, format!("{short} short")), message)
        .for_size(&laid.size.name)
        .about(shared_subject(context, piece));
    for (at, words) in counted_with(context, piece, laid.index).into_iter().filter(|(at, _)| *at != stated.at) {
        finding = finding.see(Some(at), words);
    }
    for used in &needs.uses {
        finding = finding.see(Some(used.at), format!("{name} is used here"));
        if let UsedFor::Unit { stated, .. } = &used.used_for {
            finding = finding.see(stated.yields.at(), "units from one set");
        }
    }
    // What strips give depends on how they are cut; a count of pieces, or of strips left whole, is mended by the count.
    let is_counted = stated.strips.is_none_or(|strips| strips == stated.count);
    let may_be = is_counted && !piece.is_shared() && needed <= Count::MAX;
    let written = stated.from.map_or(Some(needed), |from| needed.in_groups_of(from));
    let correction = written.filter(|_| may_be).map(|count| Correction::new(stated.at, count.to_string()));
    Some(
        finding
            .help(piece_working(&context.needs.layouts, counts, name, needs))
            .numbers(stated.count.of("piece"), needed.of("piece"))
            .corrected(correction),
    )
}

/// What a finding about pieces that are counted together is about: the piece, of whatever fabric.
pub(super) fn shared_subject(context: &Context<'_>, piece: PieceRef) -> Subject {
    let name = entry(&context.needs.fabrics, piece).map(|(fabric, _)| fabric.name(piece.cut));
    match name.filter(|_| piece.of == Entries::OfAll) {
        Some(name) => Subject::of(SubjectKind::Piece, name),
        None => piece_of(context, piece),
    }
}

/// What several cutting lists state together: `40 pieces of A stated in ink, sky and fern`.
pub(super) fn shared_words(context: &Context<'_>, piece: PieceRef, supply: &Supply) -> Option<String> {
    let fabrics = &context.needs.fabrics;
    let entries = piece.is_shared().then(|| piece.entries(context.manuscript.fabrics.iter()))?;
    let mut names: Vec<&str> = Vec::new();
    for (fabric, _) in entries.iter().filter_map(|of| entry(fabrics, *of)) {
        if !names.contains(&fabric.stated.name.as_str()) {
            names.push(&fabric.stated.name);
        }
    }
    let (name, of) = (fabrics.fabrics.get(piece.fabric)?.name(piece.cut), listed(&names));
    Some(format!("{} of {name} stated in {of}", supply.count.of("piece")))
}

/// Where each of the lists states how many it gives of pieces that are counted together.
pub(super) fn counted_with(context: &Context<'_>, piece: PieceRef, size: usize) -> Vec<(Span, String)> {
    if !piece.is_shared() {
        return Vec::new();
    }
    let told = piece.entries(context.manuscript.fabrics.iter()).into_iter().filter_map(|of| {
        let stated = supply(&context.needs.fabrics, of, size)?;
        let (fabric, _) = entry(&context.needs.fabrics, of)?;
        Some((stated.at, format!("{} gives {}", fabric.stated.name, stated.count)))
    });
    told.collect()
}

/// What is stated, at the start of a message.
pub(super) fn stated_words(stated: &Supply, name: &str) -> String {
    if let Some((each, from)) = stated.of_each().zip(stated.from) {
        return format!("{} of {name} stated, {each} from each of {from}", stated.count.of("piece"));
    }
    match stated.strips {
        Some(strips) if strips == stated.count => format!("{} of {name} stated", strips.of("strip")),
        Some(strips) => format!("{} of {name} stated, which give {}", strips.of("strip"), stated.count.of("piece")),
        None => format!("{} of {name} stated", stated.count.of("piece")),
    }
}
