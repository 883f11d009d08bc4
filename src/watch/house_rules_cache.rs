//! The house rules over the watched folders, and whom a change of them concerns.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use super::snapshot::{Content, Reading, Stamp, spared};
use crate::house_rules::HouseRules;
use crate::rule_book::Settings;
use crate::run::{Checked, House, settings_for};

/// The house rules of some folders.
#[derive(Debug, Default)]
pub(crate) struct HouseRulesCache(HouseRules<Ruling>);

/// One house-rules file.
#[derive(Debug)]
struct Ruling {
    content: Content,
    stamp: Option<Stamp>,
    house: House,
}

impl HouseRulesCache {
    /// Finds and reads the house rules of folders.
    pub(crate) fn of(folders: &BTreeSet<PathBuf>) -> HouseRulesCache {
        HouseRulesCache(HouseRules::of(folders.iter().map(PathBuf::as_path), Ruling::read))
    }

    /// The settings for the manuscripts in a folder.
    pub(crate) fn settings(&self, folder: &Path) -> Cow<'_, Settings> {
        match self.0.of_folder(folder) {
            Some(ruling) => Cow::Borrowed(&ruling.house.settings),
            None if self.0.knows(folder) => Cow::Owned(Settings::default()),
            // A folder that came up a moment ago.
            None => Cow::Owned(settings_for(folder)),
        }
    }

    /// Whether they are no longer the house rules of these folders, as far as can be told without reading.
    pub(crate) fn are_dated(&self, folders: &BTreeSet<PathBuf>) -> bool {
        let same = |(path, ruling): (&PathBuf, &Ruling)| ruling.stamp == Stamp::of(path);
        self.0.are_moved(folders.iter().map(PathBuf::as_path)) || !self.0.files().all(same)
    }

    /// Whether one of the files looks half-written, after what it was before.
    pub(super) fn are_doubtful_after(&self, before: &HouseRulesCache) -> bool {
        let gone = |path: &Path| Stamp::of(path).is_none();
        before.0.files().any(|(path, _)| self.0.file(path).is_none() && gone(path))
            || self.0.files().any(|(path, ruling)| {
                let before = before.0.file(path).map_or(&Content::Gone, |ruling| &ruling.content);
                ruling.content.is_doubtful_after(before)
            })
    }

    /// Whether a folder is governed otherwise than it was.
    pub(crate) fn differ_from(&self, before: &HouseRulesCache, folder: &Path) -> bool {
        match (self.0.knows(folder), before.0.knows(folder)) {
            (true, true) => {
                let now = self.0.path(folder);
                now != before.0.path(folder) || now.is_some_and(|path| self.content(path) != before.content(path))
            }
            // What is in a folder that came up a moment ago was checked under what was there at that moment.
            (true, false) => true,
            (false, _) => false,
        }
    }

    /// Whether a house-rules file governs a folder.
    pub(super) fn governs(&self, path: &Path, folder: &Path) -> bool {
        self.0.path(folder) == Some(path)
    }

    /// The files.
    pub(super) fn paths(&self) -> impl Iterator<Item = &PathBuf> {
        self.0.files().map(|(path, _)| path)
    }

    /// What is in one of the files, where it is one that governs.
    pub(super) fn content(&self, path: &Path) -> Option<&Content> {
        self.0.file(path).map(|ruling| &ruling.content)
    }

    /// What is wrong with a file itself.
    pub(super) fn checked(&self, path: &Path) -> Option<&Checked> {
        self.0.file(path).and_then(|ruling| ruling.house.checked.as_ref())
    }

    /// The files that cannot be read, in words.
    pub(crate) fn unreadable(&self) -> impl Iterator<Item = String> {
        self.0.files().filter_map(|(path, ruling)| match &ruling.content {
            Content::Unreadable(why) => Some(format!("{}: {why}", path.display())),
            Content::Gone | Content::Text { .. } => None,
        })
    }

    /// The files that something is wrong with, each with the first that is.
    pub(crate) fn mistaken(&self) -> impl Iterator<Item = String> {
        self.0.files().filter_map(|(path, ruling)| {
            let found = ruling.house.checked.as_ref()?.outcome.findings.first()?;
            Some(format!("{}: {} (sparestrip check shows all of it)", path.display(), found.message))
        })
    }

    /// All the files that something is wrong with.
    pub(super) fn all_checked(&self) -> impl Iterator<Item = &Checked> {
        self.0.files().filter_map(|(_, ruling)| ruling.house.checked.as_ref())
    }
}

impl Ruling {
    fn read(path: &Path) -> Ruling {
        let Reading { mut content, stamp, source, .. } = Reading::of(path);
        // Where it cannot be read the rule book itself is in force.
        let house = match source.map(|source| spared(|| House::new(source))) {
            Some(Ok(house)) => house,
            Some(Err(why)) => {
                content = Content::Unreadable(why);
                House::default()
            }
            None => House::default(),
        };
        Ruling { content, stamp, house }
    }
}
