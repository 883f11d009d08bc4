//! What a pattern says of itself and asks for besides fabric, and its fabrics in other color schemes.

use super::cell::{Cell, Item, Line, Table};
use super::cell_text::{CellText, on_one_line, text};
use crate::manuscript::Manuscript;

/// The designer, the skill that it takes, and notes.
pub(super) fn about(manuscript: &Manuscript) -> Table {
    let rows = [
        ("designer", text(&manuscript.designer)),
        ("skill", text(&manuscript.skill)),
        ("notes", text(&manuscript.notes)),
    ];
    let stated = rows.into_iter().filter(|(_, cell)| !cell.is_nothing());
    Table {
        caption: "About the pattern".into(),
        items_are: "what",
        attributes: vec!["it is"],
        sizes: Vec::new(),
        items: stated
            .map(|(name, cell)| Item { name: name.into(), attributes: vec![cell], lines: Vec::new() })
            .collect(),
    }
}

/// What to have at hand, each with how many where that is stated.
pub(super) fn notions(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let counted = manuscript.notions.iter().any(|notion| !notion.count.is_absent());
    let item = |notion: &crate::manuscript::model::Notion| {
        let sizes = 0..manuscript.sizes.len();
        let cells = sizes.map(|size| pen.count(notion.count.of(size))).collect();
        let lines = if counted { vec![Line { what: "", cells }] } else { Vec::new() };
        Item { name: text(&notion.notion).text().to_string(), attributes: Vec::new(), lines }
    };
    Table {
        caption: "Notions".into(),
        items_are: "notion",
        attributes: Vec::new(),
        sizes: if counted { pen.sizes() } else { Vec::new() },
        items: manuscript.notions.iter().map(item).collect(),
    }
}

/// What each fabric is in each color scheme, a column for each.
pub(super) fn colorways(manuscript: &Manuscript) -> Option<Table> {
    if manuscript.colorways.is_empty() {
        return None;
    }
    let cell = |colorway: &crate::manuscript::model::Colorway, place| {
        let named = colorway.fabrics.iter().find(|(fabric, _)| *fabric == place);
        named.map_or(Cell::Nothing, |(_, is)| text(is))
    };
    let items = manuscript.fabrics.iter().enumerate().map(|(place, fabric)| Item {
        name: on_one_line(&fabric.name),
        attributes: vec![text(&fabric.color)],
        lines: vec![Line {
            what: "",
            cells: manuscript.colorways.iter().map(|colorway| cell(colorway, place)).collect(),
        }],
    });
    Some(Table {
        caption: "Colorways".into(),
        items_are: "fabric",
        attributes: vec!["as shown"],
        sizes: manuscript.colorways.iter().map(|colorway| on_one_line(&colorway.name)).collect(),
        items: items.collect(),
    })
}
