//! Reading what is due, and what came of it.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

use super::Watch;
use super::compare::Comparison;
use super::debounce::{DueTime, Target};
use super::house_rules_cache::HouseRulesCache;
use super::printer::{Change, How};
use super::sign_offs::SignOffsCache;
use super::snapshot::{Content, Reading, Seen, Stamp, spared};
use super::texts::{SavedTexts, TextSnapshot, paths};
use crate::check::Outcome;
use crate::discover::folder_of;
use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::run::{Asked, Checked, check_source, with_texts};
use crate::text::{beside, path_of};

/// What is known of a manuscript.
#[derive(Debug)]
pub(super) struct FileSnapshot {
    /// What was in it.
    pub(super) content: Content,
    /// What was found, where it could be read.
    pub(super) checked: Option<Checked>,
    /// The printed texts that it names.
    pub(super) names: Vec<PathBuf>,
    /// Those that were read, with what was found in them.
    pub(super) printed: Vec<Checked>,
    /// What is in those of which nothing was known.
    pub(super) read_texts: Vec<(PathBuf, TextSnapshot)>,
    seen: Seen,
}

impl FileSnapshot {
    /// Reads and checks a manuscript.
    pub(super) fn read(path: &Path, settings: &Settings, sign_offs: &SignOffsCache) -> FileSnapshot {
        FileSnapshot::check(path, Reading::of(path), settings, sign_offs, (&BTreeMap::new(), &SavedTexts::new()))
    }

    fn check(
        path: &Path,
        reading: Reading,
        settings: &Settings,
        sign_offs: &SignOffsCache,
        (known, saved): (&BTreeMap<PathBuf, TextSnapshot>, &SavedTexts),
    ) -> FileSnapshot {
        let Reading { mut content, stamp, source, texts } = reading;
        let names = paths(path, &texts);
        let (mut read_texts, mut at_hand) = (Vec::new(), BTreeMap::new());
        for (text, name) in names.iter().zip(&texts).filter(|(text, _)| !known.contains_key(*text)) {
            let (snapshot, read) = TextSnapshot::read(path, name);
            read_texts.push((text.clone(), snapshot));
            at_hand.insert(text, read);
        }
        at_hand.extend(saved.iter().map(|(text, saved)| (text, saved.read.clone())));
        let on_disk = beside(path);
        let load = |name: &str| at_hand.get(&path_of(path, name)).cloned().unwrap_or_else(|| on_disk(name));
        let checked = source.and_then(|source| {
            let sign_off = |source: &Source, (outcome, _): (&Outcome, usize)| {
                sign_offs.sign_off(source, folder_of(path), settings, outcome)
            };
            let checked = spared(|| check_source(source, settings, Asked::default(), &load, sign_off));
            checked.map_err(|why| content = Content::Unreadable(why)).ok()
        });
        let mut printed = checked.map(with_texts).unwrap_or_default();
        let checked = (!printed.is_empty()).then(|| printed.remove(0));
        FileSnapshot { content, checked, names, printed, read_texts, seen: Seen::new(stamp) }
    }

    /// Whether the file was written since.
    pub(super) fn is_dated(&mut self, path: &Path) -> bool {
        self.seen.is_dated(path, || self.content.is_still_in(path))
    }

    /// The file was read again and has the same text.
    fn confirm(&mut self, reading: &Reading) {
        self.seen = Seen::new(reading.stamp.clone());
    }
}

impl Watch {
    /// Reads what is due, and tells what changed.
    pub(super) fn settle(&mut self, now: Instant) -> Vec<Change> {
        let mut debounce = self.debounce.take(now);
        let (mut changes, mut saved) = (Vec::new(), SavedTexts::new());
        while let Some((target, when)) = debounce.pop_first() {
            match target {
                Target::Houses => self.settle_houses(when, &mut debounce, &mut changes),
                Target::Text(path) => self.settle_text(path, when, &mut debounce, &mut saved),
                Target::File(path) => changes.extend(self.settle_file(path, when, &saved)),
            }
        }
        changes
    }

