//! How many of each piece the design of each size uses: layout x blocks x units, and sashing and borders.
//!
//! A count goes by whole sets: as many units as the blocks take, divided by what one set gives and rounded up, times
//! the pieces of a set. What one set gives is what the text says (`yields`), and never more than the pieces give.
//! Pieces that more than one unit takes are summed, and more than a set too many is a note.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use super::blocks::{BlockContents, Colors, colored_at, contents, piece_in};
use super::fabrics::{FabricNeeds, FabricsNeeds};
use super::layout::{BlockCount, LayoutNeeds, LayoutsNeeds, border_join_loss};
use super::unit_borders::{SewnFrom, UnitBorder, unit_borders};
use super::units::{PieceUse, UnitsNeeds};
use crate::manuscript::design::{Make, PieceRef, Sewn, Unit};
use crate::manuscript::model::{Border as StatedBorder, Cut as StatedCut, YesNo};
use crate::manuscript::{Field, Manuscript, Span, Spanned};
use crate::quantity::{Count, Length};
use crate::quilt_math::cutting::Shape;
use crate::quilt_math::joined::{Joining, Runs};
use crate::quilt_math::layout::{BorderStrips, Sashes, Side, Top};
use crate::quilt_math::log_cabin::strips_for;

/// How many of the blocks that a unit is in are told one by one.
pub const MAX_TOLD: usize = 8;

/// What the design of every size that has a layout uses.
#[derive(Debug)]
pub struct CountsNeeds<'m> {
    /// The sizes that have a layout.
    pub sizes: Vec<SizeCounts<'m>>,
    /// The borders that are sewn from units or blocks.
    pub unit_borders: Vec<UnitBorder<'m>>,
    /// Whether every piece that the design uses is known, so that another is used by nothing.
    pub whole: bool,
}

/// What the design of one size uses.
#[derive(Debug)]
pub struct SizeCounts<'m> {
    /// The layout.
    pub index: usize,
    /// The place of its size among the sizes.
    pub size: usize,
    /// The units, each with how many there are, and in which blocks.
    pub units: BTreeMap<usize, Units<'m>>,
    /// The units that are sewn in other colors, each in those colors alone.
    pub colored: BTreeMap<(usize, Colors), Units<'m>>,
    /// How many of each block there are, those within other blocks counted, by their places among the blocks.
    pub blocks: BTreeMap<usize, Count>,
    /// Whether all blocks and units were counted, but those that are uncounted.
    pub units_whole: bool,
    /// The blocks that lie around the quilt, with how many there are.
    pub blocks_around: BTreeMap<usize, Count>,
    /// The units of borders that do not fit, by their places among the units.
    pub uncounted: BTreeSet<usize>,
    /// The blocks of borders that do not fit, and those within them, by their places among the blocks.
    pub uncounted_blocks: BTreeSet<usize>,
    /// The pieces that are used.
    pub pieces: BTreeMap<PieceRef, PieceNeeds<'m>>,
    /// Whether everything that the layout names was read, so that no more is used.
    pub whole: bool,
}

/// How many of one unit there are.
#[derive(Clone, Debug)]
pub struct Units<'m> {
    /// The unit.
    pub unit: &'m Unit,
    /// How many.
    pub count: Count,
    /// The first of the blocks that it is in, each with how many there are of it and how many units each has.
    pub blocks: Vec<(BlockCount<'m>, Count)>,
    /// How many blocks it is in.
    pub in_blocks: usize,
    /// The borders that are sewn from it, counted from the inside, each with how many there are.
    pub in_borders: Vec<(usize, Count)>,
}

