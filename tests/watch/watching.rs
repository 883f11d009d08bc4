//! A watch that runs, and what it prints, with the time of each report.

use std::fmt::Write as _;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};

use tempfile::TempDir;

/// A report comes within this of the last write.
pub(crate) const LIMIT: Duration = Duration::from_millis(300);

/// What is half-written for longer than this may be believed: 80 ms until it is quiet, and 120 ms more.
const HALF_WRITTEN: Duration = Duration::from_millis(190);

/// How long to wait for a report before the test has failed.
const PATIENCE: Duration = Duration::from_secs(10);

/// The longest time after which a report could still come: what is settled, what is held back, and some.
const ALL_SAID: Duration = Duration::from_millis(400);

/// One report: everything up to the total.
#[derive(Debug)]
pub(crate) struct Report {
    /// The lines, the total being the last.
    pub(crate) lines: Vec<String>,
    /// When the total was read.
    pub(crate) at: Instant,
}

impl Report {
    /// The lines that say what became of files: all but drawings and the total.
    pub(crate) fn has(&self, line: &str) -> bool {
        self.lines.iter().any(|known| known == line)
    }

    /// Asserts that it ends so.
    #[track_caller]
    pub(crate) fn ends(&self, lines: &[&str]) -> &Report {
        let start = self.lines.len().saturating_sub(lines.len());
        assert_eq!(self.lines[start..], *lines, "{self:#?}");
        self
    }

    /// Asserts that some line has these words in it.
    #[track_caller]
    pub(crate) fn says(&self, words: &str) -> &Report {
        assert!(self.lines.iter().any(|line| line.contains(words)), "no `{words}` in {self:#?}");
        self
    }

    /// Asserts that no line has these words in it.
    #[track_caller]
    pub(crate) fn is_silent_on(&self, words: &str) -> &Report {
        assert!(!self.lines.iter().any(|line| line.contains(words)), "`{words}` in {self:#?}");
        self
    }
}

/// The program, watching a folder of its own.
pub(crate) struct Watching {
    /// The folder that it runs in.
    pub(crate) folder: TempDir,
    child: Child,
    lines: Receiver<(Instant, String)>,
    /// What it said at the start.
    pub(crate) first: Report,
    sentinels: (PathBuf, usize),
}

impl Watching {
    /// Starts in a folder that `prepare` fills.
    pub(crate) fn new(args: &[&str], prepare: impl FnOnce(&Path)) -> Watching {
        let folder = tempfile::tempdir().unwrap();
        prepare(folder.path());
        let mut child = Command::new(env!("CARGO_BIN_EXE_sparestrip"))
            .arg("watch")
            .args(args)
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        let (sender, lines) = channel();
        thread::spawn(move || {
            for line in out.lines().map_while(Result::ok) {
                if sender.send((Instant::now(), line)).is_err() {
                    break;
                }
            }
        });
        let first = Report { lines: Vec::new(), at: Instant::now() };
        let root = args.iter().map(|arg| folder.path().join(arg)).find(|path| path.is_dir());
        let sentinels = (root.unwrap_or_else(|| folder.path().to_path_buf()).join("sentinels"), 0);
        let mut watching = Watching { folder, child, lines, first, sentinels };
        watching.first = watching.until(|line| line.starts_with("Watching "));
        watching
    }

    /// A path in the folder.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The next report.
    #[track_caller]
    pub(crate) fn report(&mut self) -> Report {
        self.until(is_total)
    }

    #[track_caller]
    fn until(&mut self, is_last: impl Fn(&str) -> bool) -> Report {
        let mut lines = Vec::new();
        loop {
            match self.lines.recv_timeout(PATIENCE) {
                Ok((_, line)) if line.is_empty() && lines.is_empty() => {}
                Ok((at, line)) => {
                    let last = is_last(&line);
                    lines.push(line);
                    if last {
                        return Report { lines, at };
                    }
                }
                Err(error) => panic!("no report ({error}) after {lines:#?}"),
            }
        }
    }

