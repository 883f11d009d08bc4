//! `sparestrip check --signed-as`: whose the numbers on a paper are.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use sparestrip::discover::{discover, folder_of};
use sparestrip::manuscript::Source;
use sparestrip::report::sanitize_line;
use sparestrip::rules::SIGN_OFF_RULES;
use sparestrip::run::{Asked, Checked, run_to_sign};
use sparestrip::sign_off::{Fingerprint, Record, Recorded, Signer, read_records};

use super::output::{print_error, show};
use super::sign::now;

/// What came of looking for a paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Paper {
    /// It was signed. Whether it is still current, the findings say.
    Found,
    /// Nobody signed it.
    Unsigned,
    /// It may be one of several.
    Ambiguous,
}

/// How much changed in each manuscript that was checked since it was signed.
#[derive(Debug, Default)]
pub(super) struct Changes(BTreeMap<PathBuf, usize>);

impl Changes {
    /// Counts what is said of the sign-offs of a manuscript.
    pub(super) fn add(&mut self, file: &Checked) {
        let findings = file.outcome.findings.iter();
        let changes = findings.filter(|finding| SIGN_OFF_RULES.contains(&finding.rule)).count();
        // What is said of a printed text is said of its manuscript.
        let manuscript = file.text.as_ref().map_or(&file.path, |text| &text.manuscript);
        *self.0.entry(manuscript.clone()).or_default() += changes;
    }
}

/// Says which record a paper belongs to, by whom, when, and whether its numbers are those of the manuscript now.
pub(super) fn print_paper(paper: Fingerprint, paths: &[PathBuf], changes: &Changes) -> Paper {
    let files = discover(paths).files;
    let folders: BTreeSet<PathBuf> = files.iter().map(|file| folder_of(file).to_path_buf()).collect();
    let recorded: BTreeMap<PathBuf, Recorded> =
        folders.into_iter().filter_map(|folder| Some((folder.clone(), read_records(&folder).ok()?))).collect();
    let mut found: Vec<(&Path, &Recorded, &Record)> = Vec::new();
    for (folder, recorded) in &recorded {
        let own = recorded.signed.iter().filter(|record| paper.is_start_of(&record.fingerprint));
        // A folder may have records of manuscripts that were not asked about.
        let is_asked =
            |record: &&Record| files.iter().any(|file| is_file(file, folder, record)) || paths.contains(folder);
        found.extend(own.filter(is_asked).map(|record| (folder.as_path(), recorded, record)));
    }
    let different: BTreeSet<&str> = found.iter().map(|(_, _, record)| record.fingerprint.as_str()).collect();
    match different.len() {
        0 => {
            print_unsigned(paper, &files);
            Paper::Unsigned
        }
        1 => {
            for (folder, recorded, record) in &found {
                print_error(&format!(
                    "{paper} is {}: {}",
                    words(folder, record),
                    state(folder, recorded, record, changes)
                ));
            }
            Paper::Found
        }
        _ => {
            print_error(&format!(
                "{paper} is the beginning of {} fingerprints; type more of its digits:",
                different.len()
            ));
            for (folder, _, record) in &found {
                print_error(&format!("  {} is {}", whole(&record.fingerprint), words(folder, record)));
            }
            Paper::Ambiguous
        }
    }
}

fn whole(fingerprint: &str) -> &str {
    fingerprint.strip_prefix("sha256:").unwrap_or(fingerprint)
}

fn is_file(file: &Path, folder: &Path, record: &Record) -> bool {
    folder_of(file) == folder && file.file_name().is_some_and(|name| name.to_string_lossy() == record.manuscript)
}

fn path_of(folder: &Path, record: &Record) -> PathBuf {
    if folder == Path::new(".") { PathBuf::from(&record.manuscript) } else { folder.join(&record.manuscript) }
}

/// `tide-pool.pattern.yaml (Tide Pool, edition 2), signed by Ada Finch on 2026-11-25`.
fn words(folder: &Path, record: &Record) -> String {
    let (file, title, by) = (show(&path_of(folder, record)), sanitize_line(&record.title()), sanitize_line(&record.by));
    format!("{file} ({title}), signed by {by} on {}", record.day())
}

/// Whether a manuscript is still what the paper says.
fn state(folder: &Path, recorded: &Recorded, record: &Record, changes: &Changes) -> String {
    if let Some(revocation) = recorded.revocation_of(record) {
        let (by, because) = (sanitize_line(&revocation.by), sanitize_line(&revocation.because));
        return format!("revoked by {by} on {}: {because}", revocation.day());
    }
    let checked = changes.0.iter().find(|(file, _)| is_file(file, folder, record));
    let Some((_, changes)) = checked else { return "the manuscript is there no longer".to_string() };
    match changes {
        0 => "current, nothing changed since".to_string(),
        1 => "not current, one thing changed since".to_string(),
        many => format!("not current, {many} things changed since"),
    }
}

/// Says that nobody signed what a paper has; and where it is what a manuscript states now, that too.
fn print_unsigned(paper: Fingerprint, files: &[PathBuf]) {
    let states_it = |file: &&PathBuf| {
        let Ok(source) = Source::open(file) else { return false };
        let checked = run_to_sign(source.clone(), folder_of(file), Asked::default());
        let nobody = Signer { by: String::new(), note: None };
        let record =
            Record::new(&source, (&checked.settings, &checked.asked), (&[], &checked.outcome.texts), nobody, now());
        paper.is_start_of(&record.fingerprint)
    };
    match files.iter().find(states_it) {
        Some(file) => print_error(&format!("{paper} is what {} states now, and nobody has signed that", show(file))),
        None => print_error(&format!(
            "{paper} is in no record here: it was not signed, or it belongs to a manuscript in another folder, or a digit \
             is mistyped"
        )),
    }
}
