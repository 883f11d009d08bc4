//! Units, blocks, and the layout of each size.

use super::cell::{Cell, Item, Table, heads};
use super::cell_text::{CellText, cell, on_one_line};
use crate::manuscript::design::{Block, CutFrom, Unit};
use crate::manuscript::model::{Blocks, Border, BorderWidths, Layout, PerSize, SizeLayout};
use crate::manuscript::{Field, Manuscript, Spanned};
use crate::quantity::{Count, Written};

pub(super) fn design(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Table> {
    let mut tables = vec![units(manuscript, pen), parts(manuscript, pen), blocks(manuscript, pen)];
    tables.extend(manuscript.layout.as_ref().map(|layout| layout_table(manuscript, layout, pen)));
    tables
}

/// A table of what is stated once; its class is its caption as a style sheet has it.
fn once(
    pen: &CellText<'_>,
    (class, caption): (&'static str, &str),
    items_are: &str,
    attributes: &[&str],
    items: Vec<Item>,
) -> Table {
    Table { attributes: heads(pen, attributes), items, ..Table::empty(pen, class, pen.say(caption), items_are) }
}

fn units(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let attributes = ["made as", "method", "finished", "trimmed to", "segments cut", "one set gives", "seam"];
    let item = |unit: &Unit| Item {
        name: on_one_line(&unit.name),
        attributes: vec![
            pen.word(&unit.make),
            pen.word(&unit.method),
            pen.dimensions(&unit.finished),
            pen.dimensions(&unit.trim),
            pen.length(&unit.segment),
            pen.count(&unit.yields),
            pen.length(&unit.seam),
        ],
        lines: Vec::new(),
    };
    let mut items: Vec<Item> = manuscript.units.iter().map(item).collect();
    if !manuscript.units_whole && !items.is_empty() {
        items.push(unread(attributes.len()));
    }
    once(pen, ("units", "Units"), "unit", &attributes, items)
}

/// An item that could not be read. Where none could, the warning above the tables must do: nothing tells such a section
/// from one that is not there.
fn unread(attributes: usize) -> Item {
    Item { name: Cell::Unread.text().into(), attributes: vec![Cell::Unread; attributes], lines: Vec::new() }
}

/// What the parts of the units are cut from.
fn parts(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let mut items = Vec::new();
    for unit in &manuscript.units {
        let name = on_one_line(&unit.name);
        for part in &unit.cut {
            let from = cell(&part.from, |stated| match stated.value {
                CutFrom::Piece(piece) => pen.piece(piece),
                CutFrom::Size(width, height) => pen.dimensions_in_words((width, height), stated.at),
            });
            let attributes = vec![Cell::Stated(on_one_line(&part.part)), from];
            items.push(Item { name: name.clone(), attributes, lines: Vec::new() });
        }
        if !unit.cut_whole {
            items.push(Item { name, attributes: vec![Cell::Unread, Cell::Unread], lines: Vec::new() });
        }
    }
    once(pen, ("pieces-of-units", "Pieces of the units"), "unit", &["part", "cut from"], items)
}

fn blocks(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    // Where none is like another, nothing is said of it.
    let any_alike = manuscript.blocks.iter().any(|block| !block.like.is_absent());
    let attributes: &[&str] = if any_alike { &["finished", "sewn as"] } else { &["finished"] };
    let item = |block: &Block| {
        let mut cells = vec![pen.dimensions(&block.finished)];
        cells.extend(any_alike.then(|| sewn_as(manuscript, block, pen)));
        Item { name: on_one_line(&block.name), attributes: cells, lines: Vec::new() }
    };
    let mut items: Vec<Item> = manuscript.blocks.iter().map(item).collect();
    if !manuscript.blocks_whole && !items.is_empty() {
        items.push(unread(attributes.len()));
    }
    once(pen, ("blocks", "Blocks"), "block", attributes, items)
}

/// `star, with gold for ink`.
fn sewn_as(manuscript: &Manuscript, block: &Block, pen: &CellText<'_>) -> Cell {
    cell(&block.like, |like| {
        let name = manuscript.blocks.get(like.value).map_or("", |like| like.name.as_str());
        let fabric = |place: usize| manuscript.fabrics.get(place).map_or("", |fabric| fabric.name.as_str());
        let with = block.with.iter().filter_map(|other| Some((fabric(other.to.value()?), fabric(other.from))));
        let with: Vec<String> = with.map(|(to, from)| pen.say_of_all("{} for {}", &[to, from])).collect();
        on_one_line(&pen.say_of_all("{}, with {}", &[name, &with.join(", ")]))
    })
}

fn layout_table(manuscript: &Manuscript, layout: &Layout, pen: &CellText<'_>) -> Table {
    let always = |name: &str, show: &dyn Fn(&SizeLayout) -> Cell| {
        Item::of_sizes(pen.say(name), pen.per_size(&layout.sizes, show))
    };
    let named =
        |name: String, show: &dyn Fn(&SizeLayout) -> Cell| Item::of_sizes(name, pen.also_per_size(&layout.sizes, show));
    let row = |name: &str, show: &dyn Fn(&SizeLayout) -> Cell| named(pen.say(name), show);
    let mut items = vec![
        row("setting", &|size| pen.word(&size.set)),
        always("blocks across", &|size| pen.count(&size.across)),
        row("blocks down", &|size| pen.count(&size.down)),
        row("blocks", &|size| of_one_kind(&size.blocks, manuscript)),
    ];
    for (place, block) in manuscript.blocks.iter().enumerate() {
        let name = pen.say_of("blocks of {}", &on_one_line(&block.name));
        items.push(named(name, &|size| so_many(size, place, pen)));
    }
    items.extend([
        row("sashing, finished width", &|size| pen.length(&size.sashing)),
        row("sashing around the blocks", &|size| pen.word(&size.sashing_round)),
        row("cornerstones", &|size| pen.word(&size.cornerstones)),
    ]);
    let stated = layout.sizes.iter().filter_map(PerSize::stated);
    let most = stated.map(|size| size.borders.len() + usize::from(!size.borders_whole)).max().unwrap_or_default();
    for place in 0..most {
        let number = (place + 1).to_string();
        let border = |words: &str| pen.say_of(words, &number);
        let of = |size: &SizeLayout, show: &dyn Fn(&Border) -> Cell| match size.borders.get(place) {
            Some(border) => show(border),
            None if size.borders_whole => Cell::Nothing,
            None => Cell::Unread,
        };
        let show = |size: &SizeLayout| of(size, &|border| border_width(pen, border, BorderWidths::all_round));
        items.push(named(border("border {}, finished width"), &show));
        let parts = [
            "border {}, finished width at the sides",
            "border {}, finished width at the top",
            "border {}, finished width at the bottom",
        ];
        for (place, words) in parts.into_iter().enumerate() {
            let part = |width: &BorderWidths| {
                let widths = [width.sides, width.top, width.bottom];
                width.all_round().is_none().then(|| widths[place])
            };
            items.push(named(border(words), &|size| of(size, &|border| border_width(pen, border, part))));
        }
        let corners = |size: &SizeLayout| of(size, &|border| pen.word(&border.corners));
        items.push(named(border("border {}, corners"), &corners));
        items.push(named(border("border {}, cut longer by"), &|size| of(size, &|border| pen.length(&border.ease))));
    }
    let items = items.into_iter().flatten().collect();
    Table { sizes: pen.sizes(), items, ..Table::empty(pen, "layout", pen.say("Layout"), "layout") }
}

/// How wide a border finishes, or a part of it; nothing where that is not how it is stated.
fn border_width(pen: &CellText<'_>, border: &Border, part: impl Fn(&BorderWidths) -> Option<Written>) -> Cell {
    match &border.width {
        Field::Stated(Spanned { value, at }) => match part(value) {
            Some(value) => pen.length(&Field::Stated(Spanned { value, at: *at })),
            None => Cell::Nothing,
        },
        Field::Absent => Cell::Nothing,
        Field::Unread => Cell::Unread,
    }
}

/// The name of the one block that fills a layout.
fn of_one_kind(blocks: &Field<Blocks>, manuscript: &Manuscript) -> Cell {
    match blocks {
        Field::Stated(stated) => match &stated.value {
            Blocks::All(place) => match manuscript.blocks.get(*place) {
                Some(block) => Cell::Stated(on_one_line(&block.name)),
                None => Cell::Unread,
            },
            Blocks::Each(each) if each.iter().any(|(block, _)| block.is_unread()) => Cell::Unread,
            Blocks::Each(_) => Cell::Nothing,
        },
        Field::Absent => Cell::Nothing,
        Field::Unread => Cell::Unread,
    }
}

/// How many of a block there are, where a layout has several.
fn so_many(size: &SizeLayout, place: usize, pen: &CellText<'_>) -> Cell {
    if let Some(rows) = size.rows.stated().or(size.columns.stated()) {
        let items = rows.value.iter().flat_map(|row| &row.blocks).filter(|blocks| blocks.value.block == place);
        let each = items.fold(Count(0), |sum, blocks| sum + blocks.value.count);
        let count = each * size.times.value().unwrap_or(Count(1));
        return if count == Count(0) { Cell::Nothing } else { Cell::Stated(count.to_string()) };
    }
    match size.blocks.stated().map(|stated| &stated.value) {
        Some(Blocks::Each(each)) => {
            let this = each.iter().find(|(block, _)| block.value() == Some(place));
            this.map_or(Cell::Nothing, |(_, count)| pen.count(count))
        }
        Some(Blocks::All(_)) | None => Cell::Nothing,
    }
}
