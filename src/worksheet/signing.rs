//! The fingerprint of what a worksheet shows, and what the sign-offs beside the manuscript say of it.

use jiff::Timestamp;

use super::Worksheet;
use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::sign_off::{ChangeKind, CheckOptions, Conditions, Fingerprint, Record, Recorded, SignOff, Signer};

/// The fingerprint of the stated and assumed values, and whether somebody signed them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signing {
    /// The fingerprint, as a sign-off records it: `sha256:` and 64 hexadecimal digits.
    pub fingerprint: String,
    /// Who signed.
    pub state: SignState,
}

/// Whether somebody signed what a worksheet shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SignState {
    /// There is no file beside it to look into, or it cannot be read.
    NotLookedUp,
    /// Nobody signed it.
    Unsigned,
    /// Somebody signed these very values.
    Signed {
        /// Who.
        by: String,
        /// On which day.
        day: String,
        /// How many levels and queries are others now.
        conditions: usize,
    },
    /// Somebody signed these very values, and that was revoked.
    Revoked {
        /// Who revoked it.
        by: String,
        /// On which day.
        day: String,
        /// Why.
        because: String,
    },
    /// Values changed since somebody signed.
    Changed {
        /// Who signed.
        by: String,
        /// On which day.
        day: String,
        /// How many values are others now.
        changes: usize,
    },
}

/// The changes that are of values: those of the manuscript, of the rule book and of printed texts.
const VALUES: [ChangeKind; 4] = [ChangeKind::Value, ChangeKind::Assumed, ChangeKind::Text, ChangeKind::TextNumber];

impl Signing {
    /// The fingerprint of a manuscript by the whole worksheet of it, and its state by the sign-offs of its folder, where
    /// these could be read.
    pub fn new(source: &Source, settings: &Settings, worksheet: &Worksheet, recorded: Option<&Recorded>) -> Signing {
        let outcome = &worksheet.account.outcome;
        let nobody = Signer { by: String::new(), note: None };
        let settled = (settings, &worksheet.asked);
        let record = Record::new(source, settled, (&outcome.accepted, &outcome.texts), nobody, Timestamp::UNIX_EPOCH);
        let fingerprint = record.fingerprint;
        let Some(recorded) = recorded else { return Signing { fingerprint, state: SignState::NotLookedUp } };
        let conditions = Conditions::new(settings, CheckOptions::default(), (&outcome.findings, &outcome.texts));
        match SignOff::under(source, settings, recorded, (&conditions, &outcome.texts)) {
            SignOff::NotAsked | SignOff::None { .. } => Signing { fingerprint, state: SignState::Unsigned },
            SignOff::Revoked { revocation, .. } => {
                let (by, day, because) = (revocation.by.clone(), revocation.day(), revocation.because);
                Signing { fingerprint, state: SignState::Revoked { by, day, because } }
            }
            SignOff::Signed { by, day, fingerprint: signed, changes, .. } => {
                let count = |kinds: &[ChangeKind]| changes.iter().filter(|of| kinds.contains(&of.kind)).count();
                let conditions = count(&[ChangeKind::Level, ChangeKind::Query]);
                match count(&VALUES) {
                    // A record of an earlier version may have another fingerprint for the same values.
                    0 => Signing { fingerprint: signed, state: SignState::Signed { by, day, conditions } },
                    changes => Signing { fingerprint, state: SignState::Changed { by, day, changes } },
                }
            }
        }
    }

    /// The fingerprint as it stands on paper: `1a2b 3c4d 5e6f`.
    pub fn short(&self) -> String {
        Fingerprint::short(&self.fingerprint)
    }

    /// The state in a word, for programs.
    pub const fn word(&self) -> &'static str {
        match self.state {
            SignState::NotLookedUp => "not looked up",
            SignState::Unsigned => "unsigned",
            SignState::Signed { .. } => "signed",
            SignState::Revoked { .. } => "revoked",
            SignState::Changed { .. } => "changed",
        }
    }

    /// The state in a sentence or two.
    pub fn sentence(&self) -> String {
        match &self.state {
            SignState::NotLookedUp => "Whether it is signed off was not looked up.".to_string(),
            SignState::Unsigned => "Not signed off.".to_string(),
            SignState::Signed { by, day, conditions: 0 } => format!("Signed off by {by} on {day}."),
            SignState::Signed { by, day, .. } => {
                format!("Signed off by {by} on {day}, under other levels or queries: sparestrip signed says which.")
            }
            SignState::Revoked { by, day, because } => {
                format!("Not signed off: {by} revoked the sign-off on {day}: {because}")
            }
            SignState::Changed { by, day, changes: 1 } => {
                format!("Changed since {by} signed it off on {day}: 1 value is another now.")
            }
            SignState::Changed { by, day, changes } => {
                format!("Changed since {by} signed it off on {day}: {changes} values are others now.")
            }
        }
    }
}
