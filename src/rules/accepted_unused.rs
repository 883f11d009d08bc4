//! An acceptance that no finding used.

use super::{Context, Rule};
use crate::finding::{Finding, Label};

pub(super) const RULE: Rule =
    Rule { name: "accepted-unused", page: include_str!("../../rules/accepted-unused.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for unused in context.unused_acceptances {
        let (rule, place) = (&unused.rule.value, unused.rule.at);
        let for_size = unused
            .size
            .as_ref()
            .map_or_else(|| "for the pattern as a whole".to_string(), |size| format!("for {}", size.value));
        let mut finding = Finding::new(
            Label::new(place, "nothing is left to accept"),
            format!("\"{rule}\" is accepted {for_size}, and it finds nothing there."),
        )
        .help("Take the acceptance out, so that it does not hide a later mistake. A finding about one size needs the size beside the rule.");
        finding.size = unused.size.as_ref().map(|size| size.value.clone());
        findings.push(finding);
    }
}