impl<'m> Units<'m> {
    /// None yet.
    fn none(unit: &'m Unit) -> Units<'m> {
        Units { unit, count: Count(0), blocks: Vec::new(), in_blocks: 0, in_borders: Vec::new() }
    }

    /// Those of a block, so many in each.
    fn add(&mut self, block: &BlockCount<'m>, each: Count) {
        self.count = self.count + each * block.count;
        self.in_blocks += 1;
        if self.blocks.len() < MAX_TOLD {
            self.blocks.push((*block, each));
        }
    }

    /// What is left of them without others.
    fn without(&self, others: &[&Units<'m>]) -> Units<'m> {
        let is_other = |block: &BlockCount<'m>, each: Count| {
            let own =
                |(other, of): &(BlockCount<'m>, Count)| (other.at, other.block, *of) == (block.at, block.block, each);
            others.iter().any(|other| other.blocks.iter().any(own))
        };
        let count = others.iter().fold(self.count, |left, other| left.less(other.count));
        let in_blocks = self.in_blocks - others.iter().map(|other| other.in_blocks).sum::<usize>().min(self.in_blocks);
        let blocks = self.blocks.iter().filter(|(block, each)| !is_other(block, *each)).copied().collect();
        Units { count, blocks, in_blocks, ..self.clone() }
    }
}

/// How many of one piece are used.
#[derive(Clone, Debug, Default)]
pub struct PieceNeeds<'m> {
    /// Each use.
    pub uses: Vec<Use<'m>>,
}

/// One use of a piece.
#[derive(Clone, Debug)]
pub struct Use<'m> {
    /// What it is used for.
    pub used_for: UsedFor<'m>,
    /// Where the design names it.
    pub at: Span,
    /// How many pieces that takes.
    pub count: Count,
    /// How many pieces make one set, or one sash or border: less than that cannot be left out.
    pub set: Count,
}

/// What a piece is used for.
#[derive(Clone, Debug)]
pub enum UsedFor<'m> {
    /// A part of a unit.
    Unit {
        /// The unit.
        stated: &'m Unit,
        /// How many units are made.
        units: Count,
        /// How many one set of pieces gives.
        gives: Count,
        /// How many sets that takes.
        sets: Count,
        /// The units that it is for, where others of them are sewn in other colors.
        of: Option<Box<Units<'m>>>,
    },
    /// Logs of log cabins, cut from strips that are left whole.
    Logs {
        /// How many there are of each length.
        logs: Runs,
    },
    /// Sashes as long as a block.
    Sashes,
    /// Sashes as long as a row, pieced from strips.
    LongSashes {
        /// How long all of them are together.
        run: Length,
    },
    /// Squares where sashes cross.
    Cornerstones,
    /// A border.
    Border {
        /// Which, counted from the inside.
        index: usize,
        /// How many strips of it are cut, and how long each.
        runs: Runs,
        /// Whether they are joined from strips.
        joined: bool,
    },
    /// The squares at the corners of a border.
    BorderCornerstones {
        /// Which, counted from the inside.
        index: usize,
    },
}

impl PieceNeeds<'_> {
    /// How many are used in all.
    pub fn count(&self) -> Count {
        self.uses.iter().fold(Count(0), |sum, use_| sum + use_.count)
    }

    /// The largest set that is made of it.
    pub fn set(&self) -> Count {
        self.uses.iter().map(|use_| use_.set).max().unwrap_or(Count(1))
    }
}

/// A stated number of pieces.
#[derive(Clone, Copy, Debug)]
pub struct Supply {
    /// How many there are.
    pub count: Count,
    /// Where that is stated.
    pub at: Span,
    /// The strips that give them, where only those are stated.
    pub strips: Option<Count>,
    /// How many fabrics give as many of them each, where that is what is stated.
    pub from: Option<Count>,
}

impl Supply {
    /// How many each of the fabrics gives.
    pub fn of_each(&self) -> Option<Count> {
        let from = self.from.filter(|from| from.0 > 0)?;
        Some(Count(self.count.0 / from.0))
    }
}

