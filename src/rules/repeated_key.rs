//! An entry that is stated twice, or as far as anyone can see.

use super::look_alikes::look_alikes;
use super::{Context, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::RepeatedKey { word, mend } => Some(match mend {
            None => {
                Finding::new(Label::new(mistake.at, "this one is not used"), format!("\"{word}\" is stated twice."))
                    .help("Keep one of the two; until then the first is used.")
            }
            Some(mend) => Finding::new(
                Label::new(mistake.at, "stated in another way too"),
                format!("\"{word}\" says again what another entry states already."),
            )
            .help(format!("To fix it, {mend}.")),
        }),
        _ => None,
    });
    findings.extend(look_alikes(context));
}
