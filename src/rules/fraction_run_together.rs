//! A fraction above one that a space would make another plausible number.

use super::{Context, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::RunTogether { read_as, meant } => {
            let written = mistake.at.text(&context.source.text);
            let message = format!("\"{written}\" is read as {read_as}; {meant} may be meant.");
            let help = format!("Write {meant} with a space, or {read_as}.");
            let finding = Finding::new(Label::new(mistake.at, format!("{read_as}, or {meant}?")), message).help(help);
            Some(finding.numbers(read_as.clone(), format!("{meant}, or {read_as} written so")))
        }
        _ => None,
    });
}
