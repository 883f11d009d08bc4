//! `sparestrip fix`

use std::io::{self, IsTerminal, Read, Write};
use std::path::Path;
use std::process::ExitCode;

use rayon::prelude::*;
use similar::TextDiff;
use sparestrip::atomic_write::replace_unchanged;
use sparestrip::check::Tally;
use sparestrip::discover::{Problem, discover, folder_of, reason};
use sparestrip::fix::{Fixed, fix as fix_text};
use sparestrip::manuscript::{LARGEST_FILE, Source};
use sparestrip::report::{RenderStyle, fix_lines, fix_total, no_longer_signed};
use sparestrip::rule_book::Settings;
use sparestrip::run::settings_for_fixing;
use sparestrip::sign_off::{SignOff, read_records};

use super::manuscript::is_dash;
use super::output::{print_error, print_problem, print_with, show, terminal_width};
use super::{EXIT_FAILURE, FixArgs};

/// How many lines of a diff stand round what is changed: the customary number.
const CONTEXT: usize = 3;

/// A manuscript that was read and corrected, in memory.
struct Corrected {
    before: Source,
    fixed: Fixed,
    /// Who had signed it as it was, and has not as it is now.
    unsigned: Option<String>,
}

impl Corrected {
    fn is_changed(&self) -> bool {
        self.before.text != self.fixed.source.text
    }
}

pub(super) fn fix(args: &FixArgs) -> ExitCode {
    if args.paths.iter().any(|path| is_dash(path)) {
        if args.paths.len() > 1 {
            print_error("- stands for standard input and is given alone");
            return ExitCode::from(EXIT_FAILURE);
        }
        return fix_input(args.diff);
    }
    let gathered = discover(&args.paths);
    if gathered.files.is_empty() && gathered.problems.is_empty() {
        let places = args.paths.iter().map(|path| show(path)).collect::<Vec<_>>().join(", ");
        print_error(&format!("no manuscripts found in {places}: their names end in .pattern.yaml"));
        return ExitCode::from(EXIT_FAILURE);
    }
    gathered.problems.iter().for_each(print_problem);
    let corrected: Vec<Result<Corrected, Problem>> = gathered.files.par_iter().map(|path| corrected(path)).collect();
    let all_read = gathered.problems.is_empty() && corrected.iter().all(Result::is_ok);
    corrected.iter().filter_map(|each| each.as_ref().err()).for_each(print_problem);
    let corrected: Vec<Corrected> = corrected.into_iter().flatten().collect();
    if args.diff { show_diffs(&corrected, all_read) } else { write_all(corrected, all_read) }
}

/// Prints what would be changed, and on standard error what is to be said of it.
fn show_diffs(corrected: &[Corrected], all_read: bool) -> ExitCode {
    let told = corrected.iter().fold(true, |told, each| told & print_diff(each));
    corrected.iter().for_each(print_on_stderr);
    print_error(&fix_total(corrected.iter().map(|each| &each.fixed)));
    status(corrected, all_read && told, true)
}

/// Writes each manuscript that is changed, and says so. Where one cannot be written, the others are.
fn write_all(corrected: Vec<Corrected>, all_read: bool) -> ExitCode {
    let (mut done, mut whole) = (Vec::new(), all_read);
    for each in corrected {
        let written = !each.is_changed() || write(&each);
        whole &= written;
        if written {
            whole &= print_lines(&each);
            done.push(each);
        }
    }
    let total = fix_total(done.iter().map(|each| &each.fixed));
    whole &= print_with(false, |out| writeln!(out, "{total}"));
    status(&done, whole, false)
}

/// Standard input to standard output, as a filter of an editor: the text as it came where nothing can be done.
fn fix_input(diff: bool) -> ExitCode {
    let mut bytes = Vec::new();
    if let Err(error) = io::stdin().lock().take(LARGEST_FILE + 1).read_to_end(&mut bytes) {
        print_error(&format!("standard input: {}", reason(&error)));
        return ExitCode::from(EXIT_FAILURE);
    }
    if bytes.len() as u64 > LARGEST_FILE {
        print_error("standard input is larger than any manuscript: nothing is printed");
        return ExitCode::from(EXIT_FAILURE);
    }
    let source = Source::from_bytes("standard input", bytes.clone());
    let settings = match settings_for_fixing(Path::new(".")) {
        Ok(settings) => settings,
        Err(problem) => {
            print_problem(&problem);
            if !diff {
                print_text(&bytes);
            }
            return ExitCode::from(EXIT_FAILURE);
        }
    };
    let each = Corrected { fixed: fix_text(&source, &settings), before: source, unsigned: None };
    let text = if each.is_changed() { each.fixed.source.text.as_bytes() } else { &bytes };
    let told = if diff { print_diff(&each) } else { print_text(text) };
    print_on_stderr(&each);
    status(&[each], told, diff)
}

