//! `sparestrip worksheet`

use std::path::Path;
use std::process::ExitCode;

use sparestrip::gather::{Problem, folder_of, reason};
use sparestrip::manuscript::Source;
use sparestrip::report::worksheet as worksheet_text;
use sparestrip::run::settings_for;

use super::check::standard_input;
use super::output::{print, tell};
use super::{COULD_NOT, WorksheetArgs};

pub(super) fn worksheet(args: &WorksheetArgs) -> ExitCode {
    match source(&args.path) {
        Ok(source) => {
            let folder = if args.path == Path::new("-") { Path::new(".") } else { folder_of(&args.path) };
            let look = args.look.look();
            let text = worksheet_text(&source, &settings_for(folder), look);
            print(|out| out.write_all(look.plain(&text).as_bytes()), ExitCode::SUCCESS)
        }
        Err(problem) => {
            tell(&problem);
            ExitCode::from(COULD_NOT)
        }
    }
}

/// The manuscript at a path, or on standard input.
pub(super) fn source(path: &Path) -> Result<Source, Problem> {
    if path == Path::new("-") {
        return standard_input();
    }
    Source::open(path).map_err(|error| Problem { path: path.to_path_buf(), why: reason(&error) })
}
