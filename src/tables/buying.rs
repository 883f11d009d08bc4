//! What to buy: each fabric, the binding where it is a fabric by itself, backing and batting.

use super::cell::{Cell, Item, Line, Table, heads};
use super::cell_text::{CellText, cell, on_one_line, text};
use crate::manuscript::model::{BattingSize, Bought, BoughtAs, Fabric, SoldAs, YesNo};
use crate::manuscript::{Field, Manuscript, Spanned};

pub(super) fn buying(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let mut items: Vec<Item> =
        manuscript.fabrics.iter().enumerate().map(|(place, fabric)| of_fabric(place, fabric, pen)).collect();
    if let Some(binding) = &manuscript.binding {
        let cells = pen.also_per_size(&binding.requires, |size| pen.amount(&size.fabric));
        items.extend(by_itself(pen.say("binding"), Cell::Nothing, Cell::Nothing, cells));
        let cells = pen.also_per_size(&binding.requires, |size| pen.amount(&size.flange));
        items.extend(by_itself(pen.say("flange of the binding"), Cell::Nothing, Cell::Nothing, cells));
    }
    if let Some(backing) = &manuscript.backing {
        let cells = pen.per_size(&backing.requires, |size| match pen.amount(&size.fabric) {
            Cell::Nothing => pen.dimensions(&size.size),
            amount => amount,
        });
        items.extend(by_itself(
            pen.say("backing"),
            pen.length(&backing.usable_width),
            print(&backing.directional, pen),
            cells,
        ));
    }
    if let Some(batting) = &manuscript.batting {
        let cells = pen.per_size(&batting.requires, |size| batting_size(size, pen));
        items.extend(by_itself(pen.say("batting"), Cell::Nothing, Cell::Nothing, cells));
    }
    Table {
        attributes: heads(
            pen,
            &[
                "for",
                "color",
                "item",
                "sold as",
                "precut size",
                "panel size",
                "in a pack",
                "each gives",
                "usable width of fabric",
                "print",
                "print repeats every",
                "shrinks by",
                "notes",
            ],
        ),
        sizes: pen.sizes(),
        items,
        ..Table::empty(pen, "what-to-buy", pen.say("What to buy"), "to buy")
    }
}

fn of_fabric(place: usize, fabric: &Fabric, pen: &CellText<'_>) -> Item {
    let bought = |bought: &Bought| {
        let after = match fabric.bought_as_at(bought.at()) {
            Some(BoughtAs::Each) => " each",
            Some(BoughtAs::InAll) => " in all",
            Some(BoughtAs::Packs) => return Cell::Stated(pen.words_at(bought.at())),
            None => "",
        };
        let first = match bought {
            Bought::Amount(amount) => pen.amount_in_words(amount),
            Bought::Count(count) => pen.count_in_words(count),
        };
        let instead = fabric.choices.iter().find(|(of, _)| *of == bought.at());
        let or =
            instead.map(|(_, other)| format!(" or {}", pen.set(pen.words_at(other.bought.at())))).unwrap_or_default();
        Cell::Stated(format!("{first}{or}{after}"))
    };
    let different = match fabric.different.as_slice() {
        [] => Vec::new(),
        counts => counts.iter().map(|count| pen.count(count)).collect(),
    };
    let mut lines = vec![Line { what: String::new(), cells: pen.per_size(&fabric.requires, bought) }];
    lines.extend(Line::stated(pen.say("different fabrics"), different));
    Item {
        name: on_one_line(&fabric.name),
        attributes: vec![
            text(&fabric.role),
            pen.color(place),
            text(&fabric.item),
            sold_as(&fabric.sold_as, pen),
            pen.length(&fabric.precut),
            pen.dimensions(&fabric.panel_size),
            pen.count(&fabric.pack),
            each_gives(&fabric.from_each, pen),
            pen.length(&fabric.usable_width),
            print(&fabric.directional, pen),
            pen.length(&fabric.repeat),
            cell(&fabric.shrinks, |stated| stated.value.to_string()),
            text(&fabric.notes),
        ],
        lines,
    }
}

/// What no fabric of the list is: its name says what it is for.
fn by_itself(name: String, usable_width: Cell, print: Cell, cells: Vec<Cell>) -> Option<Item> {
    let stated = cells.iter().chain([&usable_width, &print]).any(|cell| !cell.is_nothing());
    let nothing = |many: usize| std::iter::repeat_n(Cell::Nothing, many);
    let attributes = nothing(8).chain([usable_width, print]).chain(nothing(3)).collect();
    stated.then(|| Item { name, attributes, lines: vec![Line { what: String::new(), cells }] })
}

fn sold_as(field: &Field<SoldAs>, pen: &CellText<'_>) -> Cell {
    cell(field, |stated| {
        let words = match stated.value {
            SoldAs::Yardage => "from the bolt",
            SoldAs::FatQuarters => "fat quarters",
            SoldAs::FatEighths => "fat eighths",
            SoldAs::Strips => "precut strips",
            SoldAs::Squares => "precut squares",
            SoldAs::Scraps => "scraps",
            SoldAs::Panel => "printed panels",
        };
        pen.say(words)
    })
}

fn each_gives(field: &Field<YesNo>, pen: &CellText<'_>) -> Cell {
    cell(field, |stated| {
        let words = match stated.value {
            YesNo::Yes => "the same pieces",
            YesNo::No => "what it holds",
        };
        pen.say(words)
    })
}

fn print(directional: &Field<YesNo>, pen: &CellText<'_>) -> Cell {
    cell(directional, |stated| {
        let words = match stated.value {
            YesNo::Yes => "directional",
            YesNo::No => "not directional",
        };
        pen.say(words)
    })
}

pub(super) fn batting_size(size: &Spanned<BattingSize>, pen: &CellText<'_>) -> Cell {
    match &size.value {
        BattingSize::Measured(width, length) => Cell::Stated(pen.dimensions_in_words((*width, *length), size.at)),
        BattingSize::Packaged(value) => pen.word(&Field::Stated(Spanned { value: *value, at: size.at })),
        BattingSize::OfHouse(_) => Cell::Stated(pen.words_at(size.at)),
    }
}
