//! Binding and backing, size by size. What is bought for them stands with the fabrics.

use super::cell::{Item, Table};
use super::cell_text::{CellText, cell};
use super::for_all::overhang;
use crate::manuscript::Manuscript;
use crate::manuscript::model::PanelsRun;

pub(super) fn edges(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Table> {
    let table = |class, caption: &str, items_are, items: Vec<Option<Item>>| Table {
        sizes: pen.sizes(),
        items: items.into_iter().flatten().collect(),
        ..Table::empty(pen, class, pen.say(caption), items_are)
    };
    let binding = manuscript.binding.as_ref().map(|binding| {
        let items = vec![
            Item::of_sizes(pen.say("strip width"), pen.for_each(&binding.strip_width, |width| pen.length(width))),
            Item::of_sizes(pen.say("strips"), pen.per_size(&binding.requires, |size| pen.count(&size.strips))),
            Item::of_sizes(
                pen.say("length of each strip"),
                pen.also_per_size(&binding.requires, |size| pen.length(&size.strip_length)),
            ),
            Item::of_sizes(
                pen.say("side of the square"),
                pen.also_per_size(&binding.requires, |size| pen.square(&size.square)),
            ),
            Item::of_sizes(
                pen.say("length of bias"),
                pen.also_per_size(&binding.requires, |size| pen.length(&size.length)),
            ),
        ];
        table("binding", "Binding", "to cut", items)
    });
    let backing = manuscript.backing.as_ref().map(|backing| {
        let way = |run: &PanelsRun| match run {
            PanelsRun::Along => pen.say("along the length"),
            PanelsRun::Across => pen.say("across the width"),
        };
        let run = pen.also_per_size(&backing.requires, |size| cell(&size.panels_run, |stated| way(&stated.value)));
        let items = vec![
            Item::of_sizes(pen.say("size"), pen.also_per_size(&backing.requires, |size| pen.dimensions(&size.size))),
            Item::of_sizes(
                pen.say("beyond the quilt at each side"),
                pen.for_each(&backing.overhang, |by| overhang(by, pen)),
            ),
            Item::of_sizes(pen.say("strip sewn in"), pen.for_each(&backing.insert, |width| pen.length(width))),
            Item::of_sizes(pen.say("panels"), pen.also_per_size(&backing.requires, |size| pen.count(&size.panels))),
            Item::of_sizes(pen.say("panels run"), run),
        ];
        table("backing", "Backing", "to sew", items)
    });
    let batting = manuscript.batting.as_ref().map(|batting| {
        let overhang = pen.for_each(&batting.overhang, |by| overhang(by, pen));
        table("batting", "Batting", "to cut", vec![Item::of_sizes(pen.say("beyond the quilt at each side"), overhang)])
    });
    binding.into_iter().chain(backing).chain(batting).collect()
}
