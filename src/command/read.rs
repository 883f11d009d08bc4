//! `sparestrip read`

use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;

use sparestrip::discover::{Problem, reason};
use sparestrip::report::sanitize_line;
use sparestrip::run::settings_for;
use sparestrip::text::{MatchedText, State, TextFile, manuscripts_naming, match_text, text_bytes};

use super::manuscript::{NOT_NAMED, folder, source};
use super::output::{print, print_error, print_problem, show};
use super::{EXIT_FAILURE, ReadArgs};

pub(super) fn read(args: &ReadArgs) -> ExitCode {
    match matched(args) {
        Ok(matched) => {
            let differ = matched
                .numbers
                .iter()
                .any(|number| matches!(number.state, State::Differs | State::OtherHalf | State::ByItself));
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
    let named_by = || manuscripts_naming(&args.text).into_iter().next();
    let Some(manuscript) = args.manuscript.clone().or_else(named_by) else {
        let why = format!("{NOT_NAMED}: give one with --manuscript");
        return Err(Problem { path: args.text.clone(), why });
    };
    let source = source(&manuscript)?;
    let bytes = bytes(&args.text).map_err(|error| Problem { path: args.text.clone(), why: reason(&error) })?;
    let file = TextFile::new(args.text.clone(), bytes);
    if let ([], [problem, ..]) = (&file.printed.passages[..], &file.printed.problems[..]) {
        return Err(Problem { path: args.text.clone(), why: problem.says.clone() });
    }
    for problem in &file.printed.problems {
        print_error(&format!("{}: {}", show(&args.text), sanitize_line(&problem.says)));
    }
    Ok(match_text(&file, &source, &settings_for(folder(&manuscript))))
}

/// The bytes of a file, at most as many as are read.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    if !path.metadata()?.is_file() {
        return Err(io::Error::other("it is not a file"));
    }
    text_bytes(path)
}

/// Writes a line for each number, and how many were matched.
fn write(matched: &MatchedText, path: &Path, out: &mut dyn Write) -> io::Result<()> {
    for number in &matched.numbers {
        let (state, words) = match number.state {
            State::Right => ("OK", number.matched.join("; or ")),
            State::Differs => ("differs", number.matched.join("; or ")),
            State::OtherHalf => ("differs", "no rounding of the number beside it".to_string()),
            State::ByItself => {
                ("differs", "another number than the word before it, or than its parts make".to_string())
            }
            State::Unclear(why) => ("unclear", why.to_string()),
            State::NotRequired(why) => ("-", why.to_string()),
        };
        writeln!(
            out,
            "{:<8} {:<8} {:<12} {}",
            number.place,
            state,
            sanitize_line(&number.quoted),
            sanitize_line(&words)
        )?;
    }
    writeln!(out, "{}: {}", show(path), matched.share.words())
}
