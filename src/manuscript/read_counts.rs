//! Reading how many pieces and strips a cutting list states for each size.

use super::declared_names::{DeclaredNames, NameList};
use super::model::Cut;
use super::read_per_size::read_some_sizes;
use super::reader::Reader;
use super::tree::{Entry, Node};
use super::{Field, MistakeKind, Span};
use crate::quantity::Count;

const PIECES_EXAMPLE: &str = "{ crib: 48 }";

/// The dash, the bracket or the word that an entry starts with.
pub(super) fn start_of(node: &Node<'_>) -> Span {
    Span::new(node.at.start, node.at.end.min(node.at.start + 1))
}

/// Counts by size; absent for each size where the word is not there.
pub(super) fn read_counts(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    place: &str,
    entry: Option<&Entry<'_>>,
) -> Vec<Field<Count>> {
    match entry {
        Some(entry) => read_some_sizes(reader, known.sizes, place, entry, PIECES_EXAMPLE),
        None => known.sizes.list.iter().map(|_| Field::Absent).collect(),
    }
}

/// Reports the sizes for which neither strips nor pieces are stated.
pub(super) fn report_unstated(reader: &mut Reader, sizes: &NameList<'_>, cut: &Cut, at: Span) {
    let name = cut.piece.stated().map_or("cut", |piece| piece.value.as_str());
    let place = if cut.is_group { "list of strips".to_string() } else { format!("list for piece {name}") };
    for (index, size) in sizes.list.iter().enumerate() {
        let counts = [&cut.strips, &cut.pieces, &cut.pieces_from_each];
        if sizes.whole && counts.iter().all(|counts| counts.get(index).is_none_or(Field::is_absent)) {
            let what = MistakeKind::SizeNotStated { size: size.name.to_string(), place: place.clone() };
            reader.report_with(at, what, size.at, "the size is listed here; 0 says that it takes none");
        }
    }
}
