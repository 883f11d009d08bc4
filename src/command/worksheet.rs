//! `sparestrip worksheet`

use std::path::Path;
use std::process::ExitCode;

use sparestrip::gather::{Problem, folder_of, reason};
use sparestrip::manuscript::Source;
use sparestrip::report::{worksheet as worksheet_text, worksheet_json};
use sparestrip::run::settings_for;
use sparestrip::worksheet::Worksheet;

use super::check::standard_input;
use super::output::{print, tell};
use super::{COULD_NOT, Format, WorksheetArgs};

pub(super) fn worksheet(args: &WorksheetArgs) -> ExitCode {
    match source(&args.path) {
        Ok(source) => {
            let folder = if args.path == Path::new("-") { Path::new(".") } else { folder_of(&args.path) };
            let worksheet = Worksheet::new(&source, &settings_for(folder));
            let look = args.look.look();
            let text = match args.format {
                Format::Text => look.plain(&worksheet_text(&worksheet, look)),
                Format::Json => worksheet_json(&source, &worksheet),
            };
            print(|out| out.write_all(text.as_bytes()), ExitCode::SUCCESS)
        }
        Err(problem) => {
            tell(&problem);
            ExitCode::from(COULD_NOT)
        }
    }
}

fn source(path: &Path) -> Result<Source, Problem> {
    if path == Path::new("-") {
        return standard_input();
    }
    Source::open(path).map_err(|error| Problem { path: path.to_path_buf(), why: reason(&error) })
}
