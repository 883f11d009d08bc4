//! `sparestrip tables`

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use sparestrip::check::{Corrections, Tally, check_with};
use sparestrip::discover::{Problem, discover};
use sparestrip::manuscript::Source;
use sparestrip::quantity::Count;
use sparestrip::report::sanitize_line;
use sparestrip::rule_book::Settings;
use sparestrip::run::settings_for;
use sparestrip::sign_off::{CheckOptions, Conditions, SignOff, read_records};
use sparestrip::tables::Head;

use super::manuscript::{folder, is_dash, source};
use super::output::{print, print_error, print_problem, show, write_file};
use super::tables_language::{language, print_headings};
use super::tables_made::{ending, made, refused};
use super::{EXIT_FAILURE, TableFormat, TablesArgs, TablesForm};

/// How many places that could not be read are told one by one.
const MAX_TOLD: usize = 20;

/// What was made of one manuscript.
struct Made {
    path: PathBuf,
    text: String,
    has_errors: bool,
}

pub(super) fn tables(args: &TablesArgs) -> ExitCode {
    let failure = ExitCode::from(EXIT_FAILURE);
    if let Some(why) = refused(args) {
        print_error(why);
        return failure;
    }
    let Some(language) = language(args.language.as_deref()) else { return failure };
    if args.headings {
        return print_headings(&language);
    }
    let Some(paths) = paths(args) else { return failure };
    let read: Vec<Result<Source, Problem>> = paths.iter().map(|path| source(path)).collect();
    read.iter().filter_map(|source| source.as_ref().err()).for_each(print_problem);
    let Ok(sources) = read.into_iter().collect::<Result<Vec<Source>, Problem>>() else { return failure };
    let settings: Vec<Settings> = paths.iter().map(|path| settings_for(folder(path))).collect();
    if args.signed && !are_signed(&sources, &settings) {
        return ExitCode::from(1);
    }
    let mut all = Vec::new();
    for ((path, source), settings) in paths.iter().zip(&sources).zip(&settings) {
        let Some(made) = one(args, path, (source, settings), &language) else { return failure };
        all.push(made);
    }
    let status = if all.iter().any(|made| made.has_errors) { ExitCode::from(1) } else { ExitCode::SUCCESS };
    match all.as_slice() {
        [made] if !args.paths.iter().any(|path| path.is_dir()) => put(args.output.as_deref(), made, status),
        all => put_all(args, all, status),
    }
}

