//! A number in words and another in the figure behind it.

use super::Context;
use super::wording::text::texts;
use crate::finding::Finding;
use crate::text::RemarkKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for text in texts(context) {
        for remark in &text.reading.remarks {
            let RemarkKind::WordAndFigure { word, figure } = &remark.kind else { continue };
            let message = format!("The word says {}, and the figure {figure}.", word.to_lowercase());
            let label = format!("{}, or {figure}?", word.to_lowercase());
            let finding = text.finding(remark.passage, &remark.at, &remark.sentence, &label, message);
            let help = "Readers go by either. Write the same number in both places.";
            findings.push(finding.help(help).numbers(format!("{word} ({figure})"), "the same number twice"));
        }
    }
}
