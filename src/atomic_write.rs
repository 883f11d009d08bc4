//! Writing a file so that nobody ever sees half of it: to a temporary file beside it, then renamed over it.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use tempfile::{Builder, NamedTempFile};

use crate::discover::{folder_of, is_manuscript};
use crate::rule_book::HOUSE_RULES_FILE;
use crate::sign_off::SIGN_OFFS_FILE;

/// Writes a whole file, or nothing of it. A link is followed, the permissions of a file that is there are kept, and
/// what is no ordinary file, such as a pipe, is written to as it is.
///
/// # Errors
/// As the system says; what was there is then there still.
pub fn write_whole(path: &Path, write: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> io::Result<()> {
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    match fs::metadata(path) {
        Ok(there) if there.is_dir() => Err(io::Error::new(io::ErrorKind::IsADirectory, "it is a folder")),
        Ok(there) if !there.is_file() => write(&mut File::options().write(true).open(path)?),
        Ok(there) => replace(path, write, Some(there.permissions()), || Ok(())),
        Err(_) => replace(path, write, None, || Ok(())),
    }
}

/// Replaces what is in a file, whole or not at all, where it is still what was read from it. A link is followed, and
/// permissions are kept.
///
/// # Errors
/// As the system says, or in words where the file may not be written, is no ordinary file, or has another text by now.
/// What was there is then there still.
pub fn replace_unchanged(path: &Path, read: &[u8], bytes: &[u8]) -> io::Result<()> {
    let path = &fs::canonicalize(path)?;
    let there = fs::metadata(path)?;
    if !there.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    // A rename would take the place of a file that nobody may write.
    if there.permissions().readonly() {
        return Err(io::Error::new(io::ErrorKind::PermissionDenied, "it may not be written"));
    }
    // At the last moment, when all that is left to do is the rename.
    let unchanged = || {
        if fs::read(path)? == read { Ok(()) } else { Err(io::Error::other("it changed since it was read")) }
    };
    unchanged()?;
    replace(path, |out| out.write_all(bytes), Some(there.permissions()), unchanged)
}

/// Makes a file with a text, whole or not at all, where there is nothing of that name.
///
/// # Errors
/// As the system says, also where there is something already.
pub fn create_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    written_beside(path, |out| out.write_all(bytes), None)?
        .persist_noclobber(path)
        .map(drop)
        .map_err(|error| error.error)
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

fn replace(
    path: &Path,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    permissions: Option<fs::Permissions>,
    at_last: impl FnOnce() -> io::Result<()>,
) -> io::Result<()> {
    let file = written_beside(path, write, permissions)?;
    at_last()?;
    file.persist(path).map(drop).map_err(|error| error.error)
}

/// A temporary file beside a path, with all that is written in it.
fn written_beside(
    path: &Path,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    permissions: Option<fs::Permissions>,
) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(TEMPORARY).rand_bytes(RANDOM_LETTERS);
    // A temporary file is for its owner alone unless told otherwise; this one becomes an ordinary file.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    remove_stale(folder_of(path));
    let mut file = builder.tempfile_in(folder_of(path))?;
    // Held until the file has its name or is gone, so that no other process takes it for a stale one.
    let _ = file.as_file().try_lock();
    write(&mut file)?;
    if let Some(permissions) = permissions {
        file.as_file().set_permissions(permissions)?;
    }
    // Before the rename: after a loss of power the name must not stand for an empty file.
    file.as_file().sync_all()?;
    Ok(file)
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

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::Path;

    use super::{create_whole, replace_unchanged, write_whole};

    fn in_folder(test: impl FnOnce(&Path)) {
        let folder = tempfile::tempdir().expect("a folder");
        test(&folder.path().join("x"));
        assert!(fs::read_dir(folder.path()).expect("a folder").count() <= 1, "something was left behind");
    }

    #[test]
    fn a_file_that_changed_is_not_replaced() {
        in_folder(|file| {
            write_whole(file, |out| out.write_all(b"one")).expect("written");
            replace_unchanged(file, b"one", b"two").expect("replaced");
            let refused = replace_unchanged(file, b"one", b"three").expect_err("it changed");
            assert_eq!(refused.to_string(), "it changed since it was read");
            assert_eq!(fs::read(file).expect("a file"), b"two");
        });
    }

    #[test]
    fn a_file_that_is_gone_is_not_made_again() {
        in_folder(|file| {
            assert!(replace_unchanged(file, b"", b"two").is_err());
            assert!(!file.exists());
        });
    }

    #[test]
    fn nothing_is_made_over_a_file() {
        in_folder(|file| {
            create_whole(file, b"one").expect("made");
            assert!(create_whole(file, b"two").is_err());
            assert_eq!(fs::read(file).expect("a file"), b"one");
        });
    }
}
