//! The fingerprint of what a worksheet shows, and what the sign-offs beside the manuscript say of it.

use jiff::Timestamp;

use crate::check::{Corrections, check_with};
use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::sign_off::{Record, SignOff, Signer};

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

impl Signing {
    /// The fingerprint of a manuscript, and its state by the sign-offs of its folder, where these could be read.
    pub fn new(source: &Source, settings: &Settings, records: Option<&[Record]>) -> Signing {
        let check = |settings: &Settings| check_with(source, settings, Corrections::LeftOut);
        let (outcome, asked) = settings.with_what_is_asked(check);
        let nobody = Signer { by: String::new(), note: None };
        let record = Record::new(source, (settings, &asked), &outcome.accepted, nobody, Timestamp::UNIX_EPOCH);
        let fingerprint = record.fingerprint;
        let Some(records) = records else { return Signing { fingerprint, state: SignState::NotLookedUp } };
        match SignOff::of(source, settings, records) {
            SignOff::NotAsked | SignOff::None { .. } => Signing { fingerprint, state: SignState::Unsigned },
            SignOff::Signed { by, day, changes, .. } if changes.is_empty() => {
                // A record of an earlier version may have another fingerprint for the same values.
                let own = |of: &&Record| of.manuscript == record.manuscript && of.by == by && of.day() == day;
                let mut signed = records.iter().filter(own).map(|of| &of.fingerprint);
                let same = signed.clone().any(|of| *of == fingerprint);
                let fingerprint = signed.next_back().filter(|_| !same).unwrap_or(&fingerprint).clone();
                Signing { fingerprint, state: SignState::Signed { by, day } }
            }
            SignOff::Signed { by, day, changes, .. } => {
                Signing { fingerprint, state: SignState::Changed { by, day, changes: changes.len() } }
            }
        }
    }

    /// The state in a word, for programs.
    pub const fn word(&self) -> &'static str {
        match self.state {
            SignState::NotLookedUp => "not looked up",
            SignState::Unsigned => "unsigned",
            SignState::Signed { .. } => "signed",
            SignState::Changed { .. } => "changed",
        }
    }

    /// The state in a sentence.
    pub fn sentence(&self) -> String {
        match &self.state {
            SignState::NotLookedUp => "Whether it is signed off was not looked up.".to_string(),
            SignState::Unsigned => "Not signed off.".to_string(),
            SignState::Signed { by, day } => format!("Signed off by {by} on {day}."),
            SignState::Changed { by, day, changes: 1 } => {
                format!("Changed since {by} signed it off on {day}: 1 value is another now.")
            }
            SignState::Changed { by, day, changes } => {
                format!("Changed since {by} signed it off on {day}: {changes} values are others now.")
            }
        }
    }
}

/// How many digits of a fingerprint stand on paper.
const SHORT: usize = 12;

/// The first digits of a fingerprint, in groups of four: `1a2b 3c4d 5e6f`.
pub fn short_fingerprint(fingerprint: &str) -> String {
    let digits = fingerprint.rsplit(':').next().unwrap_or_default();
    let mut short = String::new();
    for (place, digit) in digits.chars().take(SHORT).enumerate() {
        if place > 0 && place % 4 == 0 {
            short.push(' ');
        }
        short.push(digit);
    }
    short
}

#[cfg(test)]
mod tests {
    use super::short_fingerprint;

    #[test]
    fn a_fingerprint_is_shortened_to_twelve_digits() {
        assert_eq!(short_fingerprint("sha256:1a2b3c4d5e6f70819"), "1a2b 3c4d 5e6f");
        assert_eq!(short_fingerprint(""), "");
    }
}
