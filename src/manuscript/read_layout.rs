//! Reading the layout section.

use super::declared_names::{DeclaredNames, NameList, block_named, read_block_name};
use super::design::{PieceRef, Sewn};
use super::kinds::{Dimensions, NonNegative, OneOf, PieceName, Positive, UnitName, UnitOrBlockName, Whole};
use super::model::{Blocks, Corners, EdgeSquares, Join, Layout, Set, YesNo};
use super::read_per_size::read_for_some;
use super::read_rows::{LaidRow, RowsOfBlocks};
use super::reader::{Bound, Reader};
use super::section::LeftOut::{BookValue, Required, Said, Standard, Unless};
use super::section::{Row, Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, Spanned};
use crate::quantity::{Count, Written};

/// How many blocks a layout may have across, and down.
const MAX_BLOCKS: Count = Count(200);

/// How many borders a quilt may have.
const MAX_BORDERS: usize = 20;

const LAYOUT_EXAMPLE: &str = "crib: { across: 3, down: 4, blocks: star }";
const BLOCKS_EXAMPLE: &str = "blocks: { star: 6, chain: 6 }";
const BORDER_EXAMPLE: &str = "- { width: 4, corners: butted, piece: C }";

section!(
    /// The layout of one size: blocks, what lies between them, what sets them, and borders.
    pub struct SizeLayout, "layout", "In `layout`, for each size, or for some", "";
    words {
        set: Field<Set> = OneOf<Set>, Standard("straight"), "how the blocks stand: `straight`, or `on_point`", "straight";
        rows: Field<Vec<LaidRow>> = RowsOfBlocks, Said("blocks `across` and `down`, all of one size"),
            "for blocks that are sewn in rows which need not be alike: each row from the top, a list in brackets; a \
             number before a block says how many lie side by side, and `turned` after it that they are turned a quarter",
            "[[6 star], [half, 5 star, half]]", not_beside(&["columns", "across", "down", "blocks"]);
        columns: Field<Vec<LaidRow>> = RowsOfBlocks, Said("blocks `across` and `down`, all of one size"),
            "the same for columns, each from the top, the first at the left", "[[4 star], [half, 3 star, half]]",
            not_beside(&["across", "down", "blocks"]);
        times: Field<Count> = SideKind, Said("once"),
            "how many times over all the rows or columns are sewn", "3";
        across: Field<Count> = SideKind, Unless(&["rows", "columns"], ""),
            "how many blocks there are from side to side; on point, without those in the gaps between them", "3";
        down: Field<Count> = SideKind, Unless(&["rows", "columns"], ""),
            "how many blocks there are from top to bottom; on point, without those in the gaps between them", "4";
        blocks: Field<Blocks> = BlocksKind, Unless(&["rows", "columns"], ""),
            "the block, where all are the same; or how many of each: `{ star: 6, chain: 6 }`", "star";
        sashing: Field<Written> = Positive, Said("no sashing"),
            "how wide the sashing between the blocks finishes", "2";
        sashing_round: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where it goes around the blocks as well; or `no`", "yes", needs("sashing");
        cornerstones: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where there are squares where sashes cross; or `no`: the sashes between rows are then as long as a \
             row", "yes", needs("sashing");
        edge_squares: Field<EdgeSquares> = OneOf<EdgeSquares>, Said("the size is not checked"),
            "for `on_point`: `whole` where the squares at the edge stay whole, or `halves` where the edge cuts them in \
             half", "whole", needs("cornerstones");
        sash: Field<PieceRef> = PieceName, Said("their cut size and count are not checked"),
            "the piece of a cutting list for sashes beside blocks", "S", needs("sashing");
        sash_of: Field<usize> = UnitName, Said("they are plain"),
            "for sashes that are sewn from pieces: the unit, one for each sash", "geese", needs("sashing");
        long_sash: Field<PieceRef> = PieceName, Said("their cut size and count are not checked"),
            "the piece of a cutting list for sashes as long as a row", "L", needs("sashing");
        cornerstone: Field<PieceRef> = PieceName, Said("their cut size and count are not checked"),
            "the piece of a cutting list for the squares where sashes cross", "K", needs("sashing");
        side_triangles: Field<usize> = UnitName, Said("their counts are not checked"),
            "for `on_point`: the unit that sets the blocks at the sides", "side";
        corner_triangles: Field<usize> = UnitName, Said("their counts are not checked"),
            "for `on_point`: the unit that sets the blocks at the corners", "tip";
        measures: Field<(Written, Written)> = Dimensions, Said("not checked"),
            "how large the text says that the quilt top measures before borders, with its seams", "36 1/2 x 48 1/2";
    }
    by_hand {
        borders: Vec<Border> = Shape::List(&Shape::Table(Border::SECTION), 0, MAX_BORDERS), Said("no borders"),
            "the borders, each after a dash, from the inside", "[{ width: 4, corners: butted, piece: C }]";
    }
    besides {
        /// Where the size's name stands.
        at: Span,
        /// Whether all borders were read.
        borders_whole: bool,
    }
);

