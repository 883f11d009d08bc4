//! The file that sign-offs are recorded in: read whole or refused, and only ever added to.
//!
//! A record is added by whoever holds the lock on the file that will take the record's name (`sole_writer`). The new
//! text is read back before it is renamed. A lock beside the file would be left lying about; one on the file itself
//! would be lost with each rename.

use std::fs::{self, File};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use same_file::Handle;
use serde_json::error::Category;

use super::record::file_name;
use super::{Fingerprint, Record, Revocation, SIGN_OFFS_FILE};
use crate::discover::reason;
use crate::manuscript::Source;
use crate::sanitize::{escape_json, sanitize_line};

/// The largest file of sign-offs that is read: a thousand of large patterns.
const LARGEST: u64 = 16 * 1024 * 1024;

/// What is said at the top of a new file.
const HEAD: &str = "\
# Who signed which manuscript off: each sign-off in one line, with every number that was signed. sparestrip adds to the
# end of this file and changes nothing in it. Keep it with the manuscripts. Where a number in it is edited by hand, it
# no longer holds.
";

/// What a line with a sign-off begins with, before its JSON: the whole file can be read as YAML.
const LINE_START: &str = "- ";

/// What the JSON of a revocation begins with.
const REVOCATION_START: &str = "{\"revokes\":";

/// How long somebody else's signing is waited for.
const PATIENCE: Duration = Duration::from_secs(10);

/// The file that new text is written to before it takes the record's name. Whoever holds its lock is the only writer.
const WRITING: &str = ".sign-offs.yaml.writing";

/// One line of the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// Somebody signed a manuscript off.
    Signed(Box<Record>),
    /// Somebody took sign-offs back.
    Revoked(Revocation),
}

/// The sign-offs of the manuscripts in a folder, and what was revoked, each in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Recorded {
    /// The sign-offs.
    pub signed: Vec<Record>,
    /// The revocations.
    pub revoked: Vec<Revocation>,
}

impl Recorded {
    fn new(entries: Vec<Entry>) -> Recorded {
        let mut recorded = Recorded::default();
        for entry in entries {
            match entry {
                Entry::Signed(record) => recorded.signed.push(*record),
                Entry::Revoked(revocation) => recorded.revoked.push(revocation),
            }
        }
        recorded
    }

    /// Whether nobody has signed anything.
    pub fn is_empty(&self) -> bool {
        self.signed.is_empty()
    }

    /// Whether a paper with this fingerprint is of a manuscript.
    pub fn is_of(&self, source: &Source, paper: Fingerprint) -> bool {
        let name = file_name(source);
        self.signed.iter().any(|record| record.manuscript == name && paper.is_start_of(&record.fingerprint))
    }

    /// The revocations of some numbers of a manuscript.
    pub fn revocations_of(&self, manuscript: &str, fingerprint: &str) -> impl Iterator<Item = &Revocation> {
        let is_of = move |revocation: &&Revocation| {
            revocation.revokes == manuscript && revocation.fingerprints.iter().any(|of| of == fingerprint)
        };
        self.revoked.iter().filter(is_of)
    }

    /// The last revocation of a sign-off that whoever signed had not seen; nothing where it stands.
    pub fn revocation_of(&self, record: &Record) -> Option<&Revocation> {
        let unseen = |revocation: &&Revocation| !record.despite.contains(&revocation.id());
        self.revocations_of(&record.manuscript, &record.fingerprint).filter(unseen).max_by_key(|one| one.when)
    }

    /// The sign-offs of a manuscript that stand, by the time at which they were made. Two branches of a history that
    /// were merged have their lines in any order.
    pub fn standing(&self, manuscript: &str) -> Vec<&Record> {
        let is_standing = |record: &&Record| record.manuscript == manuscript && self.revocation_of(record).is_none();
        let mut standing: Vec<&Record> = self.signed.iter().filter(is_standing).collect();
        standing.sort_by_key(|record| (record.when, &record.by));
        standing
    }
}

/// The sign-offs of the manuscripts in a folder; none where there is no file.
///
/// # Errors
/// In words, where the file cannot be read or is damaged.
pub fn read_records(folder: &Path) -> Result<Recorded, String> {
    entries(&text_of(&folder.join(SIGN_OFFS_FILE))?.unwrap_or_default()).map(Recorded::new)
}

