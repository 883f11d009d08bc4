//! Everything that is printed of a manuscript: each format of a check, tables, instructions and worksheets.

use std::path::Path;

use sparestrip::check::Corrections;
use sparestrip::report::{
    Checkstyle, Github, Gitlab, Json, Lines, RenderStyle, Report, Sarif, SizesStyle, instructions_as_csv,
    instructions_as_html, instructions_as_markdown, page, tables_as_csv, tables_as_html, tables_as_markdown, worksheet,
    worksheet_json,
};
use sparestrip::rule_book::Settings;
use sparestrip::run::{Asked, AuditScope, Run, run_on};
use sparestrip::tables::{instructions_under, tables_under};
use sparestrip::worksheet::Worksheet;

use super::{Fault, Kind, Target, hold, in_text, source};
use crate::pool::Seen;
use crate::rng::Rng;

pub(super) const TARGET: Target = Target {
    name: "printed",
    about: "reports, tables, instructions and worksheets are made; JSON is JSON, and nothing wild is printed",
    kind: Kind::Manuscript,
    share: 6,
    run,
};

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let source = source(input);
    let settings = Settings::default();
    match Rng::of(input).below(4) {
        0 => {
            let tables = tables_under(&source, &settings);
            for table in &tables.tables {
                seen.note(&["table", &table.items_are]);
            }
            plain(&tables_as_markdown(&tables), "tables in Markdown")?;
            plain(&tables_as_csv(&tables), "tables in CSV")?;
            plain(&tables_as_html(&tables), "tables in HTML")
        }
        1 => {
            let instructions = instructions_under(&source, &settings);
            for style in [SizesStyle::Run, SizesStyle::Lists, SizesStyle::Table] {
                plain(&instructions_as_markdown(&instructions, style), "instructions in Markdown")?;
                plain(&instructions_as_html(&instructions, style), "instructions in HTML")?;
            }
            plain(&instructions_as_csv(&instructions), "instructions in CSV")
        }
        2 => {
            let sheet = Worksheet::new(&source, &settings);
            for line in &sheet.account.lines {
                in_text(&source.text, line.at, &line.number)?;
                let status = format!("{:?}", line.status);
                seen.note(&["number", status.split([' ', '(']).next().unwrap_or_default()]);
            }
            plain(&worksheet(&sheet, RenderStyle::default()), "a worksheet")?;
            json(worksheet_json(&source, &sheet).as_bytes(), "a worksheet")?;
            plain(&page(&sheet, &source, &settings), "a page")
        }
        _ => reports(source),
    }
}

fn reports(source: sparestrip::Source) -> Result<(), Fault> {
    let accounting = AuditScope::Each { unchecked: true };
    let asked = Asked { accounting, corrections: Corrections::LeftOut, ..Asked::default() };
    let run = run_on(source, Path::new("/nowhere"), asked);
    json(&written(&Json, &run), "JSON")?;
    json(&written(&Sarif, &run), "SARIF")?;
    json(&written(&Gitlab, &run), "GitLab's report")?;
    for report in [&Lines as &dyn Report, &Github, &Checkstyle] {
        plain(&String::from_utf8_lossy(&written(report, &run)), "a report")?;
    }
    Ok(())
}

fn written(report: &dyn Report, run: &Run) -> Vec<u8> {
    let mut bytes = Vec::new();
    let _ = report.write(run, &mut bytes);
    bytes
}

fn json(bytes: &[u8], what: &str) -> Result<(), Fault> {
    let read: Result<serde_json::Value, _> = serde_json::from_slice(bytes);
    hold(read.is_ok(), "what is printed is no JSON", || format!("{what}: {:?}", read.err()))
}

/// Nothing that is printed has controls in it, or what turns the direction of writing.
fn plain(text: &str, what: &str) -> Result<(), Fault> {
    let is_wild = |c: char| {
        (c.is_control() && !matches!(c, '\n' | '\r' | '\t'))
            || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    let wild = text.chars().find(|c| is_wild(*c));
    hold(wild.is_none(), "something wild is printed", || format!("{wild:?} in {what}"))
}
