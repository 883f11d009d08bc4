//! Running the real program, and what every test may ask of its output.

#![allow(dead_code, unreachable_pub, clippy::unwrap_used)] // Each test binary uses a part of it, and a panic is how a test fails.

pub mod fixed;
pub mod lsp;
pub mod rng;
pub mod rows;

use std::ffi::OsStr;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::Value;
use sparestrip::discover::discover;

/// How long the program may take before it is taken to hang. A debug build stays below, on a busy machine too.
const PATIENCE: Duration = Duration::from_secs(120);

/// The memory that the program may use, in KiB: 200 MB, threads and program text included.
const MEMORY: u32 = 200_000;

/// A manuscript with no problems.
pub const GOOD: &str = "\
pattern: Harbour Lanterns
edition: 1
measure: inch
assumes:
  usable_width: 40
  seam: 1/4
  sold_by: 1/8 yd
sizes:
  crib:  { finished: 36 x 48 }
  throw: { finished: 54 x 72 }
  queen: { finished: 90 x 96 }
binding:
  strip_width: 2 1/2
  fold: double
  seam: 1/4
  loft: low
  join: diagonal
  grain: crosswise
  finish: machine
  sewn_first_to: back
  tails: 10
  opening: 12
  requires:
    crib:  { strips: 6, fabric: 1/2 yd }
    throw: { strips: 9, fabric: 3/4 yd }
    queen: { strips: 12, fabric: 7/8 yd }
";

/// The example manuscripts of all folders: right ones, faulty ones, and those about signing off.
pub fn examples() -> Vec<PathBuf> {
    let files = discover(&[Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns")]).files;
    assert!(files.len() >= 13, "{files:?}");
    files
}

/// What a run of the program left.
#[derive(Debug)]
pub struct Ran {
    /// The exit status; `None` where a signal ended it.
    pub status: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// The program, to be run in a folder, with nothing of the tester's own surroundings that would change its output.
pub fn program(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_sparestrip"));
    bare(&mut command, folder);
    command
}

/// The same with its memory bounded.
pub fn bounded_program(folder: &Path) -> Command {
    let mut command = Command::new("sh");
    command.args(["-c", &format!("ulimit -v {MEMORY}; exec \"$0\" \"$@\""), env!("CARGO_BIN_EXE_sparestrip")]);
    // Each thread's own arena would set aside 64 MB of addresses that are never used.
    command.env("MALLOC_ARENA_MAX", "1").env("RAYON_NUM_THREADS", "2");
    bare(&mut command, folder);
    command
}

fn bare(command: &mut Command, folder: &Path) {
    command.current_dir(folder).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE").env_remove("FORCE_COLOR");
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
}

/// Runs the program with these words.
pub fn run<W: AsRef<OsStr>>(folder: &Path, words: &[W]) -> Ran {
    finish(program(folder).args(words), b"")
}

/// Runs the program with these words and this standard input.
pub fn run_with_input<W: AsRef<OsStr>>(folder: &Path, words: &[W], input: &[u8]) -> Ran {
    finish(program(folder).args(words).stdin(Stdio::piped()), input)
}

/// Runs a command to its end, or fails where it takes too long or writes what is no UTF-8.
pub fn finish(command: &mut Command, input: &[u8]) -> Ran {
    let mut child = command.spawn().expect("the program starts");
    let writer = child.stdin.take().map(|mut stdin| {
        let input = input.to_vec();
        // The program may stop reading early, as it does at the largest size of a file.
        thread::spawn(move || drop(stdin.write_all(&input)))
    });
    let out = child.stdout.take().map(read_all);
    let err = child.stderr.take().map(read_all);
    let started = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait().expect("the program can be waited for") {
            break status;
        }
        if started.elapsed() > PATIENCE {
            child.kill().expect("the program can be stopped");
            panic!("still running after {PATIENCE:?}: {command:?}");
        }
        thread::sleep(Duration::from_millis(2));
    };
    if let Some(writer) = writer {
        writer.join().expect("the input is written");
    }
    let text = |gathered: Option<thread::JoinHandle<Vec<u8>>>| {
        let bytes = gathered.map(|thread| thread.join().expect("the output is read")).unwrap_or_default();
        String::from_utf8(bytes).expect("the output is UTF-8")
    };
    Ran { status: status.code(), out: text(out), err: text(err) }
}

fn read_all(mut from: impl Read + Send + 'static) -> thread::JoinHandle<Vec<u8>> {
    thread::spawn(move || {
        let mut bytes = Vec::new();
        from.read_to_end(&mut bytes).expect("the output can be read");
        bytes
    })
}

/// A folder with one file in it.
pub fn folder_with(name: &str, content: impl AsRef<[u8]>) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let file = folder.path().join(name);
    write(&file, content);
    (folder, file)
}

/// Writes a file, and the folders that it is in.
#[allow(clippy::disallowed_methods)] // Nobody else reads a file of a test's own.
pub fn write(file: &Path, content: impl AsRef<[u8]>) {
    std::fs::create_dir_all(file.parent().expect("a folder")).expect("the folder can be made");
    std::fs::write(file, content).expect("the file can be written");
}

impl Ran {
    /// The JSON report.
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error} in {self:?}"))
    }

    /// Fails where a character could steer a terminal, or make a line read as something else.
    pub fn is_tame(&self, what: &str) {
        for (name, text) in [("standard output", &self.out), ("standard error", &self.err)] {
            if let Some(c) = text.chars().find(|c| *c != '\n' && is_wild(*c)) {
                let at = text.find(c).unwrap_or(0);
                let around: String = text[..at].chars().rev().take(60).collect::<Vec<_>>().into_iter().rev().collect();
                panic!("{what}: {c:?} on {name} after {around:?}");
            }
        }
    }
}

/// Control characters (C0, DEL, C1), and the marks that turn the direction of writing or are not seen.
pub fn is_wild(c: char) -> bool {
    let code = u32::from(c);
    code < 0x20
        || (0x7f..=0x9f).contains(&code)
        || [0x00ad, 0x034f, 0x061c, 0x115f, 0x1160, 0x17b4, 0x17b5, 0x3164, 0xfeff, 0xffa0].contains(&code)
        || (0x180b..=0x180f).contains(&code)
        || (0xfe00..=0xfe0d).contains(&code)
        || (0xfff0..=0xfffb).contains(&code)
        || (0x1d173..=0x1d17a).contains(&code)
        || (0xe0000..=0xe0fff).contains(&code)
        || (0x200b..=0x200f).contains(&code)
        || (0x2028..=0x202e).contains(&code)
        || (0x2060..=0x206f).contains(&code)
}

/// The text without the codes that colour it; fails at any other escape.
pub fn without_colours(text: &str) -> String {
    let mut plain = String::new();
    let mut rest = text;
    while let Some(at) = rest.find('\u{1b}') {
        plain.push_str(&rest[..at]);
        let code = &rest[at..];
        let end = code.find('m').unwrap_or_else(|| panic!("an escape that is no colour: {code:?}"));
        let numbers = code[1..end].strip_prefix('[').unwrap_or_else(|| panic!("an escape that is no colour: {code:?}"));
        assert!(numbers.chars().all(|c| c.is_ascii_digit() || c == ';'), "an escape that is no colour: {code:?}");
        rest = &code[end + 1..];
    }
    plain + rest
}
