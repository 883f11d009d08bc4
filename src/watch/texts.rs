//! The printed texts that the watched manuscripts name: what is known of each, and whose manuscripts are checked anew when
//! one is saved.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::Watch;
use super::compare::Comparison;
use super::debounce::{DueTime, Target};
use super::printer::{Change, How, TextChange};
use super::snapshot::{Content, Seen, Shape, Stamp, spared};
use crate::discover::folder_of;
use crate::run::Checked;
use crate::text::{TextFile, bytes_beside, path_of};

/// A text that was read, or why it was not.
pub(super) type ReadText = Result<Arc<TextFile>, String>;

/// A text that says something else than before.
#[derive(Debug)]
pub(super) struct SavedText {
    /// Whether it was there before.
    was_there: bool,
    /// What it says now.
    pub(super) read: ReadText,
}

/// The texts that say something else than before.
pub(super) type SavedTexts = BTreeMap<PathBuf, SavedText>;

/// What is known of a printed text.
#[derive(Debug)]
pub(super) struct TextSnapshot {
    content: Content,
    seen: Seen,
    /// A manuscript that names it, and the name.
    named: (PathBuf, String),
}

impl TextSnapshot {
    /// Reads a text that a manuscript names.
    pub(super) fn read(manuscript: &Path, name: &str) -> (TextSnapshot, ReadText) {
        let named = (manuscript.to_path_buf(), name.to_string());
        let found = Found::of(&named);
        let seen = Seen::new(found.stamp.clone());
        let (content, read) = found.read();
        (TextSnapshot { content, seen, named }, read)
    }

    /// Whether its file was written since.
    pub(super) fn is_dated(&mut self, path: &Path) -> bool {
        self.seen.is_dated(path, || Found::of(&self.named).is(&self.content))
    }
}

/// The file of a text as it is now.
struct Found {
    path: PathBuf,
    bytes: Result<Vec<u8>, String>,
    /// What the folder said just before.
    stamp: Option<Stamp>,
}

impl Found {
    fn of((manuscript, name): &(PathBuf, String)) -> Found {
        let path = path_of(manuscript, name);
        let stamp = Stamp::of(&path);
        Found { path, bytes: bytes_beside(manuscript)(name), stamp }
    }

    /// Whether this is what was in it, without a look at what it says.
    fn is(&self, content: &Content) -> bool {
        match (content, &self.bytes) {
            (Content::Text { print, bytes: many, .. }, Ok(bytes)) => *many == bytes.len() && *print == hash(bytes),
            (Content::Unreadable(why), Err(now)) => self.stamp.is_some() && why == now,
            (Content::Gone, Err(_)) => self.stamp.is_none(),
            (Content::Text { .. }, Err(_)) | (Content::Unreadable(_) | Content::Gone, Ok(_)) => false,
        }
    }

    /// What is in it, and what it says.
    fn read(self) -> (Content, ReadText) {
        let Found { path, bytes, stamp } = self;
        match bytes.and_then(|bytes| spared(|| TextFile::new(path, bytes))) {
            Ok(file) => (content_of(&file), Ok(Arc::new(file))),
            Err(why) if stamp.is_none() => (Content::Gone, Err(why)),
            Err(why) => (Content::Unreadable(why.clone()), Err(why)),
        }
    }
}

/// A Word file, an OpenDocument file and a PDF are only read when they are there to the end.
fn content_of(file: &TextFile) -> Content {
    let bytes = file.bytes();
    let shape = Shape {
        empty: bytes.iter().all(u8::is_ascii_whitespace),
        well_formed: !file.printed.passages.is_empty(),
        whole_lines: bytes.ends_with(b"\n") || bytes.ends_with(b"\r"),
    };
    Content::Text { print: hash(bytes), bytes: bytes.len(), shape }
}

fn hash(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    bytes.hash(&mut hasher);
    hasher.finish()
}

/// The texts that a manuscript names, by path.
pub(super) fn paths(manuscript: &Path, names: &[String]) -> Vec<PathBuf> {
    names.iter().map(|name| path_of(manuscript, name)).collect()
}

