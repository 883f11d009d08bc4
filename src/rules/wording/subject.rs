//! What findings are about: fabrics, pieces, units.

use super::super::Context;
use crate::finding::{Subject, SubjectKind};
use crate::manuscript::design::{PieceRef, Unit};
use crate::manuscript::model::Fabric;

/// A fabric.
pub(in crate::rules) fn fabric(fabric: &Fabric) -> Subject {
    Subject::of(SubjectKind::Fabric, &fabric.name)
}

/// A piece of a fabric's cutting list, by its place in the list.
pub(in crate::rules) fn piece(stated: &Fabric, cut: usize) -> Subject {
    fabric(stated).and(SubjectKind::Piece, piece_name(stated, cut))
}

/// A piece by its place in the manuscript.
pub(in crate::rules) fn piece_of(context: &Context<'_>, piece: PieceRef) -> Subject {
    match context.manuscript.fabrics.get(piece.fabric) {
        Some(fabric) => self::piece(fabric, piece.cut),
        None => Subject::default(),
    }
}

/// The name of a piece. Where a cutting list has it more than once, the second is `A (2)`.
fn piece_name(stated: &Fabric, cut: usize) -> String {
    let name = |index: usize| stated.cut.get(index).and_then(|cut| cut.piece.stated()).map(|name| name.value.as_str());
    let Some(own) = name(cut) else { return strips_name(stated, cut) };
    let before = (0..cut).filter(|index| name(*index) == Some(own)).count();
    if before == 0 {
        return own.to_string();
    }
    // Another piece may itself be called so.
    let is_taken = |other: &str| (0..stated.cut.len()).any(|index| name(index) == Some(other));
    let mut numbered = format!("{own} ({})", before + 1);
    while is_taken(&numbered) {
        numbered.push('\'');
    }
    numbered
}

/// Strips go by the names of the pieces that are cut from them.
fn strips_name(stated: &Fabric, cut: usize) -> String {
    let members = stated.cut.iter().filter(|member| member.within == Some(cut));
    let names: Vec<&str> = members.filter_map(|member| Some(member.piece.stated()?.value.as_str())).collect();
    if names.is_empty() { (cut + 1).to_string() } else { names.join(" + ") }
}

/// A unit.
pub(in crate::rules) fn unit(unit: &Unit) -> Subject {
    Subject::of(SubjectKind::Unit, &unit.name)
}
