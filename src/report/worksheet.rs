//! The worksheet: every number of a manuscript, sizes side by side, then each with the working.

use comfy_table::{ColumnConstraint, Table, Width};

use super::nonbreaking::{breaking, nonbreaking};
use super::rule_pages::{table, trimmed};
use super::words::{StatusCounts, tally_in_words};
use super::worksheet_matrix::matrix;
use super::{RenderStyle, sanitize_line};
use crate::audit::Line;
use crate::worksheet::{Selection, Worksheet, WorksheetText};

/// The worksheet of a manuscript as text.
pub fn worksheet(worksheet: &Worksheet, look: RenderStyle) -> String {
    let account = &worksheet.account;
    let mut text = head(worksheet, look);
    text.push_str(&matrix(worksheet, look));
    if worksheet.workings && !account.lines.is_empty() {
        text.push_str("\nThe workings\n");
    }
    let mut rest = if worksheet.workings { account.lines.as_slice() } else { &[] };
    while let Some(first) = rest.first() {
        let length = rest.iter().take_while(|line| line.size == first.size).count();
        let (group, after) = rest.split_at(length);
        text.push_str(&format!("\n{}\n{}\n", heading(first), group_table(group, worksheet, look)));
        rest = after;
    }
    text.push_str(&format!("\n{}\n", textwrap::fill(&closing(worksheet), look.width.clamp(60, 160))));
    for words in texts_in_words(worksheet) {
        text.push_str(&format!("{}\n", textwrap::fill(&words, look.width.clamp(60, 160))));
    }
    if !worksheet.cautions.is_empty() {
        text.push_str("\nTake care\n");
    }
    for caution in &worksheet.cautions {
        text.push_str(&format!("{}\n", textwrap::fill(caution, look.width.clamp(60, 100))));
    }
    text
}

/// The pattern, its fingerprint and who signed it, and which part of it is shown.
fn head(worksheet: &Worksheet, look: RenderStyle) -> String {
    let mut text = format!("{}\n", sanitize_line(&worksheet.account.title));
    let mut line = |words: &str| text.push_str(&format!("{}\n", textwrap::fill(words, look.width.clamp(60, 100))));
    if let Some(signing) = &worksheet.signing {
        let short = signing.short().replace(' ', "\u{a0}");
        line(&format!("Fingerprint {short}. {}", sanitize_line(&signing.sentence())));
    }
    if let Some(only) = &worksheet.only {
        line(&part_words(only, worksheet.account.lines.len()));
    }
    text.push('\n');
    breaking(&text)
}

/// `Only wrong, queen: 2 of 179 lines. Not to be signed.`
pub(super) fn part_words(only: &Selection, shown: usize) -> String {
    let words: Vec<String> = only.words.iter().map(|word| sanitize_line(word)).collect();
    format!("Only {}: {shown} of {} lines. A part is not to be signed.", words.join(", "), only.of_numbers)
}

fn heading(line: &Line) -> String {
    match &line.size {
        Some(size) => sanitize_line(size),
        None => "For all sizes".to_string(),
    }
}

fn group_table(lines: &[Line], worksheet: &Worksheet, look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["number", "stated", "needed", "result", "working"]);
    for line in lines {
        let [number, stated, needed, mut working] =
            [&line.number, &line.stated, &line.needed, &line.working].map(|text| nonbreaking(&sanitize_line(text)));
        if let Some(said) = worksheet.texts.words(line) {
            let line_end = if working.is_empty() { "" } else { "\n" };
            working.push_str(&format!("{line_end}{}", nonbreaking(&sanitize_line(&said))));
        }
        table.add_row([number.as_str(), &stated, &needed, &line.result(), &working]);
    }
    // Pieces and fabrics have names of their own: a long one must not leave the others a letter's width.
    let number = PADDING + longest_word(lines, "number", |line| line.number.clone()).min(LONGEST_NAME_KEPT);
    constrain(
        &mut table,
        0,
        ColumnConstraint::Boundaries { lower: Width::Fixed(number), upper: Width::Percentage(25) },
    );
    let mut kept = number + keep_whole(&mut table, 3, longest_word(lines, "result", Line::result));
    if look.width >= WIDE_ENOUGH {
        kept += keep_whole(&mut table, 1, longest_word(lines, "stated", |line| line.stated.clone()));
        kept += keep_whole(&mut table, 2, longest_word(lines, "needed", |line| line.needed.clone()));
    }
    // The working is the longest by far; without this it would get no more room than the others.
    let width = u16::try_from(look.width).unwrap_or(u16::MAX);
    let left = width.saturating_sub(kept + BETWEEN_COLUMNS);
    constrain(&mut table, 4, ColumnConstraint::LowerBoundary(Width::Fixed(left.min(width / 20 * 9))));
    breaking(&trimmed(&table))
}

/// Keeps a column wide enough for its longest word or quantity, which a narrower one would break within. How wide.
fn keep_whole(table: &mut Table, column: usize, longest: u16) -> u16 {
    let width = longest.min(LONGEST_KEPT) + PADDING;
    constrain(table, column, ColumnConstraint::LowerBoundary(Width::Fixed(width)));
    width
}

fn constrain(table: &mut Table, column: usize, constraint: ColumnConstraint) {
    if let Some(column) = table.column_mut(column) {
        column.set_constraint(constraint);
    }
}

/// On a narrower terminal the other columns need the room more.
const WIDE_ENOUGH: usize = 90;

/// How many characters of a quantity are kept on one line: `117 1/2 x 117 1/2 in`.
const LONGEST_KEPT: u16 = 21;

/// How many characters of a word in the name of a number are kept on one line: `prairie_points`.
const LONGEST_NAME_KEPT: u16 = 16;

/// What the lines between five columns and round them take.
const BETWEEN_COLUMNS: u16 = 6;

/// What the table puts beside a cell.
const PADDING: u16 = 2;

/// How long the longest quantity or word of a column is, its heading included.
fn longest_word(lines: &[Line], heading: &str, cell: impl Fn(&Line) -> String) -> u16 {
    let longest = |text: &str| nonbreaking(&sanitize_line(text)).split(' ').map(|word| word.chars().count()).max();
    let longest = lines.iter().filter_map(|line| longest(&cell(line))).max().unwrap_or_default();
    u16::try_from(longest.max(heading.len())).unwrap_or(u16::MAX)
}

/// How many numbers there are of each status, then the findings in a line.
fn closing(worksheet: &Worksheet) -> String {
    let counts = StatusCounts::of(&worksheet.account.lines).in_words();
    let found = tally_in_words(worksheet.tally);
    let whole = if worksheet.only.is_some() { " in the whole manuscript" } else { "" };
    format!("{}. Findings{whole}: {found}.", sentence(&counts))
}

/// A sentence for each printed text, and how many of the numbers that are shown stand in none of them.
pub(super) fn texts_in_words(worksheet: &Worksheet) -> Vec<String> {
    let texts = &worksheet.texts;
    let of_text = |text: &WorksheetText| format!("{}: {}.", sanitize_line(&text.name), text.share.words());
    let mut words: Vec<String> = texts.list.iter().map(of_text).collect();
    let text = if texts.list.len() == 1 { "the text" } else { "any text" };
    match texts.not_said(&worksheet.account.lines) {
        0 => {}
        1 => words.push(format!("1 number of this worksheet was not found in {text}.")),
        many => words.push(format!("{many} numbers of this worksheet were not found in {text}.")),
    }
    words
}

/// The words with a capital letter.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
}
