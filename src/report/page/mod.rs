//! The worksheet as a page: one file of HTML with everything in it, to read on a screen, to print and to sign.
//!
//! There is no script in it and nothing is fetched. The same manuscript under the same rules with the same sign-offs
//! gives the same bytes, so there is no date.
//!
//! The page's policy allows no script: what a reader chooses to see is a radio button or a box, and rules of the style
//! that ask which is chosen. On paper what was chosen is printed, and a part has no place to sign. On a narrow screen
//! each number is a card and not a row to be scrolled: every cell has the name of its column in it, and roles keep it a
//! table for those who hear it. On paper a working runs on after its number, in two columns, so that no room is lost.

mod choices;
mod content;
mod excerpt;
mod found;
mod numbers;
mod sheet_head;

use minijinja::syntax::SyntaxConfig;
use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, Error, UndefinedBehavior, Value};
use serde::Serialize;

use crate::manuscript::Source;
use crate::report::figure::FIGURE_STYLE;
use crate::rule_book::Settings;
use crate::worksheet::Worksheet;
use choices::choice_rules;
use content::Sheet;
use sheet_head::name_on_each_sheet;

/// The parts of the page. Their names end in .html, by which the engine knows that it escapes what is put in.
const PARTS: [(&str, &str); 11] = [
    ("page.html", include_str!("page.html")),
    ("head.html", include_str!("head.html")),
    ("contents.html", include_str!("contents.html")),
    ("choices.html", include_str!("choices.html")),
    ("findings.html", include_str!("findings.html")),
    ("found.html", include_str!("found.html")),
    ("matrix.html", include_str!("matrix.html")),
    ("workings.html", include_str!("workings.html")),
    ("drawings.html", include_str!("drawings.html")),
    ("sign.html", include_str!("sign.html")),
    ("care.html", include_str!("care.html")),
];

/// The whole page.
#[derive(Serialize)]
struct Page {
    title: String,
    version: &'static str,
    style: Value,
    sheets: Vec<Sheet>,
    /// Whether it is of a folder, however many manuscripts are in it.
    several: bool,
}

/// The worksheet of a manuscript as a page.
///
/// # Panics
/// Never for what a manuscript says: only where a part of the page asks for what no manuscript has, which tests find.
pub fn page(worksheet: &Worksheet, source: &Source, settings: &Settings) -> String {
    let sheet = Sheet::new(worksheet, source, settings, 1, String::new());
    let title = format!("{}: worksheet", sheet.title);
    write(title, vec![sheet], false)
}

/// The worksheets of several manuscripts as one page, on which each begins on a sheet of its own.
///
/// # Panics
/// As [`page`].
pub fn page_of_several(sheets: &[(Source, Worksheet, Settings)]) -> String {
    let sheets: Vec<Sheet> = (1..)
        .zip(sheets)
        .map(|(place, (source, worksheet, settings))| {
            Sheet::new(worksheet, source, settings, place, format!("m{place}-"))
        })
        .collect();
    write(
        format!("Worksheets of {}: worksheet", crate::quantity::Count(sheets.len() as u64).of("manuscript")),
        sheets,
        true,
    )
}

fn write(title: String, sheets: Vec<Sheet>, several: bool) -> String {
    let page = Page { title, version: env!("CARGO_PKG_VERSION"), style: style(&sheets, several), sheets, several };
    render(&page).expect("the parts of the page ask for what there is")
}

/// The style is ours from end to end, but for the names of patterns, which are made harmless.
fn style(sheets: &[Sheet], several: bool) -> Value {
    let own = [include_str!("style.css"), include_str!("narrow.css"), include_str!("print.css"), FIGURE_STYLE].concat();
    let most = |of: fn(&Sheet) -> usize| sheets.iter().map(of).max().unwrap_or_default();
    let chosen = choice_rules(most(|sheet| sheet.choices().0), most(|sheet| sheet.choices().1));
    let place = |place: usize| several.then_some(place);
    let names =
        (1..).zip(sheets).map(|(number, sheet)| name_on_each_sheet(place(number), &sheet.title, sheet.fingerprint()));
    let texts = if sheets.iter().any(Sheet::has_texts) { include_str!("texts.css") } else { "" };
    Value::from_safe_string(format!("{own}{texts}{chosen}{}", names.collect::<String>()))
}

fn render(page: &Page) -> Result<String, Error> {
    let mut parts = Environment::new();
    parts.set_undefined_behavior(UndefinedBehavior::Strict);
    parts.set_auto_escape_callback(|_| AutoEscape::Html);
    // A line with nothing but an instruction leaves no empty line in the page.
    parts
        .set_syntax(SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).keep_trailing_newline(true).build()?);
    for (name, text) in PARTS {
        parts.add_template(name, text)?;
    }
    parts.get_template("page.html")?.render(Serde(page))
}
