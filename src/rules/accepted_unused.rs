//! An acceptance that no finding used.

use super::{Context, Unused, WhyUnused};
use crate::finding::{Finding, Label};

/// How many findings are told that an acceptance may mean.
const MAX_TOLD: usize = 8;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.unused_acceptances.iter().map(finding));
}

fn finding(unused: &Unused) -> Finding {
    let rule = &unused.rule.value;
    let about: Vec<String> = unused.size.iter().cloned().chain(unused.subject.names()).collect();
    let for_what = if about.is_empty() { "the pattern as a whole".to_string() } else { about.join(", ") };
    let (label, message, help) = match &unused.why {
        WhyUnused::NothingIsFound => (
            "nothing is left to accept",
            format!("\"{rule}\" is accepted for {for_what}, and it finds nothing there."),
            "Take the acceptance out, so that it does not hide a later mistake. A finding about one size needs the size \
             beside the rule."
                .to_string(),
        ),
        WhyUnused::CannotBeAccepted => (
            "cannot be accepted",
            format!("What \"{rule}\" finds cannot be accepted: it must be corrected."),
            "Take the acceptance out, and correct what the rule points at.".to_string(),
        ),
        WhyUnused::Lacks(lacks) => (
            "it does not say all that is accepted",
            format!(
                "\"{rule}\" is accepted for {for_what}, and that does not say what is accepted: another mistake would be \
                 accepted with it. So it accepts nothing."
            ),
            to_write(lacks),
        ),
    };
    let mut finding = Finding::new(Label::new(unused.rule.at, label), message).help(help).about(unused.subject.clone());
    finding.size.clone_from(&unused.size);
    finding.corrected(unused.correction.clone())
}

/// The words to write for each finding that may be meant.
fn to_write(lacks: &[String]) -> String {
    let [one] = lacks else {
        let each = lacks.iter().take(MAX_TOLD).map(|words| format!("\n{words}"));
        let more = lacks.len().saturating_sub(MAX_TOLD);
        let more = if more > 0 { format!("\nand {more} more") } else { String::new() };
        return format!(
            "Write an acceptance for each of them that is meant, with these words beside the rule:{}{more}",
            each.collect::<String>()
        );
    };
    format!("Write beside the rule: {one}")
}