section!(
    /// A border.
    pub struct Border, "borders", "In each of the `borders`", "";
    words {
        width: Field<BorderWidths> = BorderWidthKind, Required,
            "how wide it finishes, or `{ sides: 3, top: 4, bottom: 6 }`", "4";
        corners: Field<Corners> = OneOf<Corners>, Standard("butted"),
            "how its corners are made: `butted`, the sides first and then top and bottom; `mitered`; or `cornerstones`, \
             a square in each", "butted";
        piece: Field<PieceRef> = PieceName, Said("its cut size and count are not checked"),
            "the piece of a cutting list that it is cut from, or its sides alone where there is a `piece_across`", "C";
        piece_across: Field<PieceRef> = PieceName, Said("all four are cut from `piece`"),
            "the piece for its top and bottom, where that is another", "D";
        piece_bottom: Field<PieceRef> = PieceName, Said("it is cut as the top is"),
            "the piece for its bottom, where that is cut from another than its top", "E", needs("piece_across");
        cornerstone: Field<PieceRef> = PieceName, Said("not checked"),
            "the piece for the squares at its corners", "K";
        of: Field<Sewn> = UnitOrBlockName, Said("it is sewn from strips"),
            "for a border that is sewn from units or blocks: the unit, or else the block, side by side along each side", "geese";
        corner_of: Field<Sewn> = UnitOrBlockName, Said("its squares are plain"),
            "for corners that are sewn: the unit or the block, one in each corner", "star",
            goes_with("corners", &["cornerstones"]), not_beside(&["cornerstone"]);
        pieced: Field<YesNo> = OneOf<YesNo>, Standard("yes"),
            "`yes` where it is joined from strips; `no` where each side is one piece, cut as long as it must be", "no";
        join: Field<Join> = OneOf<Join>, Standard("straight"),
            "how strips of it are joined: `straight` or `diagonal`", "diagonal";
        ease: Field<Written> = NonNegative, BookValue("mitre_ease"),
            "how much longer than the quilt with the border a mitered one is cut", "1";
        measures: Field<(Written, Written)> = Dimensions, Said("not checked"),
            "how large the text says that the quilt top measures with this border, with its seams", "44 1/2 x 56 1/2";
    }
    by_hand {}
    besides {
        /// Where its entry starts.
        at: Span,
    }
);

section!(
    /// How wide a border finishes, where its sides differ.
    pub struct BorderSides, "border width", "In the `width` of a border, where its sides differ", "";
    words {
        sides: Field<Written> = Positive, Required, "how wide it finishes at the left and at the right", "3";
        top: Field<Written> = Positive, Required, "how wide it finishes at the top", "4";
        bottom: Field<Written> = Positive, Required, "how wide it finishes at the bottom", "6";
    }
    by_hand {}
    besides {}
);

