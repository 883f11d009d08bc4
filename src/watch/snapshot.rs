//! What is known of a file, and whether a new text of it is to be believed.

use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::ErrorKind;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant, SystemTime};

use super::debounce::QUIET;
use crate::discover::reason;
use crate::manuscript::{MistakeKind, Source, read};

/// What is in a file, as far as it takes to tell whether it changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Content {
    /// There is no file.
    Gone,
    /// There is one, and it cannot be read.
    Unreadable(String),
    /// There is text.
    Text {
        /// Its fingerprint, in place of a second copy of the text.
        print: u64,
        /// How long it is.
        bytes: usize,
        /// How it looks.
        shape: Shape,
    },
}

/// What a half-written text lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Shape {
    pub(super) empty: bool,
    /// Whether it can be read as what it is: as YAML, say.
    pub(super) well_formed: bool,
    pub(super) whole_lines: bool,
}

/// What the folder says of a file. It changes on every save, except on systems with a coarse clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Stamp {
    modified: Option<SystemTime>,
    bytes: u64,
    identity: (u64, u64, i64, i64),
}

/// What the folder said of a file when it was read.
#[derive(Debug)]
pub(super) struct Seen {
    stamp: Option<Stamp>,
    was_young: bool,
}

impl Seen {
    /// A file with this stamp was read.
    pub(super) fn new(stamp: Option<Stamp>) -> Seen {
        let was_young = stamp.as_ref().is_some_and(Stamp::is_young);
        Seen { stamp, was_young }
    }

    /// Whether the file was written since. A stamp that was young when the file was read may not tell: what is in it has
    /// to be looked at once more when it is not.
    pub(super) fn is_dated(&mut self, path: &Path, is_still_in: impl FnOnce() -> bool) -> bool {
        let stamp = Stamp::of(path);
        if self.stamp != stamp {
            return true;
        }
        if !self.was_young {
            return false;
        }
        self.was_young = stamp.is_some_and(|stamp| stamp.is_young());
        !is_still_in()
    }
}

/// Does work on a file, and says so in words where the program fails at it: the other files are still watched.
pub(super) fn spared<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    // What the work was at is dropped, not used again.
    catch_unwind(AssertUnwindSafe(work)).map_err(|_| "sparestrip itself failed on it, please report that".to_string())
}

/// A file as it was read.
#[derive(Debug)]
pub(super) struct Reading {
    /// What is in it.
    pub(super) content: Content,
    /// What the folder said just before.
    pub(super) stamp: Option<Stamp>,
    /// The text.
    pub(super) source: Option<Source>,
    /// The names of the printed texts that it has checked against it.
    pub(super) texts: Vec<String>,
}

impl Reading {
    /// Reads a file, whatever state it is in.
    pub(super) fn of(path: &Path) -> Reading {
        // Taken first: what is written after this makes another stamp.
        let stamp = Stamp::of(path);
        match Source::open(path) {
            Ok(source) => match spared(|| Content::of(&source)) {
                Ok((content, texts)) => Reading { content, stamp, source: Some(source), texts },
                Err(why) => Reading { stamp, ..Reading::none(Content::Unreadable(why)) },
            },
            Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => Reading::gone(),
            Err(error) => Reading { stamp, ..Reading::none(Content::Unreadable(reason(&error))) },
        }
    }

    /// When it was written, if that was so lately that it may be written on.
    pub(super) fn written_just_now(&self) -> Option<Instant> {
        self.stamp.as_ref()?.written_just_now()
    }

    /// A file that is not there.
    pub(super) fn gone() -> Reading {
        Reading::none(Content::Gone)
    }

    fn none(content: Content) -> Reading {
        Reading { content, stamp: None, source: None, texts: Vec::new() }
    }
}

impl Content {
    /// What is in a manuscript or in house rules, and the printed texts that it names.
    fn of(source: &Source) -> (Content, Vec<String>) {
        let manuscript = read(source);
        let text = source.text.as_str();
        let shape = Shape {
            empty: text.trim().is_empty() && source.flaw.is_none(),
            well_formed: !manuscript.mistakes.iter().any(|mistake| matches!(mistake.what, MistakeKind::NotYaml { .. })),
            whole_lines: text.ends_with(['\n', '\r']),
        };
        let texts = manuscript.texts.into_iter().map(|text| text.value).collect();
        (Content::Text { print: fingerprint(source), bytes: text.len(), shape }, texts)
    }

