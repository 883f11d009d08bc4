//! The house rules and sign-offs on disk, over and beside the open manuscripts.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use crate::check::Outcome;
use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::sign_off::SignOff;
use crate::watch::house_rules_cache::HouseRulesCache;
use crate::watch::sign_offs::SignOffsCache;

/// What governs the folders of the open manuscripts.
#[derive(Debug, Default)]
pub(super) struct Surroundings {
    house_rules: HouseRulesCache,
    sign_offs: SignOffsCache,
}

/// What a look at the disk brought.
#[derive(Debug, Default)]
pub(super) struct Look {
    /// The folders that are governed otherwise than before.
    pub(super) changed: BTreeSet<PathBuf>,
    /// What cannot be read, in words.
    pub(super) unreadable: Vec<String>,
}

impl Surroundings {
    /// Nothing is read yet.
    pub(super) fn new(signed: bool) -> Surroundings {
        Surroundings { sign_offs: SignOffsCache::new(signed), ..Surroundings::default() }
    }

    /// Reads what was written since the last look, for these folders.
    pub(super) fn look(&mut self, folders: &BTreeSet<PathBuf>) -> Look {
        let (mut changed, mut unreadable) = self.sign_offs.refresh(folders);
        if self.house_rules.are_dated(folders) {
            let now = HouseRulesCache::of(folders);
            unreadable.extend(now.unreadable().chain(now.mistaken()));
            changed.extend(folders.iter().filter(|folder| now.differ_from(&self.house_rules, folder)).cloned());
            self.house_rules = now;
        }
        Look { changed, unreadable }
    }

    /// The settings for the manuscripts in a folder.
    pub(super) fn settings(&self, folder: &Path) -> Cow<'_, Settings> {
        self.house_rules.settings(folder)
    }

    /// How a manuscript stands to the sign-offs of its folder, where somebody wants to know.
    pub(super) fn sign_off(&self, source: &Source, folder: &Path, settings: &Settings, outcome: &Outcome) -> SignOff {
        self.sign_offs.sign_off(source, folder, settings, outcome)
    }
}
