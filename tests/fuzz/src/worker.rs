//! One process that gives inputs to one target. It says what it did on standard output, in lines of JSON.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Write};
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::atomic::Ordering;
use std::thread;
use std::time::{Duration, Instant};

use rustix::time::{ClockId, clock_gettime};
use serde_json::json;

use crate::corpus::seeds;
use crate::dictionary::Dictionary;
use crate::guard::{BEGUN, Failure, MAX_CPU_TIME, attempt, note_panics, noted};
use crate::minimize::minimize;
use crate::mutate::mutate;
use crate::pool::{Pool, Seen};
use crate::rng::{Rng, hash};
use crate::targets::Target;

/// The exit status where an input took too long.
pub const HANG: u8 = 3;

/// The stack that the program's own threads have: what needs more ends the process.
pub const STACK: usize = 2 * 1024 * 1024;

/// What a worker is to do.
#[derive(Clone, Debug)]
pub struct Task {
    /// What is given inputs.
    pub target: &'static Target,
    /// Which inputs.
    pub seed: u64,
    /// How many at most.
    pub inputs: u64,
    /// For how long at most.
    pub time: Duration,
    /// Where inputs that fail are written.
    pub failures: PathBuf,
    /// Where the input at hand is written, for whoever finds that the process has ended over it.
    pub slot: PathBuf,
}

/// Does it.
pub fn work(task: Task) -> ExitCode {
    note_panics();
    thread::spawn(watch);
    let worker = thread::Builder::new().stack_size(STACK).spawn(move || give_inputs(&task));
    match worker.map(thread::JoinHandle::join) {
        Ok(Ok(Ok(()))) => ExitCode::SUCCESS,
        other => {
            eprintln!("a worker could not go on: {other:?} {:?}", noted());
            ExitCode::FAILURE
        }
    }
}

/// Ends the process where an input takes too long. Time of the processor counts: other programs may be busy.
fn watch() {
    let (mut begun, mut since) = (0, cpu_time());
    loop {
        thread::sleep(Duration::from_millis(500));
        let now = cpu_time();
        if BEGUN.load(Ordering::Relaxed) != begun {
            (begun, since) = (BEGUN.load(Ordering::Relaxed), now);
        } else if begun > 0 && now.saturating_sub(since) > MAX_CPU_TIME {
            std::process::exit(i32::from(HANG));
        }
    }
}

fn cpu_time() -> Duration {
    let time = clock_gettime(ClockId::ProcessCPUTime);
    Duration::new(time.tv_sec.unsigned_abs(), u32::try_from(time.tv_nsec).unwrap_or_default())
}

fn give_inputs(task: &Task) -> io::Result<()> {
    // Everything in one thread: an input is over when its target is.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build_global();
    pool.map_err(io::Error::other)?;
    let slot = File::create(&task.slot)?;
    let dictionary = Dictionary::of_format();
    let kind = task.target.kind;
    let seeds = seeds(task.target.name, kind);
    let (first, mut pool) = (seeds.clone(), Pool::new(seeds));
    let mut rng = Rng::new(hash(format!("{} {}", task.target.name, task.seed).as_bytes()));
    let mut failures = Failures { task, counts: BTreeMap::new() };
    let (start, mut told) = (Instant::now(), Instant::now());
    for number in 0..task.inputs {
        let input = match usize::try_from(number).ok().and_then(|number| first.get(number)) {
            Some(seed) => seed.clone(),
            None => {
                let (one, other) = (pool.pick(&mut rng), pool.pick(&mut rng));
                mutate(&mut rng, &dictionary, kind, one, other)
            }
        };
        keep_at_hand(&slot, &input)?;
        let mut seen = Seen::default();
        match attempt(task.target, &input, &mut seen) {
            Ok(()) => pool.add(&input, seen, &mut rng),
            Err(failure) => failures.add(&input, &failure)?,
        }
        let is_last = number + 1 == task.inputs || start.elapsed() > task.time;
        if is_last || (number % 64 == 0 && told.elapsed() > Duration::from_secs(2)) {
            told = Instant::now();
            let line = json!({
                "inputs": number + 1, "pool": pool.len(), "seen": pool.seen(), "cpu_ms": cpu_time().as_millis(),
                "failures": failures.counts, "peak_mb": peak(),
            });
            writeln!(io::stdout().lock(), "{line}")?;
        }
        if is_last {
            break;
        }
    }
    Ok(())
}

/// Writes the input where it is found if the process ends: its length first.
fn keep_at_hand(slot: &File, input: &[u8]) -> io::Result<()> {
    let mut bytes = (input.len() as u64).to_le_bytes().to_vec();
    bytes.extend_from_slice(input);
    slot.write_all_at(&bytes, 0)
}

/// The input that a process had at hand.
pub fn at_hand(slot: &Path) -> Vec<u8> {
    let bytes = fs::read(slot).unwrap_or_default();
    let Some((length, rest)) = bytes.split_first_chunk::<8>() else { return Vec::new() };
    let length = usize::try_from(u64::from_le_bytes(*length)).unwrap_or_default();
    rest.get(..length).unwrap_or_default().to_vec()
}

/// The inputs that failed: of each kind the first is written down.
struct Failures<'t> {
    task: &'t Task,
    counts: BTreeMap<String, u64>,
}

impl Failures<'_> {
    fn add(&mut self, input: &[u8], failure: &Failure) -> io::Result<()> {
        let count = self.counts.entry(failure.kind.clone()).or_default();
        *count += 1;
        if *count > 1 {
            return Ok(());
        }
        let shorter = minimize(self.task.target, input, &failure.kind);
        let again = attempt(self.task.target, &shorter, &mut Seen::default());
        let told = again.err().unwrap_or_else(|| failure.clone());
        write_failure(self.task, &shorter, &told.to_string()).map(drop)
    }
}

/// Writes an input that failed, and beside it what is wrong with it.
///
/// # Errors
/// Where the folder cannot be written.
pub fn write_failure(task: &Task, input: &[u8], why: &str) -> io::Result<PathBuf> {
    let kind = why.lines().next().unwrap_or_default();
    let name = format!("{}-{:016x}", task.target.name, hash(kind.as_bytes()));
    fs::create_dir_all(&task.failures)?;
    let path = task.failures.join(&name);
    fs::write(&path, input)?;
    fs::write(path.with_extension("txt"), format!("seed {}\n{why}\n", task.seed))?;
    Ok(path)
}

/// The most memory that the process had, in MB; nothing where the system does not say.
fn peak() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.trim().trim_end_matches(" kB").parse::<u64>().ok());
    kilobytes.unwrap_or_default() / 1024
}