fn corrected(path: &Path) -> Result<Corrected, Problem> {
    let folder = folder_of(path);
    let before = Source::open(path).map_err(|error| Problem { path: path.to_path_buf(), why: reason(&error) })?;
    let settings = settings_for_fixing(folder)?;
    let fixed = fix_text(&before, &settings);
    let unsigned = signer(&before, folder, &settings).filter(|_| signer(&fixed.source, folder, &settings).is_none());
    Ok(Corrected { before, fixed, unsigned })
}

/// Who signed a text as it is, where somebody did.
fn signer(source: &Source, folder: &Path, settings: &Settings) -> Option<String> {
    // Sign-offs that cannot be read are told by `check --signed`.
    let records = read_records(folder).ok().filter(|records| !records.is_empty())?;
    match SignOff::of(source, settings, &records) {
        SignOff::Signed { by, changes, .. } if changes.is_empty() => Some(by),
        _ => None,
    }
}

fn write(each: &Corrected) -> bool {
    let (path, before, after) = (&each.before.path, &each.before.text, &each.fixed.source.text);
    match replace_unchanged(path, before.as_bytes(), after.as_bytes()) {
        Ok(()) => {
            print_error(&format!("wrote {}", show(path)));
            true
        }
        Err(error) => {
            print_error(&format!("{} is left as it was: {}", show(path), reason(&error)));
            false
        }
    }
}

/// The lines about one manuscript.
fn lines(each: &Corrected) -> Vec<String> {
    let mut lines = fix_lines(&each.fixed);
    lines.extend(each.unsigned.iter().map(|by| no_longer_signed(&each.before, by)));
    lines
}

fn print_lines(each: &Corrected) -> bool {
    let width = if io::stdout().is_terminal() { terminal_width() } else { None };
    let wrapped = |line: String| width.map_or(line.clone(), |width| RenderStyle::wrapped(&line, width));
    print_with(false, |out| lines(each).into_iter().try_for_each(|line| writeln!(out, "{}", wrapped(line))))
}

/// Where standard output is for something else.
fn print_on_stderr(each: &Corrected) {
    for line in lines(each) {
        print_error(&line);
    }
}

/// The text as it is, byte for byte, for the program that asked for it. A terminal is steered by nothing in it.
fn print_text(text: &[u8]) -> bool {
    if io::stdout().is_terminal() {
        return print_with(false, |out| out.write_all(text));
    }
    let mut out = io::stdout().lock();
    match out.write_all(text).and_then(|()| out.flush()) {
        Ok(()) => true,
        Err(error) => {
            print_error(&format!("the text cannot be written: {}", reason(&error)));
            false
        }
    }
}

fn print_diff(each: &Corrected) -> bool {
    if !each.is_changed() {
        return true;
    }
    let (before, after) = (split(&each.before.text), split(&each.fixed.source.text));
    let diff = TextDiff::configure().newline_terminated(true).diff_slices(&before, &after);
    let name = each.before.path.to_string_lossy();
    print_with(false, |out| write!(out, "{}", diff.unified_diff().context_radius(CONTEXT).header(&name, &name)))
}

/// The lines as programs that read a diff have them: each ends with a line feed, whatever stands before it.
fn split(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}

fn status(done: &[Corrected], whole: bool, diff: bool) -> ExitCode {
    let errors = done.iter().any(|each| Tally::of(&each.fixed.outcome).errors > 0);
    if !whole {
        ExitCode::from(EXIT_FAILURE)
    } else if errors || (diff && done.iter().any(Corrected::is_changed)) {
        ExitCode::from(1)
    } else {
        ExitCode::SUCCESS
    }
}
