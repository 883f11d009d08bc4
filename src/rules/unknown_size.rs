//! A requirement for a size that the pattern does not list.

use super::{Context, mistakes};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::UnknownSize { name, sizes, nearest } => {
            let (label, meant) = match nearest {
                Some(nearest) => (format!("did you mean {nearest}?"), format!("Did you mean {nearest}? ")),
                None => ("not one of the sizes".to_string(), String::new()),
            };
            Some(
                Finding::new(
                    Label::new(mistake.at, label),
                    format!("\"{name}\" is not one of the sizes that the pattern lists."),
                )
                .help(format!("{meant}The sizes are: {}.", sizes.join(", ")))
                .corrected(nearest.as_ref().map(|nearest| Correction::name(&context.source.text, mistake.at, nearest))),
            )
        }
        _ => None,
    });
}
