//! What the system has told about files, kept until the loop takes it.
//!
//! A map and a bell rather than a channel: a thousand saves of one file are one entry, so that nothing grows while the
//! loop is held up, as it is when the terminal is paused.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use notify::event::{AccessKind, AccessMode, EventKind, ModifyKind, RenameMode};
use notify::{Event, EventHandler};

/// Beyond so many paths it is less work to look at everything.
const MANY: usize = 4096;

/// Where news arrives, from any thread.
#[derive(Clone, Debug, Default)]
pub(super) struct EventQueue(Arc<(Mutex<Events>, Condvar)>);

/// What was heard since the last time.
#[derive(Debug, Default)]
pub(super) struct Events {
    /// The paths where something happened.
    pub(super) paths: BTreeMap<PathBuf, PathEvent>,
    /// Something may have been missed: look at everything.
    pub(super) missed: bool,
    /// The watch is to end.
    pub(super) stop: bool,
}

/// What happened to a path.
#[derive(Clone, Copy, Debug)]
pub(super) struct PathEvent {
    /// When, the last time.
    pub(super) at: Instant,
    /// Whether something by that name went away at some time, so that a folder there may be another one now.
    pub(super) went: bool,
}

impl EventQueue {
    fn lock(&self) -> MutexGuard<'_, Events> {
        // What was heard is whole between any two steps, whatever happened to the thread that held it.
        self.0.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Asks the watch to end.
    pub(super) fn stop(&self) {
        self.lock().stop = true;
        self.0.1.notify_all();
    }

    /// Waits for news, at most until a moment, and takes it.
    pub(super) fn wait(&self, until: Instant) -> Events {
        let mut heard = self.lock();
        while heard.paths.is_empty() && !heard.missed && !heard.stop {
            let left = until.saturating_duration_since(Instant::now());
            if left == Duration::ZERO {
                break;
            }
            heard = self.0.1.wait_timeout(heard, left).unwrap_or_else(PoisonError::into_inner).0;
        }
        let stop = heard.stop;
        let taken = std::mem::take(&mut *heard);
        heard.stop = stop;
        taken
    }
}

impl EventHandler for EventQueue {
    fn handle_event(&mut self, event: notify::Result<Event>) {
        let mut heard = self.lock();
        match event {
            Ok(event) if event.need_rescan() => heard.missed = true,
            Ok(event) if is_reading(event.kind) => return,
            Ok(event) => {
                let (at, went) = (Instant::now(), goes_away(event.kind));
                for path in event.paths {
                    let news = heard.paths.entry(path).or_insert(PathEvent { at, went });
                    *news = PathEvent { at, went: news.went || went };
                }
                if heard.paths.len() > MANY {
                    heard.paths.clear();
                    heard.missed = true;
                }
            }
            Err(_) => heard.missed = true,
        }
        drop(heard);
        self.0.1.notify_all();
    }
}

/// Whether nothing changed. Our own reading is told as well, and must not wake us.
fn is_reading(kind: EventKind) -> bool {
    matches!(kind, EventKind::Access(access) if access != AccessKind::Close(AccessMode::Write))
}

fn goes_away(kind: EventKind) -> bool {
    use RenameMode::{Any, Both, From};
    matches!(kind, EventKind::Remove(_) | EventKind::Modify(ModifyKind::Name(From | Both | Any)))
}
