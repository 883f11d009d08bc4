//! Reading the units that are sewn from pieces.

use super::design::{CutFrom, Make, Method, PartCut, PieceRef, Unit};
use super::mistake::AMONG_PIECES;
use super::read_fabrics::{Fabrics, unfit_name};
use super::read_sizes::{is_fit_name, positive};
use super::reader::{Least, Reader};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Span, Spanned, What, Word, nearest, quoted};
use crate::quantity::Written;

/// How many units a pattern may list.
const MOST_UNITS: usize = 200;

/// How many strips a strip set may have.
const MOST_STRIPS: usize = 50;

const UNIT_EXAMPLE: &str = "geese: { make: flying_geese, finished: 4 x 2, cut: { goose: A, sky: B } }";
const CUT_EXAMPLE: &str = "cut: { goose: A, sky: B }";

/// The units and whether all of them could be read.
#[derive(Debug, Default)]
pub(super) struct Units {
    pub(super) list: Vec<Unit>,
    /// False where part of the section is broken, so that no name can be called unknown.
    pub(super) whole: bool,
    /// Whether there is such a section at all.
    pub(super) stated: bool,
}

pub(super) fn read_units(reader: &mut Reader, fabrics: &Fabrics, entry: &Entry<'_>) -> Units {
    let Some(table) = Table::new(reader, "units", entry.key_at, &entry.value, UNIT_EXAMPLE) else {
        return Units { stated: true, ..Units::default() };
    };
    let mut whole = !table.is_torn();
    if let Some(beyond) = table.entries().get(MOST_UNITS) {
        whole = false;
        let why = format!("a pattern may list {MOST_UNITS} units at most; this one and what follows are not read");
        reader.report(beyond.key_at, What::OutOfRange { why });
    }
    let pieces = Pieces::of(fabrics);
    let entries = table.entries().iter().take(MOST_UNITS);
    let list: Vec<Option<Unit>> = entries.map(|entry| read_unit(reader, &pieces, entry)).collect();
    whole &= list.iter().all(Option::is_some);
    Units { list: list.into_iter().flatten().collect(), whole, stated: true }
}

/// Reads the name of a unit where one is mentioned: its place among the units.
pub(super) fn read_unit_name(reader: &mut Reader, units: &Units, node: &Node<'_>) -> Field<usize> {
    let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
    match units.list.iter().position(|unit| unit.name == name) {
        Some(index) => Field::Stated(Spanned { value: index, at }),
        None => unknown_unit(reader, units, at, &name),
    }
}

/// Reports a name that no unit has, where all units could be read.
pub(super) fn unknown_unit<T>(reader: &mut Reader, units: &Units, at: Span, name: &str) -> Field<T> {
    if units.whole || !units.stated {
        unknown(reader, at, name, "the pattern's units", units.list.iter().map(|unit| unit.name.as_str()));
    }
    Field::Unread
}

/// Reports a name that is not among others.
pub(super) fn unknown<'k>(
    reader: &mut Reader,
    at: Span,
    name: &str,
    among: &'static str,
    known: impl Iterator<Item = &'k str> + Clone,
) {
    let nearest = if reader.is_full() { None } else { nearest(name, known.clone()).map(str::to_string) };
    // Where the mistakes are only counted, nobody reads the names.
    let known = if reader.is_full() { Vec::new() } else { known.map(quoted).collect() };
    reader.report(at, What::UnknownName { name: quoted(name), among, known, nearest });
}

fn read_unit(reader: &mut Reader, pieces: &Pieces<'_>, entry: &Entry<'_>) -> Option<Unit> {
    let name = entry.key.to_string();
    if !is_fit_name(&name) {
        reader.report(entry.key_at, unfit_name("unit"));
        return None;
    }
    let mut table = Table::new(reader, format!("unit {name}"), entry.key_at, &entry.value, UNIT_EXAMPLE)?;
    let make: Field<Make> = table.required("make", |node| reader.word(node, "make"));
    let known = make.value();
    let method = read_method(reader, &mut table, &make);
    let finished = table.required("finished", |node| read_square_or_sides(reader, node));
    let seam = table.optional("seam", |node| positive(reader, node));
    let yields = table.optional("yields", |node| reader.count(node));
    let trim = match known {
        // Triangles that set blocks are trimmed with the quilt's edge.
        Some(make) if make.sets_blocks() => Field::Absent,
        _ => table.optional("trim", |node| read_square_or_sides(reader, node)),
    };
    let segment = match known {
        Some(Make::StripSet) | None => table.optional("segment", |node| positive(reader, node)),
        Some(_) => Field::Absent,
    };
    let cut = table.entry("cut");
    let mut unit = Unit {
        at: entry.key_at,
        make,
        method,
        finished,
        seam,
        cut_at: cut.map(|cut| cut.key_at),
        cut: Vec::new(),
        cut_whole: true,
        yields,
        trim,
        segment,
        name,
    };
    check_shape(reader, &mut unit);
    if let Some(cut) = cut {
        (unit.cut, unit.cut_whole) = read_parts(reader, pieces, &unit, cut);
    }
    table.finish(reader, true);
    Some(unit)
}

