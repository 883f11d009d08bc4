//! Reading the pieces of several kinds that are cut from strips which are listed once for all of them.

use super::by_size::{BySize, OneOrEach};
use super::declared_names::DeclaredNames;
use super::kinds::{Dimensions, NewPieceName, Whole};
use super::model::Cut;
use super::read_counts::{read_counts, report_unstated, start_of};
use super::reader::Reader;
use super::section::LeftOut::{Required, Said, Unless};
use super::section::{Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind};
use crate::quantity::Written;

/// How many kinds of pieces may be cut from the same strips.
pub(super) const MAX_SUBCUT: usize = 50;

const SUBCUT_EXAMPLE: &str = "- { piece: A, size: 6 1/2 x 6 1/2, pieces: { crib: 24 } }";
const ONE_EXAMPLE: &str = "{ piece: A, size: 6 1/2 x 6 1/2, pieces: { crib: 24 } }";

section!(
    /// A piece that is cut from strips which several pieces are cut from.
    pub(super) struct Subcut, "subcut", "In each piece of `subcut`", "";
    words {
        piece: Field<String> = NewPieceName, Required, "what the pattern calls it", "G", names_item();
        size: BySize<(Written, Written)> = OneOrEach<Dimensions>, Required, "how large it is cut, with its seams, width x length",
            "6 1/2 x 6 1/2";
    }
    by_hand {
        pieces = Shape::BySize(&Whole::SHAPE), Unless(&["pieces_from_each"], ""),
            "for each size how many pieces are cut from all of the strips; 0 where it takes none", "{ crib: 24 }";
        pieces_from_each = Shape::BySize(&Whole::SHAPE), Said("the share of each, rounded up"),
            "for each size how many pieces each of the fabrics gives that share the list", "{ crib: 4 }";
    }
    besides {}
);

/// Adds the pieces to the cutting list after the entry that states their strips. Whether all of them were read.
pub(super) fn read_subcut(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    entry: &Entry<'_>,
    group: usize,
    list: &mut Vec<Cut>,
) -> bool {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) if !nodes.is_empty() => nodes,
        Kind::Unread => return false,
        Kind::List(_) | Kind::Empty | Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each piece after a dash";
            let word = "subcut".into();
            reader.report(entry.key_at, MistakeKind::WrongShape { word, expected, example: SUBCUT_EXAMPLE });
            return false;
        }
    };
    let mut whole = !reader.is_torn(&entry.value);
    if let Some(beyond) = nodes.get(MAX_SUBCUT) {
        whole = false;
        let why = format!(
            "{MAX_SUBCUT} kinds of pieces at most may be cut from the same strips; this one and what follows are not \
             read, and the fabric is not checked"
        );
        reader.report(start_of(beyond), MistakeKind::TooMany { why });
    }
    for node in nodes.iter().take(MAX_SUBCUT) {
        match read_piece(reader, known, node) {
            Some(piece) => list.push(Cut { within: Some(group), ..piece }),
            None => whole = false,
        }
    }
    whole
}

fn read_piece(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>) -> Option<Cut> {
    let start = start_of(node);
    let mut table = Table::new(reader, "subcut", start, node, ONE_EXAMPLE)?;
    let first = table.entries().first().map_or(start, |entry| entry.key_at);
    table.at = first;
    let Subcut { piece, size } = Subcut::read_words(&mut table, reader, known);
    let (stated, from_each) = (table.entry(Subcut::pieces), table.entry(Subcut::pieces_from_each));
    if stated.is_none() && from_each.is_none() {
        table.lacks(Subcut::pieces);
    }
    let pieces = read_counts(reader, known, Subcut::pieces.word, stated);
    let pieces_from_each = read_counts(reader, known, Subcut::pieces_from_each.word, from_each);
    let strips = read_counts(reader, known, "strips", None);
    let cut = Cut { at: first, piece, size, strips, pieces, pieces_from_each, ..Cut::default() };
    if let Some(stated) = stated.or(from_each) {
        report_unstated(reader, known.sizes, &cut, stated.key_at);
    }
    table.finish(reader, true);
    Some(cut)
}
