//! The program as it is used: what drives it through commands, files and saves.

#![allow(clippy::unwrap_used)] // In helpers of tests as in tests: a panic is how a test fails.

mod cli;
mod docs;
mod drawings;
mod editor;
mod fixing;
mod hook;
mod hostile;
mod page;
mod reports;
mod sign_off;
mod structure;
mod support;
mod tables;
mod text;
mod watch;
