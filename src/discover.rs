//! Finding the manuscripts in folders, and the house rules that govern each.

use std::collections::BTreeSet;
use std::path::{Component, Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use crate::rule_book::HOUSE_RULES_FILE;

/// How a manuscript's file name ends.
const ENDINGS: [&str; 2] = [".pattern.yaml", ".pattern.yml"];

/// The files that were found, and what could not be looked at.
#[derive(Clone, Debug, Default)]
pub struct Discovered {
    /// The manuscripts, each once, in order.
    pub files: Vec<PathBuf>,
    /// Files and folders that could not be read.
    pub problems: Vec<Problem>,
}

/// A file or folder that could not be read.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Which.
    pub path: PathBuf,
    /// Why, as the system says it.
    pub why: String,
}

/// Finds the manuscripts at paths: a file is taken whatever its name, a folder is searched. Hidden folders and
/// `target` are left out, links are followed, and a link that leads back up is not.
pub fn discover(paths: &[PathBuf]) -> Discovered {
    discover_with_folders(paths).0
}

/// Finds the manuscripts at paths, and tells as well which folders were searched for them.
pub(crate) fn discover_with_folders(paths: &[PathBuf]) -> (Discovered, Vec<PathBuf>) {
    let (mut gathered, mut folders) = (Discovered::default(), Vec::new());
    // Only by a link or by a second path is a file met twice.
    let mut may_be_doubled = paths.len() > 1;
    for path in paths {
        if path.is_dir() {
            may_be_doubled |= search(path, &mut gathered, &mut folders);
        } else {
            gathered.files.push(path.clone());
        }
    }
    gathered.files.sort();
    if may_be_doubled {
        let mut seen = BTreeSet::new();
        gathered.files.retain(|file| seen.insert(file.canonicalize().unwrap_or_else(|_| file.clone())));
    }
    (gathered, folders)
}

/// Whether a file is named as a manuscript.
pub fn is_manuscript(path: &Path) -> bool {
    let name = path.file_name().map(|name| name.to_string_lossy().to_lowercase()).unwrap_or_default();
    !name.starts_with('.') && ENDINGS.iter().any(|ending| name.ends_with(ending))
}

/// Whether a folder is one to leave out.
pub fn is_left_out(name: &std::ffi::OsStr) -> bool {
    let name = name.to_string_lossy();
    name == "target" || (name.starts_with('.') && name != "." && name != "..")
}

/// Searches a folder. Whether a link was followed.
fn search(folder: &Path, gathered: &mut Discovered, folders: &mut Vec<PathBuf>) -> bool {
    let mut followed = false;
    let is_folder = |entry: &DirEntry| entry.file_type().is_dir();
    let wanted = |entry: &DirEntry| entry.depth() == 0 || !is_folder(entry) || !is_left_out(entry.file_name());
    for entry in WalkDir::new(folder).follow_links(true).into_iter().filter_entry(wanted) {
        followed |= entry.as_ref().is_ok_and(DirEntry::path_is_symlink);
        match entry {
            Ok(entry) if !entry.file_type().is_dir() && is_manuscript(entry.path()) => {
                gathered.files.push(plain(entry.path()));
            }
            Ok(entry) if entry.file_type().is_dir() => folders.push(entry.into_path()),
            Ok(_) => {}
            // A loop holds nothing that is not found elsewhere.
            Err(error) if error.loop_ancestor().is_some() => {}
            Err(error) => {
                let path = error.path().unwrap_or(folder).to_path_buf();
                // A link to nowhere is only missed where it is named as a manuscript.
                if path.is_dir() || !path.is_symlink() || is_manuscript(&path) {
                    let why = error.io_error().map_or_else(|| error.to_string(), reason);
                    gathered.problems.push(Problem { path: plain(&path), why });
                }
            }
        }
    }
    followed
}

/// What the system says, without its error number.
pub fn reason(error: &std::io::Error) -> String {
    let text = error.to_string();
    match text.split_once(" (os error") {
        Some((words, _)) => words.to_string(),
        None => text,
    }
}

/// The path without a leading `./`.
fn plain(path: &Path) -> PathBuf {
    path.strip_prefix("./").map_or_else(|_| path.to_path_buf(), Path::to_path_buf)
}

/// The nearest house rules up the folders from a folder, by the same path however the folder was named.
pub fn house_rules_above(folder: &Path) -> Option<PathBuf> {
    let whole = without_steps_up(&std::path::absolute(folder).ok()?);
    let found = whole.ancestors().map(|folder| folder.join(HOUSE_RULES_FILE)).find(|file| is_there(file))?;
    let here = std::env::current_dir().ok();
    let shown = here.and_then(|here| found.strip_prefix(here).map(Path::to_path_buf).ok());
    Some(shown.unwrap_or(found))
}

/// `a/../b` as `b`: the folders above it do not count `a`.
fn without_steps_up(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        if part == Component::ParentDir {
            plain.pop();
        } else {
            plain.push(part);
        }
    }
    plain
}

/// Whether there is anything of that name. House rules that cannot be read are to be told, not passed over.
fn is_there(file: &Path) -> bool {
    file.symlink_metadata().is_ok()
}

/// The folder that a file is in.
pub fn folder_of(file: &Path) -> &Path {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}
