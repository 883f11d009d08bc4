//! The text is not laid out as plain YAML.

use super::{Context, mistakes, sentence};
use crate::finding::{Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::NotYaml { why, mend } => Some(
            Finding::new(Label::new(mistake.at, "here"), format!("The file cannot be read here: {why}."))
                .help(sentence(mend) + "."),
        ),
        _ => None,
    });
}