impl<'m> CountsNeeds<'m> {
    /// What the design uses.
    pub fn new(layouts: &LayoutsNeeds<'m>, fabrics: &FabricsNeeds<'m>, units: &UnitsNeeds<'m>) -> CountsNeeds<'m> {
        let manuscript = layouts.manuscript;
        let counting = Counting {
            layouts,
            fabrics,
            in_blocks: contents(&manuscript.blocks),
            per_unit: (0..manuscript.units.len()).map(|unit| units.pieces_per_unit(unit)).collect(),
        };
        let each = || layouts.sizes.iter().enumerate();
        let unit_borders: Vec<UnitBorder<'m>> =
            each().flat_map(|(place, laid)| unit_borders(manuscript, layouts, place, laid)).collect();
        let sizes: Vec<SizeCounts<'m>> =
            each().map(|(index, laid)| counting.size(index, laid, &unit_borders)).collect();
        let whole = layouts.is_complete() && !sizes.is_empty() && sizes.iter().all(|size| size.whole);
        CountsNeeds { sizes, unit_borders, whole }
    }
}

/// What is needed to count the pieces of one size after another.
struct Counting<'c, 'm> {
    layouts: &'c LayoutsNeeds<'m>,
    fabrics: &'c FabricsNeeds<'m>,
    /// What each block is sewn from.
    in_blocks: Vec<Option<BlockContents>>,
    /// The pieces of each unit.
    per_unit: Vec<Option<Vec<PieceUse<'m>>>>,
}

impl<'m> Counting<'_, 'm> {
    fn manuscript(&self) -> &'m Manuscript {
        self.layouts.manuscript
    }

    fn size(&self, index: usize, laid: &LayoutNeeds<'m>, unit_borders: &[UnitBorder<'m>]) -> SizeCounts<'m> {
        let mut counts = SizeCounts {
            index,
            size: laid.index,
            units: BTreeMap::new(),
            colored: BTreeMap::new(),
            blocks: BTreeMap::new(),
            units_whole: true,
            blocks_around: BTreeMap::new(),
            uncounted: BTreeSet::new(),
            uncounted_blocks: BTreeSet::new(),
            pieces: BTreeMap::new(),
            whole: true,
        };
        self.blocks(&mut counts, laid);
        self.between_blocks(&mut counts, laid);
        self.unit_borders(&mut counts, laid, unit_borders.iter().filter(|border| border.layout == index));
        self.pieces_of_units(&mut counts);
        let Some((top, seam)) = laid.top.as_ref().zip(self.layouts.seam) else {
            counts.whole = false;
            return counts;
        };
        self.sashing(&mut counts, laid, top, seam);
        self.borders(&mut counts, laid, top, seam);
        counts
    }

    fn blocks(&self, counts: &mut SizeCounts<'m>, laid: &LayoutNeeds<'m>) {
        if laid.unchecked.is_some() && laid.fills_with_one_block() {
            // How many blocks fill a layout that cannot be checked is not known.
            (counts.whole, counts.units_whole) = (false, false);
            return;
        }
        // Where the blocks do not sum to the layout's, it is not known which of them there are more of.
        let counted = laid.blocks.iter().fold(Count(0), |sum, block| sum + block.count);
        counts.whole &= laid.blocks_whole && laid.borders_whole && laid.places == Some(counted);
        counts.units_whole &= laid.blocks_whole;
        for block in &laid.blocks {
            self.add_blocks(counts, block);
        }
    }

    /// So many of a block, with the blocks within it and their units.
    fn add_blocks(&self, counts: &mut SizeCounts<'m>, block: &BlockCount<'m>) {
        let in_block = self.in_blocks.get(block.block).and_then(Option::as_ref);
        counts.whole &= in_block.is_some();
        counts.units_whole &= in_block.is_some();
        let within = in_block.into_iter().flat_map(|contents| contents.blocks.iter().copied());
        for (number, each) in within.chain([(block.block, Count(1))]) {
            let all = counts.blocks.entry(number).or_default();
            *all = *all + each * block.count;
        }
        for (unit, colors, each) in in_block.into_iter().flat_map(|contents| &contents.units) {
            let Some(stated) = self.manuscript().units.get(*unit) else { continue };
            counts.units.entry(*unit).or_insert_with(|| Units::none(stated)).add(block, *each);
            if !colors.is_empty() {
                let colored = counts.colored.entry((*unit, colors.clone()));
                colored.or_insert_with(|| Units::none(stated)).add(block, *each);
            }
        }
    }

    /// The units and the blocks that borders are sewn from.
    fn unit_borders<'b>(
        &self,
        counts: &mut SizeCounts<'m>,
        laid: &LayoutNeeds<'m>,
        borders: impl Iterator<Item = &'b UnitBorder<'m>>,
    ) where
        'm: 'b,
    {
        let mut known: BTreeSet<Sewn> = BTreeSet::new();
        for border in borders {
            match (border.of, border.count()) {
                (SewnFrom::Unit(stated, unit), Some(count)) => {
                    known.insert(Sewn::Unit(unit));
                    let units = counts.units.entry(unit).or_insert_with(|| Units::none(stated));
                    units.count = units.count + count;
                    units.in_borders.push((border.index, count));
                }
                (SewnFrom::Block(stated, block), Some(count)) => {
                    known.insert(Sewn::Block(block));
                    let around = counts.blocks_around.entry(block).or_default();
                    *around = *around + count;
                    self.add_blocks(counts, &BlockCount { block, stated, count, at: border.at });
                }
                (SewnFrom::Unit(_, unit), None) => {
                    known.insert(Sewn::Unit(unit));
                    counts.uncounted.insert(unit);
                }
                (SewnFrom::Block(_, block), None) => {
                    known.insert(Sewn::Block(block));
                    counts.uncounted_blocks.insert(block);
                    let within = self.in_blocks.get(block).and_then(Option::as_ref);
                    counts.units_whole &= within.is_some();
                    if let Some(contents) = within {
                        counts.uncounted_blocks.extend(contents.blocks.iter().map(|(block, _)| *block));
                        counts.uncounted.extend(contents.units.iter().map(|(unit, ..)| *unit));
                    }
                }
            }
        }
        // A border of which nothing is known may take any unit.
        let is_known = |of: &Field<Sewn>| of.value().map_or(of.is_absent(), |sewn| known.contains(&sewn));
        let all_known = laid.stated.borders.iter().all(|border| is_known(&border.of) && is_known(&border.corner_of));
        counts.units_whole &= all_known && laid.borders_whole;
        counts.whole &= all_known && counts.uncounted.is_empty() && counts.uncounted_blocks.is_empty();
    }

    /// The triangles that set blocks on point, and the units that are sashes.
    fn between_blocks(&self, counts: &mut SizeCounts<'m>, laid: &LayoutNeeds<'m>) {
        let fields = [&laid.stated.side_triangles, &laid.stated.corner_triangles, &laid.stated.sash_of];
        counts.units_whole &= laid.top.is_some() || fields.iter().all(|unit| unit.is_absent());
        let Some(top) = &laid.top else { return };
        let between = [
            (&laid.stated.side_triangles, top.side_triangles()),
            (&laid.stated.corner_triangles, top.corner_triangles()),
            (&laid.stated.sash_of, count_of(&laid.sashes_of_short_piece())),
        ];
        for (unit, count) in between {
            counts.whole &= !unit.is_unread();
            counts.units_whole &= !unit.is_unread();
            let Some((index, stated)) = unit.value().and_then(|unit| Some((unit, self.manuscript().units.get(unit)?)))
            else {
                continue;
            };
            let units = counts.units.entry(index).or_insert_with(|| Units::none(stated));
            units.count = units.count + count;
        }
    }

    fn pieces_of_units(&self, counts: &mut SizeCounts<'m>) {
        let mut uses = Vec::new();
        let mut logs: BTreeMap<PieceRef, (Span, Runs)> = BTreeMap::new();
        let (all, colored) = (std::mem::take(&mut counts.units), std::mem::take(&mut counts.colored));
        for (index, colors, units, is_part) in by_color(&all, &colored) {
            let Some(pieces) = self.per_unit.get(index).and_then(Option::as_ref) else {
                counts.whole = false;
                continue;
            };
            for piece in pieces {
                let named_at = colored_at(&self.manuscript().blocks, &colors, piece.piece);
                let piece = &PieceUse { piece: piece_in(&self.manuscript().blocks, &colors, piece.piece), ..*piece };
                let part = units.unit.cut.iter().find(|part| part.part == piece.part);
                let taken = units.unit.takes.iter().find(|taken| taken.name == piece.part).map(|taken| taken.at);
                let at = named_at.or_else(|| part.and_then(|part| part.from.at())).or(taken);
                let Some((at, sets)) = at.zip(units.count.in_groups_of(piece.units)) else {
                    continue;
                };
                let of = is_part.then(|| Box::new(units.as_ref().clone()));
                let used_for = UsedFor::Unit { stated: units.unit, units: units.count, gives: piece.units, sets, of };
                let (count, set) = (piece.for_units(units.count), piece.pieces);
                if !units.unit.make.value().is_some_and(Make::is_strip_set)
                    && self.whole_strip(piece.piece, counts.size).is_some()
                {
                    match self.log_length(units.unit, piece.part) {
                        Some(length) => {
                            let (_, known) = logs.entry(piece.piece).or_insert_with(|| (at, Vec::new()));
                            known.push((units.count * piece.pieces, length));
                        }
                        // How many come out of a strip that is left whole is not said.
                        None => counts.whole = false,
                    }
                    continue;
                }
                uses.push((piece.piece, Use { used_for, at, count, set }));
            }
        }
        (counts.units, counts.colored) = (all, colored);
        for (piece, used) in uses {
            counts.add(piece, used);
        }
        for (piece, (at, logs)) in logs {
            self.logs(counts, piece, at, logs);
        }
    }

    /// Logs that are cut from strips which are left whole.
    fn logs(&self, counts: &mut SizeCounts<'m>, piece: PieceRef, at: Span, logs: Runs) {
        let strip = self.whole_strip(piece, counts.size);
        let Some((count, enough)) = strip.and_then(|strip| strips_for(&logs, strip)) else {
            counts.whole = false;
            return;
        };
        let set = enough.less(count) + Count(1);
        counts.add(piece, Use { used_for: UsedFor::Logs { logs }, at, count, set });
    }

    /// How long a log, or the center, of a log cabin is cut.
    fn log_length(&self, unit: &Unit, part: &str) -> Option<Length> {
        let make = unit.make.value().filter(|make| make.row().has_logs())?;
        let seam = if unit.seam.is_absent() { self.layouts.seam } else { unit.seam.length() };
        let measures = unit.measures(seam?)?;
        let parts = make.way(None).cut_parts(&measures);
        parts.into_iter().find(|known| known.name == part).map(|known| known.height.cut.above)
    }

    fn sashing(&self, counts: &mut SizeCounts<'m>, laid: &LayoutNeeds<'m>, top: &Top, seam: Length) {
        let stated = laid.stated;
        counts.whole &= ![&stated.sash, &stated.long_sash, &stated.cornerstone].into_iter().any(Field::is_unread);
        let Some(sashing) = top.sashing else { return };
        // One piece for all is cut as long as the longest of them.
        let sashes = laid.sashes_of_short_piece();
        let longest = sashes.iter().map(|sashes| sashes.length).max().unwrap_or_default();
        self.cut_pieces(counts, &stated.sash, UsedFor::Sashes, count_of(&sashes), longest + seam * 2);
        let square = sashing.width + seam * 2;
        self.cut_pieces(counts, &stated.cornerstone, UsedFor::Cornerstones, top.cornerstones(), square);
        if let (Some(piece), false) = (stated.long_sash.stated(), sashing.cornerstones) {
            let long = top.long_sashes();
            let run = long.length + seam * 2;
            let loss = seam * 2;
            match self.strips((piece.value, laid.index), &[(long.count, run)], |_| Some(loss)) {
                Some((count, set)) => {
                    let used_for = UsedFor::LongSashes { run: run * long.count };
                    counts.add(piece.value, Use { used_for, at: piece.at, count, set });
                }
                None => counts.whole = false,
            }
        }
    }

    fn borders(&self, counts: &mut SizeCounts<'m>, laid: &LayoutNeeds<'m>, top: &Top, seam: Length) {
        for (index, stated) in laid.stated.borders.iter().enumerate() {
            let strips = top.border_strips(index, seam);
            let Some((strips, pieced)) = strips.zip(stated.pieced.or(YesNo::Yes)) else {
                counts.whole = false;
                continue;
            };
            counts.whole &= ![&stated.piece, &stated.piece_across, &stated.piece_bottom, &stated.cornerstone]
                .into_iter()
                .any(Field::is_unread);
            let squares = UsedFor::BorderCornerstones { index };
            self.cut_pieces(counts, &stated.cornerstone, squares, strips.cornerstones, strips.widest());
            // A border that is sewn from units takes no strips.
            let of_strips = if stated.of.is_absent() { border_pieces(stated, &strips) } else { Vec::new() };
            for BorderPiece { piece, runs, .. } in of_strips {
                let joined = pieced == YesNo::Yes;
                let count = if joined {
                    self.strips((piece.value, laid.index), &runs, |width| border_join_loss(stated, width, seam))
                } else {
                    Some((runs.iter().fold(Count(0), |sum, (count, _)| sum + *count), Count(1)))
                };
                let Some((count, set)) = count else {
                    counts.whole = false;
                    continue;
                };
                let used_for = UsedFor::Border { index, runs, joined };
                counts.add(piece.value, Use { used_for, at: piece.at, count, set });
            }
        }
    }

    /// Pieces of one length: each by itself, or cut from whole strips.
    fn cut_pieces(
        &self,
        counts: &mut SizeCounts<'m>,
        piece: &Field<PieceRef>,
        used_for: UsedFor<'m>,
        count: Count,
        length: Length,
    ) {
        let Some(piece) = piece.stated() else { return };
        let count = match self.whole_strip(piece.value, counts.size) {
            None => Some(count),
            Some(strip) => count.in_groups_of(strip.pieces_of(length)),
        };
        match count {
            Some(count) => counts.add(piece.value, Use { used_for, at: piece.at, count, set: Count(1) }),
            None => counts.whole = false,
        }
    }

    /// How long a piece is that is strips left whole.
    fn whole_strip(&self, piece: PieceRef, size: usize) -> Option<Length> {
        let (fabric, _) = entry(self.fabrics, piece)?;
        match fabric.shape(piece.cut, size)? {
            Shape::WholeStrip { .. } => Some(fabric.cloth?.strip_length()),
            Shape::Piece { .. }
            | Shape::Lengthwise { .. }
            | Shape::Strip { .. }
            | Shape::Slanted(_)
            | Shape::Centered { .. }
            | Shape::Template { .. } => None,
        }
    }

    /// How many of a piece make strips of these lengths, joined end to end, and how many more than that are too many:
    /// what is left over at the end of a side may begin the next, or be left, as whoever sews likes it.
    fn strips(
        &self,
        (piece, size): (PieceRef, usize),
        runs: &[(Count, Length)],
        loss: impl Fn(Length) -> Option<Length>,
    ) -> Option<(Count, Count)> {
        let (width, strip_length) = strip_of(self.fabrics, piece, size)?;
        let joining = Joining { strip_length, loss: loss(width)? };
        let fewest = joining.fewest(runs)?.strips;
        let mut each_by_itself = Count(0);
        for (count, run) in runs {
            each_by_itself = each_by_itself + joining.fewest(&[(Count(1), *run)])?.strips * *count;
        }
        Some((fewest, each_by_itself.less(fewest) + Count(1)))
    }
}

