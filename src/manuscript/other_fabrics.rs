//! Blocks that are sewn as another is, from other fabrics: which pieces take the place of which.

use std::collections::{BTreeMap, BTreeSet};

use super::declared_names::{DeclaredNames, NameList, read_fabric_name};
use super::design::{Block, CutFrom, Entries, PieceRef, Sewn, Unit};
use super::reader::Reader;
use super::table::Table;
use super::tree::Entry;
use super::{Field, MistakeKind, Span, nearest};

const WITH_EXAMPLE: &str = "with: { ink: gold, gold: ink }";

/// A fabric that takes the place of another.
#[derive(Clone, Debug)]
pub struct OtherFabric {
    /// The fabric whose place is taken, by its place among the fabrics.
    pub from: usize,
    /// Where it is named.
    pub at: Span,
    /// The fabric that takes it.
    pub to: Field<usize>,
}

/// A piece that takes the place of another.
#[derive(Clone, Copy, Debug)]
pub struct Recolored {
    /// The piece of the block that this one is like.
    pub from: PieceRef,
    /// The piece in its place.
    pub to: PieceRef,
    /// Where its fabric is named.
    pub at: Span,
}

/// `{ ink: gold, gold: ink }`.
pub(super) fn read_with(
    reader: &mut Reader,
    fabrics: &NameList<'_>,
    block: &str,
    entry: &Entry<'_>,
) -> Vec<OtherFabric> {
    let Some(table) = Table::new(reader, ["with of block", block], entry.key_at, &entry.value, WITH_EXAMPLE) else {
        return Vec::new();
    };
    let mut with = Vec::new();
    for entry in table.entries() {
        if let Some(from) = fabrics.place(entry.key) {
            with.push(OtherFabric { from, at: entry.key_at, to: read_fabric_name(reader, fabrics, &entry.value) });
        } else if fabrics.whole || !fabrics.stated {
            let known: Vec<String> = fabrics.each().map(str::to_string).collect();
            let near = nearest(entry.key, &known).cloned();
            let what = MistakeKind::UnknownFabric { name: entry.key.to_string(), fabrics: known, nearest: near };
            reader.report(entry.key_at, what);
        }
    }
    with
}

/// Finds the pieces that blocks take in other fabrics, those within other blocks first.
pub(super) fn recolor(reader: &mut Reader, known: &DeclaredNames<'_>, units: &[Unit], blocks: &mut [Block]) {
    if blocks.iter().all(|block| block.like.stated().is_none()) {
        return;
    }
    let mut done = BTreeMap::new();
    for block in 0..blocks.len() {
        pieces_of(reader, known, units, blocks, block, &mut done);
    }
}

/// The pieces of a block as it takes them; those of a block that is like another are found on the way.
fn pieces_of(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    units: &[Unit],
    blocks: &mut [Block],
    block: usize,
    done: &mut BTreeMap<usize, BTreeSet<PieceRef>>,
) -> BTreeSet<PieceRef> {
    if let Some(pieces) = done.get(&block) {
        return pieces.clone();
    }
    let mut pieces = BTreeSet::new();
    for part in blocks[block].parts().collect::<BTreeSet<_>>() {
        match part.sewn {
            Sewn::Unit(unit) => pieces.extend(units.get(unit).into_iter().flat_map(of_unit)),
            Sewn::Block(inner) => pieces.extend(pieces_of(reader, known, units, blocks, inner, done)),
        }
    }
    if blocks[block].like.stated().is_some() {
        let (with, whole) = (blocks[block].with.clone(), blocks[block].whole);
        blocks[block].recolored = with.iter().flat_map(|one| replaced(reader, known, &pieces, one, whole)).collect();
        pieces = pieces.into_iter().map(|piece| in_place_of(&blocks[block].recolored, piece)).collect();
    }
    done.insert(block, pieces.clone());
    pieces
}

/// The piece that is taken in place of one, or itself.
pub fn in_place_of(recolored: &[Recolored], piece: PieceRef) -> PieceRef {
    recolored.iter().find(|one| one.from == piece).map_or(piece, |one| one.to)
}

fn of_unit(unit: &Unit) -> impl Iterator<Item = PieceRef> {
    let cut = unit.cut.iter().filter_map(|part| match part.from.value()? {
        CutFrom::Piece(piece) => Some(piece),
        CutFrom::Size(..) => None,
    });
    cut.chain(unit.takes.iter().filter_map(|taken| taken.piece.value()))
}

/// The pieces that one fabric gives in place of another.
fn replaced(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    pieces: &BTreeSet<PieceRef>,
    with: &OtherFabric,
    whole: bool,
) -> Vec<Recolored> {
    let list = &known.pieces.list;
    let name =
        |piece: &PieceRef| list.iter().find(|named| (named.at.fabric, named.at.cut) == (piece.fabric, piece.cut));
    let fabric = |place: usize| known.fabrics.each().nth(place).unwrap_or_default();
    let mut recolored = Vec::new();
    let mut is_used = false;
    for piece in pieces {
        let Some(named) = name(piece) else { continue };
        if piece.of == Entries::OfAll {
            let given = list.iter().filter(|other| other.piece == named.piece);
            if given.clone().any(|other| other.at.fabric == with.from) {
                is_used = true;
                let why = format!(
                    "Piece {} is counted together in the cutting lists of several fabrics, so that it is not known how many \
                     of it are {}",
                    named.piece,
                    fabric(with.from)
                );
                let mend = "Name the piece of one fabric in the unit, such as ink A";
                reader.report(with.at, MistakeKind::CannotBe { why, mend });
            }
            continue;
        }
        if piece.fabric != with.from {
            continue;
        }
        is_used = true;
        let Some(to) = with.to.stated() else { continue };
        match known.pieces.in_fabric(to.value, named.piece) {
            Some(other) => {
                recolored.push(Recolored { from: *piece, to: other, at: to.at });
                if known.pieces.are_alike(*piece, other) {
                    continue;
                }
                let why = format!(
                    "Piece {} of {} is not cut as that of {}, whose place it takes",
                    named.piece,
                    fabric(to.value),
                    fabric(with.from)
                );
                let mend = "Cut both to one size, or give the unit a piece of its own";
                let at = known.pieces.size_at(other).unwrap_or(to.at);
                reader.report_with(at, MistakeKind::CannotBe { why, mend }, to.at, "it takes its place here");
            }
            None if known.pieces.whole => {
                let why = format!("The cutting list of {} has no piece {}", fabric(to.value), named.piece);
                let mend = "Cut a piece of that name from it as well, to the same size";
                reader.report(to.at, MistakeKind::CannotBe { why, mend });
            }
            None => {}
        }
    }
    if !is_used && whole && known.pieces.whole {
        let why = format!("Nothing in the block is cut from {}", fabric(with.from));
        reader.report(with.at, MistakeKind::CannotBe { why, mend: "Name a fabric that its units are cut from" });
    }
    recolored
}
