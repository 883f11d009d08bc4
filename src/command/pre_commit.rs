//! `sparestrip pre-commit`
//!
//! The script checks a copy of the index in a temporary folder with nothing in it but what is to be checked, house
//! rules and sign-offs in their places: names need no quoting, the report's paths are the repository's, and what lies
//! in the folder without being staged cannot decide. House rules above the repository are put above the copy.

use std::process::ExitCode;

use super::output::print;

/// The script is a file of its own, so that it can be run and looked over as one.
const SCRIPT: &str = include_str!("../../.ci/pre-commit");

pub(super) fn pre_commit() -> ExitCode {
    print(|out| out.write_all(SCRIPT.as_bytes()), ExitCode::SUCCESS)
}
