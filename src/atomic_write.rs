//! Writing a file so that nobody ever sees half of it: to a temporary file beside it, then renamed over it.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use tempfile::Builder;

use crate::discover::{folder_of, is_manuscript};
use crate::rule_book::HOUSE_RULES_FILE;
use crate::sign_off::SIGN_OFFS_FILE;

/// Writes a whole file, or nothing of it. A link is followed, the permissions of a file that is there are kept, and
/// what is no ordinary file, such as a pipe, is written to as it is.
///
/// # Errors
/// As the system says; what was there is then there still.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    match fs::metadata(path) {
        Ok(there) if there.is_dir() => Err(io::Error::new(io::ErrorKind::IsADirectory, "it is a folder")),
        Ok(there) if !there.is_file() => File::options().write(true).open(path)?.write_all(bytes),
        Ok(there) => replace(path, bytes, Some(there.permissions())),
        Err(_) => replace(path, bytes, None),
    }
}

/// What the names of temporary files begin with, and how many letters follow.
const TEMPORARY: &str = ".sparestrip-";
const RANDOM_LETTERS: usize = 6;

/// How old a temporary file is at least that a killed process is taken to have left.
const STALE: Duration = Duration::from_secs(60 * 60);

/// Removes the temporary files in a folder that killed processes left there. A file that is younger or that somebody
/// holds is not touched; one that cannot be removed is in nobody's way.
fn remove_stale(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let letters = name.to_str().and_then(|name| name.strip_prefix(TEMPORARY));
        let ours = letters.is_some_and(|letters| {
            letters.len() == RANDOM_LETTERS && letters.bytes().all(|letter| letter.is_ascii_alphanumeric())
        });
        if ours && is_stale(&entry) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn is_stale(entry: &fs::DirEntry) -> bool {
    // A link is not followed.
    let Ok(there) = entry.metadata() else { return false };
    let old = || there.modified().ok()?.elapsed().ok();
    let held = || File::open(entry.path()).map_or(true, |file| file.try_lock().is_err());
    there.is_file() && old().is_some_and(|age| age > STALE) && !held()
}

fn replace(path: &Path, bytes: &[u8], permissions: Option<fs::Permissions>) -> io::Result<()> {
    let mut builder = Builder::new();
    builder.prefix(TEMPORARY).rand_bytes(RANDOM_LETTERS);
    // A temporary file is for its owner alone unless told otherwise; this one becomes an ordinary file.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    remove_stale(folder_of(path));
    let mut file = builder.tempfile_in(folder_of(path))?;
    // Held until the file has its name or is gone, so that no other process takes it for a stale one.
    let _ = file.as_file().try_lock();
    file.write_all(bytes)?;
    if let Some(permissions) = permissions {
        file.as_file().set_permissions(permissions)?;
    }
    // Before the rename: after a loss of power the name must not stand for an empty file.
    file.as_file().sync_all()?;
    file.persist(path).map(drop).map_err(|error| error.error)
}

/// What a file is that no report may be written over, where it is one: the words for it.
pub fn precious(path: &Path) -> Option<&'static str> {
    let real = fs::canonicalize(path).unwrap_or_else(|_| PathBuf::from(path));
    [path, real.as_path()].into_iter().find_map(|path| {
        let name = path.file_name().map(|name| name.to_string_lossy().to_lowercase()).unwrap_or_default();
        if is_manuscript(path) {
            Some("a manuscript")
        } else if name == HOUSE_RULES_FILE {
            Some("house rules")
        } else if name == SIGN_OFFS_FILE {
            Some("a record of sign-offs")
        } else {
            None
        }
    })
}
