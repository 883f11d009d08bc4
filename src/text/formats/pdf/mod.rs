//! PDFs with a text layer. The file's objects are read by our own reader, which reads only what a page needs and bounds
//! what that takes; letters become words, lines, columns and tables by their places.

mod across;
mod cmap;
mod content;
mod encodings;
mod file;
mod filters;
mod fixed;
mod font;
mod furniture;
mod grid;
mod lines;
mod object;
mod page_columns;
mod pages;
mod paragraphs;
mod region;
mod rows;
mod table;
mod tables;
mod wrapped;

use super::builder::Builder;
use super::heads::mark_first_row;
use crate::text::passage::{PassageKind, PrintedText, TextFormat, TextPlace};
use across::joined;
use content::{Budget, Drawn, draw};
use file::File;
use furniture::PageRows;
use grid::grids;
use lines::Lines;
use pages::{Page, content, pages};
use paragraphs::{Flow, Sizes, write_cell};
use region::{Block, blocks, rows};
use rows::{Segment, mark_dots, segments};
use table::Table;

/// How often letters are set beside each other to find raised ones, in one file.
const MAX_TRIES: usize = 20_000_000;

const MORE: &str = "it holds more than is read of one file";

/// Reads a PDF.
pub(super) fn read(bytes: &[u8]) -> PrintedText {
    let mut builder = Builder::new(TextFormat::Pdf);
    let file = File::open(bytes);
    let mut all = pages(&file);
    if all.is_empty() && !file.trailer().contains_key(b"Encrypt".as_slice()) {
        file.scan();
        all = pages(&file);
    }
    if file.trailer().contains_key(b"Encrypt".as_slice()) {
        builder
            .problem("it is encrypted: export it anew without a password and without restrictions", TextPlace::Whole);
    } else if all.is_empty() && file.is_spent() {
        builder.problem(format!("{MORE}: nothing of it was read"), TextPlace::Whole);
    } else if all.is_empty() {
        builder.problem("no page of it can be read: it is damaged or cut off, so export it anew", TextPlace::Whole);
    } else {
        read_pages(&file, &all, &mut builder);
    }
    builder.finish()
}

fn read_pages(file: &File, all: &[Page], builder: &mut Builder) {
    let mut budget = Budget::new();
    let mut tries = MAX_TRIES;
    let mut drawn_pages = Vec::new();
    let (mut any_letters, mut any_images) = (false, false);
    for (number, page) in (1..).zip(all) {
        let drawn = draw(file, &content(file, &page.dictionary), &page.resources, &page.view, &mut budget);
        any_letters |= !drawn.glyphs.is_empty();
        any_images |= drawn.has_images;
        tell_unmapped(number, &drawn, builder);
        drawn_pages.push(drawn);
        if budget.is_spent() || file.is_spent() {
            builder.problem(
                "it holds more than is read of one file: what comes after this page is not read",
                TextPlace::Page(number),
            );
            break;
        }
    }
    if !any_letters && !file.is_spent() {
        let says = if any_images {
            "it has no text, only pictures of it: export it from the layout program with text"
        } else {
            "it has no text"
        };
        builder.problem(says, TextPlace::Whole);
        return;
    }
    let mut rows_of_pages = Vec::new();
    let mut lines_of_pages = Vec::new();
    let mut turned = Vec::new();
    for (number, (drawn, page)) in (1..).zip(drawn_pages.into_iter().zip(all)) {
        let lines = drawn.lines.joined();
        let (upright, others): (Vec<_>, Vec<_>) = drawn.glyphs.into_iter().partition(|glyph| glyph.turned == 0);
        let mut found = segments(upright, &lines.walls, number, &mut tries);
        mark_dots(&mut found, &lines.dots, &mut tries);
        let (bottom, top) = page.view.heights();
        rows_of_pages.push(PageRows { rows: rows(found), bottom, top });
        lines_of_pages.push(lines);
        turned.push(others);
    }
    furniture::remove(&mut rows_of_pages);
    let mut pages = Vec::new();
    for (number, ((page, lines), turned)) in (1..).zip(rows_of_pages.into_iter().zip(&lines_of_pages).zip(turned)) {
        let mut of_page = blocks_of_page(page, lines);
        let upright = of_page.len();
        // What is turned on its side is read after the rest of the page.
        for quarter in 1..4 {
            let glyphs: Vec<_> = turned.iter().filter(|glyph| glyph.turned == quarter).cloned().collect();
            if !glyphs.is_empty() {
                of_page.extend(blocks(&rows(segments(glyphs, &[], number, &mut tries)), &[], 0));
            }
        }
        pages.push((of_page, upright));
    }
    let all = joined(pages);
    let mut sizes = Sizes::of(&all);
    for block in &all {
        if let Block::Lines(lines) = block {
            sizes.learn_leading(lines);
        }
    }
    let mut flow = Flow::new(&sizes);
    for block in &all {
        match block {
            Block::Lines(lines) => flow.read_lines(lines, builder),
            Block::Table(table) => {
                flow.end(builder);
                write_table(table, &sizes, builder);
            }
            Block::ColumnEnd => {}
        }
    }
    flow.end(builder);
}

/// The blocks of a page: what stands above, in and below each table that is drawn with lines.
fn blocks_of_page(page: PageRows, lines: &Lines) -> Vec<Block> {
    let mut left: Vec<Segment> = page.rows.into_iter().flat_map(|row| row.segments).collect();
    let mut tables = Vec::new();
    for grid in grids(lines) {
        let (table, outer) = grid.take(left);
        left = outer;
        tables.extend(table.map(|table| (grid.top(), table)));
    }
    tables.sort_by_key(|(top, _)| -top);
    let mut all = Vec::new();
    for (top, table) in tables {
        let (above, below): (Vec<Segment>, Vec<Segment>) = left.into_iter().partition(|segment| segment.base >= top);
        left = below;
        all.extend(blocks(&rows(above), &lines.rules, 0));
        all.push(Block::Table(table));
    }
    all.extend(blocks(&rows(left), &lines.rules, 0));
    all
}

fn write_table(table: &Table, sizes: &Sizes, builder: &mut Builder) {
    let number = builder.next_table();
    let first = builder.len();
    for (row, cells) in (0..).zip(&table.rows) {
        for (column, lines) in (0..).zip(cells) {
            write_cell(lines, sizes, builder);
            builder.end(PassageKind::Cell { table: number, row, column, rows: 1, columns: 1, is_head: false });
        }
    }
    mark_first_row(builder, first, number);
    builder.end_group();
}

fn tell_unmapped(number: u32, drawn: &Drawn, builder: &mut Builder) {
    let all = drawn.glyphs.len();
    if drawn.unmapped == 0 || drawn.unmapped * 50 < all && drawn.unmapped < 20 {
        return;
    }
    let says = format!(
        "{} of the {all} letters of this page are not mapped to text, so numbers among them cannot be read: export it with \
         fonts whose letters can be copied",
        drawn.unmapped
    );
    builder.problem(says, TextPlace::Page(number));
}
