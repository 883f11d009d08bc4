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
use super::snapshot::{Content, Reading, Stamp, spared};
use crate::discover::folder_of;
use crate::finding::Finding;
use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::run::{Asked, Checked, check_source};

/// What is known of a manuscript.
#[derive(Debug)]
pub(super) struct FileSnapshot {
    /// What was in it.
    pub(super) content: Content,
    /// What was found, where it could be read.
    pub(super) checked: Option<Checked>,
    stamp: Option<Stamp>,
    was_young: bool,
}

impl FileSnapshot {
    /// Reads and checks a manuscript.
    pub(super) fn read(path: &Path, settings: &Settings, sign_offs: &SignOffsCache) -> FileSnapshot {
        FileSnapshot::check(path, Reading::of(path), settings, sign_offs)
    }

    fn check(path: &Path, reading: Reading, settings: &Settings, sign_offs: &SignOffsCache) -> FileSnapshot {
        let Reading { mut content, stamp, source } = reading;
        let was_young = stamp.as_ref().is_some_and(Stamp::is_young);
        let checked = source.and_then(|source| {
            let sign_off = |source: &Source, (findings, _): (&[Finding], usize)| {
                sign_offs.sign_off(source, folder_of(path), settings, findings)
            };
            let checked = spared(|| check_source(source, settings, Asked::default(), sign_off));
            checked.map_err(|why| content = Content::Unreadable(why)).ok()
        });
        FileSnapshot { content, checked, stamp, was_young }
    }

    /// Whether the file was written since. A stamp that was young when the file was read may not tell: the text has to
    /// be looked at once more when it is not.
    pub(super) fn is_dated(&mut self, path: &Path) -> bool {
        let stamp = Stamp::of(path);
        if self.stamp != stamp {
            return true;
        }
        if !self.was_young {
            return false;
        }
        self.was_young = stamp.is_some_and(|stamp| stamp.is_young());
        !self.content.is_still_in(path)
    }

    /// The file was read again and has the same text.
    fn confirm(&mut self, reading: &Reading) {
        self.stamp.clone_from(&reading.stamp);
        self.was_young = self.stamp.as_ref().is_some_and(Stamp::is_young);
    }

    fn findings(self) -> Vec<Finding> {
        self.checked.map(|checked| checked.outcome.findings).unwrap_or_default()
    }
}

impl Watch {
    /// Reads what is due, and tells what changed.
    pub(super) fn settle(&mut self, now: Instant) -> Vec<Change> {
        let mut debounce = self.debounce.take(now);
        let mut changes = Vec::new();
        if let Some(when) = debounce.remove(&Target::Houses) {
            self.settle_houses(when, &mut debounce, &mut changes);
        }
        for (target, when) in debounce {
            if let Target::File(path) = target {
                changes.extend(self.settle_file(path, when));
            }
        }
        changes
    }

    fn settle_file(&mut self, path: PathBuf, when: DueTime) -> Option<Change> {
        let is_manuscript = self.wanted.contains(&path) && !path.is_dir();
        let reading = if is_manuscript { Reading::of(&path) } else { Reading::gone() };
        let same = self.content(&path) == &reading.content;
        if let Some(known) = self.files.get_mut(&path).filter(|_| same) {
            known.confirm(&reading);
        }
        if same && !when.anew {
            return None;
        }
        if !same
            && !when.held
            && let Some(at) = reading.written_just_now()
        {
            // It was noticed, not told, and is being written still.
            self.debounce.touched(Target::File(path), at);
            return None;
        }
        if !same && !when.held && reading.content.is_doubtful_after(self.content(&path)) {
            self.debounce.hold(Target::File(path), when);
            return None;
        }
        self.believe(path, reading, same)
    }

    fn content(&self, path: &Path) -> &Content {
        self.files.get(path).map_or(&Content::Gone, |known| &known.content)
    }

    fn believe(&mut self, path: PathBuf, reading: Reading, same: bool) -> Option<Change> {
        let before = self.files.remove(&path);
        let mut how = match &reading.content {
            Content::Gone => How::Went,
            Content::Text { .. } | Content::Unreadable(_) if before.is_none() => How::Came,
            Content::Text { .. } | Content::Unreadable(_) => How::Saved,
        };
        if matches!(how, How::Went) {
            return before.map(|_| Change { path, how, comparison: Comparison::default() });
        }
        let settings = self.houses.settings(folder_of(&path));
        let known = FileSnapshot::check(&path, reading, &settings, &self.sign_offs);
        if let Content::Unreadable(why) = &known.content {
            how = How::Unreadable(why.clone());
        }
        let found = known.checked.as_ref().map_or(&[][..], |checked| &checked.outcome.findings);
        let comparison = Comparison::new(before.map(FileSnapshot::findings).unwrap_or_default(), found);
        self.files.insert(path.clone(), known);
        if same {
            if comparison.is_same() {
                return None;
            }
            how = How::CheckedAnew { signed: self.sign_offs.are_asked() };
        }
        Some(Change { path, how, comparison })
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
            let target = Target::File(path.clone());
            if let Some(when) = debounce.get_mut(&target) {
                when.anew = true;
            } else if !self.debounce.check_anew(&target) {
                debounce.insert(target, DueTime::anew());
            }
        }
        let gone = before.paths().filter(|path| self.houses.content(path).is_none() && Stamp::of(path).is_none());
        changes.extend(gone.map(|path| house_change(path, How::Went, Comparison::default())));
        for path in self.houses.paths().filter(|path| self.houses.content(path) != before.content(path)) {
            let how = match self.houses.content(path) {
                Some(Content::Unreadable(why)) => How::Unreadable(why.clone()),
                _ => How::Ruled(self.files.keys().filter(|file| self.houses.governs(path, folder_of(file))).count()),
            };
            let found = |houses: &HouseRulesCache| houses.checked(path).map(|file| file.outcome.findings.clone());
            let comparison =
                Comparison::new(found(&before).unwrap_or_default(), &found(&self.houses).unwrap_or_default());
            changes.push(house_change(path, how, comparison));
        }
    }
}

fn house_change(path: &Path, how: How, comparison: Comparison) -> Change {
    Change { path: path.to_path_buf(), how, comparison }
}
