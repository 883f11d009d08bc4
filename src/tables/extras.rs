//! A hanging sleeve, prairie points and pillow backs, size by size.

use super::cell::{Item, Table};
use super::cell_text::CellText;
use crate::manuscript::{Field, Manuscript};

pub(super) fn extras(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let sleeve = manuscript.sleeve.as_ref().and_then(|sleeve| {
        let cells = pen.per_size(&sleeve.requires, |cut| pen.dimensions(&Field::Stated(cut.clone())));
        Item::of_sizes(pen.say("hanging sleeve, cut"), cells)
    });
    let points = manuscript.prairie_points.as_ref().and_then(|points| {
        let cells = pen.per_size(&points.requires, |count| pen.count(&Field::Stated(count.clone())));
        Item::of_sizes(pen.say("prairie points"), cells)
    });
    let pillow = manuscript.pillow_back.iter().flat_map(|back| {
        [
            Item::of_sizes(
                pen.say("pillow back, first piece"),
                pen.per_size(&back.requires, |it| pen.dimensions(&it.first)),
            ),
            Item::of_sizes(
                pen.say("pillow back, second piece"),
                pen.per_size(&back.requires, |it| pen.dimensions(&it.second)),
            ),
        ]
    });
    let items = sleeve.into_iter().chain(points).chain(pillow.flatten()).collect();
    Table { sizes: pen.sizes(), items, ..Table::empty(pen, "besides", pen.say("Besides the quilt"), "to cut") }
}
