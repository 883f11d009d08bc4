//! A sum that is written out in a printed text, or a total in one of its tables, that its parts do not make.

use super::Context;
use super::wording::text::texts;
use crate::finding::Finding;
use crate::text::RemarkKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for text in texts(context) {
        for remark in &text.reading.remarks {
            let RemarkKind::Sum { says, makes, of } = &remark.kind else { continue };
            let message = format!("The text says {says}, and {of} makes {makes}.");
            let label = format!("{makes}, by its parts");
            let finding = text.finding(remark.passage, &remark.at, &remark.sentence, &label, message);
            findings.push(finding.help("Correct the sum, or the number in it that is wrong.").numbers(says, makes));
        }
    }
}
