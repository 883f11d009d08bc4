//! The house rules over the watched folders, and whom a change of them concerns.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use super::snapshot::{Content, Reading, Stamp, spared};
use crate::discover::house_rules_above;
use crate::rule_book::Settings;
use crate::run::{Checked, House, settings_for};

/// The house rules of some folders.
#[derive(Debug, Default)]
pub(super) struct HouseRulesCache {
    of_folder: BTreeMap<PathBuf, Option<PathBuf>>,
    rulings: BTreeMap<PathBuf, Ruling>,
}

/// One house-rules file.
#[derive(Debug)]
struct Ruling {
    content: Content,
    stamp: Option<Stamp>,
    house: House,
}

impl HouseRulesCache {
    /// Finds and reads the house rules of folders.
    pub(super) fn of(folders: &BTreeSet<PathBuf>) -> HouseRulesCache {
        let mut houses = HouseRulesCache { of_folder: nearest(folders), ..HouseRulesCache::default() };
        let paths: BTreeSet<PathBuf> = houses.of_folder.values().flatten().cloned().collect();
        houses.rulings = paths.into_iter().map(|path| (path.clone(), Ruling::read(&path))).collect();
        houses
    }

    /// The settings for the manuscripts in a folder.
    pub(super) fn settings(&self, folder: &Path) -> Cow<'_, Settings> {
        match self.of_folder.get(folder) {
            Some(Some(path)) if self.rulings.contains_key(path) => Cow::Borrowed(&self.rulings[path].house.settings),
            Some(_) => Cow::Owned(Settings::default()),
            // A folder that came up a moment ago.
            None => Cow::Owned(settings_for(folder)),
        }
    }

    /// Whether they are no longer the house rules of these folders, as far as can be told without reading.
    pub(super) fn are_dated(&self, folders: &BTreeSet<PathBuf>) -> bool {
        let same = |(path, ruling): (&PathBuf, &Ruling)| ruling.stamp == Stamp::of(path);
        self.of_folder != nearest(folders) || !self.rulings.iter().all(same)
    }

    /// Whether one of the files looks half-written, after what it was before.
    pub(super) fn are_doubtful_after(&self, before: &HouseRulesCache) -> bool {
        let gone = |path: &Path| Stamp::of(path).is_none();
        before.rulings.keys().any(|path| !self.rulings.contains_key(path) && gone(path))
            || self.rulings.iter().any(|(path, ruling)| {
                let before = before.rulings.get(path).map_or(&Content::Gone, |ruling| &ruling.content);
                ruling.content.is_doubtful_after(before)
            })
    }

    /// Whether a folder is governed otherwise than it was.
    pub(super) fn differ_from(&self, before: &HouseRulesCache, folder: &Path) -> bool {
        match (self.of_folder.get(folder), before.of_folder.get(folder)) {
            (Some(now), Some(then)) => {
                now != then || now.as_ref().is_some_and(|path| self.content(path) != before.content(path))
            }
            // What is in a folder that came up a moment ago was checked under what was there at that moment.
            (Some(_), None) => true,
            (None, _) => false,
        }
    }

    /// Whether a house-rules file governs a folder.
    pub(super) fn governs(&self, path: &Path, folder: &Path) -> bool {
        self.of_folder.get(folder).and_then(Option::as_deref) == Some(path)
    }

    /// The files.
    pub(super) fn paths(&self) -> impl Iterator<Item = &PathBuf> {
        self.rulings.keys()
    }

    /// What is in one of the files, where it is one that governs.
    pub(super) fn content(&self, path: &Path) -> Option<&Content> {
        self.rulings.get(path).map(|ruling| &ruling.content)
    }

    /// What is wrong with a file itself.
    pub(super) fn checked(&self, path: &Path) -> Option<&Checked> {
        self.rulings.get(path).and_then(|ruling| ruling.house.checked.as_ref())
    }

    /// All the files that something is wrong with.
    pub(super) fn all_checked(&self) -> impl Iterator<Item = &Checked> {
        self.rulings.values().filter_map(|ruling| ruling.house.checked.as_ref())
    }
}

impl Ruling {
    fn read(path: &Path) -> Ruling {
        let Reading { mut content, stamp, source } = Reading::of(path);
        // Where it cannot be read the rule book itself is in force.
        let standard = || House { settings: Settings::default(), checked: None };
        let house = match source.map(|source| spared(|| House::new(source))) {
            Some(Ok(house)) => house,
            Some(Err(why)) => {
                content = Content::Unreadable(why);
                standard()
            }
            None => standard(),
        };
        Ruling { content, stamp, house }
    }
}

fn nearest(folders: &BTreeSet<PathBuf>) -> BTreeMap<PathBuf, Option<PathBuf>> {
    folders.iter().map(|folder| (folder.clone(), house_rules_above(folder))).collect()
}
