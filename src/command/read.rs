//! `sparestrip read`

use std::fs::File;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use sparestrip::discover::{Problem, folder_of, reason};
use sparestrip::manuscript::Source;
use sparestrip::report::sanitize_line;
use sparestrip::run::settings_for;
use sparestrip::text::passage::MAX_TEXT_BYTES;
use sparestrip::text::{MatchedText, State, match_text, read_text};

use super::manuscript::{folder, source};
use super::output::{print, print_error, print_problem, show};
use super::{EXIT_FAILURE, ReadArgs};

pub(super) fn read(args: &ReadArgs) -> ExitCode {
    match matched(args) {
        Ok(matched) => {
            let differ = matched.numbers.iter().any(|number| number.state == State::Differs);
            let status = if differ { ExitCode::from(1) } else { ExitCode::SUCCESS };
            print(|out| write(&matched, &args.text, out), status)
        }
        Err(problem) => {
            print_problem(&problem);
            ExitCode::from(EXIT_FAILURE)
        }
    }
}

/// The numbers of the text, matched with those of its manuscript.
fn matched(args: &ReadArgs) -> Result<MatchedText, Problem> {
    let Some(manuscript) = args.manuscript.clone().or_else(|| manuscript_beside(&args.text)) else {
        let why = "no manuscript beside it names it under texts: give one with --manuscript".to_string();
        return Err(Problem { path: args.text.clone(), why });
    };
    let source = source(&manuscript)?;
    let bytes = bytes(&args.text).map_err(|error| Problem { path: args.text.clone(), why: reason(&error) })?;
    let printed = read_text(&args.text, &bytes);
    for problem in &printed.problems {
        print_error(&format!("{}: {}", show(&args.text), sanitize_line(&problem.says)));
    }
    Ok(match_text(&printed, &source, &settings_for(folder(&manuscript))))
}

/// The bytes of a file, at most as many as are read.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(MAX_TEXT_BYTES + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The manuscript in the folder of a text, or above it, that names it.
fn manuscript_beside(text: &Path) -> Option<PathBuf> {
    let _ = (folder_of(text), Source::open);
    None
}

/// Writes a line for each number, and how many were matched.
fn write(matched: &MatchedText, path: &Path, out: &mut dyn Write) -> io::Result<()> {
    for number in &matched.numbers {
        let (state, words) = match number.state {
            State::Right => ("OK", number.matched.join("; or ")),
            State::Differs => ("differs", number.matched.join("; or ")),
            State::Unclear(why) => ("unclear", why.to_string()),
            State::NotRequired(why) => ("-", why.to_string()),
        };
        writeln!(out, "{:<9} {:<8} {:<16} {}", number.place, state, sanitize_line(&number.quoted), sanitize_line(&words))?;
    }
    writeln!(out, "{}: {}", show(path), matched.share.words())
}