    /// Reads a manuscript, and tells what changed in it and in its texts, some of which were `saved`.
    fn settle_file(&mut self, path: PathBuf, when: DueTime, saved: &SavedTexts) -> Vec<Change> {
        let is_manuscript = self.wanted.contains(&path) && !path.is_dir();
        let reading = if is_manuscript { Reading::of(&path) } else { Reading::gone() };
        let same = self.content(&path) == &reading.content;
        if let Some(known) = self.files.get_mut(&path).filter(|_| same) {
            known.confirm(&reading);
        }
        if same && !when.anew {
            return Vec::new();
        }
        if !same
            && !when.held
            && let Some(at) = reading.written_just_now()
        {
            // It was noticed, not told, and is being written still.
            self.debounce.touched(Target::File(path), at);
            return Vec::new();
        }
        if !same && !when.held && reading.content.is_doubtful_after(self.content(&path)) {
            self.debounce.hold(Target::File(path), when);
            return Vec::new();
        }
        self.believe(&path, reading, same, saved)
    }

    fn content(&self, path: &Path) -> &Content {
        self.files.get(path).map_or(&Content::Gone, |known| &known.content)
    }

    fn believe(&mut self, path: &Path, reading: Reading, same: bool, saved: &SavedTexts) -> Vec<Change> {
        let before = self.files.remove(path);
        let mut how = match &reading.content {
            Content::Gone => How::Went,
            Content::Text { .. } | Content::Unreadable(_) if before.is_none() => How::Came,
            Content::Text { .. } | Content::Unreadable(_) => How::Saved,
        };
        if matches!(how, How::Went) {
            self.know_texts(Vec::new());
            return before.map(|_| Change::of(path, how, Comparison::default())).into_iter().collect();
        }
        let settings = self.houses.settings(folder_of(path));
        let mut known = FileSnapshot::check(path, reading, &settings, &self.sign_offs, (&self.texts, saved));
        if let Content::Unreadable(why) = &known.content {
            how = How::Unreadable(why.clone());
        }
        let found = known.checked.as_ref().map_or(&[][..], |checked| &checked.outcome.findings);
        let (before, printed) = before.map(|before| (before.checked, before.printed)).unwrap_or_default();
        let before = before.map(|checked| checked.outcome.findings).unwrap_or_default();
        let comparison = Comparison::new(before, found);
        let is_silent = same && comparison.is_same();
        if same {
            let by_text = known.names.iter().any(|text| saved.contains_key(text));
            let signed = self.sign_offs.are_asked();
            how = if by_text { How::ByText } else { How::CheckedAnew { signed } };
        }
        let read = std::mem::take(&mut known.read_texts);
        self.files.insert(path.to_path_buf(), known);
        self.know_texts(read);
        let mut changes = self.text_changes(path, &printed, saved);
        if !is_silent {
            changes.insert(0, Change::of(path, how, comparison));
        }
        changes
    }

    /// Reads the house rules again, and has the manuscripts checked anew that are governed otherwise than before.
    fn settle_houses(&mut self, when: DueTime, debounce: &mut BTreeMap<Target, DueTime>, changes: &mut Vec<Change>) {
        let now = HouseRulesCache::of(&self.folders());
        if !when.held && now.are_doubtful_after(&self.houses) {
            self.debounce.hold(Target::Houses, when);
            return;
        }
        let before = std::mem::replace(&mut self.houses, now);
        for path in self.files.keys().filter(|path| self.houses.differ_from(&before, folder_of(path))) {
            self.debounce.check_now(Target::File(path.clone()), debounce);
        }
        let gone = before.paths().filter(|path| self.houses.content(path).is_none() && Stamp::of(path).is_none());
        changes.extend(gone.map(|path| Change::of(path, How::Went, Comparison::default())));
        for path in self.houses.paths().filter(|path| self.houses.content(path) != before.content(path)) {
            let how = match self.houses.content(path) {
                Some(Content::Unreadable(why)) => How::Unreadable(why.clone()),
                _ => How::Ruled(self.files.keys().filter(|file| self.houses.governs(path, folder_of(file))).count()),
            };
            let found = |houses: &HouseRulesCache| houses.checked(path).map(|file| file.outcome.findings.clone());
            let comparison =
                Comparison::new(found(&before).unwrap_or_default(), &found(&self.houses).unwrap_or_default());
            changes.push(Change::of(path, how, comparison));
        }
    }
}
