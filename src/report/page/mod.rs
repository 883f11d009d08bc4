//! The worksheet as a page: one file of HTML with everything in it, to read on a screen, to print and to sign.
//!
//! There is no script in it and nothing is fetched. The same manuscript under the same rules gives the same bytes, so
//! there is no date.
//!
//! The page's policy allows no script. A working is folded by an empty `details` with the working after it, and not in
//! it: what is inside a closed one is printed by some browsers and left out by others, and an editor must never sign a
//! sheet on which the sums are missing. On a narrow screen each number is a card and not a row to be scrolled: every
//! cell has the name of its column in it, and roles keep it a table for those who hear it.

mod content;
mod excerpt;
mod found;
mod sheet_head;

use minijinja::syntax::SyntaxConfig;
use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, Error, UndefinedBehavior};

use crate::manuscript::Source;
use crate::rule_book::Settings;
use crate::worksheet::Worksheet;
use content::Content;

/// The parts of the page. Their names end in .html, by which the engine knows that it escapes what is put in.
const PARTS: [(&str, &str); 6] = [
    ("page.html", include_str!("page.html")),
    ("findings.html", include_str!("findings.html")),
    ("found.html", include_str!("found.html")),
    ("numbers.html", include_str!("numbers.html")),
    ("sign.html", include_str!("sign.html")),
    ("care.html", include_str!("care.html")),
];

/// The worksheet of a manuscript as a page.
///
/// # Panics
/// Never for what a manuscript says: only where a part of the page asks for what no manuscript has, which tests find.
pub fn page(worksheet: &Worksheet, source: &Source, settings: &Settings) -> String {
    render(&Content::new(worksheet, source, settings)).expect("the parts of the page ask for what there is")
}

fn render(content: &Content) -> Result<String, Error> {
    let mut parts = Environment::new();
    parts.set_undefined_behavior(UndefinedBehavior::Strict);
    parts.set_auto_escape_callback(|_| AutoEscape::Html);
    // A line with nothing but an instruction leaves no empty line in the page.
    parts
        .set_syntax(SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).keep_trailing_newline(true).build()?);
    for (name, text) in PARTS {
        parts.add_template(name, text)?;
    }
    parts.get_template("page.html")?.render(Serde(content))
}
