//! Reading the fabrics and their cutting lists.

use super::by_size::{BySize, OneOrSome, report_left_out};
use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name};
use super::design::PieceRef;
use super::kinds::{Dimensions, NewPieceName, OneOf, Percentage, Positive, SquareOrSides, Text, Whole};
use super::model::{
    Bought, CutAgain, CutAngle, CutFromLeft, CutGrain, CutShape, Join, PerSize, Shaped, SoldAs, Tips, YesNo,
};
use super::piece_names::{NamedPiece, Pieces};
use super::read_bought::{BoughtAs, Instead, check_bought, count_from_each, read_bought, read_different};
use super::read_counts::{read_counts, report_unstated, start_of};
use super::read_per_size::read_per_size;
use super::read_shape::{WITH_A_BASE, WITH_ONE_SIDE, WITH_TIPS, read_shape, report_sizes_left_out};
use super::read_subcut::{MAX_SUBCUT, Subcut, read_subcut};
use super::reader::Reader;
use super::section::LeftOut::{Said, Standard, Unless};
use super::section::{FOR_THOSE, Row, Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::unknown_name::unknown;
use super::{Field, Keyword, MistakeKind, Span, Spanned};
use crate::quantity::{Count, Percent, Written};

/// How many pieces a cutting list may have.
const MAX_PIECES: usize = 500;

/// How many fabrics a pattern may list.
const MAX_FABRICS: usize = 200;

const FABRIC_EXAMPLE: &str = "ink: { requires: { crib: 5/8 yd } }";
const ONE_EXAMPLE: &str = "{ requires: { crib: 5/8 yd } }";
const REQUIRES_EXAMPLE: &str = "{ crib: 5/8 yd }";
const CUT_EXAMPLE: &str = "- { piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }";
const PIECE_EXAMPLE: &str = "{ piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }";

section!(
    /// A fabric, and what is cut from it.
    pub struct Fabric, "fabrics", "In each of the `fabrics`", "";
    words {
        role: Field<String> = Text, Said("not stated"), "what it is for, in your words", "background";
        color: Field<String> = Text, Said("not printed"), "its color, in your words", "navy";
        item: Field<String> = Text, Said("not printed"), "its number or name in a range, in your words", "1234-7";
        notes: Field<String> = Text, Said("not printed"), "what else to print of it, in your words", "or scraps";
        usable_width: Field<Written> = Positive, Said("that of `assumes`"),
            "the usable width of this fabric alone", "42";
        directional: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where the print has a way up, so that pieces may not be turned; or `no`", "yes";
        shrinks: Field<Percent> = Percentage, Said("as `assumes` says, from the bolt"),
            "how much shorter it is after washing, where it is washed before it is cut; its usable width is that after \
             washing", "3 %";
        repeat: Field<Written> = Positive, Said("none is counted"),
            "how far apart the print repeats along the selvedge, for pieces that are `centered` on it", "12";
        sold_as: Field<SoldAs> = OneOf<SoldAs>, Standard("yardage"),
            "`yardage`, from the bolt; `fat_quarters`; `fat_eighths`; precut `strips` or `squares`; a printed `panel`, which \
             is not checked; or `scraps`, without an amount", "yardage";
    }
    by_hand {
        precut: Field<Written> = Positive::SHAPE, Said(FOR_THOSE),
            "how wide precut strips are, or how large precut squares", "2 1/2",
            goes_with("sold_as", &["strips", "squares"]);
        pack: Field<Count> = Whole::SHAPE, Said("they are bought singly"),
            "how many precut strips or squares are in a pack", "42";
        panel_size: Field<(Written, Written)> = Dimensions::SHAPE, Said("not told"),
            "how large a printed panel is, width x length", "43 x 24", goes_with("sold_as", &["panel"]);
        different: Vec<Field<Count>> = Shape::Either(&[Whole::SHAPE, Shape::BySize(&Whole::SHAPE)]), Said("1"),
            "how many different fabrics this stands for, which share its cutting list; one number, or one for each size",
            "12";
        from_each: Field<YesNo> = OneOf::<YesNo>::SHAPE, Standard("no"),
            "`yes` where each of the fat quarters, fat eighths or precuts gives the same pieces; or `no`", "yes";
        requires: Vec<PerSize<Bought>> = Shape::BySize(&Shape::Bought),
            Said("how much is needed is not checked"),
            "for each size how much to buy: an amount, of different fabrics with `each` or `in all` after it; or a count of \
             what is not from the bolt, or of `packs`; a choice has `or` between: 1/4 yd or 1 fat quarter", "{ crib: 5/8 yd }";
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
        /// What stands after amounts and counts, each with their place.
        after: Vec<(Span, BoughtAs)>,
        /// What may be bought instead of amounts and counts, each with their place.
        choices: Vec<(Span, Instead)>,
    }
);

impl Fabric {
    /// The row of `different`.
    pub(super) const DIFFERENT: &'static Row = Self::different;

    /// The row of `pack`.
    pub(super) const PACK: &'static Row = Self::pack;
}

section!(
    /// One entry of a cutting list.
    pub struct Cut, "cut", "In each piece of `cut`", "";
    words {
        piece: Field<String> = NewPieceName, Unless(&["subcut"], "the strips have no name"), "what the pattern calls it",
            "A", names_item();
        size: BySize<(Written, Written)> = OneOrSome<SquareOrSides>,
            Unless(&["strip_width", "height"], "whole strips, of `strip_width`"),
            "how large it is cut, with its seams, width x length; the length runs along the selvedge where it may not \
             be turned. Of a `shape` from strips its finished side, or its finished base x height; of a `template` the \
             box that holds it", "3 1/2 x 3 1/2";
        strip_width: BySize<Written> = OneOrSome<Positive>, Said("as wide as the piece"),
            "how wide the strips are cut that it comes from", "3 1/2";
        grain: Field<CutGrain> = OneOf<CutGrain>, Standard("crosswise"),
            "`crosswise`, in strips from selvedge to selvedge; or `lengthwise`, along the selvedge, for a border \
             without joins", "crosswise";
        joined: Field<Join> = OneOf<Join>, Said("only where a piece is longer than a strip, as its border is joined"),
            "how the strips are joined end to end before the piece is trimmed to its length: `straight` or `diagonal`",
            "straight", needs("size");
        beside: Field<String> = Text, Said("from the fabric itself"),
            "the piece along the fabric beside which it is cut, from the width that is left there", "side", needs("size"),
            not_beside(&["strips", "strip_width", "joined", "grain"]);
        from: Field<CutFromLeft> = OneOf<CutFromLeft>, Said("from strips of its own where it takes any"),
            "`remnants` where it is cut from what other pieces leave", "remnants", needs("size"),
            not_beside(&["strips", "strip_width", "joined", "grain"]);
        cut_again: Field<CutAgain> = OneOf<CutAgain>, Said("not told"),
            "how often the squares are cut from corner to corner, `once` or `twice`", "twice", needs("size");
        used_for as "for": Field<String> = Text, Said("the quilt top"),
            "what it is for, where that is not the top: it is cut and counted, and not called unused", "sleeve";
    }
    by_hand {
        shape = Shape::Choice(CutShape::NAMES), Said("a rectangle"),
            "what it is cut to: `triangle_60`, `half_triangle_60`, `hexagon`, `half_hexagon`, `diamond_60`, `diamond_45`, \
             `parallelogram` or `trapezoid`, from strips across the fabric as wide as it is high, edge to edge and turned \
             alternately, by its finished `size`; or `template` for any shape, by the box that holds it, of which less \
             than the boxes take is asked about and is no error",
            "hexagon";
        height = Shape::Either(&[Positive::SHAPE, Shape::BySize(&Positive::SHAPE)]), Said("by its `size`"),
            "how high the shape finishes, from edge to edge or to the tip, instead of its side", "3 1/4",
            goes_with("shape", WITH_ONE_SIDE);
        angle = Shape::Choice(CutAngle::NAMES), Said(FOR_THOSE),
            "the angle at its base, in degrees: `45` or `60`", "60",
            goes_with("shape", WITH_A_BASE);
        tips = Shape::Choice(Tips::NAMES), Said("sharp"),
            "`sharp` where triangles reach to the edge of the strip, which is as wide as the finished height and three \
             seams; or `blunt`, cut off at the seam, from strips of the height and two seams", "blunt",
            goes_with("shape", WITH_TIPS);
        centered = Shape::Choice(YesNo::NAMES), Standard("no"),
            "`yes` where each is centered on a motif of the print, which takes whole repeats (`repeat` of the fabric); or `no`", "yes";
        per_repeat = Whole::SHAPE, Said("not checked"), "how many centered pieces one repeat of the print gives", "4",
            goes_with("centered", &["yes", "no"]);
        strips: Vec<Field<Count>> = Shape::BySize(&Whole::SHAPE), Said("sparestrip plans the strips itself"),
            "for each size how many strips the pattern tells its reader to cut", "{ crib: 5 }";
        pieces: Vec<Field<Count>> = Shape::BySize(&Whole::SHAPE),
            Unless(&["strips", "pieces_from_each"], "only the strips are counted"),
            "for each size how many pieces are needed; 0 where it takes none", "{ crib: 48 }";
        pieces_from_each: Vec<Field<Count>> = Shape::BySize(&Whole::SHAPE), Said("the share of each, rounded up"),
            "for each size how many pieces each of the fabrics gives that share the list", "{ crib: 4 }";
        subcut = Shape::List(&Shape::Table(Subcut::SECTION), 1, MAX_SUBCUT), Said("the strips give one kind of piece"),
            "the pieces of several kinds that are cut from these strips, each after a dash",
            "[{ piece: A, size: 6 1/2 x 6 1/2, pieces: { crib: 24 } }]";
    }
    besides {
        /// Where it starts.
        at: Span,
        /// For a piece of `subcut`: the entry, by its place in the list, that states the strips it is cut from.
        within: Option<usize>,
        /// The entry of the piece along the fabric beside which it is cut.
        beside_entry: Option<usize>,
        /// Whether these are strips from which the pieces of the entries after it are cut.
        is_group: bool,
        /// Its shape, where that is no rectangle.
        shaped: Option<Box<Shaped>>,
    }
);

impl Cut {
    /// The row of `shape`.
    pub(super) const SHAPE: &'static Row = Self::shape;

    /// The row of `size`.
    pub(super) const SIZE: &'static Row = Self::size;

    /// The row of `height`.
    pub(super) const HEIGHT: &'static Row = Self::height;

    /// The row of `angle`.
    pub(super) const ANGLE: &'static Row = Self::angle;

    /// The row of `tips`.
    pub(super) const TIPS: &'static Row = Self::tips;

    /// The row of `centered`.
    pub(super) const CENTERED: &'static Row = Self::centered;

    /// The row of `per_repeat`.
    pub(super) const PER_REPEAT: &'static Row = Self::per_repeat;

    /// The shape, where it is cut from strips by its finished measures.
    pub fn slanted(&self) -> Option<&Shaped> {
        self.shaped.as_deref().filter(|shaped| shaped.is_slanted())
    }

    /// Whether it is a shape that is cut from strips by its finished measures.
    pub fn is_slanted(&self) -> bool {
        self.slanted().is_some()
    }

    /// Whether each is centered on the print.
    pub fn is_centered(&self) -> bool {
        self.shaped.as_ref().is_some_and(|shaped| shaped.centered.value() == Some(YesNo::Yes))
    }

    /// How many come of each repeat of the print that they are centered on.
    pub fn each_repeat(&self) -> &Field<Count> {
        const ABSENT: &Field<Count> = &Field::Absent;
        self.shaped.as_ref().map_or(ABSENT, |shaped| &shaped.per_repeat)
    }

    /// Whether it is cut with a template, so that only the box that holds it is known.
    pub fn is_template(&self) -> bool {
        self.shaped.as_ref().is_some_and(|shaped| shaped.is_template())
    }

    /// Whether it is strips left whole for a size: nothing says what is cut from them.
    pub fn is_whole_strips(&self, size: usize) -> bool {
        self.size.of(size).is_absent() && self.slanted().is_none()
    }

    /// Whether how it is cut differs from size to size.
    pub fn is_by_size(&self) -> bool {
        self.size.is_by_size() || self.strip_width.is_by_size() || self.slanted().is_some_and(Shaped::is_by_size)
    }

    /// Where it is stated for a size how it is cut.
    pub fn cut_at(&self, size: usize) -> Option<Span> {
        let slanted = || self.slanted().and_then(|shaped| shaped.size.of(size).at().or(shaped.height.of(size).at()));
        self.size.of(size).at().or_else(slanted).or(self.strip_width.of(size).at())
    }
}

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
                    let at = PieceRef::entry(index, cut);
                    list.push(NamedPiece { at, fabric: &fabric.name, piece: &piece.value, cut: stated });
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
    let mut table = Table::new(reader, ["fabric", entry.key], entry.key_at, &entry.value, ONE_EXAMPLE)?;
    let mut fabric =
        Fabric { name, at: entry.key_at, cut_whole: true, ..Fabric::read_words(&mut table, reader, known) };
    let sold_as = fabric.sold_as.or(SoldAs::Yardage);
    fabric.precut = match sold_as {
        Some(SoldAs::Yardage | SoldAs::FatQuarters | SoldAs::FatEighths | SoldAs::Scraps | SoldAs::Panel) => {
            Field::Absent
        }
        Some(SoldAs::Strips | SoldAs::Squares) | None => table.read::<Positive>(reader, known, Fabric::precut),
    };
    if fabric.precut.is_absent() && matches!(sold_as, Some(SoldAs::Strips | SoldAs::Squares)) {
        table.lacks(Fabric::precut);
    }
    if matches!(sold_as, Some(SoldAs::Panel) | None) {
        fabric.panel_size = table.read::<Dimensions>(reader, known, Fabric::panel_size);
    }
    let requires = table.entry(Fabric::requires);
    if let Some(requires) = requires.filter(|_| sold_as == Some(SoldAs::Scraps)) {
        let why = "Nobody says how many scraps are bought".to_string();
        let mend = "Take requires out, or sold_as where the fabric is bought from the bolt";
        reader.report(requires.key_at, MistakeKind::CannotBe { why, mend });
    } else if let Some(requires) = requires {
        let place = ["fabric", entry.key];
        let (mut after, mut choices) = (Vec::new(), Vec::new());
        fabric.requires = read_per_size(reader, known.sizes, place, requires, REQUIRES_EXAMPLE, |reader, entry| {
            let (bought, says, instead) = read_bought(reader, sold_as, &entry.value)?;
            after.extend(says.map(|says| (bought.at(), says)));
            choices.extend(instead.map(|instead| (bought.at(), instead)));
            Some(bought)
        });
        (fabric.after, fabric.choices) = (after, choices);
    }
    if let Some(entry) = table.entry(Fabric::cut) {
        (fabric.cut, fabric.cut_whole) = read_cuts(reader, known, entry);
    }
    fabric.pack = table.read::<Whole>(reader, known, Fabric::pack);
    fabric.from_each = table.read::<OneOf<YesNo>>(reader, known, Fabric::from_each);
    let different = table.entry(Fabric::different);
    fabric.different = read_different(reader, known, different);
    check_bought(reader, &mut table, &mut fabric);
    count_from_each(reader, &mut fabric);
    find_beside(reader, &mut fabric);
    if requires.is_none() && table.may_state_more() {
        fabric.requires = known.sizes.list.iter().map(|_| PerSize::Unread).collect();
    }
    table.finish(reader, true);
    Some(fabric)
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
    let mut cuts = Vec::with_capacity(nodes.len());
    for node in nodes.iter().take(MAX_PIECES) {
        whole &= read_cut(reader, known, node, &mut cuts);
    }
    (cuts, whole)
}

