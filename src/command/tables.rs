//! `sparestrip tables`

use std::process::ExitCode;

use sparestrip::check::{Corrections, Tally, check_with};
use sparestrip::quantity::Count;
use sparestrip::report::{sanitize_line, tables_as_csv, tables_as_html, tables_as_markdown};
use sparestrip::run::settings_for;
use sparestrip::tables::{Tables, tables_under};

use super::manuscript::{folder, source};
use super::output::{print, print_error, print_problem, show, write_file};
use super::{EXIT_FAILURE, TableFormat, TablesArgs};

/// How many places that could not be read are told one by one.
const MAX_TOLD: usize = 20;

pub(super) fn tables(args: &TablesArgs) -> ExitCode {
    let source = match source(&args.path) {
        Ok(source) => source,
        Err(problem) => {
            print_problem(&problem);
            return ExitCode::from(EXIT_FAILURE);
        }
    };
    let settings = settings_for(folder(&args.path));
    let tables = tables_under(&source, &settings);
    let name = show(&source.path);
    report_missing(&tables, &name);
    if tables.tables.is_empty() {
        print_error(&format!("{name} states nothing that tables could be made of"));
        return ExitCode::from(EXIT_FAILURE);
    }
    let errors = Tally::of(&check_with(&source, &settings, Corrections::LeftOut)).errors;
    if errors > 0 {
        let (errors, them) = (Count(errors as u64).of("error"), if errors == 1 { "it" } else { "them" });
        print_error(&format!(
            "{name} has {errors}; the tables show the numbers as they are stated. `sparestrip check` shows {them}"
        ));
    }
    // The same as `check` says: a script that publishes must not go on with a pattern that has an error.
    let status = if errors > 0 || !tables.missing.is_empty() { ExitCode::from(1) } else { ExitCode::SUCCESS };
    put(args, &tables, status)
}

/// Says what is not in the tables.
fn report_missing(tables: &Tables, name: &str) {
    let Some(warning) = tables.warning() else { return };
    print_error(&warning);
    for missing in tables.missing.iter().take(MAX_TOLD) {
        print_error(&format!(
            "{name}:{}:{}: {}",
            missing.place.line,
            missing.place.column,
            sanitize_line(&missing.why)
        ));
    }
    match tables.missing.len().saturating_sub(MAX_TOLD) {
        0 => {}
        more => print_error(&format!("and {more} more")),
    }
}

/// Puts the tables where they were asked for.
fn put(args: &TablesArgs, tables: &Tables, status: ExitCode) -> ExitCode {
    let text = match args.format {
        TableFormat::Markdown => tables_as_markdown(tables),
        TableFormat::Csv => tables_as_csv(tables),
        TableFormat::Html => tables_as_html(tables),
    };
    let Some(file) = &args.output else { return print(|out| out.write_all(text.as_bytes()), status) };
    // A manuscript may have any name where it is given by it.
    if same_file::is_same_file(file, &args.path).unwrap_or(false) {
        print_error(&format!("{} is the manuscript: nothing is written over it", show(file)));
        return ExitCode::from(EXIT_FAILURE);
    }
    if write_file(file, text.as_bytes()) { status } else { ExitCode::from(EXIT_FAILURE) }
}
