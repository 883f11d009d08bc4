//! A size for which a requirement is not stated.

use super::{Context, Rule, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::What;

pub(super) const RULE: Rule =
    Rule { name: "size-not-stated", page: include_str!("../../rules/size-not-stated.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        What::SizeNotStated { size, place } => Some(
            Finding::new(
                Label::new(mistake.at, format!("{size} is not here")),
                format!("The {place} says nothing for {size}."),
            )
            .for_size(size)
            .help(format!("Add {size} here, or take it out of the sizes.")),
        ),
        _ => None,
    });
}
