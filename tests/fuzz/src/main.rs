//! `cargo run --release --manifest-path tests/fuzz/Cargo.toml -- --help`

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

use clap::Parser;
use sparestrip_fuzz::guard::{attempt, note_panics};
use sparestrip_fuzz::pool::Seen;
use sparestrip_fuzz::supervisor::{Order, Total, run};
use sparestrip_fuzz::targets::{TARGETS, Target, named};
use sparestrip_fuzz::worker::{STACK, Task, work};

/// Gives damaged inputs to everything that reads what strangers write, and says what does not hold.
#[derive(Debug, Parser)]
struct Args {
    /// The targets; all where none is named
    targets: Vec<String>,
    /// How long, all targets together
    #[arg(long, value_name = "SECONDS", conflicts_with = "replay")]
    seconds: Option<u64>,
    /// How many inputs, all targets together: 10000000 is the long run
    #[arg(long, value_name = "COUNT", conflicts_with = "replay")]
    inputs: Option<u64>,
    /// Which inputs: the same seed gives the same ones
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// How many processes
    #[arg(long, default_value_t = 1)]
    jobs: u64,
    /// Where inputs that fail are written
    #[arg(long, value_name = "FOLDER", default_value_os_t = Path::new(env!("CARGO_MANIFEST_DIR")).join("failures"))]
    failures: PathBuf,
    /// Give one input to one target: a file that was written for a failure
    #[arg(long, value_name = "FILE")]
    replay: Option<PathBuf>,
    /// List the targets
    #[arg(long)]
    list: bool,
    /// For the program itself: give inputs, and say so in JSON
    #[arg(long, hide = true)]
    worker: bool,
    /// For the program itself: where the input at hand is written
    #[arg(long, hide = true, value_name = "FILE", default_value = "at-hand")]
    slot: PathBuf,
}

/// How long a run takes where nothing else is said.
const SECONDS: u64 = 60;

/// A year: what is given a number of inputs has as long as it takes.
const WITHOUT_END: u64 = 365 * 24 * 60 * 60;

fn main() -> ExitCode {
    let args = Args::parse();
    let mut targets: Vec<&'static Target> = Vec::new();
    for name in &args.targets {
        let Some(target) = named(name) else {
            eprintln!("there is no target {name}; --list shows them");
            return ExitCode::from(2);
        };
        targets.push(target);
    }
    if targets.is_empty() {
        targets.extend(TARGETS);
    }
    if args.list {
        for target in targets {
            println!("{:12} {}", target.name, target.about);
        }
        return ExitCode::SUCCESS;
    }
    if let Some(file) = &args.replay {
        return replay(targets[0], file);
    }
    if args.worker {
        let Args { seed, inputs, seconds, failures, slot, .. } = args;
        let time = Duration::from_secs(seconds.unwrap_or(WITHOUT_END));
        return work(Task { target: targets[0], seed, inputs: inputs.unwrap_or(u64::MAX), time, failures, slot });
    }
    all(&args, &targets)
}

/// Gives a file to a target.
fn replay(target: &Target, file: &Path) -> ExitCode {
    let input = match std::fs::read(file) {
        Ok(input) => input,
        Err(error) => {
            eprintln!("{} cannot be read: {error}", file.display());
            return ExitCode::from(2);
        }
    };
    note_panics();
    let start = Instant::now();
    let attempt = std::thread::scope(|scope| {
        let thread = std::thread::Builder::new().stack_size(STACK);
        let thread = thread.spawn_scoped(scope, || attempt(target, &input, &mut Seen::default()));
        thread.ok().and_then(|thread| thread.join().ok())
    });
    match attempt.unwrap_or(Ok(())) {
        Ok(()) => {
            println!("{}: nothing is wrong ({} ms)", target.name, start.elapsed().as_millis());
            ExitCode::SUCCESS
        }
        Err(failure) => {
            println!("{}: {failure}", target.name);
            ExitCode::FAILURE
        }
    }
}

/// Gives all targets their inputs, one after another.
fn all(args: &Args, targets: &[&'static Target]) -> ExitCode {
    let shares: u64 = targets.iter().map(|target| target.share).sum();
    let seconds = args.seconds.unwrap_or(if args.inputs.is_some() { WITHOUT_END } else { SECONDS });
    let time = Duration::from_secs(seconds) / u32::try_from(targets.len()).unwrap_or(1);
    println!(
        "target             inputs  a second     pool    seen  peak MB  panics  hangs  places  corrections  other"
    );
    let mut whole = Total::default();
    for target in targets {
        let inputs = args.inputs.map_or(u64::MAX, |inputs| (inputs * target.share).div_ceil(shares));
        let order =
            Order { target, seed: args.seed, inputs, time, jobs: args.jobs.max(1), failures: args.failures.clone() };
        let start = Instant::now();
        match run(&order) {
            Ok(total) => {
                tell(target.name, &total, start.elapsed());
                whole.add(&total);
            }
            Err(error) => {
                eprintln!("{}: {error}", target.name);
                return ExitCode::from(2);
            }
        }
    }
    println!("{:14} {:>10} inputs, {} s of the processor", "all", whole.inputs, whole.cpu.as_secs());
    if whole.failures.is_empty() {
        return ExitCode::SUCCESS;
    }
    println!("\nWhat does not hold:");
    for (kind, count) in &whole.failures {
        println!("{count:8}  {kind}");
    }
    println!(
        "\nAn input of each kind is in {}, with the words beside it in a .txt. To see one again:",
        args.failures.display()
    );
    println!("  cargo run --release --manifest-path tests/fuzz/Cargo.toml -- TARGET --replay FILE");
    ExitCode::FAILURE
}

fn tell(name: &str, total: &Total, elapsed: Duration) {
    let rate = u128::from(total.inputs) * 1000 / elapsed.as_millis().max(1);
    let (panics, hangs) = (total.of_kind("panic"), total.of_kind("hang") + total.of_kind("crash"));
    let (places, corrections) = (
        total.of_kind("a place that is none") + total.of_kind("a range that is none"),
        total.of_kind("a correction that"),
    );
    let all: u64 = total.failures.values().sum();
    let other = all - panics - hangs - places - corrections;
    println!(
        "{name:14} {:>10} {rate:>9} {:>8} {:>7} {:>8} {panics:>7} {hangs:>6} {places:>7} {corrections:>12} {other:>6}",
        total.inputs, total.pool, total.seen, total.peak
    );
}
