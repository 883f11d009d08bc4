//! `sparestrip lsp`
//!
//! On standard output stand the messages of the protocol and nothing else. The characters that the door would hold back
//! are escapes in them.

use std::io::ErrorKind;
use std::process::ExitCode;

use clap::builder::PossibleValuesParser;
use sparestrip::discover::reason;
use sparestrip::editor_service::serve;
use sparestrip::editor_service::setup::{editors, recipe};

use super::output::{print, print_error};
use super::{EXIT_FAILURE, LspArgs};

pub(super) fn lsp(args: &LspArgs) -> ExitCode {
    if let Some(recipe) = args.setup.as_deref().and_then(recipe) {
        return print(|out| out.write_all(recipe.as_bytes()), ExitCode::SUCCESS);
    }
    match serve() {
        Ok(status) => ExitCode::from(status),
        // The editor is gone.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => ExitCode::from(1),
        Err(error) => {
            print_error(&format!("the editor cannot be answered: {}", reason(&error)));
            ExitCode::from(EXIT_FAILURE)
        }
    }
}

/// The editors that there is a recipe for.
pub(super) fn known_editors() -> PossibleValuesParser {
    PossibleValuesParser::new(editors())
}