    /// Whether the file still has this text, without a look at what it says.
    pub(super) fn is_still_in(&self, path: &Path) -> bool {
        match (self, Source::open(path)) {
            (Content::Text { print, bytes, .. }, Ok(source)) => {
                *bytes == source.text.len() && *print == fingerprint(&source)
            }
            (Content::Text { .. }, Err(_)) | (_, Ok(_)) => false,
            (Content::Unreadable(why), Err(error)) => *why == reason(&error),
            (Content::Gone, Err(error)) => error.kind() == ErrorKind::NotFound,
        }
    }

    /// Whether this looks like a file that somebody is still writing, after what it was before.
    pub(super) fn is_doubtful_after(&self, before: &Content) -> bool {
        let (before, now) = match (before, self) {
            (Content::Text { shape: before, .. }, Content::Text { shape: now, .. }) => (*before, *now),
            (Content::Text { .. }, _) => return true,
            // Of a file that was not there, or could not be read, the best is expected.
            (_, Content::Text { shape, .. }) => (Shape { empty: false, well_formed: true, whole_lines: false }, *shape),
            (_, Content::Gone | Content::Unreadable(_)) => return self != before,
        };
        (now.empty && !before.empty)
            || (!now.well_formed && before.well_formed)
            || (!now.whole_lines && before.whole_lines)
    }
}

fn fingerprint(source: &Source) -> u64 {
    let mut hasher = DefaultHasher::new();
    (&source.text, source.flaw.is_some()).hash(&mut hasher);
    hasher.finish()
}

impl Stamp {
    /// How coarse a clock may be: two seconds on the disks of cameras and memory sticks.
    const COARSE: Duration = Duration::from_millis(2500);

    /// The stamp of a file, or none where there is no file.
    pub(super) fn of(path: &Path) -> Option<Stamp> {
        let about = path.metadata().ok()?;
        Some(Stamp { modified: about.modified().ok(), bytes: about.len(), identity: identity(&about) })
    }

    /// How long ago the file was written. None where the clocks disagree.
    pub(super) fn age(&self) -> Option<Duration> {
        self.modified?.elapsed().ok()
    }

    /// When the file was written, if that was so lately that it may be written on.
    pub(super) fn written_just_now(&self) -> Option<Instant> {
        let age = self.age().filter(|age| *age < QUIET)?;
        Instant::now().checked_sub(age)
    }

    /// Whether it is so new that a second save could bear the same stamp.
    pub(super) fn is_young(&self) -> bool {
        self.modified.is_none_or(|modified| modified.elapsed().map_or(true, |age| age < Self::COARSE))
    }
}

#[cfg(unix)]
fn identity(about: &std::fs::Metadata) -> (u64, u64, i64, i64) {
    use std::os::unix::fs::MetadataExt;
    (about.dev(), about.ino(), about.ctime(), about.ctime_nsec())
}

#[cfg(not(unix))]
fn identity(_about: &std::fs::Metadata) -> (u64, u64, i64, i64) {
    (0, 0, 0, 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(text: &str) -> Content {
        Content::of(&Source::from_text("a.pattern.yaml", text)).0
    }

    #[test]
    fn a_text_that_lacks_what_it_had_is_doubtful() {
        let before = text("pattern: Harbour Lights\nsizes: { crib: { finished: 36 x 48 } }\n");
        for half in ["", "\n", "pattern: Har", "pattern: Harbour Lights\nsizes: { crib: {\n"] {
            assert!(text(half).is_doubtful_after(&before), "{half:?}");
            assert!(!text(half).is_doubtful_after(&text(half)), "{half:?} after itself");
        }
        assert!(Content::Gone.is_doubtful_after(&before));
        assert!(Content::Unreadable("permission denied".into()).is_doubtful_after(&before));
        assert!(!text("pattern: Harbour\n").is_doubtful_after(&before));
    }

    #[test]
    fn a_new_file_is_doubtful_where_it_is_empty_or_broken() {
        assert!(text("").is_doubtful_after(&Content::Gone));
        assert!(text("sizes: {\n").is_doubtful_after(&Content::Gone));
        assert!(!text("pattern: Harbour Lights").is_doubtful_after(&Content::Gone));
    }

    #[test]
    fn a_failure_of_our_own_is_told_and_survived() {
        let failed: Result<(), String> = spared(|| panic!("meant to be seen in the output of this test"));
        assert_eq!(failed, Err("sparestrip itself failed on it, please report that".to_string()));
        assert_eq!(spared(|| 1), Ok(1));
    }
}
