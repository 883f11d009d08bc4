//! `sparestrip sign`

use std::path::Path;
use std::process::ExitCode;

use jiff::{Timestamp, Unit};
use sparestrip::discover::folder_of;
use sparestrip::report::{Report, Text, sanitize_line};
use sparestrip::run::{Asked, AuditScope, Run, RunToSign, run_to_sign};
use sparestrip::sign_off::{Record, SIGN_OFFS_FILE, Signer, append};

use super::manuscript::{is_dash, source};
use super::output::{print_error, print_problem, print_with, show};
use super::{EXIT_FAILURE, SignArgs};

pub(super) fn sign(args: SignArgs) -> ExitCode {
    if let Err(why) = can_be_signed(&args.path) {
        print_error(&why);
        return ExitCode::from(EXIT_FAILURE);
    }
    let source = match source(&args.path) {
        Ok(source) => source,
        Err(problem) => {
            print_problem(&problem);
            return ExitCode::from(EXIT_FAILURE);
        }
    };
    let accounting = if args.account { AuditScope::On } else { AuditScope::Off };
    let asked = Asked { accounting, ..Asked::default() };
    let RunToSign { run, settings, asked } = run_to_sign(source.clone(), folder_of(&args.path), asked);
    if !run.problems.is_empty() {
        run.problems.iter().for_each(print_problem);
        return ExitCode::from(EXIT_FAILURE);
    }
    let refused = refusal(&run, args.strict);
    // What stands is shown to the one who signs, errors or not.
    let text = Text::of_all(args.look.look());
    let shown = print_with(text.look.colour, |out| text.write(&run, out));
    if let Some(why) = refused {
        print_error(&format!("not signed: {why}"));
        return ExitCode::from(if shown { 1 } else { EXIT_FAILURE });
    }
    // Nobody signs what they could not read.
    if !shown {
        print_error("not signed: what was found could not be shown");
        return ExitCode::from(EXIT_FAILURE);
    }
    let outcome = run.files.iter().find(|file| file.path == source.path).map(|file| file.outcome.clone());
    let signer = Signer { by: args.by, note: args.note };
    let record = Record::new(&source, (&settings, &asked), &outcome.unwrap_or_default().accepted, signer, now());
    record_it(&args.path, &record)
}

fn record_it(path: &Path, record: &Record) -> ExitCode {
    let file = path.with_file_name(SIGN_OFFS_FILE);
    if let Err(why) = append(&file, record) {
        print_error(&format!("not signed: {}: {}", show(&file), sanitize_line(&why)));
        return ExitCode::from(EXIT_FAILURE);
    }
    let title = sanitize_line(&record.title());
    print_error(&format!("{title}: {} signed off {} values", record.by, record.stated.len()));
    print_error(&format!("wrote {}", show(&file)));
    ExitCode::SUCCESS
}

fn can_be_signed(path: &Path) -> Result<(), String> {
    if is_dash(path) {
        return Err("standard input has no name to be signed under: give the manuscript's file".to_string());
    }
    if path.is_dir() {
        return Err(format!("{} is a folder: manuscripts are signed one at a time", show(path)));
    }
    Ok(())
}

/// Why a manuscript cannot be signed, where it cannot.
fn refusal(run: &Run, strict: bool) -> Option<String> {
    let tally = run.tally();
    let standing = |count: usize, one: &str, many: &str| match count {
        1 => format!("one {one} stands"),
        count => format!("{count} {many} stand"),
    };
    if tally.errors > 0 {
        Some(standing(tally.errors, "error", "errors"))
    } else if strict && tally.queries > 0 {
        Some(standing(tally.queries, "query", "queries"))
    } else {
        match run.unaccounted() {
            0 => None,
            1 => Some("nothing checks one stated number".to_string()),
            count => Some(format!("nothing checks {count} stated numbers")),
        }
    }
}

/// The time, in whole seconds.
fn now() -> Timestamp {
    let now = Timestamp::now();
    now.round(Unit::Second).unwrap_or(now)
}
