//! `sparestrip sign`

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use jiff::{Timestamp, Unit};
use sparestrip::discover::{discover, folder_of};
use sparestrip::manuscript::Source;
use sparestrip::quantity::Count;
use sparestrip::report::{Report, Text, sanitize_line};
use sparestrip::run::{Asked, AuditScope, Run, RunToSign, run_to_sign};
use sparestrip::sign_off::{
    CheckOptions, Conditions, Entry, Record, Recorded, SIGN_OFFS_FILE, SignedTexts, Signer, append, read_records,
};
use sparestrip::text::ReadExtent;

use super::manuscript::{is_dash, source};
use super::output::{print_error, print_problem, print_with, show};
use super::revoke::revoke;
use super::{EXIT_FAILURE, SignArgs};

/// How many folders are named where there are too many.
const MAX_NAMED: usize = 5;

pub(super) fn sign(args: &SignArgs) -> ExitCode {
    let files = match files_of(&args.paths) {
        Ok(files) => files,
        Err(status) => return status,
    };
    if let Some(because) = &args.revoke {
        return revoke(&files, &args.by, because);
    }
    let Some(sources) = sources(&files) else { return ExitCode::from(EXIT_FAILURE) };
    let checked: Vec<(Source, RunToSign)> =
        sources.into_iter().map(|source| (source.clone(), checked(source, args.account))).collect();
    if checked.iter().any(|(_, of)| !of.run.problems.is_empty()) {
        let problems: BTreeSet<_> = checked.iter().flat_map(|(_, of)| &of.run.problems).collect();
        problems.into_iter().for_each(print_problem);
        return ExitCode::from(EXIT_FAILURE);
    }
    let refused: Vec<(PathBuf, String)> =
        checked.iter().filter_map(|(source, of)| Some((source.path.clone(), refusal(&of.run, args.strict)?))).collect();
    let (signing, runs): (Vec<_>, Vec<Run>) =
        checked.into_iter().map(|(source, of)| ((source, of.outcome, of.settings, of.asked), of.run)).unzip();
    // What stands is shown to the one who signs, errors or not.
    let run = together(runs);
    let text = Text::of_all(args.look.look());
    let shown = print_with(text.look.colour, |out| text.write(&run, out));
    if !refused.is_empty() {
        print_refused(&refused, signing.len());
        return ExitCode::from(if shown { 1 } else { EXIT_FAILURE });
    }
    // Nobody signs what they could not read.
    if !shown {
        print_error("not signed: what was found could not be shown");
        return ExitCode::from(EXIT_FAILURE);
    }
    let file = files[0].with_file_name(SIGN_OFFS_FILE);
    let recorded = match read_records(folder_of(&files[0])) {
        Ok(recorded) => recorded,
        Err(why) => return not_signed(&file, &why),
    };
    let options = CheckOptions { account: args.account, strict: args.strict };
    let when = now();
    let records = signing.iter().map(|(source, outcome, settings, asked)| {
        let signer = Signer { by: args.by.clone(), note: args.note.clone() };
        let record = Record::new(source, (settings, asked), (&outcome.accepted, &outcome.texts), signer, when);
        let found = (outcome.findings.as_slice(), outcome.texts.as_slice());
        despite(record.under(Conditions::new(settings, options, found)), &recorded)
    });
    record_them(&file, records.collect())
}

