//! The rule book in SARIF.

use super::log::{Configuration, Message, Rule};
use crate::finding::Level;
use crate::rule_book::{Page, book};

pub(super) use crate::report::entry::NUMBER_NOT_CHECKED;

/// All rules as they are listed, so that a rule's index is its place in the book; after them, where it is needed, what
/// the account of numbers reports.
pub(super) fn rules(unaccounted: bool) -> Vec<Rule> {
    book().iter().map(rule).chain(unaccounted.then(number_not_checked)).collect()
}

/// The index of a rule.
pub(super) fn index(rule: &str) -> usize {
    book().iter().position(|page| page.name == rule).unwrap_or(book().len())
}

/// The standard's word for a level.
pub(super) fn level(level: Level) -> &'static str {
    match level {
        Level::Error => "error",
        Level::Query => "warning",
        Level::Note => "note",
    }
}

fn rule(page: &'static Page) -> Rule {
    let (headline, why, working) = (page.headline.trim(), page.why.trim(), page.working.trim());
    Rule {
        id: page.name,
        short_description: Message::new(headline),
        full_description: Message::new(&format!("{headline} {why}")),
        help: Message::new(&help(why, working, page)).with_markdown(&help_in_markdown(why, working, page)),
        default_configuration: Configuration { level: level(page.level) },
    }
}

fn help(why: &str, working: &str, page: &Page) -> String {
    let mut help = format!("Why: {why}\n\nWorking: {working}");
    if !page.values.is_empty() {
        help.push_str("\n\nValues (house rules may set others):");
    }
    for value in page.values {
        let (meaning, source) = (value.meaning.trim(), value.source.trim());
        help.push_str(&format!("\n{} = {}: {meaning} Source: {source}.", value.name, value.text));
    }
    help
}

fn help_in_markdown(why: &str, working: &str, page: &Page) -> String {
    let mut help = format!("**Why:** {}\n\n**Working:** {}", escaped(why), escaped(working));
    if !page.values.is_empty() {
        help.push_str("\n\n**Values** (house rules may set others)\n\n");
        help.push_str("| name | value | meaning | source |\n|---|---|---|---|\n");
    }
    for value in page.values {
        let (meaning, source) = (escaped(value.meaning.trim()), escaped(value.source.trim()));
        help.push_str(&format!("| `{}` | {} | {meaning} | {source} |\n", value.name, escaped(value.text)));
    }
    help
}

/// Plain words of the rule book, so that Markdown takes no sign in them for its own.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '#' | '&') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

fn number_not_checked() -> Rule {
    let headline = "The manuscript states a number that nothing checks.";
    let why = "An account of all numbers was asked for, so that silence would mean that every one was checked.";
    Rule {
        id: NUMBER_NOT_CHECKED,
        short_description: Message::new(headline),
        full_description: Message::new(&format!("{headline} {why}")),
        help: Message::new(&format!("Why: {why}")).with_markdown(&format!("**Why:** {why}")),
        default_configuration: Configuration { level: "error" },
    }
}
