//! The computation against published values, other libraries, and second computations of our own.

#![allow(clippy::unwrap_used)] // In helpers of tests as in tests: a panic is how a test fails.

mod against_handbooks;
mod against_libraries;
mod design_mutants;
mod independent;
mod planner;
mod print_slips;
mod quantity;
mod support;
mod tiling;
mod typing;
