//! A manuscript that nobody has signed off, where sign-offs are asked for.

use super::Context;
use super::wording::sign_off::sign_command;
use crate::finding::{Finding, Label};
use crate::manuscript::Span;
use crate::sign_off::{Revocation, SignOff};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if let SignOff::Revoked { at, by, day, revocation } = context.sign_off {
        findings.push(revoked(context, *at, (by, day), revocation));
    }
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

/// Somebody signed, and somebody took it back.
fn revoked(context: &Context<'_>, at: Span, (signer, day): (&str, &str), revocation: &Revocation) -> Finding {
    let Revocation { by, because, .. } = revocation;
    let message = format!("{signer} signed this on {day}, and {by} revoked it on {}: {because}", revocation.day());
    let message = if message.ends_with(['.', '!', '?']) { message } else { message + "." };
    let help = format!("When what was wrong is put right, an editor signs again: {}", sign_command(context));
    Finding::new(Label::new(at, "its sign-off was revoked"), message).help(help)
}