impl<'m> SizeCounts<'m> {
    /// How many of a piece are used. Where several entries are counted together, with what uses some of them alone.
    pub fn needs_of(&self, fabrics: &FabricsNeeds<'m>, piece: PieceRef) -> PieceNeeds<'m> {
        let own = self.pieces.get(&piece).cloned().unwrap_or_default();
        if !piece.is_shared() {
            return own;
        }
        let entries = piece.entries(stated(fabrics));
        let within = |of: PieceRef| of.entries(stated(fabrics)).iter().all(|entry| entries.contains(entry));
        let others = self.pieces.iter().filter(|(of, _)| **of != piece && within(**of));
        let uses = own.uses.into_iter().chain(others.flat_map(|(_, needs)| needs.uses.iter().cloned()));
        PieceNeeds { uses: uses.collect() }
    }

    /// The pieces counted together that an entry is counted with, where it is; the widest of them.
    pub fn shared_with(&self, fabrics: &FabricsNeeds<'m>, entry: PieceRef) -> Option<PieceRef> {
        let shared = self.pieces.keys().rev().filter(|of| of.is_shared());
        shared.copied().filter(|of| of.means(entry, stated(fabrics))).max_by_key(|of| of.of)
    }

    /// How many of a unit there are; `None` where that is not known.
    pub fn of_unit(&self, unit: usize) -> Option<Count> {
        let known = self.units_whole && !self.uncounted.contains(&unit);
        known.then(|| self.units.get(&unit).map_or(Count(0), |units| units.count))
    }

    /// How many of a block there are; `None` where that is not known.
    pub fn of_block(&self, block: usize) -> Option<Count> {
        let known = self.units_whole && !self.uncounted_blocks.contains(&block);
        known.then(|| self.blocks.get(&block).copied().unwrap_or_default())
    }

    fn add(&mut self, piece: PieceRef, used: Use<'m>) {
        self.pieces.entry(piece).or_default().uses.push(used);
    }
}

/// Units of one kind: their place among the units, the colors in which they are sewn, how many there are, and whether
/// others of the kind are sewn in others.
type UnitsInColors<'c, 'm> = (usize, Colors, Cow<'c, Units<'m>>, bool);

/// The units, each in the colors in which it is sewn.
fn by_color<'c, 'm>(
    all: &'c BTreeMap<usize, Units<'m>>,
    colored: &'c BTreeMap<(usize, Colors), Units<'m>>,
) -> Vec<UnitsInColors<'c, 'm>> {
    let mut parts = Vec::with_capacity(all.len());
    for (unit, units) in all {
        let own = colored.iter().filter(|((of, _), _)| of == unit);
        let others: Vec<&Units<'m>> = own.clone().map(|(_, units)| units).collect();
        if others.is_empty() {
            parts.push((*unit, Colors::new(), Cow::Borrowed(units), false));
            continue;
        }
        let plain = units.without(&others);
        if plain.count.0 > 0 {
            parts.push((*unit, Colors::new(), Cow::Owned(plain), true));
        }
        parts.extend(own.map(|((_, colors), units)| (*unit, colors.clone(), Cow::Borrowed(units), true)));
    }
    parts
}

/// How many sashes are as long as a side of a block.
fn count_of(sashes: &[Sashes]) -> Count {
    sashes.iter().fold(Count(0), |sum, sashes| sum + sashes.count)
}

/// A piece that a border is cut from.
#[derive(Clone, Debug)]
pub struct BorderPiece<'m> {
    /// The piece.
    pub piece: &'m Spanned<PieceRef>,
    /// The strips that are made of it.
    pub runs: Runs,
    /// How wide the widest of them is cut.
    pub width: Length,
}