impl Watch {
    /// What an event at each printed text is about, and the folders on the way to it from its manuscript: one of them may
    /// come into being only later.
    pub(super) fn text_places(&self) -> (BTreeMap<PathBuf, Target>, BTreeSet<PathBuf>) {
        let (mut meaning, mut folders) = (BTreeMap::new(), BTreeSet::new());
        for (path, known) in &self.texts {
            let (manuscript, name) = &known.named;
            let Ok(folder) = folder_of(manuscript).canonicalize() else { continue };
            let real = folder.join(name);
            folders
                .extend(real.ancestors().skip(1).take_while(|above| above.starts_with(&folder)).map(Path::to_path_buf));
            let target = Target::Text(path.clone());
            // Where a link is on the way, it happens elsewhere.
            if let Ok(file) = real.canonicalize()
                && file != real
            {
                folders.insert(folder_of(&file).to_path_buf());
                meaning.insert(file, target.clone());
            }
            meaning.insert(real, target);
        }
        (meaning, folders)
    }

    /// Takes in what was read of texts, and forgets those that no manuscript names any more.
    pub(super) fn know_texts(&mut self, read: Vec<(PathBuf, TextSnapshot)>) {
        let is_new = !read.is_empty();
        for (path, known) in read {
            self.texts.entry(path).or_insert(known);
        }
        let named: BTreeSet<&PathBuf> = self.files.values().flat_map(|file| &file.names).collect();
        let before = self.texts.len();
        self.texts.retain(|path, _| named.contains(path));
        if is_new || self.texts.len() < before {
            // Their folders are to be watched.
            self.rescan_soon(std::time::Instant::now());
        }
    }

    /// Reads a text that something happened to. Where it says something else, its manuscripts are checked anew.
    pub(super) fn settle_text(
        &mut self,
        path: PathBuf,
        when: DueTime,
        debounce: &mut BTreeMap<Target, DueTime>,
        saved: &mut SavedTexts,
    ) {
        let Some(known) = self.texts.get_mut(&path) else { return };
        let found = Found::of(&known.named);
        let stamp = found.stamp.clone();
        if found.is(&known.content) {
            known.seen = Seen::new(stamp);
            return;
        }
        let (content, read) = found.read();
        if !when.held {
            if let Some(at) = stamp.as_ref().and_then(Stamp::written_just_now) {
                self.debounce.touched(Target::Text(path), at);
                return;
            }
            if content.is_doubtful_after(&known.content) {
                self.debounce.hold(Target::Text(path), when);
                return;
            }
        }
        let was_there = known.content != Content::Gone;
        (known.content, known.seen) = (content, Seen::new(stamp));
        for file in self.files.iter().filter(|(_, file)| file.names.contains(&path)).map(|(file, _)| file) {
            self.debounce.check_now(Target::File(file.clone()), debounce);
        }
        saved.insert(path, SavedText { was_there, read });
    }

    /// What the check of a manuscript changed in its texts.
    pub(super) fn text_changes(&self, manuscript: &Path, before: &[Checked], saved: &SavedTexts) -> Vec<Change> {
        let Some(known) = self.files.get(manuscript) else { return Vec::new() };
        let (mut changes, now) = (Vec::new(), &known.printed);
        let several = |path: &PathBuf| self.files.values().filter(|file| file.names.contains(path)).count() > 1;
        let change = |path: &PathBuf, how, comparison| {
            let text = Some(TextChange { manuscript: manuscript.to_path_buf(), several: several(path) });
            Change { path: path.clone(), how, comparison, text }
        };
        for text in now {
            let old = before.iter().find(|old| old.path == text.path);
            let findings = old.map(|old| old.outcome.findings.clone()).unwrap_or_default();
            let comparison = Comparison::new(findings, &text.outcome.findings);
            let how = match old {
                None if !saved.get(&text.path).is_some_and(|saved| saved.was_there) => How::Came,
                _ if saved.contains_key(&text.path) => How::Saved,
                _ if comparison.is_same() => continue,
                _ => How::ByManuscript,
            };
            changes.push(change(&text.path, how, comparison));
        }
        for old in before.iter().filter(|old| !now.iter().any(|text| text.path == old.path)) {
            let how = match known.names.contains(&old.path) {
                false => How::NotNamed,
                true if Stamp::of(&old.path).is_none() => How::Went,
                // Why it cannot be read is said of its name.
                true => continue,
            };
            changes.push(change(&old.path, how, Comparison::default()));
        }
        changes
    }
}
