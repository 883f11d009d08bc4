//! What is cut from each fabric.

use super::cell::{Cell, Item, Line, Table, heads};
use super::cell_text::{CellText, on_one_line, text};
use crate::manuscript::Manuscript;
use crate::manuscript::model::{Binding, Cut, Fabric};

/// A table for each fabric that has a cutting list, with the binding where it is cut from that fabric.
pub(super) fn cutting(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Table> {
    let binding = |place| manuscript.binding.as_ref().filter(|binding| binding.from.value() == Some(place));
    let fabrics = manuscript.fabrics.iter().enumerate();
    fabrics.map(|(place, fabric)| of_fabric(fabric, binding(place), pen)).collect()
}

fn of_fabric(fabric: &Fabric, binding: Option<&Binding>, pen: &CellText<'_>) -> Table {
    let sizes = pen.sizes();
    let mut items: Vec<Item> = fabric.cut.iter().map(|cut| of_piece(cut, pen)).collect();
    if !fabric.cut_whole {
        let line = Line { what: "pieces", cells: sizes.iter().map(|_| Cell::Unread).collect() };
        let name = Cell::Unread.text().to_string();
        items.push(Item { name, attributes: vec![Cell::Unread, Cell::Nothing, Cell::Nothing], lines: vec![line] });
    }
    items.extend(binding.and_then(|binding| of_binding(binding, pen)));
    Table {
        caption: format!("Cut from {}", on_one_line(&fabric.name)),
        items_are: "piece",
        attributes: heads(&["cut size", "cut strips", "grain"]),
        sizes,
        items,
    }
}

/// The binding's strips, or the squares for continuous bias; nothing where none are stated.
fn of_binding(binding: &Binding, pen: &CellText<'_>) -> Option<Item> {
    let cells = [
        ("width of each strip", pen.for_each(&binding.strip_width, |width| pen.length(width))),
        ("strips", pen.per_size(&binding.requires, |size| pen.count(&size.strips))),
        ("length of each strip", pen.also_per_size(&binding.requires, |size| pen.length(&size.strip_length))),
        ("side of the square", pen.also_per_size(&binding.requires, |size| pen.square(&size.square))),
    ];
    let lines: Vec<Line> = cells.into_iter().filter_map(|(what, cells)| Line::stated(what, cells)).collect();
    let width = CellText::for_all(&binding.strip_width, |width| pen.length(width));
    let attributes = vec![Cell::Nothing, width, pen.word(&binding.grain)];
    (!lines.is_empty()).then(|| Item { name: "binding".into(), attributes, lines })
}

fn of_piece(cut: &Cut, pen: &CellText<'_>) -> Item {
    let counts = |counts: &[_]| counts.iter().map(|count| pen.count(count)).collect::<Vec<Cell>>();
    let lines = [
        Line::stated("cut size", pen.for_each(&cut.size, |size| pen.dimensions(size))),
        Line::stated("cut strips", pen.for_each(&cut.strip_width, |width| pen.length(width))),
        Line::stated("strips", counts(&cut.strips)),
        Line::stated("pieces", counts(&cut.pieces)),
    ];
    let mut lines: Vec<Line> = lines.into_iter().flatten().collect();
    if lines.is_empty() {
        // Every item of a table has a line, so that its columns are the same.
        lines.push(Line { what: "pieces", cells: counts(&cut.pieces) });
    }
    Item {
        name: text(&cut.piece).text().to_string(),
        attributes: vec![
            CellText::for_all(&cut.size, |size| pen.dimensions(size)),
            CellText::for_all(&cut.strip_width, |width| pen.length(width)),
            pen.word(&cut.grain),
        ],
        lines,
    }
}
