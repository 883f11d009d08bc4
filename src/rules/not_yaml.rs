//! The text is not laid out as plain YAML.

use super::{Context, Rule, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::What;

pub(super) const RULE: Rule = Rule { name: "not-yaml", page: include_str!("../../rules/not-yaml.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        What::NotYaml { why, mend } => {
            Some(Finding::new(Label::new(mistake.at, "here"), format!("The file cannot be read here: {why}.")).help(sentence(mend)))
        }
        _ => None,
    });
}

fn sentence(clause: &str) -> String {
    let mut letters = clause.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}
