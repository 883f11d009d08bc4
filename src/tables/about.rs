//! What a pattern says of itself and asks for besides fabric, and its fabrics in other color schemes.

use super::cell::{Cell, Item, Table, of_words};
use super::cell_text::{CellText, on_one_line, text};
use crate::manuscript::Manuscript;
use crate::manuscript::model::{Colorway, Notion};

/// The designer, the skill that it takes, and notes.
pub(super) fn about(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let rows = [
        ("designer", text(&manuscript.designer)),
        ("skill", text(&manuscript.skill)),
        ("notes", text(&manuscript.notes)),
        ("notions", uncounted(manuscript)),
    ];
    of_words(pen, ("about", "About the pattern"), rows)
}

/// What to have at hand of which no number is stated.
fn uncounted(manuscript: &Manuscript) -> Cell {
    let names = manuscript.notions.iter().filter(|notion| notion.count.is_absent());
    let names: Vec<String> = names.map(|notion| text(&notion.notion).text().to_string()).collect();
    if names.is_empty() { Cell::Nothing } else { Cell::Stated(names.join("; ")) }
}

/// What to have at hand, with how many for each size.
pub(super) fn notions(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let item = |notion: &Notion| {
        let sizes = 0..manuscript.sizes.len();
        let cells = sizes.map(|size| pen.count(notion.count.of(size))).collect();
        Item::of_sizes(text(&notion.notion).text(), cells)
    };
    let items = manuscript.notions.iter().filter_map(item).collect();
    Table { sizes: pen.sizes(), items, ..Table::empty(pen, "notions", pen.say("Notions"), "notion") }
}

/// What each fabric is in each color scheme, a column for each.
pub(super) fn colorways(manuscript: &Manuscript, pen: &CellText<'_>) -> Option<Table> {
    // Where one was chosen, its colors stand with the fabrics.
    if manuscript.colorways.is_empty() || pen.has_colorway() {
        return None;
    }
    let cell = |colorway: &Colorway, place| {
        let named = colorway.fabrics.iter().find(|(fabric, _)| *fabric == place);
        named.map_or(Cell::Nothing, |(_, is)| text(is))
    };
    let items = manuscript.fabrics.iter().enumerate().map(|(place, fabric)| {
        let colorways = manuscript.colorways.iter().map(|colorway| cell(colorway, place));
        let attributes = std::iter::once(text(&fabric.color)).chain(colorways).collect();
        Item { name: on_one_line(&fabric.name), attributes, lines: Vec::new() }
    });
    let names = manuscript.colorways.iter().map(|colorway| on_one_line(&colorway.name));
    Some(Table {
        attributes: std::iter::once(pen.say("as shown")).chain(names).collect(),
        items: items.collect(),
        ..Table::empty(pen, "colorways", pen.say("Colorways"), "fabric")
    })
}
