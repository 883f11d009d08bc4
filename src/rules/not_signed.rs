//! A manuscript that nobody has signed off, where sign-offs are asked for.

use super::Context;
use super::wording::sign_off::sign_command;
use crate::finding::{Finding, Label};
use crate::sign_off::SignOff;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let SignOff::None { at, same_as } = context.sign_off else { return };
    let message = match same_as {
        Some(other) => {
            format!("Nobody has signed this manuscript off. {other} was signed with the very same values.")
        }
        None => "Nobody has signed this manuscript off.".to_string(),
    };
    let when = match same_as {
        Some(_) => "If the file was only renamed, sign it under its new name",
        None => "When an editor has been through its numbers, she signs it",
    };
    let help = format!("{when}: {}", sign_command(context));
    findings.push(Finding::new(Label::new(*at, "no sign-off in sign-offs.yaml"), message).help(help));
}
