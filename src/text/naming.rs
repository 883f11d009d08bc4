//! Which manuscripts name a printed text.

use std::path::{Component, Path, PathBuf};

use crate::discover::{folder_of, is_manuscript};
use crate::manuscript::{Source, read};

/// How many folders are looked through for the manuscripts of a text: its own, and those above it.
const MAX_FOLDERS: usize = 4;

/// How many manuscripts of a folder are looked at.
const MAX_MANUSCRIPTS: usize = 500;

/// The manuscripts that name a text, in its folder or, where there is none, in the nearest folder above that has one.
pub fn manuscripts_naming(text: &Path) -> Vec<PathBuf> {
    let Ok(real) = text.canonicalize() else { return Vec::new() };
    let mut folder = folder_of(text).to_path_buf();
    for _ in 0..MAX_FOLDERS {
        let found = naming_in(&folder, &real);
        if !found.is_empty() {
            return found;
        }
        folder = above(&folder);
    }
    Vec::new()
}

/// The folder above one, by the path that leads there.
fn above(folder: &Path) -> PathBuf {
    match folder.components().next_back() {
        Some(Component::Normal(_)) => match folder.parent() {
            Some(above) if !above.as_os_str().is_empty() => above.to_path_buf(),
            _ => PathBuf::from("."),
        },
        Some(Component::CurDir) | None => PathBuf::from(".."),
        _ => folder.join(".."),
    }
}

fn naming_in(folder: &Path, text: &Path) -> Vec<PathBuf> {
    let Ok(files) = std::fs::read_dir(folder) else { return Vec::new() };
    let names = files.flatten().map(|file| PathBuf::from(file.file_name())).filter(|name| is_manuscript(name));
    let mut manuscripts: Vec<PathBuf> = names
        .take(MAX_MANUSCRIPTS)
        .map(|name| if folder == Path::new(".") { name } else { folder.join(name) })
        .filter(|manuscript| names_text(manuscript, folder, text))
        .collect();
    manuscripts.sort();
    manuscripts
}

fn names_text(manuscript: &Path, folder: &Path, text: &Path) -> bool {
    let Ok(source) = Source::open(manuscript) else { return false };
    let named = read(&source).texts;
    named.iter().any(|named| folder.join(&named.value).canonicalize().is_ok_and(|path| path == text))
}
