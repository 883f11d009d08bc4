//! Reading the backing and the batting sections.

use super::by_size::{BySize, OneOrEach};
use super::declared_names::{DeclaredNames, is_fit_name};
use super::kinds::{Dimensions, Fabric, FabricName, NonNegative, OneOf, Percentage, Positive, Whole};
use super::model::{BattingSize, Packaged, PanelsRun, PerSize, YesNo};
use super::read_per_size::read_per_size;
use super::reader::{Bound, Reader};
use super::section::LeftOut::{BookValue, Required, Said, Standard, Unless};
use super::section::{Row, Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Keyword, MistakeKind, Span, Spanned};
use crate::quantity::{Amount, Count, Percent, Written, has_times};

const BACKING_EXAMPLE: &str = "crib: { fabric: 2 1/2 yd, panels: 2, panels_run: across }";
const BATTING_EXAMPLE: &str = "crib: 44 x 56";

section!(
    /// The backing: how it is made, and what is stated for each size.
    pub struct Backing, "backing", "In `backing`", "";
    words {
        from: Field<usize> = FabricName, Said("a fabric by itself"),
            "the fabric that it is cut from, by its name in `fabrics`; its panels then count in what is bought of that",
            "ink";
        overhang: BySize<Overhang> = OneOrEach<OverhangKind>, BookValue("backing_overhang"),
            "how far it reaches beyond the quilt at each side, or `{ across: 2, down: 3 }`", "4";
        seam: Field<Written> = Positive, BookValue("backing_seam"), "the seam that joins its panels", "1/2";
        usable_width: Field<Written> = Positive, Said("that of `assumes`"),
            "the usable width of the backing fabric alone, 108 for a wide one", "108";
        directional: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where the print has a way up, so that panels must run along the quilt; or `no`", "yes";
        shrinks: Field<Percent> = Percentage, Said("as `assumes` says"),
            "how much shorter its fabric is after washing, where it is washed first", "3 %", not_beside(&["from"]);
        insert: BySize<Written> = OneOrEach<Positive>, Said("panels alone"),
            "how wide a strip of another fabric is cut that is sewn in between the panels", "12 1/2";
    }
    by_hand {
        requires: Vec<PerSize<BackingRequires>> =
            Shape::BySize(&Shape::Either(&[Fabric::SHAPE, Dimensions::SHAPE, Shape::Table(BackingRequires::SECTION)])),
            Required,
            "what the pattern prints for each size", "{ crib: { fabric: 2 1/2 yd, panels: 2, panels_run: across } }";
    }
    besides {
        /// Where the word `backing` stands.
        at: Span,
    }
);

section!(
    /// How far a layer reaches beyond the quilt, where the sides differ.
    pub struct Sides, "overhang", "In `overhang`, where the sides differ", "";
    words {
        across: Field<Written> = NonNegative, Required, "how far it reaches at the left and at the right", "2";
        down: Field<Written> = NonNegative, Required, "how far it reaches at the top and at the bottom", "3";
    }
    by_hand {}
    besides {}
);

/// How far a layer reaches beyond the quilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Overhang {
    /// At its left and its right.
    pub across: Written,
    /// At its top and its bottom.
    pub down: Written,
}

/// One length for all sides, or one each way.
struct OverhangKind;

impl ValueKind for OverhangKind {
    type Field = Field<Overhang>;
    const SHAPE: Shape = Shape::Either(&[NonNegative::SHAPE, Shape::Table(Sides::SECTION)]);
    const TAKES_TABLE: bool = true;

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, _: &'static Row, entry: &Entry<'_>) -> Field<Overhang> {
        let node = &entry.value;
        if !matches!(node.kind, Kind::Table(_)) {
            return reader.length(node, Bound::NonNegative).map(|by| Overhang { across: by, down: by });
        }
        let Some(mut table) = Table::new(reader, "overhang", entry.key_at, node, "{ across: 2, down: 3 }") else {
            return Field::Unread;
        };
        let sides = Sides::read_words(&mut table, reader, known);
        table.finish(reader, true);
        match sides.across.value().zip(sides.down.value()) {
            Some((across, down)) => Field::Stated(Spanned { value: Overhang { across, down }, at: node.at }),
            None => Field::Unread,
        }
    }

    fn unread() -> Field<Overhang> {
        Field::Unread
    }
}

