//! What the page says: the account made into words and rows. Everything from a file is tamed here; the engine escapes.

use std::collections::BTreeMap;

use minijinja::Value;
use serde::Serialize;

use super::found::{FoundByPlace, Link, PageFinding};
use super::sheet_head::name_on_each_sheet;
use crate::audit::{Audit, Line, Status};
use crate::check::Tally;
use crate::finding::Level;
use crate::manuscript::Source;
use crate::report::figure::{FIGURE_STYLE, Figure, figures};
use crate::report::nonbreaking::nonbreaking;
use crate::report::sanitize_line;
use crate::report::words::{StatusCounts, tally_in_words};
use crate::rule_book::Settings;
use crate::worksheet::Worksheet;

/// The whole page.
#[derive(Serialize)]
pub(super) struct Content {
    title: String,
    file: String,
    /// Whether a publisher's own levels or values hold.
    house: bool,
    version: &'static str,
    style: Value,
    found: String,
    /// The mark for the worst finding.
    found_mark: Mark,
    ok: usize,
    /// Short and wrong ones together.
    bad: usize,
    accepted_numbers: usize,
    not_checked: usize,
    as_given: usize,
    checked: usize,
    findings: Vec<PageFinding>,
    accepted: Vec<PageFinding>,
    groups: Vec<Group>,
    /// How many sizes are too many to be drawn.
    not_drawn: usize,
    cautions: Vec<&'static str>,
}

/// The numbers and the drawings of the pattern as a whole, or of one size.
#[derive(Serialize)]
struct Group {
    id: String,
    heading: String,
    is_size: bool,
    /// How the numbers stand, in a few words.
    stand: String,
    /// The mark for the worst of it.
    mark: Mark,
    rows: Vec<Row>,
    /// Whether it is long enough to begin on a sheet of its own.
    fills_a_sheet: bool,
    /// Whether any of the numbers has a margin.
    margins: bool,
    figures: Vec<Drawing>,
}

/// One number.
#[derive(Serialize)]
struct Row {
    id: String,
    number: String,
    stated: String,
    needed: String,
    margin: String,
    mark: Mark,
    word: String,
    line: usize,
    working: String,
    /// Whether the working is a sum, which is folded, and not a remark of a line.
    folded: bool,
    findings: Vec<Link>,
}

/// How a status looks: its kind in the style, and a sign, so that neither colour nor sign is alone in telling.
#[derive(Serialize)]
struct Mark {
    kind: &'static str,
    sign: &'static str,
}

/// One drawing.
#[derive(Serialize)]
struct Drawing {
    caption: String,
    svg: Value,
}

impl Content {
    pub(super) fn new(worksheet: &Worksheet, source: &Source, settings: &Settings) -> Content {
        let (account, figures) = (&worksheet.account, figures(&worksheet.drawings));
        let title = sanitize_line(&account.title);
        let findings = PageFinding::standing(source, &account.outcome.findings);
        let accepted = account.outcome.accepted.iter().zip(1..);
        let accepted = accepted.map(|(one, number)| PageFinding::accepted(source, number, &one.finding, &one.because));
        let accepted: Vec<PageFinding> = accepted.collect();
        let by_place = [FoundByPlace::new(&findings), FoundByPlace::new(&accepted)];
        let tally = Tally::of(&account.outcome);
        let counts = StatusCounts::of(&account.lines);
        Content {
            file: file_name(source),
            house: *settings != Settings::default(),
            version: env!("CARGO_PKG_VERSION"),
            style: style(&title),
            found: tally_in_words(tally),
            found_mark: match tally {
                Tally { errors: 1.., .. } => mark(Status::Wrong, None),
                Tally { queries: 1.., .. } => mark(Status::Ok, Some(Level::Query)),
                _ => mark(Status::AsGiven, None),
            },
            ok: counts.ok,
            bad: counts.short + counts.wrong,
            accepted_numbers: counts.accepted,
            not_checked: counts.not_checked,
            as_given: counts.as_given,
            checked: counts.checked(),
            groups: gather(account, &figures)
                .iter()
                .zip(1..)
                .map(|(gathered, index)| group(gathered, index, source, &by_place))
                .collect(),
            not_drawn: worksheet.drawings.more_sizes,
            cautions: worksheet.cautions.clone(),
            title,
            findings,
            accepted,
        }
    }
}

/// The style is ours from end to end, but for the pattern's name, which is made harmless.
fn style(title: &str) -> Value {
    let own = include_str!("style.css");
    Value::from_safe_string(format!("{own}{FIGURE_STYLE}\n{}", name_on_each_sheet(title)))
}

