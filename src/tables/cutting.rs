//! What is cut from each fabric.

use super::cell::{Cell, Item, Line, Table, heads};
use super::cell_text::{CellText, on_one_line, text};
use crate::manuscript::model::{Binding, Cut, Fabric};
use crate::manuscript::{Field, Manuscript};
use crate::quantity::Count;

/// A table for each fabric that has a cutting list, with the binding where it is cut from that fabric.
pub(super) fn cutting(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Table> {
    let binding = |place| manuscript.binding.as_ref().filter(|binding| binding.from.value() == Some(place));
    let fabrics = manuscript.fabrics.iter().enumerate();
    fabrics.map(|(place, fabric)| of_fabric(fabric, binding(place), pen)).collect()
}

fn of_fabric(fabric: &Fabric, binding: Option<&Binding>, pen: &CellText<'_>) -> Table {
    let sizes = pen.sizes();
    let mut items: Vec<Item> = fabric.cut.iter().map(|cut| of_piece(fabric, cut, pen)).collect();
    if !fabric.cut_whole {
        let line = Line { what: "pieces", cells: sizes.iter().map(|_| Cell::Unread).collect() };
        let name = Cell::Unread.text().to_string();
        items.push(Item {
            name,
            attributes: std::iter::once(Cell::Unread).chain(std::iter::repeat_n(Cell::Nothing, 6)).collect(),
            lines: vec![line],
        });
    }
    items.extend(binding.and_then(|binding| of_binding(binding, pen)));
    Table {
        caption: format!("Cut from {}", on_one_line(&fabric.name)),
        items_are: "piece",
        attributes: heads(&["cut size", "cut strips", "grain", "joined", "cut from", "cut diagonally", "for"]),
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
    let attributes = [Cell::Nothing, width, pen.word(&binding.grain)];
    let attributes = attributes.into_iter().chain(std::iter::repeat_n(Cell::Nothing, 4)).collect();
    (!lines.is_empty()).then(|| Item { name: "binding".into(), attributes, lines })
}

/// What a piece is cut from, where that is what others leave.
fn cut_from(cut: &Cut) -> Cell {
    match (cut.beside.stated(), cut.from.stated()) {
        (Some(beside), _) => Cell::Stated(format!("beside {}", on_one_line(&beside.value))),
        (None, Some(_)) => Cell::Stated("what is left".to_string()),
        (None, None) => Cell::Nothing,
    }
}

/// The pieces that are cut from strips.
fn members<'f>(fabric: &'f Fabric, group: &Cut) -> impl Iterator<Item = &'f Cut> {
    let place = fabric.cut.iter().position(|cut| cut.at == group.at);
    fabric.cut.iter().filter(move |cut| cut.within.is_some() && cut.within == place)
}

/// A piece, or strips for several pieces, which go by the names of these.
fn of_piece(fabric: &Fabric, cut: &Cut, pen: &CellText<'_>) -> Item {
    let counts = |counts: &[_]| counts.iter().map(|count| pen.count(count)).collect::<Vec<Cell>>();
    // What is counted from the pieces of each is not stated.
    let is_stated = |(count, each): (&Field<Count>, &Field<Count>)| count.at() != each.at() || count.at().is_none();
    let pieces = cut.pieces.iter().zip(&cut.pieces_from_each);
    let pieces = pieces.map(|pair| if is_stated(pair) { pen.count(pair.0) } else { Cell::Nothing }).collect();
    let group = cut.within.and_then(|group| fabric.cut.get(group));
    let strip_width = &group.unwrap_or(cut).strip_width;
    let lines = [
        Line::stated("cut size", pen.for_each(&cut.size, |size| pen.dimensions(size))),
        Line::stated("cut strips", pen.for_each(strip_width, |width| pen.length(width))),
        Line::stated("strips", counts(&cut.strips)),
        Line::stated("pieces", pieces),
        Line::stated("pieces from each", counts(&cut.pieces_from_each)),
    ];
    let mut lines: Vec<Line> = lines.into_iter().flatten().collect();
    if lines.is_empty() {
        // Every item of a table has a line, so that its columns are the same.
        lines.push(Line { what: "pieces", cells: counts(&cut.pieces) });
    }
    let name = |cut: &Cut| text(&cut.piece).text().to_string();
    let own = if cut.is_group { members(fabric, cut).map(name).collect::<Vec<_>>().join(" and ") } else { name(cut) };
    Item {
        name: own,
        attributes: vec![
            CellText::for_all(&cut.size, |size| pen.dimensions(size)),
            CellText::for_all(strip_width, |width| pen.length(width)),
            pen.word(&cut.grain),
            pen.word(&cut.joined),
            cut_from(cut),
            pen.word(&cut.cut_again),
            text(&cut.used_for),
        ],
        lines,
    }
}
