//! Reading what is sewn on or made besides the quilt: a hanging sleeve, prairie points, the back of a pillow.

use super::declared_names::DeclaredNames;
use super::kinds::{Dimensions, NonNegative, Positive, Whole};
use super::model::PerSize;
use super::read_per_size::read_for_some;
use super::reader::Reader;
use super::section::LeftOut::{BookValue, Required, Said};
use super::section::{Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::Entry;
use super::{Field, Span, Spanned};
use crate::quantity::{Count, Written};

section!(
    /// A hanging sleeve: a tube along the top of the back.
    pub struct Sleeve, "sleeve", "In `sleeve`", "";
    words {
        depth: Field<Written> = Positive, Required, "how deep it is when it is sewn, for the rod", "4";
        seam: Field<Written> = Positive, BookValue("piecing_seam"), "the seam that makes a tube of it", "1/4";
        hem: Field<Written> = NonNegative, BookValue("sleeve_hem"), "what the hem at each end takes", "1/2";
    }
    by_hand {
        requires: Vec<PerSize<Spanned<(Written, Written)>>> = Shape::BySize(&Dimensions::SHAPE), Required,
            "for each size that has one how it is cut, width of the strip x length", "{ crib: 8 1/2 x 36 }";
    }
    besides {
        /// Where the word `sleeve` stands.
        at: Span,
    }
);

section!(
    /// Prairie points: folded squares along the edge.
    pub struct PrairiePoints, "prairie_points", "In `prairie_points`", "";
    words {
        square: Field<Written> = Positive, Required, "how large the square is cut that is folded twice", "4";
        seam: Field<Written> = Positive, BookValue("piecing_seam"), "the seam that sews them on", "1/4";
        overlap: Field<Written> = NonNegative, Said("none"), "how much of a point lies in the next at the seam", "1";
    }
    by_hand {
        requires: Vec<PerSize<Spanned<Count>>> = Shape::BySize(&Whole::SHAPE), Required,
            "for each size that has them how many go around all four sides", "{ crib: 60 }";
    }
    besides {
        /// Where the word `prairie_points` stands.
        at: Span,
    }
);

section!(
    /// The back of a pillow: two pieces that overlap, or one by itself.
    pub struct PillowBack, "pillow_back", "In `pillow_back`", "";
    words {
        seam: Field<Written> = Positive, BookValue("piecing_seam"), "the seam that sews it to the front", "1/4";
        hem: Field<Written> = NonNegative, BookValue("pillow_hem"),
            "what the hem takes at the edge of each piece that overlaps", "1";
        overlap: Field<Written> = NonNegative, BookValue("pillow_overlap"),
            "how far the pieces overlap when they are hemmed", "4";
    }
    by_hand {
        requires: Vec<PerSize<PillowPieces>> = Shape::BySize(&Shape::Table(PillowPieces::SECTION)), Required,
            "for each size that is a pillow the two pieces of its back",
            "{ crib: { first: 36 1/2 x 26, second: 36 1/2 x 29 } }";
    }
    besides {
        /// Where the word `pillow_back` stands.
        at: Span,
    }
);

section!(
    /// The two pieces of the back of one pillow.
    pub struct PillowPieces, "pillow_back requires", "For each size in the `requires` of `pillow_back`", "";
    words {
        first: Field<(Written, Written)> = Dimensions, Required,
            "how one of them is cut: along the opening x across it", "18 1/2 x 12";
        second: Field<(Written, Written)> = Dimensions, Required, "how the other is cut, the same way", "18 1/2 x 14";
    }
    by_hand {}
    besides {}
);

pub(super) fn read_sleeve(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<Sleeve> {
    let mut table = Table::new(reader, "sleeve", entry.key_at, &entry.value, "depth: 4")?;
    let mut sleeve = Sleeve { at: entry.key_at, ..Sleeve::read_words(&mut table, reader, known) };
    if let Some(requires) = table.expected(Sleeve::requires) {
        sleeve.requires =
            read_for_some(reader, known.sizes, "sleeve", requires, "crib: 8 1/2 x 36", |reader, entry| {
                reader.dimensions(&entry.value).stated().cloned()
            });
    }
    table.finish(reader, true);
    Some(sleeve)
}

pub(super) fn read_prairie_points(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    entry: &Entry<'_>,
) -> Option<PrairiePoints> {
    let mut table = Table::new(reader, "prairie_points", entry.key_at, &entry.value, "square: 4")?;
    let mut points = PrairiePoints { at: entry.key_at, ..PrairiePoints::read_words(&mut table, reader, known) };
    if let Some(requires) = table.expected(PrairiePoints::requires) {
        points.requires =
            read_for_some(reader, known.sizes, "prairie_points", requires, "crib: 60", |reader, entry| {
                reader.count(&entry.value).stated().cloned()
            });
    }
    table.finish(reader, true);
    Some(points)
}

pub(super) fn read_pillow_back(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    entry: &Entry<'_>,
) -> Option<PillowBack> {
    const EXAMPLE: &str = "{ first: 18 1/2 x 12, second: 18 1/2 x 14 }";
    let mut table = Table::new(reader, "pillow_back", entry.key_at, &entry.value, "overlap: 4")?;
    let mut back = PillowBack { at: entry.key_at, ..PillowBack::read_words(&mut table, reader, known) };
    if let Some(requires) = table.expected(PillowBack::requires) {
        back.requires = read_for_some(reader, known.sizes, "pillow_back", requires, EXAMPLE, |reader, entry| {
            let name = ["pillow_back", entry.key];
            let mut table = Table::new(reader, name, entry.key_at, &entry.value, EXAMPLE)?;
            let pieces = PillowPieces::read_words(&mut table, reader, known);
            table.finish(reader, true);
            Some(pieces)
        });
    }
    table.finish(reader, true);
    Some(back)
}
