//! Reading the units that are sewn from pieces.

use super::by_size::{BySize, OneOrSome};
use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name};
use super::design::{Make, Method, PartCut, TakenPiece};
use super::kinds::{Lengths, OneOf, Positive, SquareOrSides, Whole};
use super::piece_names::Pieces;
use super::reader::Reader;
use super::section::LeftOut::{Required, Said};
use super::section::{Row, Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Node};
use super::{Field, Keyword, MistakeKind, Span, Spanned, nearest, quoted};
use crate::quantity::{Count, Written};
use crate::quilt_math::log_cabin::LogOrder;
use crate::quilt_math::makes::{Finished, MAX_LOGS, MakeRow, PartRow};

/// How many units a pattern may list.
const MAX_UNITS: usize = 200;

/// How many corners a unit can have.
const MAX_CORNERS: usize = 4;

/// How many strips a strip set may have.
const MAX_STRIPS: usize = 50;

const UNIT_EXAMPLE: &str = "geese: { make: flying_geese, finished: 4 x 2, cut: { goose: A, sky: B } }";
const CUT_EXAMPLE: &str = "cut: { goose: A, sky: B }";
const TAKES_EXAMPLE: &str = "takes: { A: 1, B: 2 }";
const STRIP_EXAMPLE: &str = "dark: A   (a name for the strip, and the piece it is cut from)";

section!(
    /// A unit: pieces sewn together.
    pub struct Unit, "units", "In each of the `units`",
        "Pieces of one name that are cut alike from several fabrics are counted together. To name the piece of one fabric \
         alone, write the fabric before it: `ink A`.";
    words {
        make: Field<Make> = OneOf<Make>, Required, "what it is: one of those under `make`", "half_square_triangle";
        finished: Field<(Written, Written)> = SquareOrSides, Required,
            "its finished width x height; one length stands for a square. For triangles that set blocks, the finished \
             block", "3";
        seam: Field<Written> = Positive, Said("that of `assumes`"), "the seam that it is pieced with", "1/4";
        yields: Field<Count> = Whole, Said("as many as the method gives"),
            "how many one set of its pieces makes, or how many segments one strip set", "2";
        makes: BySize<Count> = OneOrSome<Whole>, Said("not checked"),
            "how many of it the text says to make, for all sizes or for each", "80";
    }
    by_hand {
        method: Field<Method> = Shape::Choice(Method::NAMES), Said("the first that is listed for its make"),
            "how it is made, where there is more than one way", "two_at_a_time",
            makes(MakeRow::has_methods);
        cut: Vec<PartCut> = Shape::Parts, Said("its cut sizes and its pieces are not checked"),
            "for each part of it, by the names under `make`, the piece of a cutting list that it is cut from, or a cut \
             size", "{ first: A, second: B }";
        takes: Vec<TakenPiece> = Shape::Named(&Whole::SHAPE), Said("the pieces for it are not counted"),
            "for `other`: the pieces of cutting lists that one unit takes, and how many of each", "{ A: 1, B: 2 }",
            makes(MakeRow::is_other);
        corner: Field<Vec<Spanned<Written>>> = Lengths::<MAX_CORNERS>::SHAPE, Required,
            "for a `snowball`: how large its flipped corners finish, one length where all are alike, or a list with one \
             for each", "2", makes(MakeRow::has_corners);
        corners: Field<Count> = Shape::Count(1, MAX_CORNERS as u64), Said("all four"),
            "for a `snowball` whose corners are alike: how many there are", "3", makes(MakeRow::has_corners);
        center: Field<(Written, Written)> = SquareOrSides::SHAPE, Required,
            "for a `log_cabin`: how large its center finishes", "3", makes(MakeRow::has_logs);
        logs: Field<Vec<Spanned<Written>>> = Lengths::<MAX_LOGS>::SHAPE, Required,
            "for a `log_cabin`: how wide each log finishes, in the order of sewing", "[1, 1, 1, 1]",
            makes(MakeRow::has_logs);
        order: Field<LogOrder> = Shape::Choice(LogOrder::NAMES), Said("round the center"),
            "for a `log_cabin`: `round`, one side after another; `opposite`, two facing sides and then the other two, as \
             courthouse steps are; or `two_sides`, always the same two. The first log is as long as the center is high",
             "opposite", makes(MakeRow::has_logs);
        trim: Field<(Written, Written)> = SquareOrSides::SHAPE, Said("not checked"),
            "the size that the text says to trim it to", "3 1/2", makes(is_trimmed);
        segment: Field<Written> = Positive::SHAPE, Said("the finished height and two seams"),
            "for a `strip_set`: how wide its segments are cut", "2 1/2", makes(MakeRow::is_strip_set);
    }
    besides {
        /// What the pattern calls it.
        name: String,
        /// Where its name stands.
        at: Span,
        /// Where the word `cut` stands, if it does.
        cut_at: Option<Span>,
        /// Whether every part that it has, or every piece that it takes, was read.
        cut_whole: bool,
    }
);