/// The pieces that a border is cut from, each with the strips that it makes.
pub fn border_pieces<'m>(stated: &'m StatedBorder, strips: &BorderStrips) -> Vec<BorderPiece<'m>> {
    let of = |piece: &'m Field<PieceRef>, runs: Runs, width: Length| {
        piece.stated().map(|piece| BorderPiece { piece, runs, width })
    };
    let run = |count: u64, side: Side| (Count(count), side.above());
    if stated.piece_across.is_absent() {
        let all = vec![run(2, strips.sides), run(2, strips.ends)];
        return of(&stated.piece, all, strips.widest()).into_iter().collect();
    }
    let sides = of(&stated.piece, vec![run(2, strips.sides)], strips.width);
    let ends = if stated.piece_bottom.is_absent() {
        [of(&stated.piece_across, vec![run(2, strips.ends)], strips.ends_width()), None]
    } else {
        let end = |piece, width| of(piece, vec![run(1, strips.ends)], width);
        [end(&stated.piece_across, strips.top_width), end(&stated.piece_bottom, strips.bottom_width)]
    };
    sides.into_iter().chain(ends.into_iter().flatten()).collect()
}

/// The entry of a cutting list that a piece is, with its fabric.
pub fn entry<'c, 'm>(fabrics: &'c FabricsNeeds<'m>, piece: PieceRef) -> Option<(&'c FabricNeeds<'m>, &'m StatedCut)> {
    let fabric = fabrics.fabrics.get(piece.fabric)?;
    Some((fabric, fabric.stated.cut.get(piece.cut)?))
}

