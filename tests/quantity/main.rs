//! Reading and printing quantities: tables of how people write them, and properties.

#![allow(clippy::unwrap_used)] // All of this crate is a test: what cannot be is a failure.

mod faults;
mod printing;
mod properties;
mod reading;
