//! `sparestrip tables`

use std::process::ExitCode;

use sparestrip::check::{Corrections, Tally, check_with};
use sparestrip::manuscript::Source;
use sparestrip::quantity::Count;
use sparestrip::report::{
    SizesStyle, instructions_as_csv, instructions_as_html, instructions_as_markdown, sanitize_line, tables_as_csv,
    tables_as_html, tables_as_markdown,
};
use sparestrip::rule_book::Settings;
use sparestrip::run::settings_for;
use sparestrip::tables::{Head, instructions_under, tables_under};

use super::manuscript::{folder, source};
use super::output::{print, print_error, print_problem, show, write_file};
use super::{EXIT_FAILURE, SizesArg, TableFormat, TablesArgs, TablesForm};

/// How many places that could not be read are told one by one.
const MAX_TOLD: usize = 20;

pub(super) fn tables(args: &TablesArgs) -> ExitCode {
    if let Some(why) = refused(args) {
        print_error(why);
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
    let name = show(&source.path);
    let (head, text) = made(args, &source, &settings);
    report_missing(&head, &name);
    let Some(text) = text else {
        let what = match args.form {
            TablesForm::Tables => "tables",
            TablesForm::Instructions => "cutting instructions",
        };
        print_error(&format!("{name} states nothing that {what} could be made of"));
        return ExitCode::from(EXIT_FAILURE);
    };
    let errors = Tally::of(&check_with(&source, &settings, Corrections::LeftOut)).errors;
    if errors > 0 {
        let (errors, them) = (Count(errors as u64).of("error"), if errors == 1 { "it" } else { "them" });
        print_error(&format!(
            "{name} has {errors}; the tables show the numbers as they are stated. `sparestrip check` shows {them}"
        ));
    }
    // The same as `check` says: a script that publishes must not go on with a pattern that has an error.
    let status = if errors > 0 || !head.missing.is_empty() { ExitCode::from(1) } else { ExitCode::SUCCESS };
    put(args, &text, status)
}

/// Why what is asked for does not go together.
fn refused(args: &TablesArgs) -> Option<&'static str> {
    match (args.form, args.sizes, args.format) {
        (TablesForm::Tables, Some(_), _) => {
            Some("the tables have a column for each size: --sizes goes with --form instructions")
        }
        (TablesForm::Instructions, Some(SizesArg::Run | SizesArg::Lists), TableFormat::Csv) => {
            Some("CSV has a line for each number of each size: leave --sizes out, or write --format markdown or html")
        }
        _ => None,
    }
}

/// What is asked for, with its head; no text where there is nothing to make it of.
fn made(args: &TablesArgs, source: &Source, settings: &Settings) -> (Head, Option<String>) {
    match args.form {
        TablesForm::Tables => {
            let tables = tables_under(source, settings);
            let text = match args.format {
                TableFormat::Markdown => tables_as_markdown(&tables),
                TableFormat::Csv => tables_as_csv(&tables),
                TableFormat::Html => tables_as_html(&tables),
            };
            let is_empty = tables.tables.is_empty();
            (tables.head, (!is_empty).then_some(text))
        }
        TablesForm::Instructions => {
            let instructions = instructions_under(source, settings);
            let style = match args.sizes {
                None | Some(SizesArg::Run) => SizesStyle::Run,
                Some(SizesArg::Lists) => SizesStyle::Lists,
                Some(SizesArg::Table) => SizesStyle::Table,
            };
            let text = match args.format {
                TableFormat::Markdown => instructions_as_markdown(&instructions, style),
                TableFormat::Csv => instructions_as_csv(&instructions),
                TableFormat::Html => instructions_as_html(&instructions, style),
            };
            let is_empty = instructions.sections.is_empty();
            (instructions.head, (!is_empty).then_some(text))
        }
    }
}

/// Says what is not in the tables.
fn report_missing(head: &Head, name: &str) {
    let Some(warning) = head.warning() else { return };
    print_error(&warning);
    for missing in head.missing.iter().take(MAX_TOLD) {
        print_error(&format!(
            "{name}:{}:{}: {}",
            missing.place.line,
            missing.place.column,
            sanitize_line(&missing.why)
        ));
    }
    match head.missing.len().saturating_sub(MAX_TOLD) {
        0 => {}
        more => print_error(&format!("and {more} more")),
    }
}

/// Puts the text where it was asked for.
fn put(args: &TablesArgs, text: &str, status: ExitCode) -> ExitCode {
    let Some(file) = &args.output else { return print(|out| out.write_all(text.as_bytes()), status) };
    // A manuscript may have any name where it is given by it.
    if same_file::is_same_file(file, &args.path).unwrap_or(false) {
        print_error(&format!("{} is the manuscript: nothing is written over it", show(file)));
        return ExitCode::from(EXIT_FAILURE);
    }
    if write_file(file, text.as_bytes()) { status } else { ExitCode::from(EXIT_FAILURE) }
}
