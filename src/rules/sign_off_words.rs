//! Words that the rules about sign-offs share.

use super::Context;

/// The command that signs the manuscript, as it is typed.
pub(super) fn sign_command(context: &Context<'_>) -> String {
    let file = context.source.path.to_string_lossy();
    let plain = file.chars().all(|c| c.is_alphanumeric() || "./_-\\:".contains(c));
    let quotes = if plain { "" } else { "\"" };
    format!("sparestrip sign {quotes}{file}{quotes} --by \"Name\"")
}
