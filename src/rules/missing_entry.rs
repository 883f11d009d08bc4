//! A table lacks an entry that it must have.

use super::{Context, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::MissingEntry { word, example, place } => Some(
            Finding::new(
                Label::new(mistake.at, format!("{word} is missing here")),
                format!("\"{word}\" is missing from {place}."),
            )
            .help(format!("Add, for example: {example}")),
        ),
        _ => None,
    });
}