/// Reads an entry of the list, and after it the pieces that are cut from its strips. Whether all of it was read.
fn read_cut(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>, list: &mut Vec<Cut>) -> bool {
    let start = start_of(node);
    let Some(mut table) = Table::new(reader, "cut", start, node, PIECE_EXAMPLE) else { return false };
    let first = table.entries().first().map_or(start, |entry| entry.key_at);
    table.at = first;
    let mut cut = Cut { at: first, ..Cut::read_words(&mut table, reader, known) };
    if let Some(subcut) = table.entry(Cut::subcut) {
        return read_group(reader, known, table, cut, subcut, list);
    }
    if cut.piece.is_absent() {
        table.lacks(Cut::piece);
    }
    read_shape(reader, known, &mut table, &mut cut);
    let lengthwise = cut.grain.value() == Some(CutGrain::Lengthwise) && !cut.is_slanted() && !cut.is_template();
    let must_have_size = !cut.is_slanted() && (cut.strip_width.is_absent() || lengthwise || cut.shaped.is_some());
    if cut.size.is_absent() && must_have_size {
        // Strips that are left whole have a width alone.
        let is_whole = table.states(Cut::strips.word) && !table.states(Cut::pieces.word);
        table.lacks(if is_whole && !lengthwise { Cut::strip_width } else { Cut::size });
    }
    if let Some(width) = cut.strip_width.at().filter(|_| lengthwise && !cut.size.is_absent()) {
        let mend = Some("take strip_width out: a piece along the fabric is a strip by itself");
        reader.report(width, MistakeKind::RepeatedKey { word: Cut::strip_width.word.into(), mend });
    }
    if let Some(joined) = cut.joined.at().filter(|_| lengthwise) {
        let why = "A piece along the fabric is cut without joins".to_string();
        reader.report(joined, MistakeKind::CannotBe { why, mend: "Take joined out, or grain" });
    }
    let (strips, pieces) = (table.entry(Cut::strips), table.entry(Cut::pieces));
    let from_each = table.entry(Cut::pieces_from_each);
    if strips.is_none() && pieces.is_none() && from_each.is_none() {
        table.lacks(Cut::pieces);
    }
    cut.strips = read_counts(reader, known, Cut::strips.word, strips);
    cut.pieces = read_counts(reader, known, Cut::pieces.word, pieces);
    cut.pieces_from_each = read_counts(reader, known, Cut::pieces_from_each.word, from_each);
    if let Some((word, at)) = left_over(&cut) {
        let told = [strips.map(|entry| entry.key_at), cut.strip_width.at(), cut.joined.at(), cut.grain.at()];
        if let Some(told) = told.into_iter().flatten().next() {
            let why = "What is left is cut piece by piece, and not in strips or along the fabric".to_string();
            let mend = "State size and pieces alone, or take beside or from out";
            reader.report_with(told, MistakeKind::CannotBe { why, mend }, at, format!("`{word}` is stated here"));
        }
    }
    if let Some(entry) = pieces.or(from_each).or(strips) {
        report_unstated(reader, known.sizes, &cut, entry.key_at);
    }
    let sizes = known.sizes;
    let takes_some = |size: usize| {
        let counts = [cut.strips.get(size), cut.pieces.get(size), cut.pieces_from_each.get(size)];
        counts.into_iter().flatten().any(|count| count.value().is_some_and(|count| count > Count(0)))
    };
    report_left_out(reader, sizes, &cut.size, Cut::size.word, takes_some);
    if let Some(shaped) = &cut.shaped {
        report_sizes_left_out(reader, known, shaped, takes_some);
    }
    let is_wanted = |size: usize| takes_some(size) && cut.is_whole_strips(size);
    report_left_out(reader, sizes, &cut.strip_width, Cut::strip_width.word, is_wanted);
    table.finish(reader, true);
    list.push(cut);
    true
}

