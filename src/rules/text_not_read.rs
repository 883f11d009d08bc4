//! A printed text that a manuscript names and that could not be read, or not all of it.

use super::Context;
use crate::finding::{Finding, Label, Level, Subject, SubjectKind};
use crate::text::TextProblem;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for text in context.texts {
        let name = &text.named.value;
        let at = |label: &str| Label::new(text.named.at, label);
        match &text.read {
            Err(why) => {
                let message = format!("The text {name} was not checked: {why}.");
                let help =
                    "The file is looked for in the folder of this manuscript. Correct its name, or put it there.";
                let about = Subject::of(SubjectKind::Quote, name);
                findings.push(Finding::new(at("not read"), message).about(about).help(help));
            }
            Ok((file, _)) => {
                let whole = file.printed.passages.is_empty();
                findings.extend(file.printed.problems.iter().map(|TextProblem { says, .. }| {
                    let what = if whole { "was not checked" } else { "was not read whole" };
                    let message = format!("The text {name} {what}: {}.", says.trim_end_matches('.'));
                    let help = "What could not be read was not checked. Save the text anew, or as another format.";
                    let finding = Finding::new(at(what), message).help(help);
                    if whole { finding } else { finding.at_most(Level::Query) }
                }));
            }
        }
    }
}
