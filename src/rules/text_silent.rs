//! A number that a reader needs, which the manuscript states and no printed text says.

use super::Context;
use super::wording::text::subject_of;
use crate::finding::{Finding, Label};
use crate::text::untold;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for untold in untold(context.texts) {
        let message = match &untold.size {
            Some(size) if !untold.of.is_empty() => format!("No text says the {} for {size}.", untold.what),
            _ => format!("No text says a number of {}.", untold.what),
        };
        let help = "It is stated here, and was not found in the text or texts. `sparestrip read` shows what was.";
        let finding = Finding::new(Label::new(untold.at, "not found in the text"), message).help(help);
        let subject = subject_of(context.manuscript, &untold.of);
        findings.push(finding.for_some_size(untold.size.as_deref()).about(subject));
    }
}
