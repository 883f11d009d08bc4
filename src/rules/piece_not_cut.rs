//! A piece that the design names and no cutting list has.

use super::unknown_word::unknown_name;
use super::wording::layout_pieces::layout_pieces;
use super::{Context, mistakes};
use crate::finding::{Correction, Finding, Subject, SubjectKind};
use crate::manuscript::mistake::AMONG_PIECES;
use crate::manuscript::{MistakeKind, Span};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::UnknownName { name, among, known, nearest, .. } if *among == AMONG_PIECES => {
            let finding = unknown_name(mistake.at, name, among, known, nearest.as_deref());
            let correct = |nearest: &String| Correction::name(&context.source.text, mistake.at, nearest);
            let finding = finding.corrected(nearest.as_ref().map(correct));
            let message = format!("The design uses a piece \"{name}\", and no cutting list has it: nobody cuts it.");
            let finding = Finding { message, ..finding }.about(Subject::of(SubjectKind::Piece, name));
            Some(match of_layout(context, mistake.at, name) {
                Some(help) => finding.help(help),
                None => finding.help("Name a piece of a cutting list, or write its cut size here, such as 3 1/2."),
            })
        }
        _ => None,
    });
}

/// The words of a layout and its borders that name pieces. In a unit a size may stand as well.
const OF_LAYOUT: [&str; 6] = ["sash", "long_sash", "cornerstone", "piece", "piece_across", "piece_bottom"];

/// What to cut for a piece that a layout names: the entry that lacks, and where it stands.
fn of_layout(context: &Context<'_>, at: Span, name: &str) -> Option<String> {
    let needs = &context.needs.layouts;
    let before = context.source.text.get(..at.start)?.trim_end_matches(['"', '\'']).trim_end().strip_suffix(':')?;
    let word = before.rsplit(|c: char| !(c.is_alphanumeric() || c == '_')).next()?;
    let layout = context.manuscript.layout.as_ref()?;
    if !OF_LAYOUT.contains(&word) || at.start < layout.at.start {
        return None;
    }
    // The layout that it stands in is the last that begins before it.
    let begun = needs.sizes.iter().filter(|laid| laid.stated.at.start < at.start);
    let laid = begun.max_by_key(|laid| laid.stated.at.start)?;
    let pieces = layout_pieces(needs, laid);
    let mut lacking = pieces.iter().filter(|piece| piece.word == word && piece.stated.is_unread());
    Some(match (lacking.next(), lacking.next()) {
        (Some(piece), None) => format!(
            "The {} of {} are cut from it. State it under `cut` of its fabric: - {}.",
            piece.what,
            laid.size.name,
            piece.entry(needs, laid, name)
        ),
        _ => "State it under `cut` of its fabric, with how large it is cut and how many there are.".to_string(),
    })
}