/// What says that a piece is cut from what others leave, and where.
fn left_over(cut: &Cut) -> Option<(&'static str, Span)> {
    let beside = cut.beside.at().map(|at| (Cut::beside.word, at));
    beside.or_else(|| cut.from.at().map(|at| (Cut::from.word, at)))
}

/// Finds the pieces along the fabric beside which others are cut.
fn find_beside(reader: &mut Reader, fabric: &mut Fabric) {
    for place in 0..fabric.cut.len() {
        let Some(Spanned { value: name, at }) = fabric.cut[place].beside.stated().cloned() else { continue };
        let is_named = |cut: &&Cut| cut.piece.stated().is_some_and(|piece| piece.value == name);
        let found = fabric.cut.iter().position(|cut| is_named(&cut));
        match found.map(|found| (found, fabric.cut[found].grain.value())) {
            Some((found, Some(CutGrain::Lengthwise))) => fabric.cut[place].beside_entry = Some(found),
            Some(_) => {
                let why = format!("Piece {name} is not cut along the fabric, so that nothing is left beside it");
                reader.report(
                    at,
                    MistakeKind::CannotBe { why, mend: "State grain: lengthwise there, or from: remnants here" },
                );
            }
            None if fabric.cut_whole => {
                let names = fabric.cut.iter().filter_map(|cut| Some(cut.piece.stated()?.value.as_str()));
                unknown(reader, at, &name, "the pieces of this cutting list", names);
            }
            None => {}
        }
    }
}