section!(
    /// What the pattern prints about the backing of one size.
    pub struct BackingRequires, "backing requires",
        "For each size in the `requires` of `backing`, an amount of fabric or a size alone, or", "";
    words {
        fabric: Field<Amount> = Fabric, Unless(&["panels", "size"], "left out with `from`"),
            "how much fabric the pattern tells its reader to buy", "2 1/2 yd", hint("or panels: 2, or both");
        size: Field<(Written, Written)> = Dimensions, Said("as large as it must be"),
            "how large the backing is made, width x length", "44 x 56";
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
        overhang: BySize<Overhang> = OneOrEach<OverhangKind>,
            Said("that of `backing`; where that has none, {batting_overhang}"),
            "how far it reaches beyond the quilt at each side, or `{ across: 2, down: 3 }`", "4";
        shrinks: Field<Percent> = Percentage, Said("not at all"),
            "how much smaller it is after washing, where it is washed first", "3 %";
    }
    by_hand {
        requires: Vec<PerSize<Spanned<BattingSize>>> =
            Shape::BySize(&Shape::Either(&[Dimensions::SHAPE, Shape::Choice(Packaged::NAMES), Shape::PackageOfHouse])), Required,
            "for each size a width x length, or a package by its name: `packaged crib`, `packaged twin`, \
             `packaged full`, `packaged queen`, `packaged king`, or one that the house rules add", "{ crib: 44 x 56 }";
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
    report_fabric_twice(reader, &backing);
    table.finish(reader, true);
    Some(backing)
}

/// The fabric that the backing is cut from says already how much there is of it.
fn report_fabric_twice(reader: &mut Reader, backing: &Backing) {
    let Some(from) = backing.from.at() else { return };
    if let Some(shrinks) = backing.shrinks.at() {
        let mend = Some("state shrinks in that fabric, or take `from` out, if it is a fabric by itself");
        let what = MistakeKind::RepeatedKey { word: Backing::shrinks.word.into(), mend };
        reader.report_with(shrinks, what, from, "the backing shrinks as this fabric does");
    }
    for fabric in backing.requires.iter().filter_map(|requires| requires.stated()?.fabric.at()) {
        let mend = Some("take the backing's own amount out, or take `from` out, if it is a fabric by itself");
        let what = MistakeKind::RepeatedKey { word: "fabric".into(), mend };
        reader.report_with(fabric, what, from, "the backing counts in the sum of this fabric");
    }
}

/// A fabric amount or a size alone, or a table.
fn read_requires(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<BackingRequires> {
    let at = entry.key_at;
    if !matches!(entry.value.kind, Kind::Table(_)) {
        let is_size = matches!(&entry.value.kind, Kind::Scalar { value, .. } if has_times(value));
        return Some(if is_size {
            BackingRequires { at, size: reader.dimensions(&entry.value), ..BackingRequires::default() }
        } else {
            BackingRequires { at, fabric: reader.amount(&entry.value), ..BackingRequires::default() }
        });
    }
    let name = ["backing", "requires", entry.key];
    let mut table = Table::new(reader, name, at, &entry.value, BACKING_EXAMPLE)?;
    let requires = BackingRequires { at, ..BackingRequires::read_words(&mut table, reader, known) };
    if requires.fabric.is_absent() && requires.panels.is_absent() && requires.size.is_absent() {
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
    let size = if let Some(name) = of_house(node) {
        Field::Stated(Spanned { value: BattingSize::OfHouse(name.to_string()), at: node.at })
    } else if named {
        reader.word(node, "batting requires").map(BattingSize::Packaged)
    } else {
        reader.dimensions(node).map(|(width, length)| BattingSize::Measured(width, length))
    };
    size.stated().cloned()
}

/// The name of a package that the rule book does not have: whether a house has it, its settings say.
fn of_house<'n>(node: &'n Node<'_>) -> Option<&'n str> {
    let Kind::Scalar { value, .. } = &node.kind else { return None };
    let name = value.strip_prefix("packaged ")?.trim();
    (Packaged::from_word(value).is_none() && is_fit_name(name)).then_some(name)
}
