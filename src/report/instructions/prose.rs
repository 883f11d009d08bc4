//! A step in words, for all sizes or for one.

use crate::tables::instructions::{Clause, Link, Part, Step};
use crate::tables::{Cell, Instructions};

/// A step for all sizes, its numbers in the order of the sizes: `6 (13) strips 6 1/2 in x WOF`.
pub(super) fn for_all(step: &Step) -> String {
    joined(&step.clauses, None)
}

/// A step for one size; nothing where it takes none of it.
pub(super) fn for_size(step: &Step, size: usize) -> Option<String> {
    let text = joined(&step.clauses, Some(size));
    (!text.is_empty()).then_some(text)
}

/// The line that declares the order of the sizes, where there are several.
pub(super) fn order(instructions: &Instructions) -> Option<String> {
    let sizes: Vec<Cell> = instructions.sizes.iter().cloned().map(Cell::Stated).collect();
    if sizes.len() < 2 {
        return None;
    }
    let parts = || instructions.sections.iter().flat_map(|section| &section.steps).flat_map(|step| &step.clauses);
    let differs = |part: &Part| matches!(part, Part::Values(cells) if !is_alike(cells));
    let brackets = if parts().flat_map(|clause| &clause.parts).any(differs) {
        " Measurements that differ stand in brackets."
    } else {
        ""
    };
    // A name may have a comma or a parenthesis in it.
    let plain = |cell: &Cell| !cell.text().contains(['(', ')', ',']);
    let names = if sizes.iter().all(plain) { run_of_counts(&sizes) } else { run_of_values(&sizes) };
    Some(format!(
        "Sizes: {names}. Numbers are given in this order; where there is one number, it is for all sizes.{brackets}"
    ))
}

/// The clauses that some size takes, or that one size does.
fn joined(clauses: &[Clause], size: Option<usize>) -> String {
    let is_taken = |clause: &&Clause| match size {
        Some(size) => clause.takes.get(size).copied().unwrap_or(true),
        None => true,
    };
    let taken: Vec<&Clause> = clauses.iter().filter(is_taken).collect();
    let mut text = String::new();
    for (index, clause) in taken.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|before| taken.get(before)).map(|clause| clause.link);
        let after = taken.get(index + 1).map(|clause| clause.link);
        text.push_str(match (clause.link, before) {
            (_, None) => "",
            (Link::Subcut, Some(Link::Subcut | Link::Aside)) if after == Some(Link::Subcut) => ", ",
            (Link::Subcut, Some(Link::Subcut | Link::Aside)) => " and ",
            (Link::Subcut, _) => "; subcut ",
            (Link::From, _) => ", from ",
            (Link::Start | Link::Aside, _) => ", ",
        });
        text.extend(clause.parts.iter().map(|part| shown(clause, part, size)));
    }
    // Strips of which nothing is cut would not say what they are for.
    let pieces = pieces_of(clauses);
    if taken.len() == 1 && taken[0].link == Link::Start && !pieces.is_empty() {
        text.push_str(&format!(", for {pieces}"));
    }
    text
}

/// The names of the pieces that are cut from strips.
pub(super) fn pieces_of(clauses: &[Clause]) -> String {
    let subcut = clauses.iter().filter(|clause| clause.link == Link::Subcut);
    let pieces: Vec<&str> = subcut.filter_map(|clause| clause.piece.as_deref()).collect();
    pieces.join(" and ")
}

fn shown(clause: &Clause, part: &Part, size: Option<usize>) -> String {
    match (part, size) {
        (Part::Words(words), _) => words.clone(),
        (Part::Counts(cells), None) => run_of_counts(cells),
        (Part::Values(cells), None) => run_of_values(cells),
        (Part::Counts(cells) | Part::Values(cells), Some(size)) => {
            cells.get(size).unwrap_or(&Cell::Unread).text().to_string()
        }
        (Part::Noun(one, many), size) => if is_one(clause, size) { one } else { many }.clone(),
    }
}

/// Whether one alone is counted.
fn is_one(clause: &Clause, size: Option<usize>) -> bool {
    let counts = clause.parts.iter().find_map(|part| match part {
        Part::Counts(cells) => Some(cells),
        Part::Words(_) | Part::Values(_) | Part::Noun(..) => None,
    });
    let is_one = |cell: &Cell| cell.text() == "1";
    match (counts, size) {
        (Some(cells), Some(size)) => cells.get(size).is_some_and(is_one),
        (Some(cells), None) => cells.iter().all(is_one),
        (None, _) => false,
    }
}

fn is_alike(cells: &[Cell]) -> bool {
    cells.windows(2).all(|two| two[0] == two[1])
}

/// `6 (13, 18)`, or `6` where it is the same for all.
fn run_of_counts(cells: &[Cell]) -> String {
    run(cells, " (", ", ", ")")
}

/// `2 1/2 in [3 in; 3 1/2 in]`, since a parenthesis after a measurement is the same in the other measure.
fn run_of_values(cells: &[Cell]) -> String {
    run(cells, " [", "; ", "]")
}

fn run(cells: &[Cell], open: &str, between: &str, close: &str) -> String {
    let Some((first, others)) = cells.split_first() else { return Cell::Unread.text().to_string() };
    if others.is_empty() || is_alike(cells) {
        return first.text().to_string();
    }
    let others: Vec<&str> = others.iter().map(Cell::text).collect();
    format!("{}{open}{}{close}", first.text(), others.join(between))
}