/// The manuscripts that are named, and those of folders.
fn paths(args: &TablesArgs) -> Option<Vec<PathBuf>> {
    if args.paths.iter().any(|path| is_dash(path)) {
        let why = match (args.paths.len(), args.signed) {
            (1, false) => return Some(args.paths.clone()),
            (1, true) => "standard input has no name to be signed under: give --signed the manuscript's file",
            _ => "- stands for standard input and is given alone",
        };
        print_error(why);
        return None;
    }
    let found = discover(&args.paths);
    found.problems.iter().for_each(print_problem);
    if found.files.is_empty() && found.problems.is_empty() {
        let places = args.paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        print_error(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
    }
    (!found.files.is_empty() && found.problems.is_empty()).then_some(found.files)
}

/// Whether all are signed off as they are now; says which are not, and why.
fn are_signed(sources: &[Source], settings: &[Settings]) -> bool {
    let mut all = true;
    for (source, settings) in sources.iter().zip(settings) {
        if let Some(why) = unsigned(source, settings) {
            print_error(&format!("{}: {why}; `sparestrip check --signed` says more", show(&source.path)));
            all = false;
        }
    }
    all
}

fn unsigned(source: &Source, settings: &Settings) -> Option<String> {
    let recorded = match read_records(folder(&source.path)) {
        Ok(recorded) => recorded,
        Err(why) => return Some(format!("the sign-offs cannot be read: {}", sanitize_line(&why))),
    };
    let outcome = check_with(source, settings, Corrections::LeftOut);
    let conditions = Conditions::new(settings, CheckOptions::default(), (&outcome.findings, &outcome.texts));
    match SignOff::under(source, settings, &recorded, (&conditions, &outcome.texts)) {
        SignOff::Signed { changes, .. } if changes.is_empty() => None,
        SignOff::Signed { by, day, .. } => Some(format!("not what {} signed on {day}", sanitize_line(&by))),
        SignOff::Revoked { revocation, .. } => Some(format!("its sign-off was revoked on {}", revocation.day())),
        SignOff::None { .. } | SignOff::NotAsked => Some("nobody has signed it off".to_string()),
    }
}

/// What is made of one manuscript; nothing where that cannot be done, which is said.
fn one(
    args: &TablesArgs,
    path: &Path,
    (source, settings): (&Source, &Settings),
    language: &sparestrip::tables::Language,
) -> Option<Made> {
    let name = show(&source.path);
    let (head, text) = match made(args, source, settings, language) {
        Ok(made) => made,
        Err(why) => {
            print_error(&format!("{name}: {}", sanitize_line(&why)));
            return None;
        }
    };
    report_missing(&head, &name);
    let Some(text) = text else {
        let what = match args.form {
            TablesForm::Tables => "tables",
            TablesForm::Instructions => "cutting instructions",
        };
        print_error(&format!("{name} states nothing that {what} could be made of"));
        return None;
    };
    // One table by itself has no room for them.
    if matches!(args.format, TableFormat::WideCsv | TableFormat::Tsv) {
        head.cautions.iter().for_each(|caution| print_error(&format!("print this with it: {caution}")));
    }
    let errors = Tally::of(&check_with(source, settings, Corrections::LeftOut)).errors;
    if errors > 0 {
        let (errors, them) = (Count(errors as u64).of("error"), if errors == 1 { "it" } else { "them" });
        print_error(&format!(
            "{name} has {errors}; the tables show the numbers as they are stated. `sparestrip check` shows {them}"
        ));
    }
    // The same as `check` says: a script that publishes must not go on with a pattern that has an error.
    Some(Made { path: path.to_path_buf(), text, has_errors: errors > 0 || !head.missing.is_empty() })
}

/// Says what is not in the tables.
fn report_missing(head: &Head, name: &str) {
    let Some(warning) = head.warning() else { return };
    print_error(&warning);
    for missing in head.missing.iter().take(MAX_TOLD) {
        print_error(&format!(
            "{name}:{}:{}: {}",
            missing.place.line,
            missing.place.column,
            sanitize_line(&missing.why)
        ));
    }
    match head.missing.len().saturating_sub(MAX_TOLD) {
        0 => {}
        more => print_error(&format!("and {more} more")),
    }
}

/// Puts the text of one manuscript where it was asked for.
fn put(file: Option<&Path>, made: &Made, status: ExitCode) -> ExitCode {
    let Some(file) = file else { return print(|out| out.write_all(made.text.as_bytes()), status) };
    // A manuscript may have any name where it is given by it.
    if same_file::is_same_file(file, &made.path).unwrap_or(false) {
        print_error(&format!("{} is the manuscript: nothing is written over it", show(file)));
        return ExitCode::from(EXIT_FAILURE);
    }
    if write_file(file, made.text.as_bytes()) { status } else { ExitCode::from(EXIT_FAILURE) }
}

/// Puts the texts of several manuscripts into a folder, a file for each; text for people may be printed.
fn put_all(args: &TablesArgs, all: &[Made], status: ExitCode) -> ExitCode {
    let Some(folder) = &args.output else {
        if args.format != TableFormat::Markdown {
            print_error("name a folder for the files of several manuscripts: --output FOLDER");
            return ExitCode::from(EXIT_FAILURE);
        }
        let text = all.iter().map(|made| made.text.as_str()).collect::<Vec<_>>().join("\n");
        return print(|out| out.write_all(text.as_bytes()), status);
    };
    if !folder.is_dir() {
        print_error(&format!("{} is no folder: several manuscripts are written to one", show(folder)));
        return ExitCode::from(EXIT_FAILURE);
    }
    let mut names = BTreeSet::new();
    for made in all {
        let name = file_name(&made.path, args);
        if !names.insert(name.clone()) {
            print_error(&format!("two manuscripts would be written to {name}: make their tables one after the other"));
            return ExitCode::from(EXIT_FAILURE);
        }
    }
    let written: Vec<bool> =
        all.iter().map(|made| write_file(&folder.join(file_name(&made.path, args)), made.text.as_bytes())).collect();
    if written.iter().all(|written| *written) { status } else { ExitCode::from(EXIT_FAILURE) }
}

/// `tide-pool.tables.md` for `tide-pool.pattern.yaml`.
fn file_name(manuscript: &Path, args: &TablesArgs) -> String {
    let name = manuscript.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = name.split('.').next().unwrap_or(&name);
    let form = match args.form {
        TablesForm::Tables => "tables",
        TablesForm::Instructions => "instructions",
    };
    format!("{stem}.{form}.{}", ending(args.format))
}
