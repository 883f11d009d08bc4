//! Reading the blocks that are sewn from units.

use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name, unknown_unit};
use super::design::{BlockUnit, Make, Row};
use super::kinds::SquareOrSides;
use super::read_units::Units;
use super::reader::Reader;
use super::section::LeftOut::Required;
use super::section::Shape;
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, Spanned};
use crate::quantity::Written;

/// How many blocks a pattern may list.
const MAX_BLOCKS: usize = 100;

/// How many rows a block may have, and how many units a row.
const MAX_ACROSS: usize = 50;

/// The word after a unit that is turned a quarter.
const TURNED: &str = " turned";

const BLOCK_EXAMPLE: &str = "star: { finished: 12, rows: [[corner, geese], [geese, corner]] }";
const ROW_EXAMPLE: &str = "- [corner, geese turned, corner]";

section!(
    /// A block: units row by row.
    pub struct Block, "blocks", "In each of the `blocks`", "";
    words {
        finished: Field<(Written, Written)> = SquareOrSides, Required,
            "its finished width x height; one length stands for a square", "12";
    }
    by_hand {
        rows: Vec<Row> = Shape::List(&Shape::List(&Shape::Name("unit in a block"), 1, MAX_ACROSS), 1, MAX_ACROSS), Required,
            "its units, row by row from the top, each row a list in brackets; a unit with `turned` after its name is \
             turned a quarter", "[[corner, geese, corner], [geese turned, center, geese turned]]";
    }
    besides {
        /// What the pattern calls it.
        name: String,
        /// Where its name stands.
        at: Span,
        /// Whether all its rows were read.
        whole: bool,
    }
);

/// The blocks and whether all of them could be read.
#[derive(Debug, Default)]
pub(super) struct Blocks {
    pub(super) list: Vec<Block>,
    /// False where part of the section is broken, so that no name can be called unknown.
    pub(super) whole: bool,
    /// Whether there is such a section at all.
    pub(super) stated: bool,
}

impl Blocks {
    /// Their names.
    pub(super) fn names(&self) -> NameList<'_> {
        NameList::new(self.list.iter().map(|block| (block.name.as_str(), block.at)), self.whole, self.stated)
    }
}

pub(super) fn read_blocks(reader: &mut Reader, known: &DeclaredNames<'_>, units: &Units, entry: &Entry<'_>) -> Blocks {
    let Some(table) = Table::new(reader, "blocks", entry.key_at, &entry.value, BLOCK_EXAMPLE) else {
        return Blocks { stated: true, ..Blocks::default() };
    };
    let mut whole = !table.is_torn();
    if let Some(beyond) = table.entries().get(MAX_BLOCKS) {
        whole = false;
        let why = format!("a pattern may list {MAX_BLOCKS} blocks at most; this one and what follows are not read");
        reader.report(beyond.key_at, MistakeKind::TooMany { why });
    }
    let entries = table.entries().iter().take(MAX_BLOCKS);
    let list: Vec<Option<Block>> = entries.map(|entry| read_block(reader, known, units, entry)).collect();
    whole &= list.iter().all(Option::is_some);
    Blocks { list: list.into_iter().flatten().collect(), whole, stated: true }
}

fn read_block(reader: &mut Reader, known: &DeclaredNames<'_>, units: &Units, entry: &Entry<'_>) -> Option<Block> {
    let name = entry.key.to_string();
    if !is_fit_name(&name) {
        reader.report(entry.key_at, unfit_name("block"));
        return None;
    }
    let mut table = Table::new(reader, ["block", &entry.key], entry.key_at, &entry.value, BLOCK_EXAMPLE)?;
    let mut block = Block { name, at: entry.key_at, ..Block::read_words(&mut table, reader, known) };
    if let Some(entry) = table.expected(Block::rows) {
        (block.rows, block.whole) = read_rows(reader, units, &block.name, entry);
    }
    table.finish(reader, true);
    Some(block)
}

