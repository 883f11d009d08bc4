//! `sparestrip completions`

use std::process::ExitCode;

use clap::CommandFactory;

use super::output::print;
use super::{CommandLine, CompletionsArgs};

pub(super) fn completions(args: &CompletionsArgs) -> ExitCode {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut CommandLine::command(), "sparestrip", &mut script);
    print(|out| out.write_all(&script), ExitCode::SUCCESS)
}
