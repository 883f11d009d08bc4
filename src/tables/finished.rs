//! The finished sizes.

use super::cell::{Cell, Item, Table};
use super::cell_text::{CellText, cell};
use crate::manuscript::model::{Outline, Size};
use crate::manuscript::{Manuscript, Spanned};
use crate::quantity::Written;

pub(super) fn finished(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let each = |show: &dyn Fn(&Size) -> Cell| manuscript.sizes.iter().map(show).collect::<Vec<Cell>>();
    let items = [
        Item::of_sizes(pen.say("width x length"), each(&|size| finished_size(size, pen))),
        Item::of_sizes(pen.say("outline"), each(&|size| cell(&size.outline, |stated| outline_in_words(stated, pen)))),
        Item::of_sizes(pen.say("for"), each(&|size| pen.word(&size.bed))),
        Item::of_sizes(pen.say("tucked under the pillows"), each(&|size| pen.length(&size.tuck))),
        Item::of_sizes(pen.say("drop"), each(&|size| pen.length(&size.drop))),
    ];
    let items = items.into_iter().flatten().collect();
    Table { sizes: pen.sizes(), items, ..Table::empty(pen, "finished-sizes", pen.say("Finished sizes"), "quilt") }
}

/// A finished size, with the word that says that it is rounded.
fn finished_size(size: &Size, pen: &CellText<'_>) -> Cell {
    match pen.dimensions(&size.finished) {
        Cell::Stated(words) if size.about => Cell::Stated(pen.say_of("about {}", &words)),
        cell => cell,
    }
}

/// An outline in words, its numbers as they are written.
fn outline_in_words(outline: &Spanned<Outline>, pen: &CellText<'_>) -> String {
    let inside = pen.inside(outline.at);
    let length = |word: &str, written: &Written| pen.length_of(inside.get(word), *written);
    match &outline.value {
        Outline::Circle => pen.say("circle"),
        Outline::Regular { sides, side } => {
            pen.say_of_all("{} sides, each {}", &[&sides.to_string(), &length("side", side)])
        }
        Outline::Clipped(clip) => pen.say_of("corners clipped by {}", &length("clipped", clip)),
        Outline::Scalloped { across, down, depth } => {
            let (across, down) = (across.of("scallop"), down.of("scallop"));
            pen.say_of_all("{} across, {} down, {} deep", &[&across, &down, &length("depth", depth)])
        }
        Outline::Points(points) => {
            let written = inside.get("points").filter(|written| written.len() == points.len());
            let point = |(index, point)| pen.dimensions_of(written.map(|written| &written[index]), point);
            pen.say_of("corners at {}", &points.iter().copied().enumerate().map(point).collect::<Vec<_>>().join(", "))
        }
    }
}
