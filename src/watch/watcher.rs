//! The folders that the system watches for us.
//!
//! Folders are watched one by one, not whole trees: hidden folders and `target` can be large, and the number of
//! folders that a system watches is bounded. A folder is watched before it is listed, so nothing falls between.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use notify::{Config, ErrorKind, RecommendedWatcher, RecursiveMode, Watcher, WatcherKind};

use super::events::EventQueue;

/// The watcher, or none where files are looked at again and again instead.
#[derive(Debug)]
pub(super) struct FolderWatcher {
    watcher: Option<RecommendedWatcher>,
    watched: BTreeSet<PathBuf>,
    tree: BTreeSet<PathBuf>,
}

impl FolderWatcher {
    /// Opens them.
    ///
    /// # Errors
    /// Why the system cannot watch.
    pub(super) fn open(events: EventQueue) -> Result<FolderWatcher, String> {
        match RecommendedWatcher::new(events, Config::default()) {
            Ok(watcher) => Ok(FolderWatcher { watcher: Some(watcher), ..FolderWatcher::closed() }),
            Err(error) => Err(in_words(&error)),
        }
    }

    /// Eyes that see nothing.
    pub(super) fn closed() -> FolderWatcher {
        FolderWatcher { watcher: None, watched: BTreeSet::new(), tree: BTreeSet::new() }
    }

    /// Whether the system tells us of saves.
    pub(super) fn are_open(&self) -> bool {
        self.watcher.is_some()
    }

    /// Watches these folders and no others: those of the tree, where new folders matter, and some beside it. Tells
    /// whether one of them was not watched until now.
    ///
    /// # Errors
    /// Why the system cannot watch them all.
    pub(super) fn watch(&mut self, tree: BTreeSet<PathBuf>, beside: &BTreeSet<PathBuf>) -> Result<bool, String> {
        let Some(watcher) = &mut self.watcher else { return Ok(false) };
        let wanted: BTreeSet<&PathBuf> = tree.iter().chain(beside).collect();
        self.watched.retain(|folder| {
            let keep = wanted.contains(folder);
            if !keep {
                // It may be gone, and its watch with it.
                let _ = watcher.unwatch(folder);
            }
            keep
        });
        let mut grown = false;
        for folder in wanted {
            if self.watched.contains(folder) || is_covered(&self.watched, &tree, folder) {
                continue;
            }
            match watcher.watch(folder, mode(tree.contains(folder))) {
                Ok(()) => grown |= self.watched.insert(folder.clone()),
                Err(error) if is_of_the_folder(&error) => {}
                Err(error) => return Err(in_words(&error)),
            }
        }
        self.tree = tree;
        Ok(grown)
    }

    /// Something by this name went away: if a folder is there now, it is another one and has to be watched anew.
    /// Tells whether a folder was.
    pub(super) fn forget(&mut self, gone: &Path) -> bool {
        let before = self.watched.len();
        self.watched.retain(|folder| !folder.starts_with(gone));
        self.watched.len() < before
    }

    /// Which folders are still watched is not known: all have to be watched anew.
    pub(super) fn forget_all(&mut self) {
        self.watched.clear();
    }

    /// Whether new files and folders in a folder matter.
    pub(super) fn in_tree(&self, folder: &Path) -> bool {
        self.tree.contains(folder)
    }
}

/// Systems that watch whole trees at no cost do so.
fn watches_trees() -> bool {
    matches!(RecommendedWatcher::kind(), WatcherKind::Fsevent | WatcherKind::ReadDirectoryChangesWatcher)
}

fn mode(of_tree: bool) -> RecursiveMode {
    if of_tree && watches_trees() { RecursiveMode::Recursive } else { RecursiveMode::NonRecursive }
}

fn is_covered(watched: &BTreeSet<PathBuf>, tree: &BTreeSet<PathBuf>, folder: &Path) -> bool {
    watches_trees() && folder.ancestors().skip(1).any(|above| watched.contains(above) && tree.contains(above))
}

/// Whether only this folder cannot be watched: it is gone again, or closed to us, and then nothing in it is read.
fn is_of_the_folder(error: &notify::Error) -> bool {
    use std::io::ErrorKind::{NotADirectory, NotFound, PermissionDenied};
    match &error.kind {
        ErrorKind::PathNotFound => true,
        ErrorKind::Io(error) => matches!(error.kind(), NotFound | NotADirectory | PermissionDenied),
        _ => false,
    }
}

fn in_words(error: &notify::Error) -> String {
    match &error.kind {
        ErrorKind::MaxFilesWatch => "it watches as many folders as it may already".to_string(),
        ErrorKind::Io(error) => crate::discover::reason(error),
        _ => error.to_string(),
    }
}
