//! The house rules that govern folders: the nearest file above each, read once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::discover::house_rules_above;

/// Which house-rules file governs each of some folders, and what each file was read to.
#[derive(Debug)]
pub(crate) struct HouseRules<F> {
    of_folder: BTreeMap<PathBuf, Option<PathBuf>>,
    files: BTreeMap<PathBuf, F>,
}

impl<F> Default for HouseRules<F> {
    fn default() -> Self {
        HouseRules { of_folder: BTreeMap::new(), files: BTreeMap::new() }
    }
}

impl<F> HouseRules<F> {
    /// Finds the house rules of folders, and reads each file of them.
    pub(crate) fn of<'p>(folders: impl Iterator<Item = &'p Path>, mut read: impl FnMut(&Path) -> F) -> HouseRules<F> {
        let mut rules = HouseRules::default();
        for folder in folders {
            if rules.of_folder.contains_key(folder) {
                continue;
            }
            let found = house_rules_above(folder);
            if let Some(path) = found.as_ref().filter(|path| !rules.files.contains_key(*path)) {
                rules.files.insert(path.clone(), read(path));
            }
            rules.of_folder.insert(folder.to_path_buf(), found);
        }
        rules
    }

    /// The path of the file that governs a folder, where one does.
    pub(crate) fn path(&self, folder: &Path) -> Option<&Path> {
        self.of_folder.get(folder)?.as_deref()
    }

    /// Whether a folder was among those asked for.
    pub(crate) fn knows(&self, folder: &Path) -> bool {
        self.of_folder.contains_key(folder)
    }

    /// The file that governs a folder.
    pub(crate) fn of_folder(&self, folder: &Path) -> Option<&F> {
        self.files.get(self.path(folder)?)
    }

    /// A file by its path.
    pub(crate) fn file(&self, path: &Path) -> Option<&F> {
        self.files.get(path)
    }

    /// All files, by path.
    pub(crate) fn files(&self) -> impl Iterator<Item = (&PathBuf, &F)> {
        self.files.iter()
    }

    /// Whether other files govern these folders now.
    pub(crate) fn are_moved<'p>(&self, folders: impl ExactSizeIterator<Item = &'p Path>) -> bool {
        folders.len() != self.of_folder.len()
            || folders
                .into_iter()
                .any(|folder| !self.knows(folder) || self.path(folder) != house_rules_above(folder).as_deref())
    }

    /// What the files were read to.
    pub(crate) fn into_files(self) -> impl Iterator<Item = F> {
        self.files.into_values()
    }
}
