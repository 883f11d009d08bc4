//! `sparestrip check`

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};
use sparestrip::gather::gather;
use sparestrip::run::{Asked, Run, run, run_on};

use super::formats::{Format, Formats, ReportTo, refused};
use super::manuscript::{is_dash, source};
use super::output::{complain, print_with, show, tell};
use super::{COULD_NOT, CheckArgs};

/// How long work may last before a progress bar is shown.
const PATIENCE: Duration = Duration::from_millis(500);

pub(super) fn check(args: &CheckArgs) -> ExitCode {
    if let Some(why) = refused(args) {
        complain(&why);
        return ExitCode::from(COULD_NOT);
    }
    let formats = Formats::new(args);
    let run = match checked(&args.paths, formats.asked()) {
        Ok(run) => run,
        Err(status) => return status,
    };
    run.problems.iter().for_each(tell);
    let status =
        if formats.write_files(&args.report, &run) { status(&run, args.strict) } else { ExitCode::from(COULD_NOT) };
    // A report that goes to standard output stands there in place of the text.
    if args.report.iter().any(ReportTo::is_printed) {
        return status;
    }
    let report = formats.report(args.format);
    let colours = args.format == Format::Text && formats.text.look.colour;
    if print_with(colours, |out| report.write(&run, out)) { status } else { ExitCode::from(COULD_NOT) }
}

/// Checks the paths, or standard input.
fn checked(paths: &[PathBuf], asked: Asked) -> Result<Run, ExitCode> {
    if paths.iter().any(|path| is_dash(path)) {
        if paths.len() > 1 {
            complain("- stands for standard input and is given alone");
            return Err(ExitCode::from(COULD_NOT));
        }
        if asked.signed {
            complain("standard input has no name to be signed under: give --signed the manuscript's file");
            return Err(ExitCode::from(COULD_NOT));
        }
        return source(Path::new("-")).map(|source| run_on(source, Path::new("."), asked)).map_err(|problem| {
            tell(&problem);
            ExitCode::from(COULD_NOT)
        });
    }
    let gathered = gather(paths);
    if gathered.files.is_empty() && gathered.problems.is_empty() {
        let places = paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        complain(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
        return Err(ExitCode::from(COULD_NOT));
    }
    let progress = Progress::new(gathered.files.len());
    let run = run(gathered, asked, || progress.step());
    progress.finish();
    Ok(run)
}

fn status(run: &Run, strict: bool) -> ExitCode {
    let tally = run.tally();
    if !run.problems.is_empty() {
        ExitCode::from(COULD_NOT)
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
