//! The kinds of values that a word may have, each with how it is read.

use std::marker::PhantomData;

use super::declared_names::{
    DeclaredNames, read_fabric_name, read_piece_name, read_sewn_name, read_size_name, read_unit_name,
};
use super::design::{PieceRef, Sewn};
use super::reader::{Bound, Reader};
use super::section::{Row, Shape, ValueKind};
use super::tree::{Entry, Kind};
use super::{Field, Keyword, MistakeKind, Spanned};
use crate::quantity::{Amount, Count, Percent, Written};

/// A kind whose value is a field: its name, what is in the field, what may be written, and how it is read.
macro_rules! kind {
    ($(#[$doc:meta])* $name:ident, $value:ty, $shape:expr, |$reader:ident, $known:ident, $row:ident, $entry:ident| $read:expr) => {
        $(#[$doc])*
        pub(super) struct $name;

        impl ValueKind for $name {
            type Field = Field<$value>;
            const SHAPE: Shape = $shape;

            #[allow(unused_variables)] // Most kinds need no names.
            fn read($reader: &mut Reader, $known: &DeclaredNames<'_>, $row: &'static Row, $entry: &Entry<'_>) -> Field<$value> {
                $read
            }

            fn unread() -> Field<$value> {
                Field::Unread
            }
        }
    };
}

kind!(
    /// Any text.
    Text, String, Shape::Text, |reader, known, row, entry| reader.text(&entry.value)
);
kind!(
    /// A length above 0.
    Positive, Written, Shape::Length { zero: false },
    |reader, known, row, entry| reader.length(&entry.value, Bound::Positive)
);
kind!(
    /// A length above 0, of which each half of a pair counts by itself.
    Step, Written, Shape::Length { zero: false }, |reader, known, row, entry| reader.step(&entry.value)
);
kind!(
    /// A length that may be 0.
    NonNegative, Written, Shape::Length { zero: true },
    |reader, known, row, entry| reader.length(&entry.value, Bound::NonNegative)
);
kind!(
    /// An amount of fabric above 0.
    Fabric, Amount, Shape::Amount { zero: false }, |reader, known, row, entry| reader.amount(&entry.value)
);
kind!(
    /// A percentage.
    Percentage, Percent, Shape::Percent, |reader, known, row, entry| reader.percent(&entry.value)
);
kind!(
    /// A whole number.
    Whole, Count, Shape::Count(0, Count::MAX.0), |reader, known, row, entry| reader.count(&entry.value)
);
kind!(
    /// A width and a length.
    Dimensions, (Written, Written), Shape::Dimensions, |reader, known, row, entry| reader.dimensions(&entry.value)
);
kind!(
    /// A width and a height, or the one side of a square.
    SquareOrSides, (Written, Written), Shape::SquareOrSides,
    |reader, known, row, entry| reader.square_or_sides(&entry.value)
);
kind!(
    /// The name of a fabric: its place among the fabrics.
    FabricName, usize, Shape::Name("fabric"),
    |reader, known, row, entry| read_fabric_name(reader, known.fabrics, &entry.value)
);
kind!(
    /// A name that the writer gives to a piece.
    NewPieceName, String, Shape::Text, |reader, known, row, entry| read_piece_name(reader, &entry.value)
);
kind!(
    /// The name of a piece of a cutting list.
    PieceName, PieceRef, Shape::Name("piece"),
    |reader, known, row, entry| known.pieces.read_piece(reader, &entry.value)
);
kind!(
    /// The name of a unit: its place among the units.
    UnitName, usize, Shape::Name("unit"), |reader, known, row, entry| read_unit_name(reader, known.units, &entry.value)
);
kind!(
    /// The name of a unit, or else of a block: its place among these.
    UnitOrBlockName, Sewn, Shape::Name("unit or block"),
    |reader, known, row, entry| read_sewn_name(reader, known, &entry.value)
);
kind!(
    /// The name of a size.
    SizeName, String, Shape::Name("size"), |reader, known, row, entry| read_size_name(reader, known.sizes, &entry.value)
);

/// One of a few words.
pub(crate) struct OneOf<W>(PhantomData<W>);

impl<W: Keyword> ValueKind for OneOf<W> {
    type Field = Field<W>;
    const SHAPE: Shape = Shape::Choice(W::NAMES);

    fn read(reader: &mut Reader, _: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> Field<W> {
        reader.word(&entry.value, row.word)
    }

    fn unread() -> Field<W> {
        Field::Unread
    }
}

/// One length above 0, or a list of so many at most.
pub(super) struct Lengths<const MOST: usize>;

impl<const MOST: usize> ValueKind for Lengths<MOST> {
    type Field = Field<Vec<Spanned<Written>>>;
    const SHAPE: Shape =
        Shape::Either(&[Shape::Length { zero: false }, Shape::List(&Shape::Length { zero: false }, 1, MOST)]);

    fn read(reader: &mut Reader, _: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> Self::Field {
        let Kind::List(nodes) = &entry.value.kind else {
            let one = reader.length(&entry.value, Bound::Positive);
            return one
                .stated()
                .map_or(Field::Unread, |one| Field::Stated(Spanned { value: vec![one.clone()], at: one.at }));
        };
        if nodes.is_empty() {
            return reader.wrong_shape(&entry.value, "a length, or a list of lengths", row.example);
        }
        if let Some(beyond) = nodes.get(MOST) {
            let why = format!("`{}` may list {MOST} lengths at most; this one and what follows are not read", row.word);
            reader.report(beyond.start(), MistakeKind::TooMany { why });
            return Field::Unread;
        }
        let lengths: Vec<Field<Written>> = nodes.iter().map(|node| reader.length(node, Bound::Positive)).collect();
        let stated: Option<Vec<Spanned<Written>>> = lengths.iter().map(|length| length.stated().cloned()).collect();
        stated.map_or(Field::Unread, |value| Field::Stated(Spanned { value, at: entry.value.at }))
    }

    fn unread() -> Self::Field {
        Field::Unread
    }
}
