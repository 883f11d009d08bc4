//! Reading manuscripts again on every save, and telling what the save changed.
//!
//! The system tells that something happened (`watcher`, `events`); when that has been quiet for a moment (`debounce`)
//! the file is read, and what is in it decides, never the event: a text that is what it was is not worth a word, and
//! one that looks half-written is read once more before it is believed (`known`). Now and then everything is looked
//! at without being told (`look`): a system may lose events, and folders on other computers send none.

mod compare;
mod debounce;
mod events;
pub(crate) mod house_rules_cache;
mod printer;
mod recheck;
mod rescan;
pub(crate) mod sign_offs;
mod snapshot;
mod texts;
mod watcher;

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use rayon::prelude::*;

use crate::check::Tally;
use crate::discover::{Problem, folder_of};
use crate::quantity::Count;
use crate::report::Text;
use crate::run::Checked;
use debounce::{Debounce, Target};
use events::EventQueue;
use house_rules_cache::HouseRulesCache;
use printer::{Change, Printer, Total, name};
use recheck::FileSnapshot;
use sign_offs::SignOffsCache;
use snapshot::Content;
use texts::TextSnapshot;
use watcher::FolderWatcher;

/// How to watch.
#[derive(Clone, Copy, Debug, Default)]
pub struct Options {
    /// How the report is written.
    pub text: Text,
    /// Look at the files again and again, and do not wait to be told by the system.
    pub poll: bool,
    /// After each save tell everything that stands, a line each, for a problem matcher.
    pub lines: bool,
    /// Tell what is not as it was signed.
    pub signed: bool,
    /// How many lines a report may have.
    pub most: Option<usize>,
}

/// Ends a watch, from any thread.
#[derive(Clone, Debug, Default)]
pub struct Stop(EventQueue);

impl Stop {
    /// Asks the watch to end.
    pub fn stop(&self) {
        self.0.stop();
    }
}

/// Why a watch could not go on.
#[derive(Debug)]
pub enum Failure {
    /// There is nothing at any of the paths.
    NothingThere,
    /// The report could not be written.
    Output(io::Error),
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        Failure::Output(error)
    }
}

/// Checks the manuscripts at paths, then again what is saved, until it is stopped.
///
/// # Errors
/// Where there is nothing at the paths, or nobody to tell. A bad file is no reason.
pub fn watch(paths: &[PathBuf], options: &Options, out: &mut dyn Write, stop: &Stop) -> Result<(), Failure> {
    if !paths.iter().any(|path| path.exists()) {
        return Err(Failure::NothingThere);
    }
    let mut teller = Printer::new(options.text, options.most, out);
    let mut watch = Watch::new(paths, options, stop.0.clone());
    watch.start(&mut teller)?;
    watch.go_on(&mut teller)?;
    Ok(())
}

/// What is watched, and what is known of it.
struct Watch {
    roots: Vec<PathBuf>,
    /// The whole paths of the roots, as given and with links resolved: what happens to a folder on the way matters.
    stems: Vec<PathBuf>,
    events: EventQueue,
    watcher: FolderWatcher,
    debounce: Debounce,
    houses: HouseRulesCache,
    sign_offs: SignOffsCache,
    /// Whether everything is told after each save, a line each.
    lines: bool,
    files: BTreeMap<PathBuf, FileSnapshot>,
    /// The printed texts that the manuscripts name.
    texts: BTreeMap<PathBuf, TextSnapshot>,
    /// The manuscripts that were found the last time everything was looked at.
    wanted: BTreeSet<PathBuf>,
    /// What an event at a path is about.
    meaning: BTreeMap<PathBuf, Target>,
    problems: BTreeSet<Problem>,
    /// Lines that are still to be printed.
    unsaid: Vec<String>,
    next_look: Instant,
    looked: (Instant, Duration),
}

impl Watch {
    fn new(paths: &[PathBuf], options: &Options, events: EventQueue) -> Watch {
        let whole = paths.iter().filter_map(|path| std::path::absolute(path).ok());
        let real = paths.iter().filter_map(|path| path.canonicalize().ok());
        let mut watch = Watch {
            roots: paths.to_vec(),
            stems: whole.chain(real).collect(),
            events,
            watcher: FolderWatcher::closed(),
            debounce: Debounce::default(),
            houses: HouseRulesCache::default(),
            sign_offs: SignOffsCache::new(options.signed),
            lines: options.lines,
            files: BTreeMap::new(),
            texts: BTreeMap::new(),
            wanted: BTreeSet::new(),
            meaning: BTreeMap::new(),
            problems: BTreeSet::new(),
            unsaid: Vec::new(),
            next_look: Instant::now(),
            looked: (Instant::now(), Duration::ZERO),
        };
        if !options.poll {
            match FolderWatcher::open(watch.events.clone()) {
                Ok(watcher) => watch.watcher = watcher,
                Err(why) => watch.report_polling(&why),
            }
        }
        watch
    }

