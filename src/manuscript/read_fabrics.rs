//! Reading the fabrics and their cutting lists.

use super::by_size::{BySize, OneOrSome, report_left_out};
use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name};
use super::design::PieceRef;
use super::kinds::{Dimensions, NewPieceName, OneOf, Positive, Text, Whole};
use super::model::{Bought, CutGrain, PerSize, SoldAs, YesNo};
use super::piece_names::Pieces;
use super::read_per_size::{read_per_size, read_some_sizes};
use super::reader::Reader;
use super::section::LeftOut::{Required, Said, Standard, Unless};
use super::section::{Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span};
use crate::quantity::{Count, Written};

/// How many pieces a cutting list may have.
const MAX_PIECES: usize = 500;

/// How many fabrics a pattern may list.
const MAX_FABRICS: usize = 200;

const FABRIC_EXAMPLE: &str = "ink: { requires: { crib: 5/8 yd } }";
const ONE_EXAMPLE: &str = "{ requires: { crib: 5/8 yd } }";
const REQUIRES_EXAMPLE: &str = "{ crib: 5/8 yd }";
const CUT_EXAMPLE: &str = "- { piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }";
const PIECE_EXAMPLE: &str = "{ piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }";
const PIECES_EXAMPLE: &str = "{ crib: 48 }";

section!(
    /// A fabric, and what is cut from it.
    pub struct Fabric, "fabrics", "In each of the `fabrics`", "";
    words {
        role: Field<String> = Text, Said("not told"), "what it is for, in your words", "background";
        color: Field<String> = Text, Said("not printed"), "its color, in your words", "navy";
        item: Field<String> = Text, Said("not printed"), "its number or name in a range, in your words", "1234-7";
        notes: Field<String> = Text, Said("not printed"), "what else to print of it, in your words", "or scraps";
        usable_width: Field<Written> = Positive, Said("that of `assumes`"),
            "the usable width of this fabric alone", "42";
        directional: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where the print has a way up, so that pieces may not be turned; or `no`", "yes";
        sold_as: Field<SoldAs> = OneOf<SoldAs>, Standard("yardage"),
            "`yardage`, from the bolt; `fat_quarters`; `fat_eighths`; or precut `strips` or `squares`", "yardage";
    }
    by_hand {
        precut: Field<Written> = Positive::SHAPE, Said("must be there for those"),
            "how wide precut strips are, or how large precut squares", "2 1/2",
            goes_with("sold_as", &["strips", "squares"]);
        requires: Vec<PerSize<Bought>> =
            Shape::BySize(&Shape::Either(&[Shape::Amount { zero: true }, Whole::SHAPE])), Required,
            "for each size how much to buy: an amount, or a count of what is not from the bolt", "{ crib: 5/8 yd }";
        cut: Vec<Cut> = Shape::List(&Shape::Table(Cut::SECTION), 0, MAX_PIECES),
            Said("it cannot be checked, unless the binding is cut `from` it"),
            "what is cut from it, each piece after a dash", "[{ piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }]";
    }
    besides {
        /// What the pattern calls it.
        name: String,
        /// Where its name stands.
        at: Span,
        /// Whether all of the cutting list was read.
        cut_whole: bool,
    }
);

section!(
    /// One entry of a cutting list.
    pub struct Cut, "cut", "In each piece of `cut`", "";
    words {
        piece: Field<String> = NewPieceName, Required, "what the pattern calls it", "A", names_item();
        size: BySize<(Written, Written)> = OneOrSome<Dimensions>, Unless(&["strip_width"], "whole strips, of `strip_width`"),
            "how large it is cut, with its seams, width x length; the length runs along the selvedge where it may not \
             be turned", "3 1/2 x 3 1/2";
        strip_width: BySize<Written> = OneOrSome<Positive>, Said("as wide as the piece"),
            "how wide the strips are cut that it comes from", "3 1/2";
        grain: Field<CutGrain> = OneOf<CutGrain>, Standard("crosswise"),
            "`crosswise`, in strips from selvedge to selvedge; or `lengthwise`, along the selvedge, for a border \
             without joins", "crosswise";
    }
    by_hand {
        strips: Vec<Field<Count>> = Shape::BySize(&Whole::SHAPE), Said("sparestrip plans the strips itself"),
            "for each size how many strips the pattern tells its reader to cut", "{ crib: 5 }";
        pieces: Vec<Field<Count>> = Shape::BySize(&Whole::SHAPE), Unless(&["strips"], "only the strips are counted"),
            "for each size how many pieces are needed; 0 where it takes none", "{ crib: 48 }";
    }
    besides {
        /// Where it starts.
        at: Span,
    }
);

