//! What an event is about, and looking at everything without being told.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Bound;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use super::Watch;
use super::debounce::Target;
use super::events::{Events, PathEvent};
use super::printer::name;
use super::snapshot::Stamp;
use super::watcher::FolderWatcher;
use crate::discover::{Discovered, discover_with_folders, folder_of, is_left_out, is_manuscript};
use crate::rule_book::HOUSE_RULES_FILE;
use crate::sign_off::SIGN_OFFS_FILE;

/// How often everything is looked at though the system tells of saves, and how many times longer than a look takes to
/// wait for the next, so that a large tree does not keep the machine busy.
const NOW_AND_THEN: (Duration, u32) = (Duration::from_secs(2), 50);

/// The same where the system does not tell.
const ALL_THE_TIME: (Duration, u32) = (Duration::from_millis(50), 4);

/// How long to wait with a look after a change among folders, which seldom comes alone.
const SOON: Duration = Duration::from_millis(10);

/// New folders are listed again until there are none, but not for ever where somebody makes folders all the time.
const ROUNDS: usize = 10;

impl Watch {
    /// Takes in what was heard.
    pub(super) fn take(&mut self, heard: Events) {
        if heard.missed {
            // Which folders are still watched is not known either.
            self.watcher.forget_all();
            self.rescan_soon(Instant::now());
        }
        for (path, news) in heard.paths {
            self.take_event(&path, news);
        }
    }

    fn take_event(&mut self, path: &Path, news: PathEvent) {
        let was_folder = news.went && self.watcher.forget(path);
        let (folder, file) = (folder_of(path), path.file_name().unwrap_or_default());
        if file == HOUSE_RULES_FILE {
            self.debounce.touched(Target::Houses, news.at);
        } else if file == SIGN_OFFS_FILE && self.sign_offs.are_asked() {
            self.rescan_soon(news.at);
        } else if let Some(target) = self.meaning.get(path) {
            self.debounce.touched(target.clone(), news.at);
        }
        let is_new = is_manuscript(path) && !self.meaning.contains_key(path);
        let may_hold_more = self.watcher.in_tree(folder) && (is_new || (!is_left_out(file) && path.is_dir()));
        let after = (Bound::Excluded(path), Bound::Unbounded);
        let to_known = self.meaning.range::<Path, _>(after).next();
        let on_the_way = self.stems.iter().any(|stem| stem.starts_with(path))
            || to_known.is_some_and(|(known, _)| known.starts_with(path));
        if was_folder || may_hold_more || on_the_way || path.is_symlink() {
            self.rescan_soon(news.at);
        }
    }

    pub(super) fn rescan_soon(&mut self, at: Instant) {
        let (last, took) = self.looked;
        self.next_look = self.next_look.min((at + SOON).max(last + took * 2));
    }

    /// Looks at everything: which folders and manuscripts there are, and which were written since they were read.
    pub(super) fn rescan(&mut self) {
        let started = Instant::now();
        let gathered = self.watch_folders();
        self.print_problems(&gathered);
        self.wanted = gathered.files.into_iter().collect();
        for file in &self.wanted {
            let dated = match self.files.get_mut(file) {
                Some(known) => known.is_dated(file),
                None => Stamp::of(file).is_some(),
            };
            if dated {
                self.debounce.noticed(Target::File(file.clone()));
            }
        }
        for file in self.files.keys().filter(|file| !self.wanted.contains(*file)) {
            self.debounce.noticed(Target::File(file.clone()));
        }
        for (path, known) in &mut self.texts {
            if known.is_dated(path) {
                self.debounce.noticed(Target::Text(path.clone()));
            }
        }
        if self.houses.are_dated(&self.folders()) {
            self.debounce.noticed(Target::Houses);
        }
        self.read_sign_offs();
        let ended = Instant::now();
        let took = ended - started;
        self.looked = (ended, took);
        let (least, times) = if self.watcher.are_open() { NOW_AND_THEN } else { ALL_THE_TIME };
        self.next_look = ended + least.max(took * times);
    }

    /// Reads sign-offs that were written, and has the manuscripts beside them checked anew.
    fn read_sign_offs(&mut self) {
        let (changed, unreadable) = self.sign_offs.refresh(&self.folders());
        self.unsaid.extend(unreadable.into_iter().map(|what| format!("{what}: no sign-off in it counts")));
        for file in self.files.keys().filter(|file| changed.contains(folder_of(file))) {
            self.debounce.due_anew(Target::File(file.clone()));
        }
    }

    /// Watches the folders that there are, and finds the manuscripts in them.
    fn watch_folders(&mut self) -> Discovered {
        let mut rounds = 0;
        loop {
            let (gathered, folders) = discover_with_folders(&self.roots);
            let (tree, beside) = self.places(&gathered.files, &folders);
            rounds += 1;
            match self.watcher.watch(tree, &beside) {
                // What came into a folder before it was watched is found by listing it once more.
                Ok(true) if rounds < ROUNDS => {}
                Ok(_) => return gathered,
                Err(why) => {
                    self.watcher = FolderWatcher::closed();
                    self.report_polling(&why);
                    return gathered;
                }
            }
        }
    }

    /// The folders to watch, those searched for manuscripts and those beside, with links resolved as events are.
    /// Notes on the way what an event at each path will mean.
    fn places(&mut self, files: &[PathBuf], folders: &[PathBuf]) -> (BTreeSet<PathBuf>, BTreeSet<PathBuf>) {
        let tree: BTreeSet<PathBuf> = folders.iter().filter_map(|folder| folder.canonicalize().ok()).collect();
        let above = self.stems.iter().flat_map(|stem| stem.ancestors().skip(1));
        let mut beside: BTreeSet<PathBuf> = above.filter_map(|folder| folder.canonicalize().ok()).collect();
        let mut real: BTreeMap<&Path, Option<PathBuf>> = BTreeMap::new();
        let folders;
        (self.meaning, folders) = self.text_places();
        beside.extend(folders);
        let files = files.iter().map(|file| (file, Target::File(file.clone())));
        for (file, target) in files.chain(self.houses.paths().map(|file| (file, Target::Houses))) {
            let folder = real.entry(folder_of(file)).or_insert_with(|| folder_of(file).canonicalize().ok());
            if let (Some(folder), Some(name)) = (folder, file.file_name()) {
                self.meaning.insert(folder.join(name), target.clone());
                beside.insert(folder.clone());
            }
            // Its text is elsewhere, and so is what happens when that is saved.
            if file.is_symlink()
                && let Ok(file) = file.canonicalize()
            {
                beside.insert(folder_of(&file).to_path_buf());
                self.meaning.insert(file, target);
            }
        }
        beside.retain(|folder| !tree.contains(folder));
        (tree, beside)
    }

    fn print_problems(&mut self, gathered: &Discovered) {
        let problems = gathered.problems.iter().cloned().collect();
        let new = std::mem::replace(&mut self.problems, problems);
        let new = self.problems.difference(&new);
        self.unsaid.extend(new.map(|problem| format!("{} cannot be read: {}", name(&problem.path), problem.why)));
    }
}
