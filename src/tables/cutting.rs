//! What is cut from each fabric.

use super::cell::{Cell, Item, Line, Table, heads};
use super::cell_text::{CellText, on_one_line, text};
use crate::manuscript::model::{Binding, Cut, CutShape, Fabric, Shaped, Tips};
use crate::manuscript::{Field, Keyword, Manuscript};
use crate::quantity::{Count, Written};
use crate::rules::words::shape_name;

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
        let line = Line { what: pen.say("pieces"), cells: sizes.iter().map(|_| Cell::Unread).collect() };
        let name = Cell::Unread.text().to_string();
        items.push(Item {
            name,
            attributes: std::iter::once(Cell::Unread).chain(std::iter::repeat_n(Cell::Nothing, 9)).collect(),
            lines: vec![line],
        });
    }
    items.extend(binding.and_then(|binding| of_binding(binding, pen)));
    Table {
        attributes: heads(
            pen,
            &[
                "cut size",
                "cut strips",
                "grain",
                "joined",
                "cut from",
                "cut diagonally",
                "shape",
                "finished",
                "centered",
                "for",
            ],
        ),
        sizes,
        items,
        ..Table::empty(pen, "cutting", pen.say_of("Cut from {}", &on_one_line(&fabric.name)), "piece")
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
    let lines: Vec<Line> = cells.into_iter().filter_map(|(what, cells)| Line::stated(pen.say(what), cells)).collect();
    let width = CellText::for_all(&binding.strip_width, |width| pen.length(width));
    let attributes = [Cell::Nothing, width, pen.word(&binding.grain)];
    let attributes = attributes.into_iter().chain(std::iter::repeat_n(Cell::Nothing, 7)).collect();
    (!lines.is_empty()).then(|| Item { name: pen.say("binding"), attributes, lines })
}

/// What a piece is cut from, where that is what others leave.
fn cut_from(cut: &Cut, pen: &CellText<'_>) -> Cell {
    match (cut.beside.stated(), cut.from.stated()) {
        (Some(beside), _) => Cell::Stated(pen.say_of("beside {}", &on_one_line(&beside.value))),
        (None, Some(_)) => Cell::Stated(pen.say("what is left")),
        (None, None) => Cell::Nothing,
    }
}

/// Which shape a piece is: `trapezoid, 60 degrees`.
fn shape(shaped: &Shaped, pen: &CellText<'_>) -> Cell {
    let more = [
        shaped.angle.value().map(|angle| pen.say_of(", {} degrees", angle.word())),
        shaped.tips.value().filter(|tips| *tips == Tips::Blunt).map(|_| pen.say(", tips cut off at the seam")),
    ];
    match (&shaped.shape, shaped.shape.value()) {
        (_, Some(shape)) => {
            Cell::Stated(format!("{}{}", pen.say(shape_name(shape)), more.into_iter().flatten().collect::<String>()))
        }
        (Field::Absent, None) => Cell::Nothing,
        _ => Cell::Unread,
    }
}

/// Whether a piece is centered on the print: `yes, 2 from each repeat`.
fn centered(cut: &Cut, pen: &CellText<'_>) -> Cell {
    match (cut.is_centered(), cut.each_repeat().value()) {
        (false, _) => Cell::Nothing,
        (true, Some(count)) => Cell::Stated(pen.say_of("yes, {} from each repeat", &count.to_string())),
        (true, None) => Cell::Stated(pen.keyword("yes")),
    }
}

/// The finished side of a shape, or its finished base and height.
fn finished(shaped: &Shaped, size: &Field<(Written, Written)>, pen: &CellText<'_>) -> Cell {
    match shaped.shape.value() {
        Some(CutShape::Parallelogram | CutShape::Trapezoid) => pen.dimensions(size),
        _ => pen.square(size),
    }
}

/// The same where it is the same for all sizes, or how high it finishes.
fn finished_for_all(shaped: &Shaped, pen: &CellText<'_>) -> Cell {
    match CellText::for_all(&shaped.size, |size| finished(shaped, size, pen)) {
        Cell::Nothing => match CellText::for_all(&shaped.height, |height| pen.length(height)) {
            Cell::Stated(height) => Cell::Stated(pen.say_of("{} high", &height)),
            other => other,
        },
        side => side,
    }
}

/// The pieces that are cut from strips.
fn members<'f>(fabric: &'f Fabric, group: &Cut) -> impl Iterator<Item = &'f Cut> {
    let place = fabric.cut.iter().position(|cut| cut.at == group.at);
    fabric.cut.iter().filter(move |cut| cut.within.is_some() && cut.within == place)
}

/// A cell for each count.
pub(super) fn stated_counts(counts: &[Field<Count>], pen: &CellText<'_>) -> Vec<Cell> {
    counts.iter().map(|count| pen.count(count)).collect()
}

/// The pieces of all fabrics together, where they are stated and not counted from the pieces of each.
pub(super) fn stated_pieces(cut: &Cut, pen: &CellText<'_>) -> Vec<Cell> {
    let is_stated = |(count, each): (&Field<Count>, &Field<Count>)| count.at() != each.at() || count.at().is_none();
    let pieces = cut.pieces.iter().zip(&cut.pieces_from_each);
    pieces.map(|pair| if is_stated(pair) { pen.count(pair.0) } else { Cell::Nothing }).collect()
}

/// A piece, or strips for several pieces, which go by the names of these.
fn of_piece(fabric: &Fabric, cut: &Cut, pen: &CellText<'_>) -> Item {
    let counts = |counts: &[_]| stated_counts(counts, pen);
    let pieces = stated_pieces(cut, pen);
    let group = cut.within.and_then(|group| fabric.cut.get(group));
    let strip_width = &group.unwrap_or(cut).strip_width;
    let slanted = cut.slanted();
    let lines = [
        Line::stated(pen.say("cut size"), pen.for_each(&cut.size, |size| pen.dimensions(size))),
        slanted.and_then(|shaped| {
            Line::stated(pen.say("finished"), pen.for_each(&shaped.size, |size| finished(shaped, size, pen)))
        }),
        slanted.and_then(|shaped| {
            Line::stated(pen.say("finished height"), pen.for_each(&shaped.height, |size| pen.length(size)))
        }),
        Line::stated(pen.say("cut strips"), pen.for_each(strip_width, |width| pen.length(width))),
        Line::stated(pen.say("strips"), counts(&cut.strips)),
        Line::stated(pen.say("pieces"), pieces),
        Line::stated(pen.say("pieces from each"), counts(&cut.pieces_from_each)),
    ];
    let mut lines: Vec<Line> = lines.into_iter().flatten().collect();
    if lines.is_empty() {
        // Every item of a table has a line, so that its columns are the same.
        lines.push(Line { what: pen.say("pieces"), cells: counts(&cut.pieces) });
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
            cut_from(cut, pen),
            pen.word(&cut.cut_again),
            cut.shaped.as_deref().map_or(Cell::Nothing, |shaped| shape(shaped, pen)),
            slanted.map_or(Cell::Nothing, |shaped| finished_for_all(shaped, pen)),
            centered(cut, pen),
            text(&cut.used_for),
        ],
        lines,
    }
}
