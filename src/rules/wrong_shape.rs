//! One value where a list of entries is expected, or the other way round.

use super::{Context, Rule, mistakes, sentence};
use crate::finding::{Finding, Label};
use crate::manuscript::What;

pub(super) const RULE: Rule = Rule { name: "wrong-shape", page: include_str!("../../rules/wrong-shape.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        What::WrongShape { word, expected, example } => {
            let place = if word.is_empty() { "here".to_string() } else { format!("for \"{word}\"") };
            // Where the example would only say again what is expected.
            let help = if example == expected {
                "Write one value after the colon.".to_string()
            } else {
                format!("For example: {example}")
            };
            Some(
                Finding::new(
                    Label::new(mistake.at, format!("{expected} is expected here")),
                    sentence(&format!("{expected} is expected {place}, and something else is written.")),
                )
                .help(help),
            )
        }
        _ => None,
    });
}