/// One of the ways in which the make is made.
fn read_method(reader: &mut Reader, table: &mut Table<'_, '_>, make: &Field<Make>) -> Field<Method> {
    let ways = match make.value() {
        None => return table.optional("method", |node| reader.word(node, "method")),
        Some(make) => make.methods(),
    };
    if ways.is_empty() {
        return Field::Absent;
    }
    table.optional("method", |node| {
        let Field::Stated(Spanned { value: text, at }) = reader.text(node) else { return Field::Unread };
        let found = Method::from_word(&text).filter(|method| ways.contains(method));
        if let Some(value) = found {
            return Field::Stated(Spanned { value, at });
        }
        let known: Vec<&'static str> = words_of(ways).collect();
        let nearest = nearest(&text, known.iter().copied());
        let make = make.value().map_or("", word_of);
        let what = What::UnknownWord { word: quoted(&text), place: format!("`method` of {make}"), known, nearest };
        reader.report(at, what);
        Field::Unread
    })
}

fn word_of<W: Word + PartialEq>(value: W) -> &'static str {
    W::WORDS.iter().find(|(_, known)| *known == value).map_or("", |(word, _)| word)
}

fn words_of(ways: &[Method]) -> impl Iterator<Item = &'static str> {
    ways.iter().copied().map(word_of)
}

/// A width and a height, or the one side of a square.
pub(super) fn read_square_or_sides(reader: &mut Reader, node: &Node<'_>) -> Field<(Written, Written)> {
    match &node.kind {
        Kind::Scalar { value, .. } if !value.contains(['x', 'X', '×']) => {
            reader.length(node, Least::Positive).map(|side| (side, side))
        }
        _ => reader.dimensions(node),
    }
}

/// Reports a finished size that the make cannot have.
fn check_shape(reader: &mut Reader, unit: &mut Unit) {
    let (Some(make), Some(finished)) = (unit.make.value(), unit.finished.stated()) else { return };
    let (width, height) = (finished.value.0.length, finished.value.1.length);
    let (fits, why, mend) = match make {
        Make::Patch | Make::HalfRectangleTriangle | Make::StripSet => return,
        Make::FlyingGeese => (
            width == height * 2,
            "Flying geese are twice as wide as they are high, and this finished size is not",
            "State the width and half of it, such as 4 x 2",
        ),
        Make::HalfSquareTriangle | Make::QuarterSquareTriangle | Make::SquareInASquare => (
            width == height,
            "This unit is square, and its finished size is not",
            "State one length, such as 3; halves of a rectangle are a half_rectangle_triangle",
        ),
        Make::SideTriangle | Make::CornerTriangle => (
            width == height,
            "Only square blocks are set on point, and this finished size is not square",
            "State the finished size of the block that the triangles set, such as 12",
        ),
    };
    if !fits {
        reader.report(finished.at, What::CannotBe { why: why.into(), mend });
        unit.finished = Field::Unread;
    }
}

/// What the parts are cut from, and whether all of them were read.
fn read_parts(reader: &mut Reader, pieces: &Pieces<'_>, unit: &Unit, entry: &Entry<'_>) -> (Vec<PartCut>, bool) {
    let place = format!("cut of unit {}", unit.name);
    let Some(mut table) = Table::new(reader, place, entry.key_at, &entry.value, CUT_EXAMPLE) else {
        return (Vec::new(), false);
    };
    let read = |reader: &mut Reader, entry: &Entry<'_>| PartCut {
        part: entry.key.to_string(),
        at: entry.key_at,
        from: pieces.read(reader, &entry.value),
    };
    let mut whole = !table.is_torn();
    let mut parts = Vec::new();
    match unit.make.value() {
        None => return (Vec::new(), false),
        Some(Make::StripSet) => {
            if table.entries().is_empty() {
                table.lacks("strip");
                table.finish(reader, true);
                return (parts, false);
            }
            if let Some(beyond) = table.entries().get(MOST_STRIPS) {
                whole = false;
                let why = format!("a strip set may have {MOST_STRIPS} strips at most");
                reader.report(beyond.key_at, What::OutOfRange { why });
            }
            parts.extend(table.entries().iter().take(MOST_STRIPS).map(|entry| read(reader, entry)));
        }
        Some(make) => {
            for part in make.parts() {
                match table.entry(part) {
                    Some(entry) => parts.push(read(reader, entry)),
                    None => table.lacks(part),
                }
            }
            whole &= parts.len() == make.parts().len();
            table.finish(reader, true);
        }
    }
    (parts, whole)
}

/// The pieces of all cutting lists.
pub(super) struct Pieces<'f> {
    /// Each piece with its fabric's name and its own.
    list: Vec<(PieceRef, &'f str, &'f str)>,
    /// False where part of the lists is broken, so that no name can be called unknown.
    whole: bool,
}

impl<'f> Pieces<'f> {
    pub(super) fn of(fabrics: &'f Fabrics) -> Pieces<'f> {
        let mut list = Vec::new();
        for (index, fabric) in fabrics.list.iter().enumerate() {
            for (cut, stated) in fabric.cut.iter().enumerate() {
                if let Some(piece) = stated.piece.stated() {
                    list.push((PieceRef { fabric: index, cut }, fabric.name.as_str(), piece.value.as_str()));
                }
            }
        }
        Pieces { list, whole: fabrics.pieces_whole() }
    }

    /// A piece by its name, or a size.
    fn read(&self, reader: &mut Reader, node: &Node<'_>) -> Field<CutFrom> {
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
                read_square_or_sides(reader, node).map(|(width, height)| CutFrom::Size(width, height))
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
        reader.report(at, What::CannotBe { why, mend });
        Field::Unread
    }
}
