//! When to read what again.
//!
//! Our own waiting rather than a debouncing crate: a file that looks half-written is held back once more, and that
//! has to be decided on its text, file by file.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// A file is read once nothing has happened to it for so long.
pub(super) const QUIET: Duration = Duration::from_millis(80);

/// A text that looks half-written is believed when it still looks so after this.
const HOLD: Duration = Duration::from_millis(120);

/// Files whose time comes within this of each other are told together.
const TOGETHER: Duration = Duration::from_millis(40);

/// What to read again.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Target {
    /// The house rules of all folders. They come first: files are checked under them.
    Houses,
    /// A printed text. They come before files: these are checked against them.
    Text(PathBuf),
    /// A manuscript.
    File(PathBuf),
}

/// When and how to read it.
#[derive(Clone, Copy, Debug)]
pub(super) struct DueTime {
    at: Instant,
    /// Whether it was held back already.
    pub(super) held: bool,
    /// Whether to check it even if its text is what it was, since the house rules or the sign-offs are not.
    pub(super) anew: bool,
}

/// What is to be read, and when.
#[derive(Debug, Default)]
pub(super) struct Debounce(BTreeMap<Target, DueTime>);

impl DueTime {
    /// At once, under house rules that changed.
    pub(super) fn anew() -> DueTime {
        DueTime { at: Instant::now(), held: true, anew: true }
    }
}

impl Debounce {
    /// Something happened to it: it is read when it has been quiet.
    pub(super) fn touched(&mut self, target: Target, at: Instant) {
        let anew = self.0.get(&target).is_some_and(|when| when.anew);
        self.0.insert(target, DueTime { at: at + QUIET, held: false, anew });
    }

    /// It differs from what is known, nobody has told since when.
    pub(super) fn noticed(&mut self, target: Target) {
        if !self.0.contains_key(&target) {
            self.touched(target, Instant::now());
        }
    }

    /// It looks half-written.
    pub(super) fn hold(&mut self, target: Target, when: DueTime) {
        self.0.insert(target, DueTime { at: Instant::now() + HOLD, held: true, ..when });
    }

    /// Marks what is waiting to be read as to be checked anew; false where it is not waiting.
    pub(super) fn check_anew(&mut self, target: &Target) -> bool {
        self.0.get_mut(target).is_some_and(|when| {
            when.anew = true;
            true
        })
    }

    /// What it is checked by is another: it is checked even if its text is what it was.
    pub(super) fn due_anew(&mut self, target: Target) {
        if !self.check_anew(&target) {
            self.0.insert(target, DueTime::anew());
        }
    }

    /// The same for what is taken already and not read yet.
    pub(super) fn check_now(&mut self, target: Target, taken: &mut BTreeMap<Target, DueTime>) {
        if let Some(when) = taken.get_mut(&target) {
            when.anew = true;
        } else if !self.check_anew(&target) {
            taken.insert(target, DueTime::anew());
        }
    }

    /// When the next are to be read.
    pub(super) fn next(&self) -> Option<Instant> {
        let first = self.0.values().min_by_key(|when| when.at)?;
        // What was held back has waited long enough.
        let together = if first.held { first.at } else { first.at + TOGETHER };
        self.0.values().map(|when| when.at).filter(|at| *at <= together).max()
    }

    /// Takes what is due.
    pub(super) fn take(&mut self, now: Instant) -> BTreeMap<Target, DueTime> {
        if self.next().is_none_or(|next| next > now) {
            return BTreeMap::new();
        }
        let (debounce, later) = std::mem::take(&mut self.0).into_iter().partition(|(_, when)| when.at <= now);
        self.0 = later;
        debounce
    }
}
