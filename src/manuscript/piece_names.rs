//! The names of the pieces of all cutting lists, and reading one where it is mentioned.

use super::design::{CutFrom, Entries, PieceRef};
use super::mistake::AMONG_PIECES;
use super::model::Cut;
use super::reader::Reader;
use super::tree::{Kind, Node};
use super::unknown_name::unknown;
use super::{Field, MistakeKind, Span, Spanned};

const CUT_EXAMPLE: &str = "cut: { goose: A, sky: B }";

/// The pieces of all cutting lists.
pub(super) struct Pieces<'f> {
    /// Each of them.
    pub(super) list: Vec<NamedPiece<'f>>,
    /// False where part of the lists is broken, so that no name can be called unknown.
    pub(super) whole: bool,
}

/// A piece of a cutting list by its names.
#[derive(Clone, Copy)]
pub(super) struct NamedPiece<'f> {
    /// Its entry.
    pub(super) at: PieceRef,
    /// The name of its fabric.
    pub(super) fabric: &'f str,
    /// Its own name.
    pub(super) piece: &'f str,
    /// How it is cut.
    pub(super) cut: &'f Cut,
}

/// What a name stands for.
enum Found<'f> {
    Nothing,
    One(PieceRef),
    /// Pieces of one name that are not cut alike.
    Unlike(Vec<&'f str>),
}

impl<'f> Pieces<'f> {
    /// A piece by its name, or a size.
    pub(super) fn read(&self, reader: &mut Reader, node: &Node<'_>) -> Field<CutFrom> {
        if !matches!(node.kind, Kind::Scalar { .. }) {
            return reader.wrong_shape(node, "the name of a piece, or a cut size", CUT_EXAMPLE);
        }
        let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
        match self.named(&name) {
            Found::One(piece) => Field::Stated(Spanned { value: CutFrom::Piece(piece), at }),
            Found::Unlike(fabrics) => ambiguous(reader, at, &name, &fabrics),
            // A size begins with a number: 5 1/4, ½, .5.
            Found::Nothing if name.starts_with(|c: char| c.is_numeric() || c == '.') => {
                reader.square_or_sides(node).map(|(width, height)| CutFrom::Size(width, height))
            }
            Found::Nothing => {
                self.report_unknown(reader, at, &name);
                Field::Unread
            }
        }
    }

    /// A piece by its name.
    pub(super) fn read_piece(&self, reader: &mut Reader, node: &Node<'_>) -> Field<PieceRef> {
        let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
        self.piece_named(reader, &name, at)
    }

    /// The piece of a name that stands somewhere.
    pub(super) fn piece_named(&self, reader: &mut Reader, name: &str, at: Span) -> Field<PieceRef> {
        match self.named(name) {
            Found::One(piece) => Field::Stated(Spanned { value: piece, at }),
            Found::Unlike(fabrics) => ambiguous(reader, at, name, &fabrics),
            Found::Nothing => {
                self.report_unknown(reader, at, name);
                Field::Unread
            }
        }
    }

    /// The piece of a name in the cutting list of one fabric; all of that name where they are cut alike.
    pub(super) fn in_fabric(&self, fabric: usize, name: &str) -> Option<PieceRef> {
        let found: Vec<NamedPiece<'f>> =
            self.list.iter().filter(|named| named.at.fabric == fabric && named.piece == name).copied().collect();
        match together(&found, Entries::OfFabric) {
            Found::One(piece) => Some(piece),
            Found::Nothing | Found::Unlike(_) => None,
        }
    }

    fn entry(&self, piece: PieceRef) -> Option<&NamedPiece<'f>> {
        self.list.iter().find(|named| (named.at.fabric, named.at.cut) == (piece.fabric, piece.cut))
    }

    /// Whether two pieces are cut alike.
    pub(super) fn are_alike(&self, one: PieceRef, other: PieceRef) -> bool {
        self.entry(one).zip(self.entry(other)).is_none_or(|(one, other)| are_cut_alike(one.cut, other.cut))
    }

    /// Where the cut size of a piece is stated.
    pub(super) fn size_at(&self, piece: PieceRef) -> Option<Span> {
        let cut = self.entry(piece)?.cut;
        cut.size.of(0).at().or(cut.strip_width.of(0).at())
    }

    /// Reports a name that no piece has, where all of them could be read.
    fn report_unknown(&self, reader: &mut Reader, at: Span, name: &str) {
        if self.whole {
            unknown(reader, at, name, AMONG_PIECES, self.list.iter().map(|named| named.piece));
        }
    }

    /// The pieces of a name, alone or after the name of the fabric: `A`, `ink A`. Those that are cut alike are counted
    /// together.
    fn named(&self, name: &str) -> Found<'f> {
        let alone: Vec<NamedPiece<'f>> = self.list.iter().filter(|named| named.piece == name).copied().collect();
        if !alone.is_empty() {
            return together(&alone, Entries::OfAll);
        }
        let with_fabric = self.list.iter().filter(|named| {
            let rest = name.strip_prefix(named.fabric).and_then(|rest| rest.strip_prefix(' '));
            rest.is_some_and(|rest| rest == named.piece)
        });
        together(&with_fabric.copied().collect::<Vec<_>>(), Entries::OfFabric)
    }
}

fn together<'f>(found: &[NamedPiece<'f>], of: Entries) -> Found<'f> {
    let Some(first) = found.first() else { return Found::Nothing };
    if found.len() == 1 {
        return Found::One(first.at);
    }
    if found.iter().all(|other| are_cut_alike(first.cut, other.cut)) {
        return Found::One(PieceRef { of, ..first.at });
    }
    Found::Unlike(found.iter().map(|named| named.fabric).collect())
}

fn ambiguous<T>(reader: &mut Reader, at: Span, name: &str, fabrics: &[&str]) -> Field<T> {
    let why = format!("Piece {name} is in more than one cutting list, and not cut alike: {}", fabrics.join(", "));
    let mend = "Write the fabric before the piece, such as ink A, or give each piece a name of its own";
    reader.report(at, MistakeKind::CannotBe { why, mend });
    Field::Unread
}

/// Whether two pieces are cut alike for each size, as far as that was read. Which way round says nothing of it.
fn are_cut_alike(one: &Cut, other: &Cut) -> bool {
    let sides = |cut: &Cut, size: usize| match (cut.size.of(size).value(), cut.strip_width.of(size).length()) {
        (Some((width, length)), _) => {
            let (width, length) = (width.length, length.length);
            Some((width.min(length), Some(width.max(length))))
        }
        // Strips that are left whole.
        (None, Some(width)) if cut.size.of(size).is_absent() => Some((width, None)),
        (None, _) => None,
    };
    let count = one.pieces.len().max(1);
    let alike = match (&one.shaped, &other.shaped) {
        (None, None) => true,
        (Some(one), Some(other)) => one.is_alike(other, count),
        _ => false,
    };
    alike
        && (0..count).all(|size| match (sides(one, size), sides(other, size)) {
            (Some(one), Some(other)) => one == other,
            _ => true,
        })
}
