//! A size for which a requirement is not stated.

use super::wording::subject;
use super::{Context, mistakes};
use crate::finding::{Finding, Label, Subject};
use crate::manuscript::{MistakeKind, Span};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::SizeNotStated { size, place } => Some(
            Finding::new(
                Label::new(mistake.at, format!("{size} is not here")),
                match place.strip_prefix("list for piece ") {
                    Some(piece) => format!("No count of piece {piece} for {size}."),
                    None => format!("Nothing is stated of {place} for {size}."),
                },
            )
            .for_size(size)
            .about(subject(context, place, mistake.at))
            .help(format!("Add {size} here, or take it out of the sizes.")),
        ),
        _ => None,
    });
}

/// The binding, the backing or the batting; or the fabric or the piece in whose list the place is.
fn subject(context: &Context<'_>, place: &str, at: Span) -> Subject {
    let fabric = context.manuscript.fabrics.iter().rev().find(|fabric| fabric.at.start <= at.start);
    let cut = fabric.and_then(|fabric| fabric.cut.iter().rposition(|cut| cut.at.start <= at.start));
    match (fabric, cut) {
        (Some(fabric), _) if place.starts_with("fabric ") => subject::fabric(fabric),
        (Some(fabric), Some(cut)) if place.starts_with("list ") => subject::piece(fabric, cut),
        _ => Subject::number(place),
    }
}