/// The text of a file; nothing where there is none.
fn text_of(path: &Path) -> Result<Option<String>, String> {
    // Another program's pipe would be waited for without end.
    if fs::metadata(path).is_ok_and(|there| !there.is_file()) {
        return Err("it is not a file".to_string());
    }
    let file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(reason(&error)),
    };
    let mut bytes = Vec::new();
    file.take(LARGEST + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() as u64 > LARGEST {
        return Err(too_large("it is"));
    }
    String::from_utf8(bytes).map(Some).map_err(|_| damaged("it is no text in UTF-8"))
}

fn too_large(it_is: &str) -> String {
    format!("{it_is} larger than {} MiB; keep it under another name, and begin a new one", LARGEST >> 20)
}

fn damaged(why: &str) -> String {
    format!("it is damaged: {why}. Nothing was changed in it; fix it, or put back the last copy that was whole")
}

fn entries(text: &str) -> Result<Vec<Entry>, String> {
    let of_a_merge = |line: &str| ["<<<<<<<", "=======", ">>>>>>>"].iter().any(|mark| line.starts_with(mark));
    if text.lines().any(of_a_merge) {
        return Err(damaged(
            "two versions were merged in it: take out the lines that start with <<<<<<<, ======= and >>>>>>>, and \
             keep the sign-offs between them",
        ));
    }
    let entries: Vec<Entry> = (1..)
        .zip(text.strip_prefix('\u{feff}').unwrap_or(text).lines())
        .filter(|(_, line)| !line.trim().is_empty() && !line.trim_start().starts_with('#'))
        .map(|(number, line)| entry(line).map_err(|why| damaged(&format!("line {number} cannot be read: {why}"))))
        .collect::<Result<_, _>>()?;
    let records = entries.iter().filter_map(|entry| match entry {
        Entry::Signed(record) => Some(record),
        Entry::Revoked(_) => None,
    });
    for (number, record) in (1..).zip(records) {
        let (manuscript, by) = (&record.manuscript, &record.by);
        let of = format!("sign-off {number}, of {manuscript} by {by}, has other");
        if !record.is_whole() {
            return Err(damaged(&format!("{of} values than those that were signed")));
        }
        if !record.has_whole_texts() {
            return Err(damaged(&format!("{of} numbers of printed texts than those that were recorded")));
        }
        if !record.has_whole_conditions() {
            return Err(damaged(&format!("{of} conditions than those that were recorded")));
        }
    }
    Ok(entries)
}

/// A sign-off or a revocation from its line.
fn entry(line: &str) -> Result<Entry, String> {
    let json = line.strip_prefix(LINE_START).ok_or("it does not begin as a sign-off does, with \"- {\"")?;
    let entry = if json.starts_with(REVOCATION_START) {
        serde_json::from_str(json).map(Entry::Revoked)
    } else {
        serde_json::from_str(json).map(Box::new).map(Entry::Signed)
    };
    entry.map_err(|error| match error.classify() {
        Category::Eof => "its end is missing".to_string(),
        Category::Syntax => {
            // It counts bytes.
            let bytes = LINE_START.len() + error.column();
            let character = line.char_indices().take_while(|(at, _)| *at < bytes).count();
            format!("character {character} is not as it was written")
        }
        Category::Data | Category::Io => not_a_record(&error.to_string()),
    })
}

/// What is wrong with JSON that is no sign-off, from the words of serde, which name the field in backticks.
fn not_a_record(said: &str) -> String {
    let field = said.split('`').nth(1).unwrap_or_default();
    match said.split(" field ").next() {
        Some("missing") => format!("\"{field}\" is missing"),
        Some("unknown") => format!("\"{field}\" does not belong there"),
        Some("duplicate") => format!("\"{field}\" stands there twice"),
        _ => "a value in it is not as it was written".to_string(),
    }
}

/// Adds entries at the end of a file, which is made where there is none: all of them whole, or none.
///
/// # Errors
/// In words, where the file is damaged or cannot be written. What was in it is then there still.
pub fn append(path: &Path, added: &[Entry]) -> Result<(), String> {
    // A link stays a link: the file that it leads to is the record.
    let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    // A rename would take the place of a file that nobody may write.
    if fs::metadata(&real).is_ok_and(|there| there.permissions().readonly()) {
        return Err("it may not be written".to_string());
    }
    let writing = real.with_file_name(WRITING);
    let in_words = |error: io::Error| reason(&error);
    let mut file = sole_writer(&writing)?;
    let written = with_entries(&real, added).and_then(|text| {
        file.set_len(0).and_then(|()| file.seek(SeekFrom::Start(0))).map_err(in_words)?;
        file.write_all(text.as_bytes()).map_err(in_words)?;
        if let Ok(there) = fs::metadata(&real) {
            file.set_permissions(there.permissions()).map_err(in_words)?;
        }
        // Before the rename: after a loss of power the name must not stand for an empty file.
        file.sync_all().map_err(in_words)?;
        fs::rename(&writing, &real).map_err(in_words)
    });
    match written {
        Ok(()) => {
            keep_name(&real);
            Ok(())
        }
        Err(why) => {
            // While the lock is held: whoever waits for it sees that the file is gone, and makes another.
            let _ = fs::remove_file(&writing);
            Err(why)
        }
    }
}

