//! Taking a sign-off back: a further line in the record, which says whose numbers no longer hold, and why.
//!
//! It names the numbers by their fingerprints, and not the line that signed them: where somebody signs the same numbers on
//! another branch of a history and does not know of it, they are revoked all the same once the two are merged, in
//! whatever order the lines then stand. Who signs them again and has seen it says so in the sign-off.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::record::in_hex;

/// A revocation as it is recorded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Revocation {
    /// The manuscript's file name, in the folder of the record.
    pub revokes: String,
    /// The fingerprints of the numbers that no longer hold.
    pub fingerprints: Vec<String>,
    /// Who revokes them.
    pub by: String,
    /// Why.
    pub because: String,
    /// When, in UTC, as RFC 3339 writes it.
    pub when: Timestamp,
    /// The version of the program.
    pub sparestrip: String,
}

impl Revocation {
    /// A revocation of these numbers of a manuscript.
    pub fn new(manuscript: &str, fingerprints: Vec<String>, by: &str, because: &str, when: Timestamp) -> Revocation {
        Revocation {
            revokes: manuscript.to_string(),
            fingerprints,
            by: by.to_string(),
            because: because.to_string(),
            when,
            sparestrip: env!("CARGO_PKG_VERSION").to_string(),
        }
    }

    /// What a later sign-off of the same numbers names it by.
    pub fn id(&self) -> String {
        let mut hash = Sha256::new();
        let when = self.when.to_string();
        let parts = [&self.revokes, &self.by, &self.because, &when].into_iter().chain(&self.fingerprints);
        for part in parts {
            hash.update(part.as_bytes());
            hash.update([0xff]);
        }
        in_hex(hash)
    }

    /// The day on which it was made, in UTC.
    pub fn day(&self) -> String {
        self.when.strftime("%Y-%m-%d").to_string()
    }
}
