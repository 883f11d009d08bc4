//! The pre-commit script in real repositories of git, and the scripts and the page that the program prints.

#![allow(clippy::unwrap_used)] // All of this crate is a test: what cannot be is a failure.

#[path = "../support/mod.rs"]
mod support;

mod committing;
mod completing;
mod governing;
mod paging;
mod repository;

use std::env;
use std::io::{self, Write};
use std::process::Command;

/// Whether a program is there. A test that needs one that is not says so and tests nothing; but without git next to
/// nothing would be tested, so the continuous integration must have it.
fn is_there(program: &str) -> bool {
    let there = Command::new(program).arg("--version").output().is_ok();
    if !there {
        // Not by `eprintln`, of which nothing is seen where a test passes.
        let _ = writeln!(io::stderr(), "skipped: {program} is not installed");
        assert!(program != "git" || env::var_os("CI").is_none(), "the tests of the script for git need git");
    }
    there
}
