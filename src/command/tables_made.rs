//! What `sparestrip tables` makes of one manuscript, in the form and the format that are asked for.

use sparestrip::manuscript::Source;
use sparestrip::report::{
    Separator, SizesStyle, instructions_as_csv, instructions_as_html, instructions_as_markdown, instructions_as_tables,
    table_as_wide, tables_as_csv, tables_as_html, tables_as_markdown,
};
use sparestrip::rule_book::Settings;
use sparestrip::tables::{Head, Language, Tables, Wanted, instructions_wanted, tables_wanted};

use super::{SizesArg, TableFormat, TablesArgs, TablesForm};

/// Why what is asked for does not go together.
pub(super) fn refused(args: &TablesArgs) -> Option<&'static str> {
    let by_size = matches!(args.format, TableFormat::Csv | TableFormat::WideCsv | TableFormat::Tsv);
    match (args.form, args.sizes) {
        (TablesForm::Tables, Some(_)) => {
            Some("the tables have a column for each size: --sizes goes with --form instructions")
        }
        (TablesForm::Instructions, Some(SizesArg::Run | SizesArg::Lists)) if by_size => {
            Some("CSV and TSV set the sizes apart already: leave --sizes out, or write --format markdown or html")
        }
        (TablesForm::Instructions, _) if args.language.is_some() => {
            Some("cutting instructions are in English: --language goes with the tables")
        }
        _ => None,
    }
}

/// How the name of a file in a format ends.
pub(super) fn ending(format: TableFormat) -> &'static str {
    match format {
        TableFormat::Markdown => "md",
        TableFormat::Csv | TableFormat::WideCsv => "csv",
        TableFormat::Tsv => "tsv",
        TableFormat::Html => "html",
    }
}

/// What is asked for, with its head; no text where there is nothing to make it of.
///
/// # Errors
/// In words, where something is asked for that the manuscript does not have.
pub(super) fn made(
    args: &TablesArgs,
    source: &Source,
    settings: &Settings,
    language: &Language,
) -> Result<(Head, Option<String>), String> {
    let wanted = Wanted {
        tables: args.tables.clone(),
        size: args.size.clone(),
        colorway: args.colorway.clone(),
        typographic: args.typographic,
        language: language.clone(),
    };
    match args.form {
        TablesForm::Tables => {
            let tables = tables_wanted(source, settings, &wanted)?;
            let text = match args.format {
                _ if tables.tables.is_empty() => None,
                TableFormat::Markdown => Some(tables_as_markdown(&tables)),
                TableFormat::Csv => Some(tables_as_csv(&tables)),
                TableFormat::Html => Some(tables_as_html(&tables)),
                TableFormat::WideCsv => Some(wide(&tables, Separator::Comma)?),
                TableFormat::Tsv => Some(wide(&tables, Separator::Tab)?),
            };
            Ok((tables.head, text))
        }
        TablesForm::Instructions => {
            let instructions = instructions_wanted(source, settings, &wanted)?;
            let style = match args.sizes {
                None | Some(SizesArg::Run) => SizesStyle::Run,
                Some(SizesArg::Lists) => SizesStyle::Lists,
                Some(SizesArg::Table) => SizesStyle::Table,
            };
            let text = match args.format {
                _ if instructions.sections.is_empty() => None,
                TableFormat::Markdown => Some(instructions_as_markdown(&instructions, style)),
                TableFormat::Csv => Some(instructions_as_csv(&instructions)),
                TableFormat::Html => Some(instructions_as_html(&instructions, style)),
                TableFormat::WideCsv => Some(wide(&instructions_as_tables(&instructions), Separator::Comma)?),
                TableFormat::Tsv => Some(wide(&instructions_as_tables(&instructions), Separator::Tab)?),
            };
            Ok((instructions.head, text))
        }
    }
}

/// The one table that there is, with its columns.
fn wide(tables: &Tables, separator: Separator) -> Result<String, String> {
    match tables.tables.as_slice() {
        [table] => Ok(table_as_wide(table, separator)),
        all => {
            let captions: Vec<&str> = all.iter().map(|table| table.caption.as_str()).collect();
            Err(format!(
                "these columns are those of one table: name it with --table; the tables are: {}",
                captions.join("; ")
            ))
        }
    }
}
