//! Starting workers, beginning again where one ends over an input, and telling what came of it.

use std::collections::BTreeMap;
use std::io::{self, BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::Value;

use crate::targets::Target;
use crate::worker::{HANG, Task, at_hand, write_failure};

/// How often a worker is started again.
const MAX_RESTARTS: u64 = 12;

/// What is to be done with one target.
#[derive(Clone, Debug)]
pub struct Order {
    /// The target.
    pub target: &'static Target,
    /// Which inputs.
    pub seed: u64,
    /// How many in all, at most.
    pub inputs: u64,
    /// For how long at most.
    pub time: Duration,
    /// How many processes share them.
    pub jobs: u64,
    /// Where inputs that fail are written.
    pub failures: PathBuf,
}

/// What came of it.
#[derive(Clone, Debug, Default)]
pub struct Total {
    /// How many inputs were given.
    pub inputs: u64,
    /// How many failed, by what is wrong.
    pub failures: BTreeMap<String, u64>,
    /// How many inputs the largest pool has.
    pub pool: u64,
    /// How many different things were seen, by the worker that saw the most.
    pub seen: u64,
    /// The time that the processors took.
    pub cpu: Duration,
    /// The most memory that a worker had, in MB.
    pub peak: u64,
}

impl Total {
    /// Adds what another worker did.
    pub fn add(&mut self, other: &Total) {
        self.inputs += other.inputs;
        for (kind, count) in &other.failures {
            *self.failures.entry(kind.clone()).or_default() += count;
        }
        self.pool = self.pool.max(other.pool);
        self.seen = self.seen.max(other.seen);
        self.cpu += other.cpu;
        self.peak = self.peak.max(other.peak);
    }

    /// How many failures are of a kind that begins so.
    pub fn of_kind(&self, start: &str) -> u64 {
        self.failures.iter().filter(|(kind, _)| kind.starts_with(start)).map(|(_, count)| count).sum()
    }
}

/// Gives one target its inputs.
///
/// # Errors
/// Where a worker cannot be started, or a failure cannot be written.
pub fn run(order: &Order) -> io::Result<Total> {
    let mut total = Total::default();
    let results: Vec<io::Result<Total>> = thread::scope(|scope| {
        let threads: Vec<_> = (0..order.jobs).map(|job| scope.spawn(move || one_job(order, job))).collect();
        threads.into_iter().map(|thread| thread.join().unwrap_or_else(|_| Err(io::Error::other("a panic")))).collect()
    });
    for result in results {
        total.add(&result?);
    }
    Ok(total)
}

/// One worker, started again where it ends over an input.
fn one_job(order: &Order, job: u64) -> io::Result<Total> {
    let mut total = Total::default();
    let start = Instant::now();
    let folder = tempfile::tempdir()?;
    let share = order.inputs / order.jobs + u64::from(job < order.inputs % order.jobs);
    for restart in 0..=MAX_RESTARTS {
        let task = Task {
            target: order.target,
            seed: order.seed + job * 1_000_000 + restart * 1000,
            inputs: share - total.inputs.min(share),
            time: order.time.saturating_sub(start.elapsed()),
            failures: order.failures.clone(),
            slot: folder.path().join("at-hand"),
        };
        if task.inputs == 0 || task.time.is_zero() {
            break;
        }
        let (done, status) = one_worker(&task)?;
        total.add(&done);
        let Some(why) = status else { break };
        let input = at_hand(&task.slot);
        write_failure(&task, &input, &why)?;
        *total.failures.entry(why).or_default() += 1;
    }
    Ok(total)
}

/// Starts a worker and waits for it: what it did, and why it did not come to its end.
fn one_worker(task: &Task) -> io::Result<(Total, Option<String>)> {
    let mut command = Command::new(std::env::current_exe()?);
    command.args(["--worker", task.target.name, "--seed", &task.seed.to_string()]);
    command.args(["--inputs", &task.inputs.to_string(), "--seconds", &task.time.as_secs().max(1).to_string()]);
    command.arg("--failures").arg(&task.failures).arg("--slot").arg(&task.slot);
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::piped()).spawn()?;
    let mut last = Value::Null;
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).lines() {
            last = serde_json::from_str(&line?).unwrap_or(last);
        }
    }
    let status = child.wait()?;
    let why = match status.code() {
        Some(0) => None,
        Some(code) if code == i32::from(HANG) => Some("hang".to_string()),
        Some(code) => return Err(io::Error::other(format!("a worker ended with status {code}"))),
        None => Some(format!("crash: {status}")),
    };
    let number = |name: &str| last[name].as_u64().unwrap_or_default();
    let failures = last["failures"].as_object().cloned().unwrap_or_default();
    let total = Total {
        inputs: number("inputs"),
        failures: failures.into_iter().map(|(kind, count)| (kind, count.as_u64().unwrap_or_default())).collect(),
        pool: number("pool"),
        seen: number("seen"),
        cpu: Duration::from_millis(number("cpu_ms")),
        peak: number("peak_mb"),
    };
    Ok((total, why))
}
