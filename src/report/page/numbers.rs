//! The numbers of a page: sizes side by side at a glance, and behind that number by number with the working.

use serde::Serialize;

use super::found::{FoundByPlace, Link};
use crate::audit::{Line, Status};
use crate::finding::Level;
use crate::manuscript::Source;
use crate::report::nonbreaking::nonbreaking;
use crate::report::sanitize_line;
use crate::report::words::StatusCounts;
use crate::worksheet::{Matrix, MatrixPart, MatrixRow, Sections, WorksheetTexts, is_even, needed_beside};

/// How many sizes stand beside one another at most; more go on in a further table.
const MAX_BESIDE: usize = 8;

/// A working of more bytes than this may be broken between two columns.
const LONG: usize = 420;

/// How a status looks: its kind in the style, and a sign, so that neither color nor sign is alone in telling.
#[derive(Clone, Copy, Serialize)]
pub(super) struct Mark {
    kind: &'static str,
    sign: &'static str,
}

pub(super) const fn mark(status: Status, level: Option<Level>) -> Mark {
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

/// The sizes that stand beside one another, with the numbers that they have.
#[derive(Serialize)]
pub(super) struct MatrixTable {
    /// The sizes, each with its place among all, from one.
    heads: Vec<(usize, String)>,
    parts: Vec<MatrixRows>,
}

/// The numbers of a section.
#[derive(Serialize)]
struct MatrixRows {
    place: usize,
    heading: String,
    rows: Vec<Glance>,
}

/// A number with its sizes beside one another, or as it is for all of them.
#[derive(Serialize)]
struct Glance {
    number: String,
    /// The id of the number with its working.
    to: String,
    /// Whether nothing is to be done about it.
    fine: bool,
    all: Option<Cell>,
    cells: Vec<SizeCell>,
}

#[derive(Serialize)]
struct SizeCell {
    place: usize,
    size: String,
    cell: Option<Cell>,
}

/// A stated number over what is needed.
#[derive(Serialize)]
struct Cell {
    stated: String,
    needed: Option<String>,
    mark: Mark,
    /// What the mark says, where there is one.
    word: Option<String>,
}

/// The tables of the numbers at a glance.
pub(super) fn matrix_tables(matrix: &Matrix<'_>, sections: &Sections, id: &str) -> Vec<MatrixTable> {
    let sizes: Vec<(usize, String)> = (1..).zip(matrix.sizes.iter().map(|size| sanitize_line(size))).collect();
    let chunks: Vec<&[(usize, String)]> = if sizes.is_empty() { vec![&[]] } else { sizes.chunks(MAX_BESIDE).collect() };
    let tables = chunks.into_iter().enumerate().map(|(table, heads)| MatrixTable {
        heads: heads.to_vec(),
        parts: matrix.parts.iter().filter_map(|part| matrix_rows(part, sections, id, (table == 0, heads))).collect(),
    });
    tables.filter(|table| !table.parts.is_empty()).collect()
}

fn matrix_rows(
    part: &MatrixPart<'_>,
    sections: &Sections,
    id: &str,
    (first, heads): (bool, &[(usize, String)]),
) -> Option<MatrixRows> {
    let place = place(part);
    let mut rows = Vec::new();
    for (row, number) in part.rows.iter().zip(1..) {
        let to = number_id(id, place, number);
        let glance = |all: Option<Cell>, cells: Vec<SizeCell>, fine: bool| Glance {
            number: sanitize_line(row.number),
            to: to.clone(),
            fine,
            all,
            cells,
        };
        if let Some(line) = row.all.first().filter(|_| first) {
            let mut cell = cell(line);
            if row.all.len() > 1 {
                cell.stated.push_str(&format!(" ({} times)", row.all.len()));
            }
            rows.push(glance(Some(cell), Vec::new(), is_fine(line)));
        }
        let lines: Vec<Option<&Line>> = heads.iter().map(|(place, _)| row.cells[place - 1]).collect();
        if lines.iter().any(Option::is_some) {
            let fine = lines.iter().flatten().all(|line| is_fine(line));
            let cells = lines.iter().zip(heads).map(|(line, (place, size))| SizeCell {
                place: *place,
                size: size.clone(),
                cell: line.map(cell),
            });
            rows.push(glance(None, cells.collect(), fine));
        }
    }
    (!rows.is_empty()).then(|| MatrixRows { place, heading: heading(part, sections), rows })
}

fn cell(line: &Line) -> Cell {
    let marked = !matches!(line.status, Status::Ok | Status::AsGiven) || line.level() >= Some(Level::Query);
    Cell {
        stated: quantity(&line.stated),
        needed: needed_beside(line).map(quantity),
        mark: mark(line.status, line.level()),
        word: marked.then(|| line.result()),
    }
}

/// A quantity with its parts held together; between two lengths it may be broken.
fn quantity(text: &str) -> String {
    nonbreaking(&sanitize_line(text)).replace("\u{a0}x\u{a0}", " x\u{a0}")
}

fn is_fine(line: &Line) -> bool {
    !matches!(line.status, Status::Short | Status::Wrong | Status::NotChecked) && line.level().is_none()
}

/// The numbers of a section with their workings.
#[derive(Serialize)]
pub(super) struct WorkingPart {
    id: String,
    /// Its place among the sections, from one; zero for what stands in none.
    pub(super) place: usize,
    heading: String,
    /// How the numbers stand, in a few words.
    stand: String,
    /// The mark for the worst of it.
    mark: Mark,
    /// Whether nothing is to be done about any of them.
    fine: bool,
    /// Whether any of the numbers has a margin.
    margins: bool,
    numbers: Vec<Number>,
}

/// One number with its lines.
#[derive(Serialize)]
struct Number {
    id: String,
    name: String,
    fine: bool,
    /// The places of the sizes that it has lines for; zero for all of them.
    places: Vec<usize>,
    rows: Vec<Row>,
}

/// One line of the account.
#[derive(Serialize)]
struct Row {
    /// The size, and its place among the sizes; zero for all of them.
    size: String,
    place: usize,
    /// Its classes: the kind of its mark, whether nothing is to be done about it, whether its working is long.
    classes: String,
    stated: String,
    needed: String,
    /// Nothing, that it is empty, or that it says no more than what is stated.
    needed_class: &'static str,
    margin: String,
    /// Nothing, that it is empty, or that just as much is stated as is needed.
    margin_class: &'static str,
    mark: Mark,
    word: String,
    line: usize,
    working: String,
    /// Where printed texts say it, in words, where they are searched for it.
    in_text: Option<String>,
    findings: Vec<Link>,
}

/// The numbers by section, each with its workings.
pub(super) fn working_parts(
    matrix: &Matrix<'_>,
    sections: &Sections,
    (source, texts): (&Source, &WorksheetTexts),
    found: &[FoundByPlace<'_>],
    id: &str,
) -> Vec<WorkingPart> {
    let part = |part: &MatrixPart<'_>| {
        let place = place(part);
        let lines = || part.rows.iter().flat_map(MatrixRow::lines).map(|(_, line)| line);
        let counts = StatusCounts::of(lines());
        let numbers = part.rows.iter().zip(1..).map(|(row, number)| {
            let rows: Vec<Row> =
                row.lines().map(|(size, line)| working_row(matrix, size, line, (source, texts), found)).collect();
            Number {
                id: number_id(id, place, number),
                name: sanitize_line(row.number),
                fine: row.lines().all(|(_, line)| is_fine(line)),
                places: rows.iter().map(|row| row.place).collect(),
                rows,
            }
        });
        WorkingPart {
            id: format!("{id}part-{place}"),
            place,
            heading: heading(part, sections),
            stand: counts.in_words(),
            mark: worst(counts, lines().any(|line| line.level() == Some(Level::Query))),
            fine: lines().all(is_fine),
            margins: lines().any(|line| !line.margin.is_empty()),
            numbers: numbers.collect(),
        }
    };
    matrix.parts.iter().map(part).collect()
}

fn worst(counts: StatusCounts, queried: bool) -> Mark {
    match counts {
        StatusCounts { short: 1.., .. } => mark(Status::Short, None),
        StatusCounts { wrong: 1.., .. } => mark(Status::Wrong, None),
        _ if queried => mark(Status::Ok, Some(Level::Query)),
        StatusCounts { not_checked: 1.., .. } => mark(Status::NotChecked, None),
        _ if counts.checked() == 0 => mark(Status::AsGiven, None),
        _ => mark(Status::Ok, None),
    }
}

fn working_row(
    matrix: &Matrix<'_>,
    size: Option<usize>,
    line: &Line,
    (source, texts): (&Source, &WorksheetTexts),
    found: &[FoundByPlace<'_>],
) -> Row {
    Row {
        size: size.map_or_else(|| "all sizes".to_string(), |size| sanitize_line(matrix.sizes[size])),
        place: size.map_or(0, |size| size + 1),
        classes: classes(line),
        stated: nonbreaking(&sanitize_line(&line.stated)),
        needed: nonbreaking(&sanitize_line(&line.needed)),
        needed_class: match needed_beside(line) {
            Some(_) => "",
            None if line.needed.is_empty() => " empty",
            None => " same",
        },
        margin: nonbreaking(&sanitize_line(&line.margin.signed())),
        margin_class: match line.margin.is_empty() {
            true => " empty",
            false if is_even(line) => " even",
            false => "",
        },
        mark: mark(line.status, line.level()),
        word: line.result(),
        line: source.place(line.at.start).line,
        working: nonbreaking(&sanitize_line(&line.working)),
        in_text: texts.words(line).map(|words| nonbreaking(&sanitize_line(&words))),
        findings: found.iter().flat_map(|found| found.links(line.at)).collect(),
    }
}

fn classes(line: &Line) -> String {
    let mut classes = mark(line.status, line.level()).kind.to_string();
    for (is, class) in [(is_fine(line), " fine"), (line.working.len() > LONG, " long")] {
        if is {
            classes.push_str(class);
        }
    }
    classes
}

fn place(part: &MatrixPart<'_>) -> usize {
    part.section.map_or(0, |section| section + 1)
}

fn heading(part: &MatrixPart<'_>, sections: &Sections) -> String {
    let section = part.section.and_then(|section| sections.get(section));
    section.map_or_else(|| "Other".to_string(), |section| sanitize_line(&section.heading()))
}

/// The id of a number by its section and its place in it.
fn number_id(id: &str, place: usize, number: usize) -> String {
    format!("{id}number-{place}-{number}")
}
