//! `sparestrip worksheet`

use std::ffi::OsStr;
use std::path::Path;
use std::process::ExitCode;

use sparestrip::discover::{Problem, discover};
use sparestrip::manuscript::Source;
use sparestrip::report::{
    page, page_of_several, sanitize, worksheet as worksheet_text, worksheet_json, worksheets_json,
};
use sparestrip::rule_book::Settings;
use sparestrip::run::settings_for;
use sparestrip::sign_off::{SIGN_OFFS_FILE, read_records};
use sparestrip::worksheet::{Selection, SelectionError, Signing, Worksheet};

use super::manuscript::{folder, is_dash, source};
use super::output::{print, print_error, print_problem, show, write_file};
use super::{EXIT_FAILURE, WorksheetArgs, WorksheetFormat, WorksheetPart};

/// A manuscript, its worksheet, and the settings that govern it.
type Sheet = (Source, Worksheet, Settings);

pub(super) fn worksheet(args: &WorksheetArgs) -> ExitCode {
    if let Some(slip) = slip(args) {
        print_error(&slip);
        return ExitCode::from(EXIT_FAILURE);
    }
    let (sheets, problems) = match sheets(args) {
        Ok(sheets) => sheets,
        Err(why) => {
            print_error(&why);
            return ExitCode::from(EXIT_FAILURE);
        }
    };
    problems.iter().for_each(print_problem);
    if sheets.is_empty() {
        return ExitCode::from(EXIT_FAILURE);
    }
    let status = show_sheets(args, sheets);
    if problems.is_empty() { status } else { ExitCode::from(EXIT_FAILURE) }
}

/// The worksheets that are asked for, and the manuscripts that could not be read.
fn sheets(args: &WorksheetArgs) -> Result<(Vec<Sheet>, Vec<Problem>), String> {
    if !args.path.is_dir() {
        let mut sheet = match source(&args.path) {
            Ok(source) => sheet(source, &args.path, args),
            Err(problem) => return Ok((Vec::new(), vec![problem])),
        };
        if let Some(selection) = selected(&sheet.1, args).map_err(|error| sanitize(&error.to_string()).into_owned())? {
            selection.remarks.iter().for_each(|remark| print_error(remark));
            sheet.1.select(selection);
        }
        return Ok((vec![sheet], Vec::new()));
    }
    let found = discover(std::slice::from_ref(&args.path));
    if found.files.is_empty() && found.problems.is_empty() {
        return Err(format!("no manuscripts found in {}: their names end in .pattern.yaml", show(&args.path)));
    }
    let (mut sheets, mut problems) = (Vec::new(), found.problems);
    let mut unknown: Option<SelectionError> = None;
    for path in &found.files {
        let mut sheet = match source(path) {
            Ok(source) => sheet(source, path, args),
            Err(problem) => {
                problems.push(problem);
                continue;
            }
        };
        // One that has no such size or section has nothing to show.
        match selected(&sheet.1, args) {
            Ok(selection) => {
                if let Some(selection) = selection {
                    for remark in &selection.remarks {
                        print_error(&format!("{}: {remark}", show(path)));
                    }
                    sheet.1.select(selection);
                }
                sheets.push(sheet);
            }
            Err(error) => unknown = unknown.or(Some(error)),
        }
    }
    match unknown {
        Some(error) if sheets.is_empty() => {
            let nearest = error.nearest.map_or_else(String::new, |nearest| format!("; did you mean {nearest}?"));
            let words =
                format!("no manuscript in {} has a size or a section {}{nearest}", show(&args.path), error.word);
            Err(sanitize(&words).into_owned())
        }
        _ => Ok((sheets, problems)),
    }
}

fn selected(worksheet: &Worksheet, args: &WorksheetArgs) -> Result<Option<Selection>, SelectionError> {
    if args.only.is_empty() { Ok(None) } else { Selection::read(&args.only, worksheet).map(Some) }
}

/// The worksheet of a manuscript, with what the sign-offs beside it say.
fn sheet(source: Source, path: &Path, args: &WorksheetArgs) -> Sheet {
    let settings = settings_for(folder(path));
    let mut worksheet = Worksheet::new(&source, &settings);
    let records = (!is_dash(path)).then(|| read_records(folder(path)));
    if let Some(Err(why)) = &records {
        let path = path.with_file_name(SIGN_OFFS_FILE);
        print_problem(&Problem { path, why: why.clone() });
    }
    let records = records.and_then(Result::ok);
    worksheet.signing = Some(Signing::new(&source, &settings, &worksheet, records.as_ref()));
    if args.without.contains(&WorksheetPart::Drawings) {
        worksheet.without_drawings();
    }
    worksheet.workings = !args.without.contains(&WorksheetPart::Workings);
    (source, worksheet, settings)
}

fn show_sheets(args: &WorksheetArgs, mut sheets: Vec<Sheet>) -> ExitCode {
    let several = args.path.is_dir();
    if let Some(file) = &args.html {
        let text = match sheets.as_slice() {
            [(source, worksheet, settings)] if !several => page(worksheet, source, settings),
            sheets => page_of_several(sheets),
        };
        return put(&text, file.as_deref());
    }
    let look = args.look.look();
    let text = match args.format {
        WorksheetFormat::Text => {
            let texts: Vec<String> =
                sheets.iter().map(|(_, sheet, _)| look.plain(&worksheet_text(sheet, look))).collect();
            texts.join("\n\n")
        }
        WorksheetFormat::Json if several => {
            let sheets: Vec<(Source, Worksheet)> = sheets.drain(..).map(|(source, sheet, _)| (source, sheet)).collect();
            worksheets_json(&sheets)
        }
        WorksheetFormat::Json => sheets.iter().map(|(source, sheet, _)| worksheet_json(source, sheet)).collect(),
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
        let what = if args.path.is_dir() { "folder of the manuscripts" } else { "manuscript itself" };
        return Some(format!("{} is the {what}: nothing is written over it", show(file)));
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
    Some("a worksheet is of one manuscript, or of those in one folder; name one at a time".to_string())
}
