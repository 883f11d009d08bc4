//! Reading the blocks that are sewn from units.

use super::by_size::{BySize, OneOrSome};
use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name, unknown_unit};
use super::design::{BlockPart, Make, Row, Sewn};
use super::kinds::{SquareOrSides, Whole};
use super::other_fabrics::{OtherFabric, Recolored, read_with, recolor};
use super::read_units::Units;
use super::reader::Reader;
use super::section::LeftOut::{Said, Unless};
use super::section::Shape;
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::unknown_name::unknown;
use super::{Field, MistakeKind, Span, Spanned};
use crate::quantity::{Count, Written};

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
        finished: Field<(Written, Written)> = SquareOrSides, Unless(&["like"], "that of the block that it is like"),
            "its finished width x height; one length stands for a square", "12";
        unfinished: Field<(Written, Written)> = SquareOrSides, Said("not checked"),
            "how large the text says that it measures before it is sewn into the quilt", "12 1/2";
        makes: BySize<Count> = OneOrSome<Whole>, Said("not checked"),
            "how many of it the text says to make, for all sizes or for each", "12";
    }
    by_hand {
        rows: Vec<Row> = Shape::List(&Shape::List(&Shape::Name("unit or block in a block"), 1, MAX_ACROSS), 1, MAX_ACROSS), Unless(&["like"], "those of the block that it is like"),
            "its units, row by row from the top, each row a list in brackets; a unit with `turned` after its name is \
             turned a quarter. A block may stand there like a unit", "[[corner, geese, corner], [geese turned, center, geese turned]]";
        like: Field<usize> = Shape::Name("block"), Said("it has rows of its own"),
            "for a block that is sewn as another is, from other fabrics: that block", "half",
            not_beside(&["finished", "rows"]), needs("with");
        with: Vec<OtherFabric> = Shape::Named(&Shape::Name("fabric")), Said("it has rows of its own"),
            "for a block that is `like` another: the fabric that takes the place of each. Its pieces have the same names in \
             the cutting lists of both", "{ ink: gold, gold: ink }", needs("like");
    }
    besides {
        /// What the pattern calls it.
        name: String,
        /// Where its name stands.
        at: Span,
        /// Whether all its rows were read.
        whole: bool,
        /// The pieces that it takes in place of those of the block that it is like.
        recolored: Vec<Recolored>,
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
    let entries: Vec<&Entry<'_>> = table.entries().iter().take(MAX_BLOCKS).collect();
    let parts = Parts { units, blocks: entries.iter().map(|entry| entry.key).collect() };
    let list: Vec<Option<Block>> = entries.iter().map(|entry| read_block(reader, known, &parts, entry)).collect();
    whole &= list.iter().all(Option::is_some);
    list.iter().flatten().for_each(|block| report_shared_names(reader, &parts, &list, block));
    let mut list = list;
    sew_alike(reader, &mut list);
    let mut list = in_order(list);
    unwind(reader, &mut list);
    recolor(reader, known, &units.list, &mut list);
    Blocks { list, whole, stated: true }
}

/// What the rows of a block may name.
struct Parts<'p> {
    units: &'p Units,
    /// The names of the blocks, in the order in which they are stated.
    blocks: Vec<&'p str>,
}

impl Parts<'_> {
    /// A unit, or else a block, of a name.
    fn find(&self, name: &str) -> Option<Sewn> {
        let unit = self.units.list.iter().position(|unit| unit.name == name).map(Sewn::Unit);
        unit.or_else(|| self.blocks.iter().position(|block| *block == name).map(Sewn::Block))
    }
}

/// Reports the names in the rows of a block that a unit and another block have. In the rows of the block itself the name
/// can only be the unit's, and a block that is that unit alone is the same.
fn report_shared_names(reader: &mut Reader, parts: &Parts<'_>, blocks: &[Option<Block>], block: &Block) {
    let is_unit_alone = |other: &Block, number: usize| {
        let mut places = other.rows.iter().flat_map(|row| &row.places);
        let only = places.next().and_then(Field::value).filter(|_| places.next().is_none());
        only.is_some_and(|part| part.sewn == Sewn::Unit(number))
    };
    let mut told: Vec<usize> = Vec::new();
    for place in block.rows.iter().flat_map(|row| &row.places) {
        let Some(Spanned { value: BlockPart { sewn: Sewn::Unit(number), .. }, at }) = place.stated() else { continue };
        let name = &parts.units.list[*number].name;
        if *name == block.name || !parts.blocks.contains(&name.as_str()) || told.contains(number) {
            continue;
        }
        told.push(*number);
        if blocks.iter().flatten().any(|other| other.name == *name && is_unit_alone(other, *number)) {
            continue;
        }
        let why = format!("A unit and a block are both called {name}, and which of them is meant here is not known");
        reader.report(*at, MistakeKind::CannotBe { why, mend: "Give the block or the unit another name" });
    }
}

