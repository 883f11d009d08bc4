//! What is cut for the units besides the pieces of the cutting lists: pieces whose size stands in the unit, segments of
//! strip sets, and the size that a unit is trimmed to.

use super::super::Cell;
use super::super::cell_text::{CellText, on_one_line};
use super::parts::{Clause, Link, Section, Step};
use crate::manuscript::Manuscript;
use crate::manuscript::design::{CutFrom, Unit};

/// One section for all units.
pub(super) fn section(manuscript: &Manuscript, pen: &CellText<'_>) -> Option<Section> {
    let steps: Vec<Step> = manuscript.units.iter().flat_map(|unit| of_unit(unit, pen)).collect();
    (!steps.is_empty()).then(|| Section {
        of: "units".to_string(),
        heading: "For the units, cut or trim".to_string(),
        steps,
    })
}

fn of_unit(unit: &Unit, pen: &CellText<'_>) -> Vec<Step> {
    let name = on_one_line(&unit.name);
    let step = |words: String, cell: Cell, after: &str| {
        let values = vec![cell; pen.sizes().len()];
        Step::of(Clause::uncounted(Link::Start, &words, values).words(&format!("{after} ({name})")))
    };
    let mut steps = Vec::new();
    for part in &unit.cut {
        let Some(from) = part.from.stated() else { continue };
        let CutFrom::Size(width, height) = from.value else { continue };
        let size = Cell::Stated(pen.dimensions_in_words((width, height), from.at));
        steps.push(step(format!("{}: ", on_one_line(&part.part).replace('_', " ")), size, ""));
    }
    let stated = [("segments ", pen.length(&unit.segment), " wide"), ("trim to ", pen.dimensions(&unit.trim), "")];
    for (words, cell, after) in stated {
        if !cell.is_nothing() {
            steps.push(step(words.to_string(), cell, after));
        }
    }
    steps
}