/// The fabrics and whether all of them could be read.
#[derive(Debug, Default)]
pub(super) struct Fabrics {
    pub(super) list: Vec<Fabric>,
    /// False where part of the section is broken, so that no name can be called unknown.
    pub(super) whole: bool,
    /// Whether there is such a section at all.
    pub(super) stated: bool,
}

impl Fabrics {
    /// Their names.
    pub(super) fn names(&self) -> NameList<'_> {
        NameList::new(self.list.iter().map(|fabric| (fabric.name.as_str(), fabric.at)), self.whole, self.stated)
    }

    /// The names of the pieces of all cutting lists.
    pub(super) fn piece_names(&self) -> Pieces<'_> {
        let mut list = Vec::new();
        for (index, fabric) in self.list.iter().enumerate() {
            for (cut, stated) in fabric.cut.iter().enumerate() {
                if let Some(piece) = stated.piece.stated() {
                    list.push((PieceRef { fabric: index, cut }, fabric.name.as_str(), piece.value.as_str()));
                }
            }
        }
        Pieces { list, whole: self.pieces_whole() }
    }

    /// Whether every piece of every cutting list is known, so that another name can be called unknown.
    fn pieces_whole(&self) -> bool {
        let named = |cut: &Cut| !cut.piece.is_unread();
        (self.whole || !self.stated) && self.list.iter().all(|fabric| fabric.cut_whole && fabric.cut.iter().all(named))
    }
}

pub(super) fn read_fabrics(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Fabrics {
    let Some(table) = Table::new(reader, "fabrics", entry.key_at, &entry.value, FABRIC_EXAMPLE) else {
        return Fabrics { stated: true, ..Fabrics::default() };
    };
    let mut whole = !table.is_torn();
    if let Some(beyond) = table.entries().get(MAX_FABRICS) {
        whole = false;
        let why = format!("a pattern may list {MAX_FABRICS} fabrics at most; this one and what follows are not read");
        reader.report(beyond.key_at, MistakeKind::TooMany { why });
    }
    let fabrics = table.entries().iter().take(MAX_FABRICS);
    let list: Vec<Option<Fabric>> = fabrics.map(|entry| read_fabric(reader, known, entry)).collect();
    whole &= list.iter().all(Option::is_some);
    Fabrics { list: list.into_iter().flatten().collect(), whole, stated: true }
}

fn read_fabric(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<Fabric> {
    let name = entry.key.to_string();
    if !is_fit_name(&name) {
        reader.report(entry.key_at, unfit_name("fabric"));
        return None;
    }
    let mut table = Table::new(reader, ["fabric", &entry.key], entry.key_at, &entry.value, ONE_EXAMPLE)?;
    let mut fabric =
        Fabric { name, at: entry.key_at, cut_whole: true, ..Fabric::read_words(&mut table, reader, known) };
    let sold_as = fabric.sold_as.or(SoldAs::Yardage);
    fabric.precut = match sold_as {
        Some(SoldAs::Yardage | SoldAs::FatQuarters | SoldAs::FatEighths) => Field::Absent,
        Some(SoldAs::Strips | SoldAs::Squares) | None => table.read::<Positive>(reader, known, Fabric::precut),
    };
    if fabric.precut.is_absent() && matches!(sold_as, Some(SoldAs::Strips | SoldAs::Squares)) {
        table.lacks(Fabric::precut);
    }
    if let Some(requires) = table.expected(Fabric::requires) {
        let place = ["fabric", &entry.key];
        fabric.requires = read_per_size(reader, known.sizes, place, requires, REQUIRES_EXAMPLE, |reader, entry| {
            read_bought(reader, sold_as, &entry.value)
        });
    }
    if let Some(entry) = table.entry(Fabric::cut) {
        (fabric.cut, fabric.cut_whole) = read_cuts(reader, known, entry);
    }
    table.finish(reader, true);
    Some(fabric)
}

/// An amount from the bolt, or a number of fat quarters, strips or squares.
fn read_bought(reader: &mut Reader, sold_as: Option<SoldAs>, node: &Node<'_>) -> Option<Bought> {
    match sold_as? {
        SoldAs::Yardage => reader.amount_or_nothing(node).stated().cloned().map(Bought::Amount),
        SoldAs::FatQuarters | SoldAs::FatEighths | SoldAs::Strips | SoldAs::Squares => {
            reader.count(node).stated().cloned().map(Bought::Count)
        }
    }
}

/// The cutting list, and whether all of it was read.
fn read_cuts(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> (Vec<Cut>, bool) {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) => nodes,
        Kind::Empty => return (Vec::new(), true),
        Kind::Unread => return (Vec::new(), false),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each piece after a dash";
            reader.report(entry.key_at, MistakeKind::WrongShape { word: "cut".into(), expected, example: CUT_EXAMPLE });
            return (Vec::new(), false);
        }
    };
    let mut whole = !reader.is_torn(&entry.value);
    if let Some(beyond) = nodes.get(MAX_PIECES) {
        whole = false;
        let why = format!(
            "a cutting list may have {MAX_PIECES} pieces at most; this one and what follows are not read, and the \
             fabric is not checked"
        );
        reader.report(start_of(beyond), MistakeKind::TooMany { why });
    }
    let cuts: Vec<Option<Cut>> = nodes.iter().take(MAX_PIECES).map(|node| read_cut(reader, known, node)).collect();
    whole &= cuts.iter().all(Option::is_some);
    (cuts.into_iter().flatten().collect(), whole)
}

