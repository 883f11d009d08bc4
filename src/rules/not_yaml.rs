//! The text is not laid out as plain YAML.

use super::{Context, Rule, mistakes, sentence};
use crate::finding::{Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) const RULE: Rule = Rule { name: "not-yaml", page: include_str!("../../rules/not-yaml.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::NotYaml { why, mend } => Some(
            Finding::new(Label::new(mistake.at, "here"), format!("The file cannot be read here: {why}."))
                .help(sentence(mend) + "."),
        ),
        _ => None,
    });
}
