//! Cutting instructions, read back by a grammar of their own: in every style and every format they give the numbers of
//! the manuscript, and nothing else.

mod asking;
mod expected;
mod grammar;
mod random;
mod reading;

use std::collections::BTreeSet;

use sparestrip::manuscript::Source;
use sparestrip::report::{SizesStyle, instructions_as_csv, instructions_as_html, instructions_as_markdown};
use sparestrip::rule_book::Settings;
use sparestrip::tables::{Instructions, instructions_under};

use super::{Fact, manuscripts, stated, text_of};

fn instructions(text: &str) -> Instructions {
    instructions_under(&Source::from_text("x.pattern.yaml", text), &Settings::default())
}

/// Reads the instructions of a manuscript back in every style and format, each of which must give what is expected.
fn reads_back(text: &str) -> usize {
    let (made, sizes) = (instructions(text), stated::sizes(text));
    assert!(made.head.missing.is_empty(), "{:?} in:\n{text}", made.head.missing);
    // Of one size alone, as in lists, nothing is told that it takes none of.
    let (in_run, expected) = (expected::facts(text, sizes.len() == 1), expected::facts(text, false));
    let same = |read: BTreeSet<Fact>, expected: &BTreeSet<Fact>, what: &str, made: &str| {
        let lacking: Vec<_> = expected.difference(&read).collect();
        let too_many: Vec<_> = read.difference(expected).collect();
        assert!(
            lacking.is_empty() && too_many.is_empty(),
            "{what}: lacks {lacking:#?}, has besides {too_many:#?}, in:\n{made}\nof:\n{text}"
        );
    };
    let markdown = |style| instructions_as_markdown(&made, style);
    let html = |style| instructions_as_html(&made, style);
    let run = markdown(SizesStyle::Run);
    same(reading::run(&reading::markdown_lines(&run), &sizes), &in_run, "a run in Markdown", &run);
    let run = html(SizesStyle::Run);
    same(reading::run(&reading::html_lines(&run), &sizes), &in_run, "a run in HTML", &run);
    let of_some = expected::facts(text, true);
    let lists = markdown(SizesStyle::Lists);
    same(reading::lists(&reading::markdown_lines(&lists), &sizes), &of_some, "lists in Markdown", &lists);
    let lists = html(SizesStyle::Lists);
    same(reading::lists(&reading::html_lines(&lists), &sizes), &of_some, "lists in HTML", &lists);
    let table = markdown(SizesStyle::Table);
    same(reading::tables(super::formats::of_markdown(&table, &sizes)), &expected, "tables in Markdown", &table);
    let table = html(SizesStyle::Table);
    same(reading::tables(super::formats::of_html(&table, &sizes)), &expected, "tables in HTML", &table);
    let csv = instructions_as_csv(&made);
    same(reading::tables(super::formats::of_csv(&csv)), &expected, "CSV", &csv);
    expected.len()
}

/// Makes the instructions of a manuscript that is not whole in every style and format. What is not whole is said.
pub(super) fn made_in_every_style(text: &str) {
    let made = instructions(text);
    let warning = made.head.warning().unwrap_or_default();
    for style in [SizesStyle::Run, SizesStyle::Lists, SizesStyle::Table] {
        let (markdown, html) = (instructions_as_markdown(&made, style), instructions_as_html(&made, style));
        assert!(markdown.contains(&warning) && html.contains(&warning), "{warning} in:\n{markdown}");
    }
    assert!(instructions_as_csv(&made).contains(warning.split(',').next().unwrap_or_default()));
}

#[test]
fn the_instructions_of_each_right_example_read_back() {
    let files = manuscripts("example-patterns");
    assert_eq!(files.len(), 11, "{files:?}");
    let numbers: usize = files.iter().map(|file| reads_back(&text_of(file))).sum();
    assert!(numbers > 700, "{numbers}");
}
