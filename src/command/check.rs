//! `sparestrip check`

use std::io;
use std::path::Path;
use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};
use sparestrip::discover::{Discovered, Problem, discover};
use sparestrip::manuscript::Source;
use sparestrip::run::{Asked, Checked, Total, run_each, run_on};

use super::formats::{Format, Formats, ReportTo, refused};
use super::manuscript::{in_place_of_texts, is_dash, named_alone, source};
use super::output::{print_error, print_problem, print_report, show};
use super::signed_as::{Changes, Paper, print_paper};
use super::{CheckArgs, EXIT_FAILURE};

/// How long work may last before a progress bar is shown.
const PATIENCE: Duration = Duration::from_millis(500);

pub(super) fn check(args: &CheckArgs) -> ExitCode {
    if let Some(why) = refused(args) {
        print_error(&why);
        return ExitCode::from(EXIT_FAILURE);
    }
    let formats = Formats::new(args);
    let manuscripts = match manuscripts(args, formats.asked()) {
        Ok(manuscripts) => manuscripts,
        Err(status) => return status,
    };
    let mut files = formats.files(&args.report);
    // A report that goes to standard output stands there in place of the text.
    let printed = args.report.iter().find(|report| report.is_printed()).map_or(args.format, ReportTo::format);
    let in_place = args.report.iter().any(ReportTo::is_printed);
    let mut report = formats.printed(printed, in_place);
    let colours = printed == Format::Text && !in_place && formats.text.look.colour;
    let mut status = ExitCode::from(EXIT_FAILURE);
    let was_printed = print_report(colours, printed.is_of_commands(), |out| {
        let (mut total, mut changes, mut reading) = (Total::default(), Changes::default(), Ok(()));
        let told = manuscripts.check_each(formats.asked(), printed == Format::Text, |file| {
            total.add(&file);
            if args.signed_as.is_some() {
                changes.add(&file);
            }
            for report in &mut files {
                report.file(&file);
            }
            // Whoever reads may go away; the other reports and the exit status are as they would be.
            if reading.is_ok() {
                reading = report.file(&file, out);
            }
            Ok(())
        });
        let (manuscripts, problems) = told?;
        let total = Total { manuscripts, problems: &problems, ..total };
        problems.iter().for_each(print_problem);
        let paper = args.signed_as.map(|paper| print_paper(paper, &args.paths, &changes));
        let mut written = true;
        for report in files {
            written &= report.write(&total);
        }
        status = match paper {
            _ if !written => ExitCode::from(EXIT_FAILURE),
            Some(Paper::Ambiguous) => ExitCode::from(EXIT_FAILURE),
            Some(Paper::Unsigned) if problems.is_empty() => ExitCode::from(1),
            _ => status_of(&total, args.strict),
        };
        reading.and_then(|()| report.finish(&total, out))
    });
    if was_printed { status } else { ExitCode::from(EXIT_FAILURE) }
}

/// What is to be checked.
enum Manuscripts {
    /// Files on disk.
    Gathered(Discovered),
    /// A text from standard input.
    Text(Source),
}

/// The manuscripts of the paths, or standard input.
fn manuscripts(args: &CheckArgs, asked: Asked) -> Result<Manuscripts, ExitCode> {
    let paths = &args.paths;
    if paths.iter().any(|path| is_dash(path)) {
        if paths.len() > 1 {
            print_error("- stands for standard input and is given alone");
            return Err(ExitCode::from(EXIT_FAILURE));
        }
        if asked.signed {
            print_error("standard input has no name to be signed under: give --signed the manuscript's file");
            return Err(ExitCode::from(EXIT_FAILURE));
        }
        return source(Path::new("-")).map(Manuscripts::Text).map_err(|problem| {
            print_problem(&problem);
            ExitCode::from(EXIT_FAILURE)
        });
    }
    let paths = &if args.files.only_named {
        named_alone(paths)
    } else {
        in_place_of_texts(paths).map_err(|problem| {
            print_problem(&problem);
            ExitCode::from(EXIT_FAILURE)
        })?
    };
    if args.files.only_named && paths.is_empty() {
        return Err(ExitCode::SUCCESS);
    }
    let gathered = discover(paths);
    if gathered.files.is_empty() && gathered.problems.is_empty() {
        let places = paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        print_error(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
        return Err(ExitCode::from(EXIT_FAILURE));
    }
    Ok(Manuscripts::Gathered(gathered))
}

impl Manuscripts {
    /// Checks each, and hands on what was found. How many there were, and what could not be read.
    fn check_each(
        self,
        asked: Asked,
        shows_progress: bool,
        mut each: impl FnMut(Checked) -> io::Result<()>,
    ) -> io::Result<(usize, Vec<Problem>)> {
        match self {
            Manuscripts::Gathered(gathered) => {
                // A bar would stand among the lines of a report that is printed as it comes.
                let progress = Progress::new(if shows_progress { gathered.files.len() } else { 0 });
                let told = run_each(gathered, asked, || progress.step(), each);
                progress.finish();
                told
            }
            Manuscripts::Text(source) => {
                let run = run_on(source, Path::new("."), asked);
                run.files.into_iter().try_for_each(&mut each)?;
                Ok((run.manuscripts, run.problems))
            }
        }
    }
}

fn status_of(total: &Total<'_>, strict: bool) -> ExitCode {
    if !total.problems.is_empty() {
        ExitCode::from(EXIT_FAILURE)
    } else if total.tally.errors > 0 || (strict && total.tally.queries > 0) || total.unaccounted > 0 {
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
