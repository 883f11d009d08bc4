//! A quantity that cannot be read.

use super::{Context, mistakes};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::{MistakeKind, Span};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::UnreadableQuantity { text, why } => {
            let message = if text.is_empty() {
                format!("A value is missing: {why}.")
            } else {
                format!("\"{text}\" cannot be read as a number: {why}.")
            };
            let help = "Written like this: 2 1/2, 2½, 2.5, 2 1/2 in, 6.5 cm, 5/8 yd, 5/8 yd (60 cm), 54 x 72.";
            let finding = Finding::new(Label::new(mistake.at, "this cannot be read"), message).help(help);
            Some(finding.corrected(decimal_comma(&context.source.text, mistake.at)))
        }
        _ => None,
    });
}

/// A point for a comma before one or two decimals. Before three, thousands may be meant.
fn decimal_comma(text: &str, at: Span) -> Option<Correction> {
    let rest = text.get(at.start..)?.strip_prefix(',')?;
    let decimals = rest.bytes().take_while(u8::is_ascii_digit).count();
    let ends = !rest[decimals..].starts_with(',');
    let follows = text[..at.start].ends_with(|c: char| c.is_ascii_digit());
    (follows && ends && (1..=2).contains(&decimals)).then(|| Correction::new(Span::new(at.start, at.start + 1), "."))
}
