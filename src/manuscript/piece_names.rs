//! The names of the pieces of all cutting lists, and reading one where it is mentioned.

use super::design::{CutFrom, PieceRef};
use super::mistake::AMONG_PIECES;
use super::reader::Reader;
use super::tree::{Kind, Node};
use super::unknown_name::unknown;
use super::{Field, MistakeKind, Span, Spanned};

const CUT_EXAMPLE: &str = "cut: { goose: A, sky: B }";

/// The pieces of all cutting lists.
pub(super) struct Pieces<'f> {
    /// Each piece with its fabric's name and its own.
    pub(super) list: Vec<(PieceRef, &'f str, &'f str)>,
    /// False where part of the lists is broken, so that no name can be called unknown.
    pub(super) whole: bool,
}

impl Pieces<'_> {
    /// A piece by its name, or a size.
    pub(super) fn read(&self, reader: &mut Reader, node: &Node<'_>) -> Field<CutFrom> {
        if !matches!(node.kind, Kind::Scalar { .. }) {
            return reader.wrong_shape(node, "the name of a piece, or a cut size", CUT_EXAMPLE);
        }
        let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
        let found: Vec<PieceRef> = self.named(&name).collect();
        match found[..] {
            [piece] => Field::Stated(Spanned { value: CutFrom::Piece(piece), at }),
            [_, _, ..] => self.ambiguous(reader, at, &name),
            // A size begins with a number: 5 1/4, ½, .5.
            [] if name.starts_with(|c: char| c.is_numeric() || c == '.') => {
                reader.square_or_sides(node).map(|(width, height)| CutFrom::Size(width, height))
            }
            [] => {
                self.report_unknown(reader, at, &name);
                Field::Unread
            }
        }
    }

    /// A piece by its name.
    pub(super) fn read_piece(&self, reader: &mut Reader, node: &Node<'_>) -> Field<PieceRef> {
        let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
        let found: Vec<PieceRef> = self.named(&name).collect();
        match found[..] {
            [piece] => Field::Stated(Spanned { value: piece, at }),
            [_, _, ..] => self.ambiguous(reader, at, &name),
            [] => {
                self.report_unknown(reader, at, &name);
                Field::Unread
            }
        }
    }

    /// Reports a name that no piece has, where all of them could be read.
    fn report_unknown(&self, reader: &mut Reader, at: Span, name: &str) {
        if self.whole {
            unknown(reader, at, name, AMONG_PIECES, self.list.iter().map(|(_, _, piece)| *piece));
        }
    }

    /// The pieces of a name, alone or after the name of the fabric: `A`, `ink A`.
    fn named(&self, name: &str) -> impl Iterator<Item = PieceRef> {
        let alone = self.list.iter().filter(move |(_, _, piece)| *piece == name);
        let with_fabric = self.list.iter().filter(move |(_, fabric, piece)| {
            name.strip_prefix(fabric).and_then(|rest| rest.strip_prefix(' ')).is_some_and(|rest| rest == *piece)
        });
        let found: Vec<PieceRef> = alone.map(|(at, ..)| *at).collect();
        if found.is_empty() { with_fabric.map(|(at, ..)| *at).collect::<Vec<_>>() } else { found }.into_iter()
    }

    fn ambiguous<T>(&self, reader: &mut Reader, at: Span, name: &str) -> Field<T> {
        let fabrics: Vec<&str> =
            self.list.iter().filter(|(_, _, piece)| *piece == name).map(|(_, fabric, _)| *fabric).collect();
        let why = format!("Piece {name} is in more than one cutting list: {}", fabrics.join(", "));
        let mend = "Write the fabric before the piece, such as ink A, or give each piece a name of its own";
        reader.report(at, MistakeKind::CannotBe { why, mend });
        Field::Unread
    }
}
