//! Reading the layout section.

use super::declared_names::{DeclaredNames, NameList, block_named, read_block_name};
use super::design::PieceRef;
use super::kinds::{Dimensions, NonNegative, OneOf, PieceName, Positive, UnitName, Whole};
use super::model::{Blocks, Corners, Join, Layout, Set, YesNo};
use super::read_per_size::read_for_some;
use super::reader::Reader;
use super::section::LeftOut::{BookValue, Required, Said, Standard};
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
        across: Field<Count> = SideKind, Required,
            "how many blocks there are from side to side; on point, without those in the gaps between them", "3";
        down: Field<Count> = SideKind, Required,
            "how many blocks there are from top to bottom; on point, without those in the gaps between them", "4";
        blocks: Field<Blocks> = BlocksKind, Required,
            "the block, where all are the same; or how many of each: `{ star: 6, chain: 6 }`", "star";
        sashing: Field<Written> = Positive, Said("no sashing"),
            "how wide the sashing between the blocks finishes", "2";
        sashing_round: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where it goes around the blocks as well; or `no`", "yes", needs("sashing");
        cornerstones: Field<YesNo> = OneOf<YesNo>, Standard("no"),
            "`yes` where there are squares where sashes cross; or `no`: the sashes between rows are then as long as a \
             row", "yes", needs("sashing");
        sash: Field<PieceRef> = PieceName, Said("their cut size and count are not checked"),
            "the piece of a cutting list for sashes beside blocks", "S", needs("sashing");
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
        width: Field<Written> = Positive, Required, "how wide it finishes", "4";
        corners: Field<Corners> = OneOf<Corners>, Standard("butted"),
            "how its corners are made: `butted`, the sides first and then top and bottom; `mitered`; or `cornerstones`, \
             a square in each", "butted";
        piece: Field<PieceRef> = PieceName, Said("its cut size and count are not checked"),
            "the piece of a cutting list that it is cut from, or its sides alone where there is a `piece_across`", "C";
        piece_across: Field<PieceRef> = PieceName, Said("all four are cut from `piece`"),
            "the piece for its top and bottom, where that is another", "D";
        cornerstone: Field<PieceRef> = PieceName, Said("not checked"),
            "the piece for the squares at its corners", "K";
        of: Field<usize> = UnitName, Said("it is sewn from strips"),
            "for a border that is sewn from units: the unit, so many side by side along each side", "geese";
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

impl SizeLayout {
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
    let mut table = Table::new(reader, ["layout", &entry.key], entry.key_at, &entry.value, LAYOUT_EXAMPLE)?;
    let mut layout =
        SizeLayout { at: entry.key_at, borders_whole: true, ..SizeLayout::read_words(&mut table, reader, known) };
    if let Some(entry) = table.entry(SizeLayout::borders) {
        (layout.borders, layout.borders_whole) = read_borders(reader, known, entry);
    }
    table.finish(reader, true);
    Some(layout)
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
    let read = |entry: &Entry<'_>| (block_named(reader, known, &entry.key, entry.key_at), reader.count(&entry.value));
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
    let border = Border { at: first, ..Border::read_words(&mut table, reader, known) };
    table.finish(reader, true);
    Some(border)
}
