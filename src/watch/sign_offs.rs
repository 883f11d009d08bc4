//! The sign-offs beside the watched manuscripts, and which of them were written since they were read.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use super::snapshot::Stamp;
use crate::check::Outcome;
use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::sign_off::{CheckOptions, Conditions, Recorded, SIGN_OFFS_FILE, SignOff, read_records};

/// The sign-offs of some folders. Where nobody asked for them there are none.
#[derive(Debug, Default)]
pub(crate) struct SignOffsCache {
    asked: bool,
    of_folder: BTreeMap<PathBuf, (Option<Stamp>, Option<Recorded>)>,
}

impl SignOffsCache {
    /// Nothing is read yet.
    pub(crate) fn new(asked: bool) -> SignOffsCache {
        SignOffsCache { asked, ..SignOffsCache::default() }
    }

    /// Whether sign-offs were asked for.
    pub(super) const fn are_asked(&self) -> bool {
        self.asked
    }

    /// Reads those of the folders that were written since: the folders, and what could not be read, in words.
    pub(crate) fn refresh(&mut self, folders: &BTreeSet<PathBuf>) -> (BTreeSet<PathBuf>, Vec<String>) {
        let (mut changed, mut unreadable) = (BTreeSet::new(), Vec::new());
        if !self.asked {
            return (changed, unreadable);
        }
        self.of_folder.retain(|folder, _| folders.contains(folder));
        for folder in folders {
            let path = folder.join(SIGN_OFFS_FILE);
            // Taken first: what is written after this makes another stamp.
            let stamp = Stamp::of(&path);
            if self.of_folder.get(folder).is_some_and(|(known, _)| *known == stamp) {
                continue;
            }
            let records = read_records(folder).map_err(|why| unreadable.push(format!("{}: {why}", path.display())));
            self.of_folder.insert(folder.clone(), (stamp, records.ok()));
            changed.insert(folder.clone());
        }
        (changed, unreadable)
    }

    /// How a manuscript in which this was found stands to the sign-offs of its folder. Where these cannot be read, nothing is
    /// said of it.
    pub(crate) fn sign_off(&self, source: &Source, folder: &Path, settings: &Settings, outcome: &Outcome) -> SignOff {
        let Some((_, Some(recorded))) = self.of_folder.get(folder) else { return SignOff::NotAsked };
        let found = (outcome.findings.as_slice(), outcome.texts.as_slice());
        let conditions = Conditions::new(settings, CheckOptions::default(), found);
        SignOff::under(source, settings, recorded, (&conditions, &outcome.texts))
    }
}