/// Gives each block that is like another the rows and the finished size of that.
fn sew_alike(reader: &mut Reader, list: &mut [Option<Block>]) {
    for place in 0..list.len() {
        let Some(like) = list[place].as_ref().and_then(|block| block.like.stated().cloned()) else { continue };
        let original = list.get(like.value).and_then(Option::as_ref);
        let unread = (Field::Unread, Vec::new(), false);
        let alike = original.map_or(unread, |block| (block.finished.clone(), block.rows.clone(), block.whole));
        let is_like_another = original.is_some_and(|block| !block.like.is_absent());
        let Some(block) = list[place].as_mut() else { continue };
        if is_like_another {
            let why = if like.value == place {
                "A block cannot be like itself"
            } else {
                "This block is itself like another, and has no rows of its own"
            };
            let mend = "Name a block that has rows";
            reader.report(like.at, MistakeKind::CannotBe { why: why.to_string(), mend });
            block.like = Field::Unread;
            continue;
        }
        (block.finished, block.rows, block.whole) = alike;
    }
}

/// The blocks that were read, and the places in them by their numbers among these.
fn in_order(list: Vec<Option<Block>>) -> Vec<Block> {
    let mut next = 0..;
    let numbers: Vec<Option<usize>> = list.iter().map(|block| block.as_ref().and_then(|_| next.next())).collect();
    let mut blocks: Vec<Block> = list.into_iter().flatten().collect();
    for block in &mut blocks {
        if let Some(Spanned { value, at }) = block.like.stated().cloned() {
            let number = numbers.get(value).copied().flatten();
            block.like = number.map_or(Field::Unread, |value| Field::Stated(Spanned { value, at }));
        }
    }
    for place in blocks.iter_mut().flat_map(|block| &mut block.rows).flat_map(|row| &mut row.places) {
        let Some(Spanned { value: BlockPart { sewn: Sewn::Block(stated), turned }, at }) = place.stated().cloned()
        else {
            continue;
        };
        *place = match numbers.get(stated).copied().flatten() {
            Some(number) => Field::Stated(Spanned { value: BlockPart { sewn: Sewn::Block(number), turned }, at }),
            None => Field::Unread,
        };
    }
    blocks
}

/// Reports the blocks that are within themselves, and takes out the places that make it so.
fn unwind(reader: &mut Reader, blocks: &mut [Block]) {
    for outer in 0..blocks.len() {
        for (row, place, inner) in blocks_in(blocks, outer) {
            if !reaches(blocks, inner, outer) {
                continue;
            }
            let why = if inner == outer {
                format!("Block {} cannot stand in its own rows", blocks[outer].name)
            } else {
                let (outer, inner) = (&blocks[outer].name, &blocks[inner].name);
                format!("Block {inner} is sewn from block {outer}, so that it cannot stand in the rows of {outer}")
            };
            let field = &mut blocks[outer].rows[row].places[place];
            if let Some(at) = field.at() {
                reader.report(
                    at,
                    MistakeKind::CannotBe { why, mend: "Name a unit, or a block that is sewn before this one" },
                );
            }
            *field = Field::Unread;
        }
    }
}

/// The rows and places of a block that hold blocks, and which.
fn blocks_in(blocks: &[Block], outer: usize) -> Vec<(usize, usize, usize)> {
    let rows = blocks[outer].rows.iter().enumerate();
    let places =
        rows.flat_map(|(row, stated)| stated.places.iter().enumerate().map(move |(place, part)| (row, place, part)));
    let inner = places.filter_map(|(row, place, part)| match part.value()?.sewn {
        Sewn::Block(inner) => Some((row, place, inner)),
        Sewn::Unit(_) => None,
    });
    inner.collect()
}

