//! Words that the rules about sign-offs share.

use super::super::Context;

/// The command that signs the manuscript, as it is typed.
pub(in crate::rules) fn sign_command(context: &Context<'_>) -> String {
    let file = context.source.path.to_string_lossy();
    format!("sparestrip sign {} --by \"Name\"", as_typed(&file))
}

/// A file's name so that a shell takes it for that, and runs nothing that stands in it.
fn as_typed(file: &str) -> String {
    let file = if file.starts_with('-') { format!("./{file}") } else { file.to_string() };
    if file.chars().all(|c| c.is_alphanumeric() || "./_-\\:".contains(c)) {
        file
    } else if file.contains(['$', '`', '"', '!']) {
        format!("'{}'", file.replace('\'', "'\\''"))
    } else {
        format!("\"{file}\"")
    }
}
