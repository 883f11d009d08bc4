//! `sparestrip signed`

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use sparestrip::check::{Corrections, check_with};
use sparestrip::discover::{Problem, discover, folder_of, reason};
use sparestrip::manuscript::Source;
use sparestrip::report::{SignedManuscript, signed_as_csv, signed_as_json, signed_as_text};
use sparestrip::run::settings_for;
use sparestrip::sign_off::{
    CheckOptions, Conditions, Recorded, SIGN_OFFS_FILE, list_missing, list_sign_offs, read_records,
};

use super::output::{print, print_error, print_problem, show};
use super::{EXIT_FAILURE, SignedArgs, SignedFormat};

pub(super) fn signed(args: &SignedArgs) -> ExitCode {
    let found = discover(&args.paths);
    let mut problems = found.problems;
    let mut records: BTreeMap<PathBuf, Recorded> = BTreeMap::new();
    for folder in folders(&args.paths, &found.files) {
        match read_records(&folder) {
            Ok(recorded) => drop(records.insert(folder, recorded)),
            Err(why) => problems.push(Problem { path: folder.join(SIGN_OFFS_FILE), why }),
        }
    }
    let mut listed = Vec::new();
    for file in &found.files {
        let Some(recorded) = records.get(folder_of(file)) else { continue };
        match Source::open(file) {
            Ok(source) => listed.push(manuscript(&source, recorded)),
            Err(error) => problems.push(Problem { path: file.clone(), why: reason(&error) }),
        }
    }
    // What is listed of a folder is also what was signed in it and is there no longer.
    for folder in args.paths.iter().filter(|path| path.is_dir()) {
        let Some(recorded) = records.get(folder.as_path()) else { continue };
        let missing = list_missing(recorded, |name| folder.join(name).exists());
        let path = |name: &str| if folder == Path::new(".") { PathBuf::from(name) } else { folder.join(name) };
        listed.extend(missing.into_iter().map(|(name, of)| SignedManuscript::missing(path(&name), of)));
    }
    problems.iter().for_each(print_problem);
    if listed.is_empty() && problems.is_empty() {
        let places = args.paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        print_error(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
        return ExitCode::from(EXIT_FAILURE);
    }
    let text = match args.format {
        SignedFormat::Text => signed_as_text(&listed),
        SignedFormat::Csv => signed_as_csv(&listed),
        SignedFormat::Json => signed_as_json(&listed),
    };
    let status = if problems.is_empty() { ExitCode::SUCCESS } else { ExitCode::from(EXIT_FAILURE) };
    print(|out| out.write_all(text.as_bytes()), status)
}

/// The folders of the manuscripts, and those that were named.
fn folders(paths: &[PathBuf], files: &[PathBuf]) -> BTreeSet<PathBuf> {
    let named = paths.iter().filter(|path| path.is_dir()).map(PathBuf::as_path);
    files.iter().map(|file| folder_of(file)).chain(named).map(Path::to_path_buf).collect()
}

fn manuscript(source: &Source, recorded: &Recorded) -> SignedManuscript {
    let settings = settings_for(folder_of(&source.path));
    let outcome = check_with(source, &settings, Corrections::LeftOut);
    let conditions = Conditions::new(&settings, CheckOptions::default(), (&outcome.findings, &outcome.texts));
    SignedManuscript::new(source, list_sign_offs(source, &settings, recorded, (&conditions, &outcome.texts)))
}
