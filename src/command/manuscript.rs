//! The manuscripts that a command is given: a file, `-` for standard input, or a printed text for those that name it.

use std::io;
use std::path::{Path, PathBuf};

use sparestrip::discover::{Problem, folder_of, is_manuscript, reason};
use sparestrip::manuscript::Source;
use sparestrip::text::{is_named_as_text, manuscripts_naming};

/// Whether a path stands for standard input, or standard output.
pub(super) fn is_dash(path: &Path) -> bool {
    path == Path::new("-")
}

/// The manuscript at a path, or on standard input.
pub(super) fn source(path: &Path) -> Result<Source, Problem> {
    if is_dash(path) {
        let name = PathBuf::from("standard input");
        return Source::from_reader(&name, io::stdin().lock())
            .map_err(|error| Problem { path: name, why: reason(&error) });
    }
    Source::open(path).map_err(|error| Problem { path: path.to_path_buf(), why: reason(&error) })
}

/// The folder whose house rules govern it.
pub(super) fn folder(path: &Path) -> &Path {
    if is_dash(path) { Path::new(".") } else { folder_of(path) }
}

/// What is said of a printed text that belongs to no manuscript.
pub(super) const NOT_NAMED: &str = "no manuscript in its folder, or in those above it, names it under texts";

/// The paths that are manuscripts or folders, with the manuscripts that name it in place of each printed text; other files
/// are left out.
pub(super) fn named_alone(paths: &[PathBuf]) -> Vec<PathBuf> {
    let is_own = |path: &PathBuf| !path.is_file() || is_manuscript(path);
    paths.iter().flat_map(|path| if is_own(path) { vec![path.clone()] } else { manuscripts_naming(path) }).collect()
}

/// The paths, with the manuscripts that name it in place of each printed text.
pub(super) fn in_place_of_texts(paths: &[PathBuf]) -> Result<Vec<PathBuf>, Problem> {
    let mut manuscripts = Vec::new();
    for path in paths {
        if !path.is_file() || !is_named_as_text(path) {
            manuscripts.push(path.clone());
            continue;
        }
        let naming = manuscripts_naming(path);
        if naming.is_empty() {
            return Err(Problem { path: path.clone(), why: NOT_NAMED.to_string() });
        }
        manuscripts.extend(naming);
    }
    Ok(manuscripts)
}
