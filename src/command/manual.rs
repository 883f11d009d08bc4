//! `sparestrip manual`: one page with every command, made from the same definitions as the help, and with every chapter;
//! or one chapter as text.

use std::io;
use std::process::ExitCode;

use clap::builder::{PossibleValue, PossibleValuesParser};
use clap::{Command, CommandFactory};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, bold, roman};
use sparestrip::report::manual::{CHAPTERS, chapter_list, chapter_text, chapters_as_roff, only_ascii};

use super::output::{print, print_error};
use super::{CommandLine, EXIT_FAILURE, ManualArgs};

/// What each exit status means.
const STATUSES: [(&str, &str); 3] = [
    ("0", "Nothing at error level."),
    (
        "1",
        "At least one error. A query counts as one with --strict, a number that nothing checks with --account, and a \
         manuscript that is not signed off as it is with --signed.",
    ),
    ("2", "Something could not be read or done: a file that cannot be opened, or no manuscript found."),
];

/// The files that are read or written by their names.
const FILES: [(&str, &str); 3] = [
    (
        "*.pattern.yaml, *.pattern.yml",
        "Manuscripts. A folder is searched for them; hidden folders and those named target are left out.",
    ),
    (
        "house-rules.yaml",
        "A publisher's own levels and values. The nearest one governs a manuscript: beside it, or in a folder above.",
    ),
    ("sign-offs.yaml", "The record of who signed which manuscript, beside the manuscripts."),
];

const ENVIRONMENT: [(&str, &str); 1] =
    [("NO_COLOR", "Where it is set and not empty, nothing is colored unless --color always says so.")];

const EXAMPLES: [(&str, &str); 5] = [
    ("sparestrip check", "Checks every manuscript in this folder and in the folders below it."),
    ("sparestrip watch my-patterns", "Checks again on every save."),
    ("sparestrip rules spare-strip", "Explains a rule, with its working and examples."),
    ("sparestrip words binding", "Shows what may be stated of the binding, and what holds where it is left out."),
    (
        "sparestrip tables quilt.pattern.yaml --format html --output quilt.html",
        "Makes the tables of the printed pattern.",
    ),
];

/// The names of the chapters, with what each is about.
pub(super) fn chapters() -> PossibleValuesParser {
    CHAPTERS.iter().map(|chapter| PossibleValue::new(chapter.name).help(chapter.title())).into()
}

pub(super) fn manual(args: &ManualArgs) -> ExitCode {
    let look = args.look.look();
    let chapter = args.chapter.as_deref().and_then(|name| CHAPTERS.iter().find(|chapter| chapter.name == name));
    let text = match chapter {
        Some(chapter) => chapter_text(chapter, look),
        None if args.list => chapter_list(look),
        None => return print_page(),
    };
    print(|out| out.write_all(look.plain(&text).as_bytes()), ExitCode::SUCCESS)
}

fn print_page() -> ExitCode {
    match page() {
        Ok(page) => print(|out| out.write_all(&page), ExitCode::SUCCESS),
        Err(error) => {
            print_error(&format!("the manual cannot be made: {error}"));
            ExitCode::from(EXIT_FAILURE)
        }
    }
}

fn page() -> io::Result<Vec<u8>> {
    let mut command = CommandLine::command().disable_help_subcommand(true);
    command.build();
    let man = Man::new(command.clone()).title("SPARESTRIP").manual("User commands");
    let mut page = Vec::new();
    man.render_title(&mut page)?;
    man.render_name_section(&mut page)?;
    man.render_synopsis_section(&mut page)?;
    man.render_description_section(&mut page)?;
    man.render_options_section(&mut page)?;
    // A date of its own would make two pages of one version differ; without quotation marks none would be counted.
    let mut text = String::from_utf8_lossy(&page).replacen(" 1  \"", " 1 \"\" \"", 1);
    text.push_str(".SH COMMANDS\n");
    for word in command.get_subcommands() {
        text.push_str(&section_of(word)?);
    }
    for (heading, entries) in
        [("EXIT STATUS", &STATUSES[..]), ("FILES", &FILES), ("ENVIRONMENT", &ENVIRONMENT), ("EXAMPLES", &EXAMPLES)]
    {
        text.push_str(&list(heading, entries));
    }
    text.push_str(&chapters_as_roff());
    Ok(only_ascii(&tidied(&text)).into_bytes())
}

/// A command: how it is written, what it does, and its options.
fn section_of(word: &Command) -> io::Result<String> {
    let man = Man::new(word.clone());
    let mut parts = Vec::new();
    man.render_synopsis_section(&mut parts)?;
    man.render_description_section(&mut parts)?;
    man.render_options_section(&mut parts)?;
    if word.get_after_help().is_some() {
        man.render_extra_section(&mut parts)?;
    }
    let mut roff = Roff::new();
    roff.control("SS", [format!("sparestrip {}", word.get_name()).as_str()]);
    let mut text = roff.to_roff();
    // The headings are those of a page of its own: here each part follows on the one before it.
    text.push_str(
        &String::from_utf8_lossy(&parts)
            .replace(".SH SYNOPSIS\n", "")
            .replace(".SH DESCRIPTION\n", ".PP\n")
            .replace(".SH OPTIONS\n", "")
            .replace(".SH EXTRA\n", ".PP\n"),
    );
    Ok(text)
}

/// The page without what readers of manual pages warn of: each part's own definition of the apostrophe, which one page
/// needs once, empty lines, and spaces at the end of a line.
fn tidied(text: &str) -> String {
    let preamble = Roff::new().render();
    let lines = text.replace(&preamble, "");
    let lines: Vec<&str> = lines.lines().map(str::trim_end).filter(|line| !line.is_empty()).collect();
    let mut page = preamble;
    for (index, line) in lines.iter().enumerate() {
        if *line != ".br" || lines.get(index + 1) != Some(&".br") {
            page.push_str(line);
            page.push('\n');
        }
    }
    page
}

/// A section with a list of words and what each means.
fn list(heading: &str, entries: &[(&str, &str)]) -> String {
    let mut roff = Roff::new();
    roff.control("SH", [heading]);
    for (word, meaning) in entries {
        roff.control("TP", []);
        roff.text([bold(*word)]);
        roff.text([roman(*meaning)]);
    }
    roff.to_roff()
}
