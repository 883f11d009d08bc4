//! Reading the backing and the batting sections.

use super::declared_names::DeclaredNames;
use super::kinds::{Dimensions, Fabric, NonNegative, OneOf, Positive, Whole};
use super::model::{BattingSize, Packaged, PanelsRun, PerSize, YesNo};
use super::read_per_size::read_per_size;
use super::reader::Reader;
use super::section::LeftOut::{BookValue, Required, Said, Standard, Unless};
use super::section::{Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Keyword, Span, Spanned};
use crate::quantity::{Amount, Count, Written};

const BACKING_EXAMPLE: &str = "crib: { fabric: 2 1/2 yd, panels: 2, panels_run: across }";
const BATTING_EXAMPLE: &str = "crib: 44 x 56";

section!(
    /// The backing: how it is made, and what is stated for each size.
    pub struct Backing, "backing", "In `backing`", "";
    words {
        overhang: Field<Written> = NonNegative, BookValue("backing_overhang"),
            "how far it reaches beyond the quilt at each side", "4";
        seam: Field<Written> = Positive, BookValue("backing_seam"), "the seam that joins its panels", "1/2";
        usable_width: Field<Written> = Positive, Said("that of `assumes`"),
            "the usable width of the backing fabric alone, 108 for a wide one", "108";
        directional: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where the print has a way up, so that panels must run along the quilt; or `no`", "yes";
    }
    by_hand {
        requires: Vec<PerSize<BackingRequires>> =
            Shape::BySize(&Shape::Either(&[Fabric::SHAPE, Shape::Table(BackingRequires::SECTION)])), Required,
            "what the pattern prints for each size", "{ crib: { fabric: 2 1/2 yd, panels: 2, panels_run: across } }";
    }
    besides {
        /// Where the word `backing` stands.
        at: Span,
    }
);

section!(
    /// What the pattern prints about the backing of one size.
    pub struct BackingRequires, "backing requires",
        "For each size in the `requires` of `backing`, an amount of fabric alone, or", "";
    words {
        fabric: Field<Amount> = Fabric, Unless(&["panels"], ""),
            "how much fabric the pattern tells its reader to buy", "2 1/2 yd", hint("or panels: 2, or both");
        panels: Field<Count> = Whole, Said("as many as it takes"), "how many panels the backing is sewn from", "2";
        panels_run: Field<PanelsRun> = OneOf<PanelsRun>,
            Said("the way that needs less fabric; along, where the print is directional"),
            "the way they run: `along` the length of the quilt, or `across` its width", "along";
    }
    by_hand {}
    besides {
        /// Where the size's name stands.
        at: Span,
    }
);

section!(
    /// The batting, and what is stated for each size.
    pub struct Batting, "batting", "In `batting`", "";
    words {
        overhang: Field<Written> = NonNegative, Said("that of `backing`; where that has none, {batting_overhang}"),
            "how far it reaches beyond the quilt at each side", "4";
    }
    by_hand {
        requires: Vec<PerSize<Spanned<BattingSize>>> =
            Shape::BySize(&Shape::Either(&[Dimensions::SHAPE, Shape::Choice(Packaged::NAMES)])), Required,
            "for each size a width x length, or a package by its name: `packaged crib`, `packaged twin`, \
             `packaged full`, `packaged queen` or `packaged king`", "{ crib: 44 x 56 }";
    }
    besides {
        /// Where the word `batting` stands.
        at: Span,
    }
);

pub(super) fn read_backing(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<Backing> {
    let mut table = Table::new(reader, "backing", entry.key_at, &entry.value, "overhang: 4")?;
    let mut backing = Backing { at: entry.key_at, ..Backing::read_words(&mut table, reader, known) };
    if let Some(requires) = table.expected(Backing::requires) {
        backing.requires = read_per_size(reader, known.sizes, "backing", requires, BACKING_EXAMPLE, |reader, entry| {
            read_requires(reader, known, entry)
        });
    }
    table.finish(reader, true);
    Some(backing)
}

/// A fabric amount alone, or a table.
fn read_requires(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<BackingRequires> {
    let at = entry.key_at;
    if !matches!(entry.value.kind, Kind::Table(_)) {
        return Some(BackingRequires { at, fabric: reader.amount(&entry.value), ..BackingRequires::default() });
    }
    let name = ["backing", "requires", &entry.key];
    let mut table = Table::new(reader, name, at, &entry.value, BACKING_EXAMPLE)?;
    let requires = BackingRequires { at, ..BackingRequires::read_words(&mut table, reader, known) };
    if requires.fabric.is_absent() && requires.panels.is_absent() {
        table.lacks(BackingRequires::fabric);
    }
    table.finish(reader, true);
    Some(requires)
}

pub(super) fn read_batting(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<Batting> {
    let mut table = Table::new(reader, "batting", entry.key_at, &entry.value, "overhang: 4")?;
    let mut batting = Batting { at: entry.key_at, ..Batting::read_words(&mut table, reader, known) };
    if let Some(requires) = table.expected(Batting::requires) {
        let read = |reader: &mut Reader, entry: &Entry<'_>| read_size(reader, &entry.value);
        batting.requires = read_per_size(reader, known.sizes, "batting", requires, BATTING_EXAMPLE, read);
    }
    table.finish(reader, true);
    Some(batting)
}

/// A width and a length, or the name of a packaged size.
fn read_size(reader: &mut Reader, node: &Node<'_>) -> Option<Spanned<BattingSize>> {
    let named = match &node.kind {
        Kind::Scalar { value, .. } => value.starts_with(char::is_alphabetic),
        _ => false,
    };
    let size = if named {
        reader.word(node, "batting requires").map(BattingSize::Packaged)
    } else {
        reader.dimensions(node).map(|(width, length)| BattingSize::Measured(width, length))
    };
    size.stated().cloned()
}