    /// Asserts that nothing more is reported. That something does not come takes time to see; then another
    /// manuscript is saved, and its report has to be the next one.
    #[track_caller]
    pub(crate) fn says_no_more(&mut self) {
        thread::sleep(ALL_SAID);
        self.sentinels.1 += 1;
        let name = format!("{}.pattern.yaml", self.sentinels.1);
        std::fs::create_dir_all(&self.sentinels.0).unwrap();
        std::fs::write(self.sentinels.0.join(&name), manuscript(6)).unwrap();
        let report = self.report();
        let [line, _total] = &report.lines[..] else { panic!("more was said: {report:#?}") };
        assert!(line.ends_with(&format!("sentinels/{name}, new here: no problems")), "more was said: {report:#?}");
    }

    /// Whether it still runs.
    pub(crate) fn runs(&mut self) -> bool {
        self.child.try_wait().unwrap().is_none()
    }

    /// Sends a signal.
    pub(crate) fn signal(&self, signal: &str) {
        let sent = Command::new("kill").args([signal, &self.child.id().to_string()]).status().unwrap();
        assert!(sent.success());
    }

    /// Sends a signal, and waits for the end.
    pub(crate) fn end_by(&mut self, signal: &str) -> ExitStatus {
        self.signal(signal);
        self.wait()
    }

    /// Waits for the end.
    pub(crate) fn wait(&mut self) -> ExitStatus {
        let started = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return status;
            }
            assert!(started.elapsed() < PATIENCE, "it does not end");
            thread::sleep(Duration::from_millis(5));
        }
    }
}

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn is_total(line: &str) -> bool {
    if line == "no manuscripts" {
        return true;
    }
    let mut words = line.split(' ');
    words.next().is_some_and(|number| number.parse::<usize>().is_ok())
        && words.next().is_some_and(|word| matches!(word, "manuscript:" | "manuscripts:"))
}

/// Longer than any report may take: for a scenario that could not be played as it is meant.
pub(crate) const SPOILT: Duration = Duration::MAX;

/// Runs a scenario that tells how long its report took; again where it took too long, for a machine may be busy.
/// What is reported has to be right every time.
#[track_caller]
pub(crate) fn in_time(limit: Duration, scenario: impl Fn() -> Duration) {
    let mut took = Vec::new();
    for _ in 0..3 {
        let time = scenario();
        if time <= limit {
            return;
        }
        took.push(time);
    }
    panic!("the reports took {took:?} where {limit:?} are allowed");
}

/// Does something by halves with a gap between, and tells whether the gap was as short as it should be: a machine may
/// be so busy that the second half comes too late to be waited for.
pub(crate) fn by_halves(gap: u64, first: impl FnOnce(), second: impl FnOnce()) -> bool {
    let started = Instant::now();
    first();
    thread::sleep(Duration::from_millis(gap));
    second();
    started.elapsed() < HALF_WRITTEN
}

/// A manuscript that asks for so many strips.
///
/// 36 x 48 in: 168 in round, 2 in at the corners, 20 in of tails less the opening of 12 in: 178 in. Five strips of
/// 40 in joined on the slant at 2 1/2 in make 190 in, four make 152 1/2 in. With one to spare 6 are to be printed:
/// 5 are `spare-strip`, 4 and fewer `binding-short`.
pub(crate) fn manuscript(strips: u32) -> String {
    with_width("2 1/2", strips)
}

/// The same, with strips of another width. At 1 in, folded double, there is nothing left to turn over a seam of
/// 1/4 in: `fold-short`.
pub(crate) fn with_width(width: &str, strips: u32) -> String {
    let mut text = String::from("pattern: Harbour Lights\nmeasure: inch\nassumes: { usable_width: 40 }\n");
    let method = "fold: double, seam: 1/4, loft: low, join: diagonal, grain: crosswise, tails: 10, opening: 12";
    writeln!(text, "sizes:\n  crib: {{ finished: 36 x 48 }}\nbinding:").unwrap();
    for entry in method.split(", ") {
        writeln!(text, "  {entry}").unwrap();
    }
    writeln!(text, "  strip_width: {width}\n  requires:\n    crib: {{ strips: {strips} }}").unwrap();
    text
}