/// How wide a border finishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BorderWidths {
    /// At the left and at the right.
    pub sides: Written,
    /// At the top.
    pub top: Written,
    /// At the bottom.
    pub bottom: Written,
    /// Where each of these is stated, where they are stated one by one.
    pub at_sides: Option<Span>,
    /// The same at the top.
    pub at_top: Option<Span>,
    /// The same at the bottom.
    pub at_bottom: Option<Span>,
}

impl BorderWidths {
    /// The one width, where it is the same all round.
    pub fn all_round(&self) -> Option<Written> {
        let alike = self.sides.length == self.top.length && self.sides.length == self.bottom.length;
        alike.then_some(self.sides)
    }
}

/// One width all round, or one for the sides, the top and the bottom.
struct BorderWidthKind;

impl ValueKind for BorderWidthKind {
    type Field = Field<BorderWidths>;
    const SHAPE: Shape = Shape::Either(&[Positive::SHAPE, Shape::Table(BorderSides::SECTION)]);
    const TAKES_TABLE: bool = true;

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, _: &'static Row, entry: &Entry<'_>) -> Field<BorderWidths> {
        let node = &entry.value;
        if !matches!(node.kind, Kind::Table(_)) {
            return reader.length(node, Bound::Positive).map(|all| BorderWidths {
                sides: all,
                top: all,
                bottom: all,
                at_sides: None,
                at_top: None,
                at_bottom: None,
            });
        }
        let example = "{ sides: 3, top: 4, bottom: 6 }";
        let Some(mut table) = Table::new(reader, "border width", entry.key_at, node, example) else {
            return Field::Unread;
        };
        let BorderSides { sides, top, bottom } = BorderSides::read_words(&mut table, reader, known);
        table.finish(reader, true);
        let (at_sides, at_top, at_bottom) = (sides.at(), top.at(), bottom.at());
        match (sides.value(), top.value(), bottom.value()) {
            (Some(sides), Some(top), Some(bottom)) => {
                let value = BorderWidths { sides, top, bottom, at_sides, at_top, at_bottom };
                Field::Stated(Spanned { value, at: node.at })
            }
            _ => Field::Unread,
        }
    }

    fn unread() -> Field<BorderWidths> {
        Field::Unread
    }
}

impl SizeLayout {
    /// The blocks that it names, by their places among the blocks; one may come more than once.
    pub fn named_blocks(&self) -> impl Iterator<Item = usize> {
        let (all, each) = match self.blocks.stated().map(|blocks| &blocks.value) {
            Some(Blocks::All(block)) => (Some(*block), [].as_slice()),
            Some(Blocks::Each(each)) => (None, each.as_slice()),
            None => (None, [].as_slice()),
        };
        let each = each.iter().filter_map(|(block, _)| block.value());
        let rows = [&self.rows, &self.columns].into_iter().filter_map(Field::stated).flat_map(|rows| &rows.value);
        let in_rows = rows.flat_map(|row| &row.blocks).map(|blocks| blocks.value.block);
        let in_borders = self.sewn_in_borders().filter_map(|sewn| match sewn {
            Sewn::Block(block) => Some(block),
            Sewn::Unit(_) => None,
        });
        all.into_iter().chain(each).chain(in_rows).chain(in_borders)
    }

    /// The units and blocks that its borders are sewn from.
    pub fn sewn_in_borders(&self) -> impl Iterator<Item = Sewn> {
        self.borders.iter().flat_map(|border| [border.of.value(), border.corner_of.value()]).flatten()
    }

    /// Whether all blocks that it names were read.
    pub fn blocks_were_read(&self) -> bool {
        match self.blocks.stated().map(|blocks| &blocks.value) {
            Some(Blocks::Each(each)) => !each.iter().any(|(block, _)| block.is_unread()),
            Some(Blocks::All(_)) => true,
            None => self.rows.stated().or(self.columns.stated()).is_some(),
        }
    }

