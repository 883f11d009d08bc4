//! The record of who signed which manuscript, and what changed in it since.

/// The name of the file that sign-offs are recorded in, beside the manuscripts.
pub const SIGN_OFFS_FILE: &str = "sign-offs.yaml";
