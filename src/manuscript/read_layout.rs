//! Reading the layout section.

use super::model::{Blocks, Border, Layout, SizeLayout};
use super::read_blocks::{Blocks as Known, block_named, read_block_name};
use super::read_sizes::{Sizes, positive, read_for_some};
use super::read_units::{Pieces, Units, read_unit_name};
use super::reader::{Least, Reader};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Spanned, What};
use crate::quantity::Count;

/// How many blocks a layout may have across, and down.
const MOST_BLOCKS: Count = Count(200);

/// How many borders a quilt may have.
const MOST_BORDERS: usize = 20;

const LAYOUT_EXAMPLE: &str = "crib: { across: 3, down: 4, blocks: star }";
const BLOCKS_EXAMPLE: &str = "blocks: { star: 6, chain: 6 }";
const BORDER_EXAMPLE: &str = "- { width: 4, corners: butted, piece: C }";

/// What a layout may name.
pub(super) struct Names<'m> {
    /// The pieces of the cutting lists.
    pub(super) pieces: Pieces<'m>,
    /// The units.
    pub(super) units: &'m Units,
    /// The blocks.
    pub(super) blocks: &'m Known,
}

pub(super) fn read_layout(reader: &mut Reader, sizes: &Sizes, names: &Names<'_>, entry: &Entry<'_>) -> Layout {
    let read = |reader: &mut Reader, entry: &Entry<'_>| read_size(reader, names, entry);
    Layout { at: entry.key_at, sizes: read_for_some(reader, sizes, "layout", entry, LAYOUT_EXAMPLE, read) }
}

fn read_size(reader: &mut Reader, names: &Names<'_>, entry: &Entry<'_>) -> Option<SizeLayout> {
    let name = format!("layout {}", entry.key);
    let mut table = Table::new(reader, &name, entry.key_at, &entry.value, LAYOUT_EXAMPLE)?;
    let mut layout = SizeLayout {
        at: entry.key_at,
        set: table.optional("set", |node| reader.word(node, "set")),
        across: table.required("across", |node| read_side(reader, node)),
        down: table.required("down", |node| read_side(reader, node)),
        blocks: Field::Absent,
        sashing: table.optional("sashing", |node| positive(reader, node)),
        sashing_round: table.optional("sashing_round", |node| reader.word(node, "sashing_round")),
        cornerstones: table.optional("cornerstones", |node| reader.word(node, "cornerstones")),
        sash: table.optional("sash", |node| names.pieces.read_piece(reader, node)),
        long_sash: table.optional("long_sash", |node| names.pieces.read_piece(reader, node)),
        cornerstone: table.optional("cornerstone", |node| names.pieces.read_piece(reader, node)),
        side_triangles: table.optional("side_triangles", |node| read_unit_name(reader, names.units, node)),
        corner_triangles: table.optional("corner_triangles", |node| read_unit_name(reader, names.units, node)),
        borders: Vec::new(),
        borders_whole: true,
    };
    match table.entry("blocks") {
        Some(entry) => layout.blocks = read_blocks(reader, names.blocks, entry),
        None => table.lacks("blocks"),
    }
    if let Some(entry) = table.entry("borders") {
        (layout.borders, layout.borders_whole) = read_borders(reader, names, entry);
    }
    let about_sashing = [
        ("sashing_round", layout.sashing_round.at()),
        ("cornerstones", layout.cornerstones.at()),
        ("sash", layout.sash.at()),
        ("long_sash", layout.long_sash.at()),
        ("cornerstone", layout.cornerstone.at()),
    ];
    if layout.sashing.is_absent() && about_sashing.iter().any(|(_, at)| at.is_some()) {
        table.lacks("sashing");
    }
    table.finish(reader, true);
    Some(layout)
}

/// How many blocks there are one way.
fn read_side(reader: &mut Reader, node: &Node<'_>) -> Field<Count> {
    let count = reader.count(node);
    match count.stated() {
        Some(stated) if stated.value < Count(1) || stated.value > MOST_BLOCKS => {
            let why = format!("a layout may have 1 to {MOST_BLOCKS} blocks across and down");
            reader.report(stated.at, What::OutOfRange { why });
            Field::Unread
        }
        _ => count,
    }
}

/// The name of a block, or how many there are of each.
fn read_blocks(reader: &mut Reader, known: &Known, entry: &Entry<'_>) -> Field<Blocks> {
    let node = &entry.value;
    if matches!(node.kind, Kind::Scalar { .. }) {
        return read_block_name(reader, known, node).map(Blocks::All);
    }
    let Some(table) = Table::new(reader, "blocks", entry.key_at, node, BLOCKS_EXAMPLE) else { return Field::Unread };
    if table.is_torn() {
        return Field::Unread;
    }
    let read = |entry: &Entry<'_>| (block_named(reader, known, &entry.key, entry.key_at), reader.count(&entry.value));
    let each = table.entries().iter().map(read).collect();
    Field::Stated(Spanned { value: Blocks::Each(each), at: node.at })
}

/// The borders, and whether all of them were read.
fn read_borders(reader: &mut Reader, names: &Names<'_>, entry: &Entry<'_>) -> (Vec<Border>, bool) {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) => nodes,
        Kind::Empty => return (Vec::new(), true),
        Kind::Unread => return (Vec::new(), false),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each border after a dash";
            reader.report(entry.key_at, What::WrongShape { word: "borders".into(), expected, example: BORDER_EXAMPLE });
            return (Vec::new(), false);
        }
    };
    let mut whole = !reader.is_torn(&entry.value);
    if let Some(beyond) = nodes.get(MOST_BORDERS) {
        whole = false;
        let why = format!("a quilt may have {MOST_BORDERS} borders at most; this one and what follows are not read");
        reader.report(beyond.start(), What::OutOfRange { why });
    }
    let borders: Vec<Option<Border>> =
        nodes.iter().take(MOST_BORDERS).map(|node| read_border(reader, names, node)).collect();
    whole &= borders.iter().all(Option::is_some);
    (borders.into_iter().flatten().collect(), whole)
}

fn read_border(reader: &mut Reader, names: &Names<'_>, node: &Node<'_>) -> Option<Border> {
    let mut table = Table::new(reader, "border", node.start(), node, BORDER_EXAMPLE)?;
    let first = table.entries().first().map_or(node.start(), |entry| entry.key_at);
    table.at = first;
    let border = Border {
        at: first,
        width: table.required("width", |node| positive(reader, node)),
        corners: table.optional("corners", |node| reader.word(node, "corners")),
        piece: table.optional("piece", |node| names.pieces.read_piece(reader, node)),
        piece_across: table.optional("piece_across", |node| names.pieces.read_piece(reader, node)),
        cornerstone: table.optional("cornerstone", |node| names.pieces.read_piece(reader, node)),
        pieced: table.optional("pieced", |node| reader.word(node, "pieced")),
        join: table.optional("join", |node| reader.word(node, "join")),
        ease: table.optional("ease", |node| reader.length(node, Least::Nothing)),
    };
    table.finish(reader, true);
    Some(border)
}