/// How wide and how long a strip is that a piece of the cutting list is: a whole strip is as long as the fabric can
/// be used. For a size, by its place among the sizes.
pub fn strip_of(fabrics: &FabricsNeeds<'_>, piece: PieceRef, size: usize) -> Option<(Length, Length)> {
    let (fabric, _) = entry(fabrics, piece)?;
    match fabric.shape(piece.cut, size)? {
        Shape::WholeStrip { width } => Some((width, fabric.cloth?.strip_length())),
        Shape::Piece { width, height, .. } | Shape::Centered { width, height, .. } => {
            Some((width.min(height), width.max(height)))
        }
        Shape::Slanted(_) | Shape::Template { .. } => None,
        Shape::Lengthwise { width, length } | Shape::Strip { width, length } => {
            Some((width.min(length), width.max(length)))
        }
    }
}

/// The fabrics as they are stated.
pub fn stated<'f, 'm: 'f>(
    fabrics: &'f FabricsNeeds<'m>,
) -> impl Iterator<Item = &'f crate::manuscript::model::Fabric> + Clone {
    fabrics.fabrics.iter().map(|fabric| fabric.stated)
}

/// How many of a piece the cutting lists of a size give, all entries that are meant together; `None` where one of them
/// does not say, or could not be read.
pub fn supply(fabrics: &FabricsNeeds<'_>, piece: PieceRef, size: usize) -> Option<Supply> {
    if !piece.is_shared() {
        return supply_of_entry(fabrics, piece, size);
    }
    let entries = piece.entries(stated(fabrics));
    let each: Option<Vec<Supply>> = entries.iter().map(|entry| supply_of_entry(fabrics, *entry, size)).collect();
    let each = each?;
    let most = each.iter().max_by_key(|supply| (supply.count, std::cmp::Reverse(supply.at)))?;
    let count = each.iter().fold(Count(0), |sum, supply| sum + supply.count);
    let strips = each.iter().filter_map(|supply| supply.strips).reduce(|sum, strips| sum + strips);
    Some(Supply { count, at: most.at, strips, from: None })
}

fn supply_of_entry(fabrics: &FabricsNeeds<'_>, piece: PieceRef, size: usize) -> Option<Supply> {
    let (fabric, cut) = entry(fabrics, piece)?;
    let pieces = cut.pieces.get(size)?;
    if let Some(pieces) = pieces.stated() {
        let from_each = cut.pieces_from_each.get(size).and_then(Field::at) == Some(pieces.at);
        let from = fabric.stated.gives_from_each(size).filter(|_| from_each);
        return Some(Supply { count: pieces.value, at: pieces.at, strips: None, from });
    }
    let strips = cut.strips.get(size)?.stated().filter(|_| pieces.is_absent())?;
    let (cut, cloth) = (fabric.sizes.get(size)?.cuts.get(piece.cut).copied().flatten()?, fabric.cloth?);
    // Where nothing says which way round pieces are cut, they are enough if they are enough either way.
    let count = cut.ways(cloth).iter().map(|way| way.gives(strips.value)).max()?;
    Some(Supply { count, at: strips.at, strips: Some(strips.value), from: None })
}
