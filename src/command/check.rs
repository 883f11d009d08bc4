//! `sparestrip check`

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};
use sparestrip::discover::discover;
use sparestrip::run::{Asked, Run, run, run_on};

use super::formats::{Format, Formats, ReportTo, refused};
use super::manuscript::{is_dash, source};
use super::output::{print_error, print_problem, print_report, show};
use super::{CheckArgs, EXIT_FAILURE};

/// How long work may last before a progress bar is shown.
const PATIENCE: Duration = Duration::from_millis(500);

pub(super) fn check(args: &CheckArgs) -> ExitCode {
    if let Some(why) = refused(args) {
        print_error(&why);
        return ExitCode::from(EXIT_FAILURE);
    }
    let formats = Formats::new(args);
    let run = match checked(&args.paths, formats.asked()) {
        Ok(run) => run,
        Err(status) => return status,
    };
    run.problems.iter().for_each(print_problem);
    let status =
        if formats.write_files(&args.report, &run) { status(&run, args.strict) } else { ExitCode::from(EXIT_FAILURE) };
    // A report that goes to standard output stands there in place of the text.
    if args.report.iter().any(ReportTo::is_printed) {
        return status;
    }
    let report = formats.report(args.format);
    let colours = args.format == Format::Text && formats.text.look.colour;
    if print_report(colours, args.format.is_of_commands(), |out| report.write(&run, out)) {
        status
    } else {
        ExitCode::from(EXIT_FAILURE)
    }
}

/// Checks the paths, or standard input.
fn checked(paths: &[PathBuf], asked: Asked) -> Result<Run, ExitCode> {
    if paths.iter().any(|path| is_dash(path)) {
        if paths.len() > 1 {
            print_error("- stands for standard input and is given alone");
            return Err(ExitCode::from(EXIT_FAILURE));
        }
        if asked.signed {
            print_error("standard input has no name to be signed under: give --signed the manuscript's file");
            return Err(ExitCode::from(EXIT_FAILURE));
        }
        return source(Path::new("-")).map(|source| run_on(source, Path::new("."), asked)).map_err(|problem| {
            print_problem(&problem);
            ExitCode::from(EXIT_FAILURE)
        });
    }
    let gathered = discover(paths);
    if gathered.files.is_empty() && gathered.problems.is_empty() {
        let places = paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        print_error(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
        return Err(ExitCode::from(EXIT_FAILURE));
    }
    let progress = Progress::new(gathered.files.len());
    let run = run(gathered, asked, || progress.step());
    progress.finish();
    Ok(run)
}

fn status(run: &Run, strict: bool) -> ExitCode {
    let tally = run.tally();
    if !run.problems.is_empty() {
        ExitCode::from(EXIT_FAILURE)
    } else if tally.errors > 0 || (strict && tally.queries > 0) || run.unaccounted() > 0 {
        ExitCode::from(1)
    } else {
        ExitCode::SUCCESS
    }
}

/// A progress bar on the terminal, once the work has lasted a while and there is more to do.
struct Progress {
    files: u64,
    started: Instant,
    bar: Mutex<(u64, Option<ProgressBar>)>,
}

impl Progress {
    fn new(files: usize) -> Progress {
        Progress { files: files as u64, started: Instant::now(), bar: Mutex::new((0, None)) }
    }

    fn step(&self) {
        // A bar that cannot be drawn is no reason to stop checking.
        let Ok(mut bar) = self.bar.lock() else { return };
        bar.0 += 1;
        let done = bar.0;
        if bar.1.is_none() && done < self.files && self.started.elapsed() > PATIENCE {
            let style = ProgressStyle::with_template("{pos} of {len} manuscripts {wide_bar}");
            let style = style.unwrap_or_else(|_| ProgressStyle::default_bar());
            bar.1 = Some(ProgressBar::new(self.files).with_style(style));
        }
        if let Some(bar) = &bar.1 {
            bar.set_position(done);
        }
    }

    fn finish(&self) {
        if let Ok(bar) = self.bar.lock()
            && let Some(bar) = &bar.1
        {
            bar.finish_and_clear();
        }
    }
}
