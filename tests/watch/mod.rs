//! Watching real files: what is saved is reported, once, soon, and nothing is missed.

// These tests write as editors do, in place and by halves; a step of one that fails has failed the test.
#![allow(clippy::disallowed_methods, clippy::unwrap_used)]

mod folders;
mod hard_cases;
mod house_rules;
mod lines;
mod saving;
mod texts;
mod watching;
