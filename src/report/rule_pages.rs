//! The rule book in text: the list of rules, the list of values, and the page of one rule.
//!
//! The tables are comfy-table's, because it breaks the cells of a table to the width of the terminal.

use comfy_table::{ColumnConstraint, ContentArrangement, LineStyle, Table, TableStyle};
use unicode_width::UnicodeWidthStr;

use super::RenderStyle;
use crate::finding::Level;
use crate::rule_book::{Example, Page, book};

/// All rules, a row each: name, level, headline.
pub fn rule_list(look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["rule", "level", "what it finds"]);
    for page in book() {
        table.add_row([page.name, page.level.word(), page.headline.trim()]);
    }
    let levels =
        [Level::Error, Level::Query, Level::Note].map(|level| format!("{}: {}\n", level.word(), level.meaning()));
    format!("{}\n\n{}", trimmed(&table), levels.concat())
}

/// All values of the rule book, a row each: name, value, meaning, and the rule whose page says where it comes from.
pub fn value_list(look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["value", "standard", "what it is", "explained by"]);
    // A name is copied whole.
    if let Some(names) = table.column_mut(0) {
        names.set_constraint(ColumnConstraint::ContentWidth);
    }
    for page in book() {
        for value in page.values {
            let explained = format!("rules {}", page.name);
            // A list of words fills a screen: the page of its rule has it.
            let standard = if value.text.contains(',') { "a list of words" } else { value.text };
            table.add_row([value.name, standard, value.meaning.trim(), &explained]);
        }
    }
    format!("{}\n", trimmed(&table))
}

/// One rule: why it matters, the working, the values it goes by, and an example of each kind.
pub fn rule_page(page: &Page, look: RenderStyle) -> String {
    let mut text = format!("{} ({})\n\n", page.name, page.level.word());
    for (title, words) in [("", page.headline), ("Why", page.why), ("Working", page.working)] {
        if !title.is_empty() {
            text.push_str(&format!("{title}\n"));
        }
        text.push_str(&format!("{}\n\n", textwrap::fill(words.trim(), look.width.min(100))));
    }
    if !page.values.is_empty() {
        text.push_str("Values (house rules may set others)\n");
        let mut table = table(look);
        table.set_header(["name", "value", "meaning", "source"]);
        for value in page.values {
            table.add_row([value.name, value.text, value.meaning.trim(), value.source.trim()]);
        }
        text.push_str(&format!("{}\n\n", trimmed(&table)));
    }
    if let Some(house) = page.house {
        text.push_str(&format!("House rules that ask for it\n{}\n", indented(house)));
    }
    text.push_str(&format!("Breaks the rule\n{}\n", marked(&page.fails)));
    if let Some(printed) = &page.fails_text {
        text.push_str(&format!("with this text\n{}\n", marked(printed)));
    }
    text.push_str(&format!("Keeps the rule\n{}", indented(&page.passes.text())));
    if let Some(printed) = &page.passes_text {
        text.push_str(&format!("\nwith this text\n{}", indented(&printed.text())));
    }
    if let Some(signed) = &page.signed {
        text.push_str(&format!("\nWhat was signed\n{}", indented(&signed.text())));
    }
    text
}

/// A table as wide as the look allows: a line under the head, and nothing but space elsewhere.
pub(super) fn table(look: RenderStyle) -> Table {
    let line = if look.ascii { '-' } else { '─' };
    let style = TableStyle::new().header_separator(LineStyle::new(line, line, line, line));
    let width = u16::try_from(look.width.clamp(60, 160)).unwrap_or(100);
    let mut table = Table::new();
    table.load_style(style).set_content_arrangement(ContentArrangement::Dynamic).set_width(width);
    table
}

/// A table without spaces at the ends of its lines.
pub(super) fn trimmed(table: &Table) -> String {
    table.lines().map(|line| line.trim_end().to_string()).collect::<Vec<_>>().join("\n")
}

fn indented(text: &str) -> String {
    text.lines().map(|line| format!("    {line}\n")).collect()
}

/// The example with carets under the place that the rule points at.
fn marked(example: &Example) -> String {
    let text = example.text();
    let marks = example.marked();
    let (mut out, mut start) = (String::new(), 0);
    for line in text.split_inclusive('\n') {
        out.push_str(&indented(line));
        for mark in marks.iter().filter(|mark| (start..start + line.len()).contains(&mark.start)) {
            let before = line[..mark.start - start].width();
            let under = mark.text(&text).width().max(1);
            out.push_str(&format!("    {}{}\n", " ".repeat(before), "^".repeat(under)));
        }
        start += line.len();
    }
    out
}