    fn report_polling(&mut self, why: &str) {
        self.unsaid
            .push(format!("The system cannot tell of saves here ({why}), so the files are looked at all the time."));
    }

    /// Checks everything once.
    fn start(&mut self, teller: &mut Printer<'_>) -> io::Result<()> {
        self.rescan();
        self.debounce = Debounce::default();
        self.houses = HouseRulesCache::of(&self.folders());
        let (houses, sign_offs) = (&self.houses, &self.sign_offs);
        let read =
            |path: &PathBuf| (path.clone(), FileSnapshot::read(path, &houses.settings(folder_of(path)), sign_offs));
        let read: Vec<(PathBuf, FileSnapshot)> = self.wanted.par_iter().map(read).collect();
        let mut read_texts = Vec::new();
        for (path, mut known) in read {
            match &known.content {
                Content::Gone => {
                    self.unsaid.push(format!("{} is not there yet", name(&path)));
                    continue;
                }
                Content::Unreadable(why) => self.unsaid.push(format!("{} cannot be read: {why}", name(&path))),
                Content::Text { .. } => {}
            }
            read_texts.append(&mut known.read_texts);
            self.files.insert(path, known);
        }
        self.know_texts(read_texts);
        if self.lines {
            self.tell_lines(teller)?;
            teller.line(&self.watching())?;
            return teller.flush();
        }
        teller.findings(&self.in_order())?;
        self.unsaid.drain(..).try_for_each(|line| teller.line(&line))?;
        let total = self.total();
        teller.total(total)?;
        teller.line(&self.watching())?;
        teller.end()
    }

    fn watching(&self) -> String {
        format!("Watching {}. Press Ctrl-C to end.", Count(self.files.len() as u64).of("manuscript"))
    }

    /// Tells everything that stands, a line each, between a line that says that it begins and the total: whoever reads
    /// them for an editor forgets at the first what was told before.
    fn tell_lines(&mut self, teller: &mut Printer<'_>) -> io::Result<()> {
        teller.line(&format!("Checked {}:", Count(self.files.len() as u64).of("manuscript")))?;
        self.in_order().into_iter().try_for_each(|file| teller.lines(file))?;
        self.unsaid.drain(..).try_for_each(|line| teller.line(&line))?;
        teller.total(self.total())?;
        teller.flush()
    }

    /// Everything that something may have been found in, by path.
    fn in_order(&self) -> Vec<&Checked> {
        let mut checked: Vec<&Checked> = self.checked().collect();
        checked.sort_by(|a, b| a.path.cmp(&b.path));
        checked
    }

    /// Waits for news and tells what they changed, until it is stopped.
    fn go_on(&mut self, teller: &mut Printer<'_>) -> io::Result<()> {
        loop {
            let wake = self.debounce.next().map_or(self.next_look, |debounce| debounce.min(self.next_look));
            let heard = self.events.wait(wake);
            if heard.stop {
                return Ok(());
            }
            self.take(heard);
            if Instant::now() >= self.next_look {
                self.rescan();
            }
            let changes = self.settle(Instant::now());
            if changes.is_empty() && self.unsaid.is_empty() {
                continue;
            }
            if self.lines {
                self.tell_lines(teller)?;
                continue;
            }
            for change in &changes {
                teller.change(change, self.checked_of(change))?;
            }
            self.unsaid.drain(..).try_for_each(|line| teller.line(&line))?;
            teller.total(self.total())?;
            teller.end()?;
        }
    }

    /// Everything that something may have been found in.
    fn checked(&self) -> impl Iterator<Item = &Checked> {
        let files = self.files.values().flat_map(|known| known.checked.iter().chain(&known.printed));
        files.chain(self.houses.all_checked())
    }

    /// What was found in the file that changed.
    fn checked_of(&self, change: &Change) -> Option<&Checked> {
        if let Some(text) = &change.text {
            return self.files.get(&text.manuscript)?.printed.iter().find(|file| file.path == change.path);
        }
        let file = self.files.get(&change.path).and_then(|known| known.checked.as_ref());
        file.or_else(|| self.houses.checked(&change.path))
    }

    fn total(&self) -> Total {
        let mut tally = Tally::default();
        self.checked().for_each(|file| tally.add(Tally::of(&file.outcome)));
        let following = self.checked().map(Checked::following).sum();
        let manuscripts = self.files.values().filter(|known| known.checked.is_some()).count();
        let unreadable = self.files.len() - manuscripts + self.problems.len();
        Total { manuscripts, unreadable, tally, following }
    }

    /// The folders with manuscripts in them.
    fn folders(&self) -> BTreeSet<PathBuf> {
        self.wanted.iter().map(|file| folder_of(file)).map(Path::to_path_buf).collect()
    }
}
