//! The tables as a page of HTML. What style it takes to read them stands in its head, so that the tables take the
//! style of the place that they are put into.
//!
//! It escapes by itself, since the engine's way puts a code for each slash, and fractions should be readable to
//! somebody who copies a table out of the page.

use minijinja::syntax::SyntaxConfig;
use minijinja::value::Serde;
use minijinja::{Environment, Error, UndefinedBehavior};
use serde::Serialize;

use super::super::sanitize_line;
use super::{heads, rows, shown};
use crate::tables::{Item, Line, Table, Tables};

const NAME: &str = "page.html";
const PAGE: &str = include_str!("page.html");

#[derive(Serialize)]
struct Page<'t> {
    title: String,
    warning: Option<String>,
    notes: Vec<String>,
    tables: Vec<TableOnPage>,
    language: &'t str,
    take_care: &'t str,
    cautions: &'t [String],
}

#[derive(Serialize)]
struct TableOnPage {
    class: &'static str,
    caption: String,
    heads: Vec<HeadOnPage>,
    words_on_lines: bool,
    items: Vec<ItemOnPage>,
}

/// The head of a column, with what the column holds: `item`, `same` for all sizes, `counted`, `size`.
#[derive(Serialize)]
struct HeadOnPage {
    class: &'static str,
    text: String,
}

#[derive(Serialize)]
struct ItemOnPage {
    name: String,
    attributes: Vec<String>,
    rows: Vec<RowOnPage>,
}

#[derive(Serialize)]
struct RowOnPage {
    what: String,
    cells: Vec<String>,
}

/// The tables as a page of HTML.
///
/// # Panics
/// Never for what a manuscript says: only where the template asks for what no page has, which tests find.
pub fn tables_as_html(tables: &Tables) -> String {
    let page = Page {
        title: sanitize_line(&tables.head.title),
        warning: tables.head.warning(),
        notes: tables.notes.iter().map(|note| sanitize_line(note)).collect(),
        tables: tables.tables.iter().map(table_on_page).collect(),
        language: &tables.head.language,
        take_care: &tables.head.take_care,
        cautions: &tables.head.cautions,
    };
    render_page(PAGE, &page).expect("the template asks for what the page has")
}

/// A page made with a template.
///
/// # Errors
/// Where the template asks for what the page does not have.
pub(in super::super) fn render_page(template: &'static str, page: &impl Serialize) -> Result<String, Error> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    environment.set_formatter(|out, _, value| Ok(out.write_str(&escaped(&value.to_string()))?));
    // A line with nothing but an instruction leaves no empty line in the page.
    let syntax = SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).keep_trailing_newline(true).build()?;
    environment.set_syntax(syntax);
    environment.add_template(NAME, template)?;
    environment.get_template(NAME)?.render(Serde(page))
}

/// Text as HTML. The engine's own escaping would put a code for each slash, and so for each fraction, which somebody
/// who copies a table out of the page would have to read.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            // Two of them begin a command in some logs.
            '#' if out.ends_with('#') => out.push_str("&#35;"),
            c => out.push(c),
        }
    }
    out
}

fn table_on_page(table: &Table) -> TableOnPage {
    TableOnPage {
        class: table.class,
        caption: sanitize_line(&table.caption),
        heads: heads_on_page(table),
        words_on_lines: table.has_words_on_lines(),
        items: table.items.iter().map(item_on_page).collect(),
    }
}

fn heads_on_page(table: &Table) -> Vec<HeadOnPage> {
    let words = usize::from(table.has_words_on_lines());
    let of = |class: &'static str, many: usize| std::iter::repeat_n(class, many);
    let classes = of("item", 1).chain(of("same", table.attributes.len())).chain(of("counted", words));
    let classes = classes.chain(of("size", table.sizes.len()));
    classes.zip(heads(table)).map(|(class, text)| HeadOnPage { class, text }).collect()
}

fn item_on_page(item: &Item) -> ItemOnPage {
    let row = |line: Option<&Line>| RowOnPage {
        what: line.map_or(String::new(), |line| sanitize_line(&line.what)),
        cells: line.map(|line| line.cells.iter().map(shown).collect()).unwrap_or_default(),
    };
    ItemOnPage {
        name: sanitize_line(&item.name),
        attributes: item.attributes.iter().map(shown).collect(),
        rows: rows(item).into_iter().map(row).collect(),
    }
}