/// Whether a block is another, or is sewn from it.
fn reaches(blocks: &[Block], from: usize, to: usize) -> bool {
    let mut seen = vec![false; blocks.len()];
    let mut left = vec![from];
    while let Some(block) = left.pop() {
        if block == to {
            return true;
        }
        if !std::mem::replace(&mut seen[block], true) {
            left.extend(blocks_in(blocks, block).into_iter().map(|(.., inner)| inner));
        }
    }
    false
}

fn read_block(reader: &mut Reader, known: &DeclaredNames<'_>, parts: &Parts<'_>, entry: &Entry<'_>) -> Option<Block> {
    let name = entry.key.to_string();
    if !is_fit_name(&name) {
        reader.report(entry.key_at, unfit_name("block"));
        return None;
    }
    let mut table = Table::new(reader, ["block", entry.key], entry.key_at, &entry.value, BLOCK_EXAMPLE)?;
    let mut block = Block { name, at: entry.key_at, ..Block::read_words(&mut table, reader, known) };
    if let Some(entry) = table.entry(Block::like) {
        read_like(reader, known, parts, &mut table, &mut block, entry);
    } else {
        if !table.states(Block::finished.word) {
            table.lacks(Block::finished);
        }
        match table.entry(Block::rows) {
            Some(entry) => (block.rows, block.whole) = read_rows(reader, parts, &block.name, entry),
            None => table.lacks(Block::rows),
        }
    }
    table.finish(reader, true);
    Some(block)
}

/// What a block says that is like another.
fn read_like(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    parts: &Parts<'_>,
    table: &mut Table<'_, '_>,
    block: &mut Block,
    entry: &Entry<'_>,
) {
    let beside =
        [(Block::rows, table.entry(Block::rows).map(|entry| entry.key_at)), (Block::finished, block.finished.at())];
    for (row, at) in beside {
        let Some(at) = at else { continue };
        let why = format!("like says already how the block is sewn, so that {} is one answer too many", row.word);
        reader.report(at, MistakeKind::CannotBe { why, mend: "Take one of the two out" });
    }
    block.finished = Field::Unread;
    block.like = match reader.text(&entry.value) {
        Field::Stated(Spanned { value: name, at }) => match parts.blocks.iter().position(|known| *known == name) {
            Some(value) => Field::Stated(Spanned { value, at }),
            None => {
                unknown(reader, at, &name, "the pattern's blocks", parts.blocks.iter().copied());
                Field::Unread
            }
        },
        _ => Field::Unread,
    };
    if let Some(entry) = table.entry(Block::with) {
        block.with = read_with(reader, known.fabrics, &block.name, entry);
    }
}

/// The rows, and whether all of them were read.
fn read_rows(reader: &mut Reader, parts: &Parts<'_>, block: &str, entry: &Entry<'_>) -> (Vec<Row>, bool) {
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
    let rows: Vec<Option<Row>> = nodes.iter().take(MAX_ACROSS).map(|node| read_row(reader, parts, node)).collect();
    whole &= rows.iter().flatten().count() == nodes.len();
    (rows.into_iter().flatten().collect(), whole)
}

/// One row; `None` where it could not be read as a whole.
fn read_row(reader: &mut Reader, parts: &Parts<'_>, node: &Node<'_>) -> Option<Row> {
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
    Some(Row { at: node.at, places: nodes.iter().map(|node| read_place(reader, parts, node)).collect() })
}

/// A unit or a block, or one that is turned a quarter.
fn read_place(reader: &mut Reader, parts: &Parts<'_>, node: &Node<'_>) -> Field<BlockPart> {
    if !matches!(node.kind, Kind::Scalar { .. }) {
        return reader.wrong_shape(node, "the name of a unit", ROW_EXAMPLE);
    }
    let Field::Stated(Spanned { value: text, at }) = reader.text(node) else { return Field::Unread };
    let name = text.strip_suffix(TURNED).map(str::trim_end);
    // A unit may be called so itself.
    let found = parts.find(&text).map(|sewn| BlockPart { sewn, turned: false });
    let found = found.or_else(|| Some(BlockPart { sewn: parts.find(name?)?, turned: true }));
    let sets_blocks = |sewn: Sewn| match sewn {
        Sewn::Unit(unit) => parts.units.list[unit].make.value().is_some_and(Make::sets_blocks),
        Sewn::Block(_) => false,
    };
    match found {
        Some(value) if sets_blocks(value.sewn) => {
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
            unknown_unit(reader, &parts.units.names(), at, name, within)
        }
    }
}