pub(super) fn start_of(node: &Node<'_>) -> Span {
    Span::new(node.at.start, node.at.end.min(node.at.start + 1))
}

fn read_cut(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>) -> Option<Cut> {
    let start = start_of(node);
    let mut table = Table::new(reader, "cut", start, node, PIECE_EXAMPLE)?;
    let first = table.entries().first().map_or(start, |entry| entry.key_at);
    table.at = first;
    let mut cut = Cut { at: first, ..Cut::read_words(&mut table, reader, known) };
    let lengthwise = cut.grain.value() == Some(CutGrain::Lengthwise);
    if cut.size.is_absent() && (cut.strip_width.is_absent() || lengthwise) {
        table.lacks(Cut::size);
    }
    if let Some(width) = cut.strip_width.at().filter(|_| lengthwise && !cut.size.is_absent()) {
        let mend = Some("take strip_width out: a piece along the fabric is a strip by itself");
        reader.report(width, MistakeKind::RepeatedKey { word: Cut::strip_width.word.into(), mend });
    }
    let (strips, pieces) = (table.entry(Cut::strips), table.entry(Cut::pieces));
    if strips.is_none() && pieces.is_none() {
        table.lacks(Cut::pieces);
    }
    let sizes = known.sizes;
    let mut counts = |place: &str, entry: Option<&Entry<'_>>| match entry {
        Some(entry) => read_some_sizes(reader, sizes, place, entry, PIECES_EXAMPLE),
        None => sizes.list.iter().map(|_| Field::Absent).collect(),
    };
    cut.strips = counts(Cut::strips.word, strips);
    cut.pieces = counts(Cut::pieces.word, pieces);
    if let Some(entry) = pieces.or(strips) {
        report_unstated(reader, sizes, &cut, entry.key_at);
    }
    let takes_some = |size: usize| {
        let counts = [cut.strips.get(size), cut.pieces.get(size)];
        counts.into_iter().flatten().any(|count| count.value().is_some_and(|count| count > Count(0)))
    };
    report_left_out(reader, sizes, &cut.size, Cut::size.word, takes_some);
    let is_wanted = |size: usize| takes_some(size) && cut.size.of(size).is_absent();
    report_left_out(reader, sizes, &cut.strip_width, Cut::strip_width.word, is_wanted);
    table.finish(reader, true);
    Some(cut)
}

/// Reports the sizes for which neither strips nor pieces are stated.
fn report_unstated(reader: &mut Reader, sizes: &NameList<'_>, cut: &Cut, at: Span) {
    let name = cut.piece.stated().map_or("cut", |piece| piece.value.as_str());
    for ((size, strips), pieces) in sizes.list.iter().zip(&cut.strips).zip(&cut.pieces) {
        if sizes.whole && strips.is_absent() && pieces.is_absent() {
            let what =
                MistakeKind::SizeNotStated { size: size.name.to_string(), place: format!("list for piece {name}") };
            reader.report_with(at, what, size.at, "the size is listed here; 0 says that it takes none");
        }
    }
}
