//! Printing what was found. Every format is fed the same findings.

mod caution;
mod checkstyle;
mod entry;
pub mod figure;
mod fingerprint;
mod fixes;
mod github;
mod gitlab;
mod instructions;
mod json;
mod junit;
mod lines;
mod listed_findings;
pub mod manual;
mod nonbreaking;
mod page;
mod rule_pages;
mod sarif;
mod schema;
mod signed;
mod snippet;
mod spool;
mod tables;
mod text;
mod word_list;
mod words;
mod worksheet;
mod worksheet_json;
mod worksheet_matrix;
mod wrap;

use std::io::{self, Write};

use crate::run::{Checked, Run, Total};
use crate::sanitize;

pub use crate::sanitize::{sanitize, sanitize_line};
pub use checkstyle::Checkstyle;
pub(crate) use fixes::shown_short;
pub use fixes::{fix_lines, fix_total, no_longer_signed};
pub use github::Github;
pub use gitlab::Gitlab;
pub use instructions::{
    SizesStyle, instructions_as_csv, instructions_as_html, instructions_as_markdown, instructions_as_tables,
};
pub use json::Json;
pub use junit::Junit;
pub use lines::Lines;
pub use page::{page, page_of_several};
pub use rule_pages::{rule_list, rule_page, value_list};
pub use sarif::Sarif;
pub use schema::{house_rules_schema, manuscript_schema};
pub use signed::{SignedManuscript, signed_as_csv, signed_as_json, signed_as_text};
pub use spool::Spool;
pub use tables::{Separator, table_as_wide, tables_as_csv, tables_as_html, tables_as_markdown};
pub use text::{Order, RenderStyle, Text};
pub use word_list::{WRITTEN, sections, unknown_section, word_list, words_of};
pub(crate) use word_list::{goes_with, left_out_in_force};
pub use words::summary;
pub(crate) use words::total_in_words;
pub use worksheet::worksheet;
pub use worksheet_json::{worksheet_json, worksheets_json};

/// A format in which a run is told.
pub trait Report {
    /// Begins a report, to which one file after another is given.
    fn begin(&self) -> Box<dyn ReportInParts>;

    /// Writes all of a run.
    ///
    /// # Errors
    /// Where the output cannot be written.
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        let mut report = self.begin();
        run.files.iter().try_for_each(|file| report.file(file, out))?;
        report.finish(&run.total(), out)
    }
}

/// A report that is being written, so that no file need be kept until the others are checked.
pub trait ReportInParts {
    /// Takes the next file, in the order of their paths. What stands further below in the report is written later.
    ///
    /// # Errors
    /// Where the output cannot be written.
    fn file(&mut self, file: &Checked, out: &mut dyn Write) -> io::Result<()>;

    /// Writes what is left.
    ///
    /// # Errors
    /// Where the output cannot be written.
    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()>;
}
