//! `sparestrip pre-commit`

use std::process::ExitCode;

use super::output::print;

/// The script is a file of its own, so that it can be run and looked over as one.
const SCRIPT: &str = include_str!("../../.ci/pre-commit");

pub(super) fn pre_commit() -> ExitCode {
    print(|out| out.write_all(SCRIPT.as_bytes()), ExitCode::SUCCESS)
}
