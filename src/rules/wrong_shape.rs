//! One value where a list of entries is expected, or the other way round.

use super::{Context, Rule, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::What;

pub(super) const RULE: Rule = Rule { name: "wrong-shape", page: include_str!("../../rules/wrong-shape.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        What::WrongShape { word, expected, example } => {
            let what = if word.is_empty() { "Something else is written here".to_string() } else { format!("\"{word}\" is written in another way") };
            Some(
                Finding::new(Label::new(mistake.at, format!("{expected} is expected here")), format!("{what}: {expected} is expected."))
                    .help(format!("For example: {example}")),
            )
        }
        _ => None,
    });
}
