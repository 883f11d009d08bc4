//! The instructions as tables: a row for each clause, with what it says for all sizes as its name.

use super::prose::pieces_of;
use crate::tables::instructions::{Clause, Link, Part, Section, Step};
use crate::tables::{Cell, Instructions, Item, Line, Table, Tables};

/// A table for each section.
pub(super) fn as_tables(instructions: &Instructions) -> Tables {
    let table = |section: &Section| Table {
        class: "cutting",
        caption: section.heading.clone(),
        items_are: "cut".to_string(),
        how_many: String::new(),
        attributes: Vec::new(),
        sizes: instructions.sizes.clone(),
        items: section.steps.iter().flat_map(rows).collect(),
    };
    instructions.as_tables(instructions.sections.iter().map(table).collect())
}

/// A row for each clause of a step.
fn rows(step: &Step) -> Vec<Item> {
    let pieces = pieces_of(&step.clauses);
    let mut rows: Vec<Item> = step.clauses.iter().map(row).collect();
    // Strips of one width may be cut twice: what they are for tells their rows apart.
    if let Some(strips) = rows.first_mut().filter(|_| !pieces.is_empty()) {
        strips.name.push_str(&format!(", for {pieces}"));
    }
    rows
}

/// A clause with its values: a count, or a count of so large ones where both differ from size to size.
fn row(clause: &Clause) -> Item {
    let values: Vec<&Vec<Cell>> = clause.parts.iter().filter_map(values).collect();
    let sizes = values.first().map_or(0, |cells| cells.len());
    let cells = (0..sizes).map(|size| {
        let stated: Vec<&Cell> = values.iter().filter_map(|cells| cells.get(size)).collect();
        together(&stated)
    });
    Item {
        name: name(clause),
        attributes: Vec::new(),
        lines: vec![Line { what: String::new(), cells: cells.collect() }],
    }
}

fn values(part: &Part) -> Option<&Vec<Cell>> {
    match part {
        Part::Counts(cells) | Part::Values(cells) => Some(cells),
        Part::Words(_) | Part::Noun(..) => None,
    }
}

/// `5 of 2 1/2 in`; nothing where nothing is stated.
fn together(cells: &[&Cell]) -> Cell {
    if cells.iter().all(|cell| cell.is_nothing()) {
        return Cell::Nothing;
    }
    let texts: Vec<&str> = cells.iter().filter(|cell| !cell.is_nothing()).map(|cell| cell.text()).collect();
    Cell::Stated(texts.join(" of "))
}

/// What a clause says without its values.
fn name(clause: &Clause) -> String {
    let mut text = match clause.link {
        Link::Start | Link::Aside => String::new(),
        Link::Subcut => "subcut ".to_string(),
        Link::From => "from ".to_string(),
    };
    for part in &clause.parts {
        match part {
            Part::Words(words) => text.push_str(words),
            Part::Noun(_, many) => text.push_str(many),
            Part::Counts(_) | Part::Values(_) => {}
        }
    }
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = words.replace(" , ", ", ");
    let words = match &clause.piece {
        Some(piece) if clause.link == Link::From => format!("{words}, for {piece}"),
        _ => words,
    };
    words.trim_start_matches(", ").trim_end_matches([':', ',']).to_string()
}
