//! The record of who signed which manuscript off, and what changed in it since.
//!
//! A sign-off holds every value that was stated and every value of the rule book that was assumed, so that a later
//! check can name each number that changed, and not only say that some did.
//!
//! Sign-offs are findings of two rules, reported by every format at the place of the number. They run after
//! acceptances, which must not silence them.

mod compare;
mod compare_numbers;
mod compare_texts;
mod conditions;
mod fingerprint;
mod meaning;
mod places;
mod record;
mod record_file;
mod renamed;
mod revocation;
mod standing;
mod stated;
mod texts;

pub use compare::{Change, ChangeKind, InText};
pub use conditions::{CheckOptions, Conditions, OpenFinding};
pub use fingerprint::Fingerprint;
pub use record::{AcceptedRecord, Record, Signer};
pub use record_file::{Entry, Recorded, append, read_records};
pub use revocation::Revocation;
pub use standing::{Found, ListedSignOff, SignOff, SignOffState, list_missing, list_sign_offs};
pub use stated::{Stated, stated};
pub use texts::{SignedNumber, SignedText, SignedTexts};

/// The name of the file that sign-offs are recorded in, beside the manuscripts.
pub const SIGN_OFFS_FILE: &str = "sign-offs.yaml";
