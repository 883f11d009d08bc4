//! A piece that the design names and no cutting list has.

use super::unknown_word::unknown_name;
use super::{Context, mistakes};
use crate::finding::{Correction, Finding, Subject, SubjectKind};
use crate::manuscript::MistakeKind;
use crate::manuscript::mistake::AMONG_PIECES;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::UnknownName { name, among, known, nearest, .. } if *among == AMONG_PIECES => {
            let finding = unknown_name(mistake.at, name, among, known, nearest.as_deref());
            let correct = |nearest: &String| Correction::name(&context.source.text, mistake.at, nearest);
            let finding = finding.corrected(nearest.as_ref().map(correct));
            let message = format!("The design uses a piece \"{name}\", and no cutting list has it: nobody cuts it.");
            Some(
                Finding { message, ..finding }
                    .about(Subject::of(SubjectKind::Piece, name))
                    .help("Name a piece of a cutting list, or write its cut size here, such as 3 1/2."),
            )
        }
        _ => None,
    });
}
