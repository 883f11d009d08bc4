//! The finished sizes.

use super::cell::{Cell, Item, Table};
use super::cell_text::{CellText, cell};
use crate::manuscript::model::{Outline, Size};
use crate::manuscript::{Manuscript, Spanned};
use crate::quantity::Written;

pub(super) fn finished(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let each = |show: &dyn Fn(&Size) -> Cell| manuscript.sizes.iter().map(show).collect::<Vec<Cell>>();
    let items = [
        Item::of_sizes("width x length", each(&|size| finished_size(size, pen))),
        Item::of_sizes("outline", each(&|size| cell(&size.outline, |stated| outline_in_words(stated, pen)))),
        Item::of_sizes("for", each(&|size| pen.word(&size.bed))),
        Item::of_sizes("tucked under the pillows", each(&|size| pen.length(&size.tuck))),
        Item::of_sizes("drop", each(&|size| pen.length(&size.drop))),
    ];
    Table {
        caption: "Finished sizes".into(),
        items_are: "quilt",
        attributes: Vec::new(),
        sizes: pen.sizes(),
        items: items.into_iter().flatten().collect(),
    }
}

/// A finished size, with the word that says that it is rounded.
fn finished_size(size: &Size, pen: &CellText<'_>) -> Cell {
    match pen.dimensions(&size.finished) {
        Cell::Stated(words) if size.about => Cell::Stated(format!("about {words}")),
        cell => cell,
    }
}

/// An outline in words, its numbers as they are written.
fn outline_in_words(outline: &Spanned<Outline>, pen: &CellText<'_>) -> String {
    let inside = pen.inside(outline.at);
    let length = |word: &str, written: &Written| pen.length_of(inside.get(word), *written);
    match &outline.value {
        Outline::Circle => "circle".into(),
        Outline::Regular { sides, side } => format!("{sides} sides, each {}", length("side", side)),
        Outline::Clipped(clip) => format!("corners clipped by {}", length("clipped", clip)),
        Outline::Scalloped { across, down, depth } => {
            let (across, down) = (across.of("scallop"), down.of("scallop"));
            format!("{across} across, {down} down, {} deep", length("depth", depth))
        }
        Outline::Points(points) => {
            let written = inside.get("points").filter(|written| written.len() == points.len());
            let point = |(index, point)| pen.dimensions_of(written.map(|written| &written[index]), point);
            format!("corners at {}", points.iter().copied().enumerate().map(point).collect::<Vec<_>>().join(", "))
        }
    }
}
