//! The command line: parse words, call the library, choose the exit status.

mod command;

use std::process::ExitCode;

use clap::Parser;

#[cfg(target_env = "musl")]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    match command::CommandLine::try_parse() {
        Ok(words) => words.run(),
        Err(error) => command::refuse(&error),
    }
}
