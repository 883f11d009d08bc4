//! `sparestrip read`

use std::fs::File;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use sparestrip::discover::{Problem, folder_of, reason};
use sparestrip::manuscript::{Source, read as read_manuscript};
use sparestrip::report::sanitize_line;
use sparestrip::run::settings_for;
use sparestrip::text::passage::MAX_TEXT_BYTES;
use sparestrip::text::{MatchedText, State, TextFile, match_text};

use super::manuscript::{folder, source};
use super::output::{print, print_error, print_problem, show};
use super::{EXIT_FAILURE, ReadArgs};

/// How many folders above a text's own are looked through for its manuscript, its own counted.
const MAX_FOLDERS_ABOVE: usize = 4;

/// How many manuscripts of a folder are looked at.
const MAX_MANUSCRIPTS: usize = 500;

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
    let Some(manuscript) = args.manuscript.clone().or_else(|| manuscript_of(&args.text)) else {
        let why = "no manuscript in its folder, or in those above it, names it under texts: give one with --manuscript";
        return Err(Problem { path: args.text.clone(), why: why.to_string() });
    };
    let source = source(&manuscript)?;
    let bytes = bytes(&args.text).map_err(|error| Problem { path: args.text.clone(), why: reason(&error) })?;
    let file = TextFile::new(args.text.clone(), bytes);
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
    let mut bytes = Vec::new();
    File::open(path)?.take(MAX_TEXT_BYTES + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The manuscript in the folder of a text, or in one of those above it, that names it.
fn manuscript_of(text: &Path) -> Option<PathBuf> {
    let real = text.canonicalize().ok()?;
    let folder = folder_of(&real);
    folder.ancestors().take(MAX_FOLDERS_ABOVE).find_map(|folder| {
        let files = std::fs::read_dir(folder).ok()?.flatten().map(|file| file.path());
        let mut manuscripts: Vec<PathBuf> = files.filter(|path| is_manuscript(path)).take(MAX_MANUSCRIPTS).collect();
        manuscripts.sort();
        manuscripts.into_iter().find(|manuscript| names(manuscript, folder, &real))
    })
}

fn is_manuscript(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.to_string_lossy().ends_with(".pattern.yaml"))
}

fn names(manuscript: &Path, folder: &Path, text: &Path) -> bool {
    let Ok(source) = Source::open(manuscript) else { return false };
    let texts = read_manuscript(&source).texts;
    texts.iter().any(|named| folder.join(&named.value).canonicalize().is_ok_and(|path| path == text))
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
