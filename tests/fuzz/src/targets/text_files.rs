//! The files that texts are in, written as the project's own tests write them.

#![allow(dead_code)] // The tests use more of it.

#[path = "../../../text/readers/document.rs"]
pub(super) mod document;
#[path = "../../../text/readers/package.rs"]
mod package;
#[path = "../../../text/readers/pdf_file.rs"]
pub(super) mod pdf_file;
