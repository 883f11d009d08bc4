//! The pre-commit script in real repositories of git, and the scripts and the page that the program prints.

mod committing;
mod completing;
mod governing;
mod manifest;
mod paging;
mod repository;
mod texts;

use std::env;
use std::io::{self, Write};
use std::process::Command;

/// Whether a program is there. A test that needs one that is not says so and tests nothing; the continuous integration
/// must have them all.
pub(crate) fn is_there(program: &str) -> bool {
    let there = Command::new(program).arg("--version").output().is_ok();
    if !there {
        // Not by `eprintln`, of which nothing is seen where a test passes.
        let _ = writeln!(io::stderr(), "skipped: {program} is not installed");
        assert!(env::var_os("CI").is_none(), "{program} is needed to test what is made for it");
    }
    there
}
