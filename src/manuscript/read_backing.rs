//! Reading the backing and the batting sections.

use super::model::{Backing, BackingRequires, Batting, BattingSize};
use super::read_sizes::{Sizes, positive, read_per_size};
use super::reader::{Least, Reader};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Spanned};

const BACKING_EXAMPLE: &str = "crib: { fabric: 2 1/2 yd, panels: 2, panels_run: across }";
const BATTING_EXAMPLE: &str = "crib: 44 x 56";

pub(super) fn read_backing(reader: &mut Reader, sizes: &Sizes, entry: &Entry<'_>) -> Option<Backing> {
    let mut table = Table::new(reader, "backing", entry.key_at, &entry.value, "overhang: 4")?;
    let mut backing = Backing {
        at: entry.key_at,
        overhang: table.optional("overhang", |node| reader.length(node, Least::Nothing)),
        seam: table.optional("seam", |node| positive(reader, node)),
        usable_width: table.optional("usable_width", |node| positive(reader, node)),
        directional: table.optional("directional", |node| reader.word(node, "directional")),
        requires: Vec::new(),
    };
    match table.entry("requires") {
        Some(requires) => {
            backing.requires = read_per_size(reader, sizes, "backing", requires, BACKING_EXAMPLE, read_requires);
        }
        None => table.lacks("requires"),
    }
    table.finish(reader, true);
    Some(backing)
}

/// A fabric amount alone, or a table.
fn read_requires(reader: &mut Reader, entry: &Entry<'_>) -> Option<BackingRequires> {
    let at = entry.key_at;
    if !matches!(entry.value.kind, Kind::Table(_)) {
        let fabric = reader.amount(&entry.value);
        return Some(BackingRequires { at, fabric, panels: Field::Absent, panels_run: Field::Absent });
    }
    let name = format!("backing requires {}", entry.key);
    let mut table = Table::new(reader, &name, at, &entry.value, BACKING_EXAMPLE)?;
    let requires = BackingRequires {
        at,
        fabric: table.optional("fabric", |node| reader.amount(node)),
        panels: table.optional("panels", |node| reader.count(node)),
        panels_run: table.optional("panels_run", |node| reader.word(node, "panels_run")),
    };
    if requires.fabric.is_absent() && requires.panels.is_absent() {
        table.lacks("fabric");
    }
    table.finish(reader, true);
    Some(requires)
}

pub(super) fn read_batting(reader: &mut Reader, sizes: &Sizes, entry: &Entry<'_>) -> Option<Batting> {
    let mut table = Table::new(reader, "batting", entry.key_at, &entry.value, "overhang: 4")?;
    let mut batting = Batting {
        at: entry.key_at,
        overhang: table.optional("overhang", |node| reader.length(node, Least::Nothing)),
        requires: Vec::new(),
    };
    match table.entry("requires") {
        Some(requires) => {
            batting.requires = read_per_size(reader, sizes, "batting", requires, BATTING_EXAMPLE, |reader, entry| {
                read_size(reader, &entry.value)
            });
        }
        None => table.lacks("requires"),
    }
    table.finish(reader, true);
    Some(batting)
}

/// A width and a length, or the name of a packaged size.
fn read_size(reader: &mut Reader, node: &Node<'_>) -> Option<Spanned<BattingSize>> {
    let named = match &node.kind {
        Kind::Scalar { value, .. } => value.starts_with(char::is_alphabetic),
        _ => false,
    };
    let size = if named {
        reader.word(node, "batting requires").map(BattingSize::Packaged)
    } else {
        reader.dimensions(node).map(|(width, length)| BattingSize::Measured(width, length))
    };
    size.stated().cloned()
}
