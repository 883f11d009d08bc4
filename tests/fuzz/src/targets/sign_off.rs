//! Sign-offs: a record is written, read back the same, and says that nothing changed; damaged, it is refused or whole.

use std::cell::RefCell;
use std::fs;

use jiff::Timestamp;
use sparestrip::check::{Corrections, check_with};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::sign_off::{
    CheckOptions, Conditions, Entry, Record, Recorded, Revocation, SIGN_OFFS_FILE, SignOff, Signer, append,
    read_records,
};
use tempfile::TempDir;

use super::{Fault, Kind, Target, hold, in_text, source};
use crate::dictionary::ODD;
use crate::pool::Seen;
use crate::rng::Rng;

pub(super) const TARGET: Target = Target {
    name: "sign-off",
    about: "a manuscript is signed; the record is read back, compared with another text, and damaged",
    kind: Kind::Manuscript,
    share: 15,
    run,
};

thread_local! {
    /// The folder that records are written in.
    static FOLDER: RefCell<Option<TempDir>> = const { RefCell::new(None) };
}

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let source = source(input);
    let mut rng = Rng::of(input);
    let settings = Settings::default();
    let (outcome, asked) = settings.with_what_is_asked(|settings| check_with(&source, settings, Corrections::LeftOut));
    let signer = Signer {
        by: format!("Ada Finch {}", rng.pick(ODD)),
        note: rng.one_in(3).then(|| format!("{} as printed", rng.pick(ODD))),
    };
    let when = Timestamp::from_second(i64::try_from(rng.below(4_000_000_000)).unwrap_or_default()).unwrap_or_default();
    let record = Record::new(&source, (&settings, &asked), (&outcome.accepted, &outcome.texts), signer, when);
    let record = if rng.one_in(2) {
        let mut conditions = Conditions::new(&settings, CheckOptions::default(), (&outcome.findings, &outcome.texts));
        // Where they stand is not recorded.
        conditions.open.iter_mut().for_each(|open| open.at = None);
        record.under(conditions)
    } else {
        record
    };
    hold(record.is_whole(), "a record that was just made is not whole", || format!("{record:?}"))?;
    let json = serde_json::to_string(&record).unwrap_or_default();
    let again: Result<Record, _> = serde_json::from_str(&json);
    hold(again.as_ref().ok() == Some(&record), "a record is read back otherwise", || format!("{again:?}"))?;
    unchanged(&source, &settings, &record)?;
    changed(&mut rng, &source, &settings, &record, seen)?;
    // Writing a file waits for the disk.
    if rng.one_in(16) { on_disk(&mut rng, &record, seen) } else { Ok(()) }
}

/// What is recorded where one has signed.
fn only(record: &Record) -> Recorded {
    Recorded { signed: vec![record.clone()], revoked: Vec::new() }
}

/// A text that was just signed has not changed.
fn unchanged(source: &Source, settings: &Settings, record: &Record) -> Result<(), Fault> {
    match SignOff::of(source, settings, &only(record)) {
        SignOff::Signed { changes, .. } => {
            hold(changes.is_empty(), "a text that was just signed has changed", || format!("{changes:?}"))
        }
        other => Err(Fault::new("a text that was just signed is not signed", format!("{other:?}"))),
    }
}

/// What changed in a text has its place in it.
fn changed(rng: &mut Rng, source: &Source, settings: &Settings, record: &Record, seen: &mut Seen) -> Result<(), Fault> {
    let digits: Vec<usize> = source.text.match_indices(|c: char| c.is_ascii_digit()).map(|(at, _)| at).collect();
    let mut text = source.text.clone();
    for _ in 0..rng.between(1, 3) {
        if !digits.is_empty() {
            let at = *rng.pick(&digits);
            text.replace_range(at..=at, rng.word(&["1", "2", "5", "8"]));
        }
    }
    let other = Source::from_text(&source.path, text);
    if let SignOff::Signed { changes, .. } = SignOff::of(&other, settings, &only(record)) {
        for change in &changes {
            in_text(&other.text, change.at, &change.what)?;
            hold(change.was != change.is, "a change that is none", || format!("{change:?}"))?;
        }
        seen.note(&["changes", &changes.len().min(9).to_string()]);
    }
    Ok(())
}

/// Two records are added to a file and read back; the same file with a change in it is read, or refused.
fn on_disk(rng: &mut Rng, record: &Record, seen: &mut Seen) -> Result<(), Fault> {
    FOLDER.with_borrow_mut(|slot| {
        let Ok(folder) = slot.take().map_or_else(tempfile::tempdir, Ok) else {
            return Err(Fault::new("no temporary folder can be made", ""));
        };
        let folder = slot.insert(folder);
        let path = folder.path().join(SIGN_OFFS_FILE);
        let _ = fs::remove_file(&path);
        for count in 1..=2 {
            let added = append(&path, &[Entry::Signed(Box::new(record.clone()))]);
            hold(added.is_ok(), "a record cannot be added", || format!("{added:?} {record:?}"))?;
            let there = read_records(folder.path());
            let all = |there: &Recorded| there.signed.len() == count && there.signed.iter().all(|one| one == record);
            hold(there.as_ref().is_ok_and(all), "records are read back otherwise", || format!("{there:?}"))?;
        }
        let fingerprints = vec![record.fingerprint.clone()];
        let revocation = Revocation::new(&record.manuscript, fingerprints, &record.by, rng.word(ODD), record.when);
        let added = append(&path, &[Entry::Revoked(revocation.clone())]);
        hold(added.is_ok(), "a revocation cannot be added", || format!("{added:?} {revocation:?}"))?;
        let there = read_records(folder.path());
        let revoked = there.as_ref().is_ok_and(|there| there.revocation_of(record) == Some(&revocation));
        hold(revoked, "a revocation is read back otherwise", || format!("{there:?}"))?;
        let mut bytes = fs::read(&path).unwrap_or_default();
        for _ in 0..rng.between(1, 3) {
            let at = rng.below(bytes.len());
            match rng.below(3) {
                0 => drop(bytes.remove(at)),
                1 => bytes[at] = rng.number().to_le_bytes()[0],
                _ => drop(bytes.splice(at..at, rng.pick(ODD).bytes())),
            }
        }
        let _ = fs::write(&path, &bytes);
        match read_records(folder.path()) {
            Ok(records) => {
                let whole = records.signed.iter().all(Record::is_whole);
                hold(whole, "a damaged record is taken for whole", || format!("{records:?}"))?;
                seen.note(&["damaged and whole"]);
            }
            Err(why) => {
                seen.note(&["refused", &why.chars().filter(|c| c.is_alphabetic()).take(60).collect::<String>()])
            }
        }
        Ok(())
    })
}