/// The manuscripts to sign, all of one folder, which has one record: it is written whole or not at all.
fn files_of(paths: &[PathBuf]) -> Result<Vec<PathBuf>, ExitCode> {
    let fail = |why: &str| {
        print_error(why);
        Err(ExitCode::from(EXIT_FAILURE))
    };
    if paths.iter().any(|path| is_dash(path)) {
        return fail("standard input has no name to be signed under: give the manuscript's file");
    }
    let found = discover(paths);
    if !found.problems.is_empty() {
        found.problems.iter().for_each(print_problem);
        return Err(ExitCode::from(EXIT_FAILURE));
    }
    if found.files.is_empty() {
        let places = paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        return fail(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
    }
    let whole = |folder: &Path| fs::canonicalize(folder).unwrap_or_else(|_| folder.to_path_buf());
    let folders: BTreeMap<PathBuf, &Path> =
        found.files.iter().map(|file| (whole(folder_of(file)), folder_of(file))).collect();
    if folders.len() > 1 {
        let named: Vec<String> = folders.values().take(MAX_NAMED).map(|folder| show(folder)).collect();
        let more = if folders.len() > MAX_NAMED { " and others" } else { "" };
        return fail(&format!(
            "these manuscripts are in {} folders, each of which has a record of its own: {}{more}. Nothing is signed; \
             sign one folder after another, by naming its manuscripts",
            folders.len(),
            named.join(", ")
        ));
    }
    Ok(found.files)
}

/// The texts of all manuscripts; nothing where one cannot be read, which is said.
fn sources(files: &[PathBuf]) -> Option<Vec<Source>> {
    let read: Vec<_> = files.iter().map(|file| source(file)).collect();
    read.iter().filter_map(|source| source.as_ref().err()).for_each(print_problem);
    read.into_iter().collect::<Result<_, _>>().ok()
}

fn checked(source: Source, account: bool) -> RunToSign {
    let accounting = if account { AuditScope::On } else { AuditScope::Off };
    let folder = folder_of(&source.path).to_path_buf();
    run_to_sign(source, &folder, Asked { accounting, ..Asked::default() })
}

/// Several runs as one, with the house rules that several share once.
fn together(runs: Vec<Run>) -> Run {
    let mut all = Run::default();
    for run in runs {
        all.manuscripts += run.manuscripts;
        all.files.extend(run.files);
    }
    all.files.sort_by(|one, other| one.path.cmp(&other.path));
    all.files.dedup_by(|one, other| one.path == other.path);
    all
}

/// A record that says which revocations of its numbers whoever signs has seen, which are told.
fn despite(record: Record, recorded: &Recorded) -> Record {
    let mut seen = BTreeSet::new();
    for revocation in recorded.revocations_of(&record.manuscript, &record.fingerprint) {
        if seen.insert(revocation.id()) && !already_signed(recorded, &record, &revocation.id()) {
            print_error(&format!(
                "{}: {} revoked these very numbers on {}: {}",
                sanitize_line(&record.manuscript),
                sanitize_line(&revocation.by),
                revocation.day(),
                sanitize_line(&revocation.because)
            ));
        }
    }
    Record { despite: seen.into_iter().collect(), ..record }
}

/// Whether somebody signed these numbers again after a revocation.
fn already_signed(recorded: &Recorded, record: &Record, revocation: &String) -> bool {
    let is_same =
        |other: &&Record| (&other.manuscript, &other.fingerprint) == (&record.manuscript, &record.fingerprint);
    recorded.signed.iter().filter(is_same).any(|other| other.despite.contains(revocation))
}

fn record_them(file: &Path, records: Vec<Record>) -> ExitCode {
    let signed: Vec<String> = records
        .iter()
        .map(|record| {
            let title = sanitize_line(&record.title());
            let texts = record.texts.as_ref().map(in_texts).unwrap_or_default();
            format!("{title}: {} signed off {} values{texts}", record.by, record.stated.len())
        })
        .collect();
    let unread: Vec<String> = records.iter().flat_map(unread_texts).collect();
    let entries: Vec<Entry> = records.into_iter().map(|record| Entry::Signed(Box::new(record))).collect();
    if let Err(why) = append(file, &entries) {
        return not_signed(file, &why);
    }
    for line in signed.iter().chain(&unread) {
        print_error(line);
    }
    print_error(&format!("wrote {}", show(file)));
    ExitCode::SUCCESS
}

/// How many numbers of printed texts were signed: ` and 61 numbers of 2 texts`.
fn in_texts(texts: &SignedTexts) -> String {
    let numbers: usize = texts.of.values().map(|text| text.numbers.len()).sum();
    let of = match texts.of.keys().collect::<Vec<_>>()[..] {
        [only] => sanitize_line(only),
        ref many => format!("{} texts", many.len()),
    };
    format!(" and {} of {of}", Count(numbers as u64).of("number"))
}

/// What of the printed texts was not read, and so not signed.
fn unread_texts(record: &Record) -> impl Iterator<Item = String> {
    let texts = record.texts.iter().flat_map(|texts| &texts.of);
    texts.filter_map(|(name, text)| {
        let (manuscript, name) = (sanitize_line(&record.manuscript), sanitize_line(name));
        match text.read {
            ReadExtent::Whole => None,
            ReadExtent::Part => {
                Some(format!("{manuscript}: {name} was read in part; what was not read of it is not signed"))
            }
            ReadExtent::Nothing => {
                Some(format!("{manuscript}: {name} was not read, and none of its numbers is signed"))
            }
        }
    })
}

fn not_signed(file: &Path, why: &str) -> ExitCode {
    print_error(&format!("not signed: {}: {}", show(file), sanitize_line(why)));
    ExitCode::from(EXIT_FAILURE)
}

/// Says why nothing is signed: of several manuscripts, which stand in the way.
fn print_refused(refused: &[(PathBuf, String)], many: usize) {
    for (path, why) in refused {
        print_error(&if many == 1 { format!("not signed: {why}") } else { format!("{}: {why}", show(path)) });
    }
    if many > 1 {
        print_error(&format!("not signed: none of the {many} manuscripts, since all are signed at once"));
    }
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
pub(super) fn now() -> Timestamp {
    let now = Timestamp::now();
    now.round(Unit::Second).unwrap_or(now)
}