/// The file's text with the entries added, read back before anybody relies on it.
fn with_entries(path: &Path, added: &[Entry]) -> Result<String, String> {
    let mut text = text_of(path)?.unwrap_or_else(|| HEAD.to_string());
    let before = entries(&text)?;
    if !text.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    for entry in added {
        text.push_str(&lines(entry)?);
    }
    // Otherwise the last that could be signed would take the sign-offs of the whole folder with it.
    if text.len() as u64 > LARGEST {
        return Err(too_large("with this sign-off it would be"));
    }
    let after = entries(&text)?;
    if after.strip_prefix(before.as_slice()).is_some_and(|more| more.iter().map(as_read).eq(added.iter().map(as_read)))
    {
        Ok(text)
    } else {
        Err(damaged("a sign-off at its end would not be read back"))
    }
}

/// An entry without what is not recorded.
fn as_read(entry: &Entry) -> Entry {
    let mut entry = entry.clone();
    if let Entry::Signed(record) = &mut entry
        && let Some(conditions) = &mut record.conditions
    {
        conditions.open.iter_mut().for_each(|open| open.at = None);
    }
    entry
}

/// An entry as it is written: a remark for people, and all of it in one line. JSON is YAML, and a line is what version
/// control merges by, so that two people's entries never run into one another.
fn lines(entry: &Entry) -> Result<String, String> {
    let (json, remark) = match entry {
        Entry::Signed(record) => {
            let note = record.note.as_ref().map(|note| format!(": {note}")).unwrap_or_default();
            let remark = format!("{} signed off {}, on {}{note}", record.by, record.title(), record.day());
            (serde_json::to_string(record), remark)
        }
        Entry::Revoked(revocation) => {
            let Revocation { by, revokes, because, .. } = revocation;
            let remark = format!("{by} revoked the sign-off of {revokes}, on {}: {because}", revocation.day());
            (serde_json::to_string(revocation), remark)
        }
    };
    let json = json.map_err(|error| error.to_string())?;
    Ok(format!("# {}\n{LINE_START}{}\n", sanitize_line(&remark), escape_json(&json)))
}

/// Opens the file that is written to, and locks it. Another process that held the lock may have renamed or removed
/// the file meanwhile; then the name stands for another file, and that one is to be locked.
fn sole_writer(path: &Path) -> Result<File, String> {
    let started = Instant::now();
    loop {
        // Whoever made the folder may have put a link there, to a file that has nothing to do with sign-offs.
        if fs::symlink_metadata(path).is_ok_and(|there| !there.is_file()) {
            return Err(format!("{WRITING} beside it is no ordinary file, and is in the way; take it away first"));
        }
        let mut options = File::options();
        let file = options.read(true).write(true).create(true).truncate(false).open(path);
        let file = file.map_err(|error| format!("{WRITING} beside it cannot be written: {}", reason(&error)))?;
        match file.try_lock() {
            Ok(()) if is_at(&file, path) => return Ok(file),
            Ok(()) | Err(fs::TryLockError::WouldBlock) => {}
            Err(fs::TryLockError::Error(error)) => return Err(reason(&error)),
        }
        if started.elapsed() > PATIENCE {
            return Err("somebody else is signing; try again when that is done".to_string());
        }
        thread::sleep(Duration::from_millis(5));
    }
}

fn is_at(file: &File, path: &Path) -> bool {
    let same = || Some(Handle::from_file(file.try_clone().ok()?).ok()? == Handle::from_path(path).ok()?);
    same().unwrap_or(false)
}

/// Makes the folder keep the new name over a loss of power, where the system can.
fn keep_name(path: &Path) {
    #[cfg(unix)]
    if let Ok(folder) = File::open(crate::discover::folder_of(path)) {
        let _ = folder.sync_all();
    }
    #[cfg(not(unix))]
    let _ = path;
}