/// The file's name alone: the folders that lead to it are nobody's business but the writer's.
fn file_name(source: &Source) -> String {
    sanitize_line(&source.path.file_name().unwrap_or(source.path.as_os_str()).to_string_lossy())
}

/// What belongs to the pattern as a whole, or to one size.
#[derive(Default)]
struct GroupedLines<'a> {
    size: Option<&'a str>,
    lines: Vec<&'a Line>,
    figures: Vec<&'a Figure>,
}

/// The groups in the order of the account, then sizes of which there are drawings and no numbers.
fn gather<'a>(account: &'a Audit, figures: &'a [Figure]) -> Vec<GroupedLines<'a>> {
    let mut gathered: Vec<GroupedLines<'a>> = Vec::new();
    let mut places = BTreeMap::new();
    let mut place = |gathered: &mut Vec<GroupedLines<'a>>, size: Option<&'a str>| {
        *places.entry(size).or_insert_with(|| {
            gathered.push(GroupedLines { size, ..GroupedLines::default() });
            gathered.len() - 1
        })
    };
    for line in &account.lines {
        let place = place(&mut gathered, line.size.as_deref());
        gathered[place].lines.push(line);
    }
    for figure in figures {
        let place = place(&mut gathered, figure.size.as_deref());
        gathered[place].figures.push(figure);
    }
    gathered
}

/// So many rows can share a sheet with the next size.
const FEW_ROWS: usize = 6;

fn group(gathered: &GroupedLines<'_>, index: usize, source: &Source, found: &[FoundByPlace<'_>]) -> Group {
    let GroupedLines { size, lines, figures } = gathered;
    let id = size.map_or_else(|| "for-all-sizes".to_string(), |_| format!("size-{index}"));
    let counts = StatusCounts::of(lines.iter().copied());
    let rows = lines.iter().zip(1..).map(|(line, number)| row(&format!("{id}-{number}"), line, source, found));
    let rows: Vec<Row> = rows.collect();
    Group {
        heading: size.map_or_else(|| "For all sizes".to_string(), sanitize_line),
        is_size: size.is_some(),
        stand: counts.in_words(),
        mark: match counts {
            StatusCounts { short: 1.., .. } => mark(Status::Short, None),
            StatusCounts { wrong: 1.., .. } => mark(Status::Wrong, None),
            _ if lines.iter().any(|line| line.level() == Some(Level::Query)) => mark(Status::Ok, Some(Level::Query)),
            StatusCounts { not_checked: 1.., .. } => mark(Status::NotChecked, None),
            _ if counts.checked() == 0 => mark(Status::AsGiven, None),
            _ => mark(Status::Ok, None),
        },
        fills_a_sheet: size.is_some() && (rows.len() > FEW_ROWS || !figures.is_empty()),
        margins: rows.iter().any(|row| !row.margin.is_empty()),
        rows,
        figures: figures.iter().map(|figure| drawing(figure)).collect(),
        id,
    }
}

fn row(id: &str, line: &Line, source: &Source, found: &[FoundByPlace<'_>]) -> Row {
    let working = nonbreaking(&sanitize_line(&line.working));
    Row {
        id: id.to_string(),
        number: sanitize_line(&line.number),
        stated: nonbreaking(&sanitize_line(&line.stated)),
        needed: nonbreaking(&sanitize_line(&line.needed)),
        margin: nonbreaking(&sanitize_line(&line.margin.signed())),
        mark: mark(line.status, line.level()),
        word: line.result(),
        line: source.place(line.at.start).line,
        folded: !matches!(line.status, Status::AsGiven | Status::NotChecked) && !working.is_empty(),
        working,
        findings: found.iter().flat_map(|found| found.links(line.at)).collect(),
    }
}

const fn mark(status: Status, level: Option<Level>) -> Mark {
    let (kind, sign) = match (status, level) {
        (Status::Short | Status::Wrong, _) => ("bad", "✗"),
        (_, Some(Level::Query)) => ("query", "?"),
        (Status::Ok, _) => ("ok", "✓"),
        (Status::Accepted, _) => ("accepted", "✓"),
        (Status::AsGiven, _) => ("given", ""),
        (Status::NotChecked, _) => ("open", "○"),
    };
    Mark { kind, sign }
}

fn drawing(figure: &Figure) -> Drawing {
    Drawing { caption: nonbreaking(&sanitize_line(&figure.caption)), svg: Value::from_safe_string(figure.svg.clone()) }
}
