//! `sparestrip worksheet`

use std::ffi::OsStr;
use std::path::Path;
use std::process::ExitCode;

use sparestrip::report::{page, worksheet as worksheet_text, worksheet_json};
use sparestrip::run::settings_for;
use sparestrip::worksheet::Worksheet;

use super::manuscript::{folder, source};
use super::output::{print, print_error, print_problem, show, write_file};
use super::{EXIT_FAILURE, WorksheetArgs, WorksheetFormat};

pub(super) fn worksheet(args: &WorksheetArgs) -> ExitCode {
    if let Some(slip) = slip(args) {
        print_error(&slip);
        return ExitCode::from(EXIT_FAILURE);
    }
    let source = match source(&args.path) {
        Ok(source) => source,
        Err(problem) => {
            print_problem(&problem);
            return ExitCode::from(EXIT_FAILURE);
        }
    };
    let settings = settings_for(folder(&args.path));
    let worksheet = Worksheet::new(&source, &settings);
    if let Some(file) = &args.html {
        return put(&page(&worksheet, &source, &settings), file.as_deref());
    }
    let look = args.look.look();
    let text = match args.format {
        WorksheetFormat::Text => look.plain(&worksheet_text(&worksheet, look)),
        WorksheetFormat::Json => worksheet_json(&source, &worksheet),
    };
    put(&text, None)
}

/// Prints the text, or writes it to a file where one is named.
fn put(text: &str, file: Option<&Path>) -> ExitCode {
    match file {
        None => print(|out| out.write_all(text.as_bytes()), ExitCode::SUCCESS),
        Some(file) if write_file(file, text.as_bytes()) => ExitCode::SUCCESS,
        Some(_) => ExitCode::from(EXIT_FAILURE),
    }
}

/// What is wrong with the words of the command, where something is.
fn slip(args: &WorksheetArgs) -> Option<String> {
    let named = args.html.as_ref().and_then(Option::as_deref);
    // A manuscript may have any name, by which no other command would know it for one.
    if let Some(file) = named.filter(|file| same_file::is_same_file(file, &args.path).unwrap_or(false)) {
        return Some(format!("{} is the manuscript itself: nothing is written over it", show(file)));
    }
    let more = args.more.first()?;
    let is_page = |path: &Path| path.extension().is_some_and(|end| ["html", "htm"].map(OsStr::new).contains(&end));
    let (page, manuscript) = if is_page(&args.path) { (&args.path, more) } else { (more, &args.path) };
    if args.html == Some(None) && args.more.len() == 1 && is_page(page) {
        let (page, manuscript) = (show(page), show(manuscript));
        return Some(format!(
            "to write the page to {page}, put = before its name: sparestrip worksheet {manuscript} --html={page}"
        ));
    }
    Some("a worksheet is of one manuscript; name one at a time".to_string())
}