    /// What the text says that the top measures, after so many borders.
    pub fn steps_measured(&self) -> impl Iterator<Item = (usize, &Field<(Written, Written)>)> {
        let with_border = self.borders.iter().enumerate().map(|(index, border)| (index + 1, &border.measures));
        std::iter::once((0, &self.measures)).chain(with_border)
    }
}

pub(super) fn read_layout(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Layout {
    let read = |reader: &mut Reader, entry: &Entry<'_>| read_size(reader, known, entry);
    Layout { at: entry.key_at, sizes: read_for_some(reader, known.sizes, "layout", entry, LAYOUT_EXAMPLE, read) }
}

fn read_size(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<SizeLayout> {
    let mut table = Table::new(reader, ["layout", entry.key], entry.key_at, &entry.value, LAYOUT_EXAMPLE)?;
    let mut layout =
        SizeLayout { at: entry.key_at, borders_whole: true, ..SizeLayout::read_words(&mut table, reader, known) };
    check_rows(reader, &mut table, &mut layout);
    if let Some(at) = layout.sash_of.at().filter(|_| !layout.sash.is_absent()) {
        let why = "sash says already what the sashes are cut from, so that sash_of is one answer too many".to_string();
        reader.report(at, MistakeKind::CannotBe { why, mend: "Take one of the two out" });
        layout.sash_of = Field::Absent;
    }
    if let Some(entry) = table.entry(SizeLayout::borders) {
        (layout.borders, layout.borders_whole) = read_borders(reader, known, entry);
    }
    table.finish(reader, true);
    Some(layout)
}

/// The words that say how blocks stand in a grid, with where they stand.
fn of_grid(layout: &SizeLayout) -> [(&'static Row, Option<Span>); 3] {
    [
        (SizeLayout::across, layout.across.at()),
        (SizeLayout::down, layout.down.at()),
        (SizeLayout::blocks, layout.blocks.at()),
    ]
}

/// Blocks stand in a grid, in rows or in columns: reports where two of these are stated, and what lacks where none is.
fn check_rows(reader: &mut Reader, table: &mut Table<'_, '_>, layout: &mut SizeLayout) {
    if layout.rows.is_absent() && layout.columns.is_absent() {
        for (row, _) in of_grid(layout) {
            if !table.states(row.word) {
                table.lacks(row);
            }
        }
        if let Some(at) = layout.times.at() {
            let why = "Nothing says what is sewn so many times".to_string();
            reader.report(at, MistakeKind::CannotBe { why, mend: "State rows or columns, or take times out" });
        }
        return;
    }
    let in_rows = if layout.rows.is_absent() { "columns" } else { "rows" };
    let both = layout.columns.at().filter(|_| !layout.rows.is_absent()).map(|at| ("columns", at));
    let grid = of_grid(layout).into_iter().filter_map(|(row, at)| Some((row.word, at?)));
    for (word, at) in grid.chain(both) {
        let why = format!("{in_rows} says already how the blocks stand, so that {word} is one answer too many");
        reader.report(at, MistakeKind::CannotBe { why, mend: "Take one of the two out" });
    }
    let mend = "State each row as often as it is sewn, or take times out";
    if let Some(at) = layout.times.at().filter(|_| layout.set.value() == Some(Set::OnPoint)) {
        reader.report(at, MistakeKind::CannotBe { why: "Rows on point are not all alike".to_string(), mend });
    }
    (layout.across, layout.down, layout.blocks) = (Field::Absent, Field::Absent, Field::Absent);
}

/// How many blocks there are one way.
struct SideKind;

impl ValueKind for SideKind {
    type Field = Field<Count>;
    const SHAPE: Shape = Shape::Count(1, MAX_BLOCKS.0);

    fn read(reader: &mut Reader, _: &DeclaredNames<'_>, _: &'static Row, entry: &Entry<'_>) -> Field<Count> {
        read_side(reader, &entry.value)
    }

    fn unread() -> Field<Count> {
        Field::Unread
    }
}

/// The name of a block, or how many there are of each.
struct BlocksKind;

impl ValueKind for BlocksKind {
    type Field = Field<Blocks>;
    const SHAPE: Shape = Shape::Either(&[Shape::Name("block"), Shape::Named(&Whole::SHAPE)]);

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, _: &'static Row, entry: &Entry<'_>) -> Field<Blocks> {
        read_blocks(reader, known.blocks, entry)
    }

    fn unread() -> Field<Blocks> {
        Field::Unread
    }
}

fn read_side(reader: &mut Reader, node: &Node<'_>) -> Field<Count> {
    let count = reader.count(node);
    match count.stated() {
        Some(stated) if stated.value < Count(1) || stated.value > MAX_BLOCKS => {
            let why = format!("a layout may have 1 to {MAX_BLOCKS} blocks across and down");
            let help = "State how many blocks lie side by side (across), and how many from top to bottom (down).";
            reader.report(stated.at, MistakeKind::OutOfRange { why, help });
            Field::Unread
        }
        _ => count,
    }
}

fn read_blocks(reader: &mut Reader, known: &NameList<'_>, entry: &Entry<'_>) -> Field<Blocks> {
    let node = &entry.value;
    if matches!(node.kind, Kind::Scalar { .. }) {
        return read_block_name(reader, known, node).map(Blocks::All);
    }
    let Some(table) = Table::new(reader, "blocks", entry.key_at, node, BLOCKS_EXAMPLE) else { return Field::Unread };
    if table.is_torn() {
        return Field::Unread;
    }
    let read = |entry: &Entry<'_>| (block_named(reader, known, entry.key, entry.key_at), reader.count(&entry.value));
    let each = table.entries().iter().map(read).collect();
    Field::Stated(Spanned { value: Blocks::Each(each), at: node.at })
}

/// The borders, and whether all of them were read.
fn read_borders(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> (Vec<Border>, bool) {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) => nodes,
        Kind::Empty => return (Vec::new(), true),
        Kind::Unread => return (Vec::new(), false),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each border after a dash";
            reader.report(
                entry.key_at,
                MistakeKind::WrongShape { word: "borders".into(), expected, example: BORDER_EXAMPLE },
            );
            return (Vec::new(), false);
        }
    };
    let mut whole = !reader.is_torn(&entry.value);
    if let Some(beyond) = nodes.get(MAX_BORDERS) {
        whole = false;
        let why = format!("a quilt may have {MAX_BORDERS} borders at most; this one and what follows are not read");
        reader.report(beyond.start(), MistakeKind::TooMany { why });
    }
    let borders: Vec<Option<Border>> =
        nodes.iter().take(MAX_BORDERS).map(|node| read_border(reader, known, node)).collect();
    whole &= borders.iter().all(Option::is_some);
    (borders.into_iter().flatten().collect(), whole)
}

fn read_border(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>) -> Option<Border> {
    let mut table = Table::new(reader, "border", node.start(), node, BORDER_EXAMPLE)?;
    let first = table.entries().first().map_or(node.start(), |entry| entry.key_at);
    table.at = first;
    let mut border = Border { at: first, ..Border::read_words(&mut table, reader, known) };
    check_corner(reader, &mut border);
    table.finish(reader, true);
    Some(border)
}

/// Corners that are sewn stand in a border with squares in its corners, which are then no plain pieces.
fn check_corner(reader: &mut Reader, border: &mut Border) {
    let Some(at) = border.corner_of.at() else { return };
    let (why, mend) = if border.corners.or(Corners::Butted).is_some_and(|corners| corners != Corners::Cornerstones) {
        (
            "The border has no squares in its corners that could be sewn",
            "State corners: cornerstones, or take corner_of out",
        )
    } else if !border.cornerstone.is_absent() {
        (
            "cornerstone says already what the corners are cut from, so that corner_of is one answer too many",
            "Take one of the two out",
        )
    } else {
        return;
    };
    reader.report(at, MistakeKind::CannotBe { why: why.to_string(), mend });
    border.corner_of = Field::Unread;
}