/// The rows, and whether all of them were read.
fn read_rows(reader: &mut Reader, units: &Units, block: &str, entry: &Entry<'_>) -> (Vec<Row>, bool) {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) => nodes,
        Kind::Unread => return (Vec::new(), false),
        Kind::Empty => {
            let place = format!("rows of block {block}");
            reader.report(entry.key_at, MistakeKind::MissingEntry { word: "row", example: ROW_EXAMPLE.into(), place });
            return (Vec::new(), false);
        }
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list of rows, each after a dash";
            reader
                .report(entry.key_at, MistakeKind::WrongShape { word: "rows".into(), expected, example: ROW_EXAMPLE });
            return (Vec::new(), false);
        }
    };
    let mut whole = !reader.is_torn(&entry.value);
    if nodes.is_empty() && whole {
        whole = false;
        let place = format!("rows of block {block}");
        reader.report(entry.key_at, MistakeKind::MissingEntry { word: "row", example: ROW_EXAMPLE.into(), place });
    }
    if let Some(beyond) = nodes.get(MAX_ACROSS) {
        whole = false;
        let why = format!("a block may have {MAX_ACROSS} rows at most; this one and what follows are not read");
        reader.report(beyond.start(), MistakeKind::TooMany { why });
    }
    let rows: Vec<Option<Row>> = nodes.iter().take(MAX_ACROSS).map(|node| read_row(reader, units, node)).collect();
    whole &= rows.iter().flatten().count() == nodes.len();
    (rows.into_iter().flatten().collect(), whole)
}

/// One row; `None` where it could not be read as a whole.
fn read_row(reader: &mut Reader, units: &Units, node: &Node<'_>) -> Option<Row> {
    let Kind::List(nodes) = &node.kind else {
        let _: Field<()> = reader.wrong_shape(node, "a list of units", ROW_EXAMPLE);
        return None;
    };
    if nodes.is_empty() {
        let _: Field<()> = reader.wrong_shape(node, "a list of units", ROW_EXAMPLE);
        return None;
    }
    if let Some(beyond) = nodes.get(MAX_ACROSS) {
        let why = format!("a row may have {MAX_ACROSS} units at most; this one and what follows are not read");
        reader.report(beyond.start(), MistakeKind::TooMany { why });
        return None;
    }
    Some(Row { at: node.at, places: nodes.iter().map(|node| read_place(reader, units, node)).collect() })
}

/// A unit, or a unit that is turned a quarter.
fn read_place(reader: &mut Reader, units: &Units, node: &Node<'_>) -> Field<BlockUnit> {
    if !matches!(node.kind, Kind::Scalar { .. }) {
        return reader.wrong_shape(node, "the name of a unit", ROW_EXAMPLE);
    }
    let Field::Stated(Spanned { value: text, at }) = reader.text(node) else { return Field::Unread };
    let find = |name: &str| units.list.iter().position(|unit| unit.name == name);
    let name = text.strip_suffix(TURNED).map(str::trim_end);
    // A unit may be called so itself.
    let found = find(&text).map(|unit| BlockUnit { unit, turned: false });
    let found = found.or_else(|| Some(BlockUnit { unit: name.and_then(find)?, turned: true }));
    match found {
        Some(value) if units.list[value.unit].make.value().is_some_and(Make::sets_blocks) => {
            let why = "Side and corner triangles set blocks on point; they are no part of a block".to_string();
            let mend = "Use half-square or half-rectangle triangles inside the block";
            reader.report(at, MistakeKind::CannotBe { why, mend });
            Field::Unread
        }
        Some(value) => Field::Stated(Spanned { value, at }),
        None => {
            // The name alone is pointed at, so that a correction leaves the word after it.
            let within = name.map(|_| (at, TURNED));
            let name = name.unwrap_or(&text);
            let written = matches!(node.kind, Kind::Scalar { verbatim: Some(start), .. } if start == at.start);
            let at = if written { Span::new(at.start, at.start + name.len()) } else { at };
            unknown_unit(reader, &units.names(), at, name, within)
        }
    }
}