/// Triangles that set blocks are trimmed with the quilt's edge.
fn is_trimmed(make: &MakeRow) -> bool {
    make.finished != Finished::OfBlock
}

/// The units and whether all of them could be read.
#[derive(Debug, Default)]
pub(super) struct Units {
    pub(super) list: Vec<Unit>,
    /// False where part of the section is broken, so that no name can be called unknown.
    pub(super) whole: bool,
    /// Whether there is such a section at all.
    pub(super) stated: bool,
}

impl Units {
    /// Their names.
    pub(super) fn names(&self) -> NameList<'_> {
        NameList::new(self.list.iter().map(|unit| (unit.name.as_str(), unit.at)), self.whole, self.stated)
    }
}

pub(super) fn read_units(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Units {
    let Some(table) = Table::new(reader, "units", entry.key_at, &entry.value, UNIT_EXAMPLE) else {
        return Units { stated: true, ..Units::default() };
    };
    let mut whole = !table.is_torn();
    if let Some(beyond) = table.entries().get(MAX_UNITS) {
        whole = false;
        let why = format!("a pattern may list {MAX_UNITS} units at most; this one and what follows are not read");
        reader.report(beyond.key_at, MistakeKind::TooMany { why });
    }
    let entries = table.entries().iter().take(MAX_UNITS);
    let list: Vec<Option<Unit>> = entries.map(|entry| read_unit(reader, known, entry)).collect();
    whole &= list.iter().all(Option::is_some);
    Units { list: list.into_iter().flatten().collect(), whole, stated: true }
}

fn read_unit(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<Unit> {
    let name = entry.key.to_string();
    if !is_fit_name(&name) {
        reader.report(entry.key_at, unfit_name("unit"));
        return None;
    }
    let mut table = Table::new(reader, ["unit", entry.key], entry.key_at, &entry.value, UNIT_EXAMPLE)?;
    let mut unit = Unit { name, at: entry.key_at, cut_whole: true, ..Unit::read_words(&mut table, reader, known) };
    let make = unit.make.value();
    if Unit::method.is_known_in(make)
        && let Some(entry) = table.entry(Unit::method)
    {
        unit.method = read_method(reader, make, &entry.value);
    }
    if Unit::trim.is_known_in(make) {
        unit.trim = table.read::<SquareOrSides>(reader, known, Unit::trim);
    }
    if Unit::segment.is_known_in(make) {
        unit.segment = table.read::<Positive>(reader, known, Unit::segment);
    }
    if Unit::corner.is_known_in(make) {
        unit.corner = read_required::<Lengths<MAX_CORNERS>>(&mut table, reader, known, Unit::corner, make);
        unit.corners = table.read::<Whole>(reader, known, Unit::corners);
        check_corners(reader, &mut unit);
    }
    if Unit::center.is_known_in(make) {
        unit.center = read_required::<SquareOrSides>(&mut table, reader, known, Unit::center, make);
        unit.logs = read_required::<Lengths<MAX_LOGS>>(&mut table, reader, known, Unit::logs, make);
        unit.order = table.read::<OneOf<LogOrder>>(reader, known, Unit::order);
    }
    check_shape(reader, &mut unit);
    if Unit::takes.is_known_in(make)
        && let Some(takes) = table.entry(Unit::takes)
    {
        unit.cut_at = Some(takes.key_at);
        (unit.takes, unit.cut_whole) = read_takes(reader, known.pieces, &unit, takes);
    }
    if let Some(cut) = table.entry(Unit::cut) {
        unit.cut_at = Some(cut.key_at);
        (unit.cut, unit.cut_whole) = read_parts(reader, known.pieces, &unit, cut);
    }
    table.finish(reader, true);
    Some(unit)
}

/// A word that every unit of its makes must state; unread where it is not there.
fn read_required<K: ValueKind>(
    table: &mut Table<'_, '_>,
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    row: &'static Row,
    make: Option<Make>,
) -> K::Field {
    if table.entry(row).is_some() {
        return table.read::<K>(reader, known, row);
    }
    // Of a make that could not be read, it is not known what it must state.
    if make.is_some() {
        table.lacks(row);
    }
    K::unread()
}

/// One of the ways in which the make is made.
fn read_method(reader: &mut Reader, make: Option<Make>, node: &Node<'_>) -> Field<Method> {
    let Some(make) = make else { return reader.word(node, Unit::method.word) };
    let Field::Stated(Spanned { value: text, at }) = reader.text(node) else { return Field::Unread };
    let methods = || make.row().ways.iter().filter_map(|way| way.method);
    if let Some(value) = Method::from_word(&text).filter(|method| methods().any(|known| known == *method)) {
        return Field::Stated(Spanned { value, at });
    }
    let known: Vec<&'static str> = methods().map(Keyword::word).collect();
    let nearest = nearest(&text, known.iter().copied());
    let place = format!("`{}` of {}", Unit::method.word, make.word());
    reader.report(at, MistakeKind::UnknownWord { word: quoted(&text), place, known, nearest });
    Field::Unread
}

/// Reports corners that a unit cannot have.
fn check_corners(reader: &mut Reader, unit: &mut Unit) {
    let most = Count(MAX_CORNERS as u64);
    if let Some(corners) = unit.corners.stated().filter(|count| count.value < Count(1) || count.value > most) {
        let why = "a unit has 1 to 4 corners".to_string();
        reader.report(corners.at, MistakeKind::OutOfRange { why, help: "State how many of its corners are flipped." });
        unit.corners = Field::Unread;
    }
    if let (Some(listed), Some(count)) = (unit.corner.stated(), unit.corners.stated())
        && listed.value.len() > 1
        && count.value != Count(listed.value.len() as u64)
    {
        let why = format!("{} corners are listed with their sizes, and {} stated", listed.value.len(), count.value);
        let mend = "Take `corners` out, or list a size for each corner";
        reader.report(count.at, MistakeKind::CannotBe { why, mend });
        unit.corners = Field::Unread;
    }
    let Some((_, height)) =
        unit.finished.value().map(|(width, height)| (width.length, width.length.min(height.length)))
    else {
        return;
    };
    let too_large = unit
        .corner
        .stated()
        .and_then(|corners| corners.value.iter().find(|corner| corner.value.length > height).map(|corner| corner.at));
    if let Some(at) = too_large {
        let why = "This corner is larger than its unit".to_string();
        reader.report(at, MistakeKind::CannotBe { why, mend: "State how large the corner finishes, such as 2" });
        unit.corner = Field::Unread;
    }
}

/// The pieces that one unit takes, and whether all of them were read.
fn read_takes(reader: &mut Reader, pieces: &Pieces<'_>, unit: &Unit, entry: &Entry<'_>) -> (Vec<TakenPiece>, bool) {
    let place = ["takes of unit", unit.name.as_str()];
    let Some(table) = Table::new(reader, place, entry.key_at, &entry.value, TAKES_EXAMPLE) else {
        return (Vec::new(), false);
    };
    if let Some(beyond) = table.entries().get(MAX_STRIPS) {
        let why = format!("a unit may take {MAX_STRIPS} kinds of pieces at most");
        reader.report(beyond.key_at, MistakeKind::TooMany { why });
        return (Vec::new(), false);
    }
    let read = |reader: &mut Reader, entry: &Entry<'_>| TakenPiece {
        name: entry.key.to_string(),
        at: entry.key_at,
        piece: pieces.piece_named(reader, entry.key, entry.key_at),
        count: reader.count(&entry.value),
    };
    let takes: Vec<TakenPiece> = table.entries().iter().map(|entry| read(reader, entry)).collect();
    let whole = !table.is_torn() && takes.iter().all(|taken| !taken.piece.is_unread() && !taken.count.is_unread());
    (takes, whole)
}

/// Reports a finished size that the make cannot have.
fn check_shape(reader: &mut Reader, unit: &mut Unit) {
    let (Some(make), Some(finished)) = (unit.make.value(), unit.finished.stated()) else { return };
    let (width, height) = (finished.value.0.length, finished.value.1.length);
    let (fits, why, mend) = match make.row().finished {
        Finished::Any => return,
        Finished::TwiceAsWide => (
            width == height * 2,
            "Flying geese are twice as wide as they are high, and this finished size is not",
            "State the width and half of it, such as 4 x 2",
        ),
        Finished::Square => (
            width == height,
            "This unit is square, and its finished size is not",
            "State one length, such as 3; halves of a rectangle are a half_rectangle_triangle",
        ),
        Finished::OfBlock => (
            width == height,
            "Only square blocks are set on point, and this finished size is not square",
            "State the finished size of the block that the triangles set, such as 12",
        ),
    };
    if !fits {
        reader.report(finished.at, MistakeKind::CannotBe { why: why.into(), mend });
        unit.finished = Field::Unread;
    }
}

/// What a part may be cut from, as an example.
fn part_example(part: &PartRow) -> String {
    format!("{}: A   # the piece it is cut from, or a cut size such as {}", part.name, part.example)
}

/// What the parts are cut from, and whether all of them were read.
fn read_parts(reader: &mut Reader, pieces: &Pieces<'_>, unit: &Unit, entry: &Entry<'_>) -> (Vec<PartCut>, bool) {
    let place = ["cut of unit", unit.name.as_str()];
    let Some(mut table) = Table::new(reader, place, entry.key_at, &entry.value, CUT_EXAMPLE) else {
        return (Vec::new(), false);
    };
    let read = |reader: &mut Reader, part: &str, entry: &Entry<'_>| PartCut {
        part: part.to_string(),
        at: entry.key_at,
        from: pieces.read(reader, &entry.value),
    };
    let mut whole = !table.is_torn();
    let mut parts = Vec::new();
    let Some(make) = unit.make.value() else { return (Vec::new(), false) };
    if make.is_strip_set() {
        if table.entries().is_empty() {
            table.lacks_named("strip", STRIP_EXAMPLE.to_string());
            table.finish(reader, true);
            return (parts, false);
        }
        if let Some(beyond) = table.entries().get(MAX_STRIPS) {
            whole = false;
            let why = format!("a strip set may have {MAX_STRIPS} strips at most");
            reader.report(beyond.key_at, MistakeKind::TooMany { why });
        }
        parts.extend(table.entries().iter().take(MAX_STRIPS).map(|entry| read(reader, entry.key, entry)));
    } else {
        let Some(known) = unit.part_rows() else { return (Vec::new(), false) };
        for part in &known {
            match table.named(part.name) {
                Some(entry) => parts.push(read(reader, part.name, entry)),
                None => table.lacks_named(part.name, part_example(part)),
            }
        }
        whole &= parts.len() == known.len();
        table.finish(reader, true);
    }
    (parts, whole)
}
