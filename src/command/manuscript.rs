//! The one manuscript that a command is given: a file, or `-` for standard input.

use std::io;
use std::path::{Path, PathBuf};

use sparestrip::discover::{Problem, folder_of, reason};
use sparestrip::manuscript::Source;

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
