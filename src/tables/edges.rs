//! Binding and backing, size by size. What is bought for them stands with the fabrics.

use super::cell::{Item, Table};
use super::cell_text::{CellText, cell};
use super::for_all::overhang;
use crate::manuscript::Manuscript;
use crate::manuscript::model::PanelsRun;

pub(super) fn edges(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Table> {
    let table = |caption: &str, items_are, items: Vec<Option<Item>>| Table {
        caption: caption.into(),
        items_are,
        attributes: Vec::new(),
        sizes: pen.sizes(),
        items: items.into_iter().flatten().collect(),
    };
    let binding = manuscript.binding.as_ref().map(|binding| {
        let items = vec![
            Item::of_sizes("strip width", pen.for_each(&binding.strip_width, |width| pen.length(width))),
            Item::of_sizes("strips", pen.per_size(&binding.requires, |size| pen.count(&size.strips))),
            Item::of_sizes(
                "length of each strip",
                pen.also_per_size(&binding.requires, |size| pen.length(&size.strip_length)),
            ),
            Item::of_sizes("side of the square", pen.also_per_size(&binding.requires, |size| pen.square(&size.square))),
            Item::of_sizes("length of bias", pen.also_per_size(&binding.requires, |size| pen.length(&size.length))),
        ];
        table("Binding", "to cut", items)
    });
    let backing = manuscript.backing.as_ref().map(|backing| {
        let way = |run: &PanelsRun| match run {
            PanelsRun::Along => "along the length".to_string(),
            PanelsRun::Across => "across the width".to_string(),
        };
        let run = pen.also_per_size(&backing.requires, |size| cell(&size.panels_run, |stated| way(&stated.value)));
        let items = vec![
            Item::of_sizes("size", pen.also_per_size(&backing.requires, |size| pen.dimensions(&size.size))),
            Item::of_sizes("beyond the quilt at each side", pen.for_each(&backing.overhang, |by| overhang(by, pen))),
            Item::of_sizes("strip sewn in", pen.for_each(&backing.insert, |width| pen.length(width))),
            Item::of_sizes("panels", pen.also_per_size(&backing.requires, |size| pen.count(&size.panels))),
            Item::of_sizes("panels run", run),
        ];
        table("Backing", "to sew", items)
    });
    let batting = manuscript.batting.as_ref().map(|batting| {
        let overhang = pen.for_each(&batting.overhang, |by| overhang(by, pen));
        table("Batting", "to cut", vec![Item::of_sizes("beyond the quilt at each side", overhang)])
    });
    binding.into_iter().chain(backing).chain(batting).collect()
}