/// Strips that give pieces of several kinds, and these pieces. What a piece by itself states has no place beside them.
fn read_group(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    mut table: Table<'_, '_>,
    mut strips: Cut,
    subcut: &Entry<'_>,
    list: &mut Vec<Cut>,
) -> bool {
    strips.is_group = true;
    if strips.strip_width.is_absent() {
        table.lacks(Cut::strip_width);
    }
    let (pieces, from_each) = (table.entry(Cut::pieces), table.entry(Cut::pieces_from_each));
    let told_twice = [
        (Cut::pieces_from_each.word, from_each.map(|entry| entry.key_at)),
        (Cut::piece.word, strips.piece.at()),
        (Cut::size.word, strips.size.at()),
        (Cut::grain.word, strips.grain.at()),
        (Cut::joined.word, strips.joined.at()),
        (Cut::beside.word, strips.beside.at()),
        (Cut::from.word, strips.from.at()),
        (Cut::cut_again.word, strips.cut_again.at()),
        (Cut::used_for.word, strips.used_for.at()),
        (Cut::pieces.word, pieces.map(|entry| entry.key_at)),
    ];
    for (word, at) in told_twice {
        if let Some(at) = at {
            let why = format!("`{word}` says what one piece is, and these strips are cut into several");
            reader.report(at, MistakeKind::CannotBe { why, mend: "State it in the pieces under subcut" });
        }
    }
    (strips.piece, strips.size) = (Field::Absent, BySize::default());
    let stated = table.entry(Cut::strips);
    strips.strips = read_counts(reader, known, Cut::strips.word, stated);
    strips.pieces = read_counts(reader, known, Cut::pieces.word, None);
    strips.pieces_from_each = read_counts(reader, known, Cut::pieces_from_each.word, None);
    if let Some(stated) = stated {
        report_unstated(reader, known.sizes, &strips, stated.key_at);
    }
    table.finish(reader, true);
    let group = list.len();
    list.push(strips);
    read_subcut(reader, known, subcut, group, list)
}
