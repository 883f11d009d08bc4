//! A quantity that cannot be read.

use super::{Context, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::MistakeKind;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::UnreadableQuantity { text, why } => {
            let message = if text.is_empty() {
                format!("A value is missing: {why}.")
            } else {
                format!("\"{text}\" cannot be read as a number: {why}.")
            };
            let help = "Written like this: 2 1/2, 2½, 2.5, 2 1/2 in, 6.5 cm, 5/8 yd, 5/8 yd (60 cm), 54 x 72.";
            Some(Finding::new(Label::new(mistake.at, "this cannot be read"), message).help(help))
        }
        _ => None,
    });
}
