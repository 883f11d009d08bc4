//! A piece that a printed text names and the manuscript does not have.

use super::Context;
use super::wording::text::texts;
use crate::finding::Finding;
use crate::text::RemarkKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for text in texts(context) {
        for remark in &text.reading.remarks {
            let RemarkKind::UnknownPiece { name, known } = &remark.kind else { continue };
            let message = format!("The text names piece {name}, and the manuscript has no piece of that name.");
            let finding = text.finding(remark.passage, &remark.at, &remark.sentence, "no such piece", message);
            let help = format!(
                "The manuscript has these: {}. Correct the letter, or add the piece to a cutting list.",
                known.join(", ")
            );
            findings.push(finding.help(help).numbers(name.clone(), "a piece of the manuscript"));
        }
    }
}
