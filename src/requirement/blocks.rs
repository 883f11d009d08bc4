//! What each block is sewn from, and what its rows and columns come to.

use std::collections::BTreeMap;

use crate::manuscript::Span;
use crate::manuscript::design::{Block, BlockPart, PieceRef, Row, Sewn, in_place_of};
use crate::manuscript::model::Manuscript;
use crate::quantity::{Count, Length, Measure, Round, Written};
use crate::quilt_math::rectangle::Rectangle;

/// What a block is sewn from, down to its units, and the blocks within it.
#[derive(Clone, Debug, Default)]
pub struct BlockContents {
    /// How many of each unit, by the unit's place among the units, those of the blocks within it counted; each in the
    /// colors in which it is sewn.
    pub units: Vec<(usize, Colors, Count)>,
    /// How many of each block within it, by the block's place among the blocks.
    pub blocks: Vec<(usize, Count)>,
}

/// The blocks that take other fabrics in which a unit is sewn, from the inside; none where it is sewn as it is stated.
pub type Colors = Vec<usize>;

impl BlockContents {
    fn add_unit(&mut self, unit: usize, colors: Colors, count: Count) {
        match self.units.iter_mut().find(|(known, of, _)| *known == unit && *of == colors) {
            Some((.., known)) => *known = *known + count,
            None => self.units.push((unit, colors, count)),
        }
    }

    fn add_block(&mut self, block: usize, count: Count) {
        match self.blocks.iter_mut().find(|(known, _)| *known == block) {
            Some((_, known)) => *known = *known + count,
            None => self.blocks.push((block, count)),
        }
    }
}

/// The piece that is taken in some colors in place of one.
pub fn piece_in(blocks: &[Block], colors: &Colors, piece: PieceRef) -> PieceRef {
    let recolored = colors.iter().filter_map(|block| blocks.get(*block));
    recolored.fold(piece, |piece, block| in_place_of(&block.recolored, piece))
}

/// Where the fabric of the piece that is taken in some colors is named; `None` where it is that of the unit.
pub fn colored_at(blocks: &[Block], colors: &Colors, piece: PieceRef) -> Option<Span> {
    let (mut piece, mut at) = (piece, None);
    for block in colors.iter().filter_map(|block| blocks.get(*block)) {
        if let Some(one) = block.recolored.iter().find(|one| one.from == piece) {
            (piece, at) = (one.to, Some(one.at));
        }
    }
    at
}

/// What each block is sewn from; `None` where part of it could not be read.
pub fn contents(blocks: &[Block]) -> Vec<Option<BlockContents>> {
    let mut known = BTreeMap::new();
    (0..blocks.len()).map(|block| contents_of(blocks, block, &mut known)).collect()
}

fn contents_of(
    blocks: &[Block],
    block: usize,
    known: &mut BTreeMap<usize, Option<BlockContents>>,
) -> Option<BlockContents> {
    if let Some(known) = known.get(&block) {
        return known.clone();
    }
    let mut gather = || {
        let mut contents = blocks[block].whole.then(BlockContents::default)?;
        for place in blocks[block].rows.iter().flat_map(|row| &row.places) {
            match place.value()?.sewn {
                Sewn::Unit(unit) => contents.add_unit(unit, Colors::new(), Count(1)),
                Sewn::Block(inner) => {
                    contents.add_block(inner, Count(1));
                    let within = contents_of(blocks, inner, known)?;
                    within.units.into_iter().for_each(|(unit, colors, count)| contents.add_unit(unit, colors, count));
                    within.blocks.into_iter().for_each(|(block, count)| contents.add_block(block, count));
                }
            }
        }
        if blocks[block].like.stated().is_some() {
            contents.units.iter_mut().for_each(|(_, colors, _)| colors.push(block));
        }
        Some(contents)
    };
    let contents = gather();
    known.insert(block, contents.clone());
    contents
}

/// The blocks of a manuscript, with what their rows and columns come to.
#[derive(Debug)]
pub struct BlocksNeeds<'m> {
    /// The measure to print in.
    pub measure: Measure,
    /// Each block, in the manuscript's order.
    pub blocks: Vec<BlockNeeds<'m>>,
}

/// One block.
#[derive(Debug)]
pub struct BlockNeeds<'m> {
    /// What is stated.
    pub stated: &'m Block,
    /// Its finished width and height.
    pub finished: Option<Rectangle>,
    /// Its rows.
    pub rows: Vec<RowNeeds<'m>>,
}

/// One row of a block.
#[derive(Debug)]
pub struct RowNeeds<'m> {
    /// Where it stands.
    pub at: Span,
    /// Its units as they lie, finished; `None` where a unit or its size could not be read.
    pub units: Option<Vec<PlacedUnit<'m>>>,
}

/// A unit, or a block, as it lies in a block.
#[derive(Clone, Copy, Debug)]
pub struct PlacedUnit<'m> {
    /// What the pattern calls it.
    pub name: &'m str,
    /// Whether it is turned a quarter.
    pub turned: bool,
    /// Its finished width and height as it lies.
    pub size: Rectangle,
    /// Where that is stated.
    pub at: Option<Span>,
    /// What is stated there.
    pub written: (Written, Written),
}

impl<'m> BlocksNeeds<'m> {
    /// What the blocks of a manuscript come to.
    pub fn new(manuscript: &'m Manuscript) -> BlocksNeeds<'m> {
        let blocks = manuscript.blocks.iter().map(|stated| BlockNeeds {
            stated,
            finished: stated.finished.value().map(|(width, height)| Rectangle::new(width.length, height.length)),
            rows: stated.rows.iter().map(|row| row_needs(row, manuscript)).collect(),
        });
        BlocksNeeds { measure: manuscript.measure, blocks: blocks.collect() }
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }
}

fn row_needs<'m>(row: &Row, manuscript: &'m Manuscript) -> RowNeeds<'m> {
    let placed = |place: Option<BlockPart>| {
        let place = place?;
        let (name, finished) = match place.sewn {
            Sewn::Unit(unit) => manuscript.units.get(unit).map(|unit| (&unit.name, &unit.finished))?,
            Sewn::Block(block) => manuscript.blocks.get(block).map(|block| (&block.name, &block.finished))?,
        };
        let (width, height) = finished.value()?;
        let size = Rectangle::new(width.length, height.length);
        let size = if place.turned { size.turned() } else { size };
        Some(PlacedUnit { name, turned: place.turned, size, at: finished.at(), written: (width, height) })
    };
    RowNeeds { at: row.at, units: row.places.iter().map(|place| placed(place.value())).collect() }
}

impl RowNeeds<'_> {
    /// How wide its units are side by side.
    pub fn width(&self) -> Option<Length> {
        Some(self.units.as_ref()?.iter().map(|unit| unit.size.width).sum())
    }

    /// How high it is: as high as most of its units, or as the first of these.
    pub fn height(&self) -> Option<Length> {
        let units = self.units.as_ref()?;
        let like = |height: Length| units.iter().filter(|unit| unit.size.length == height).count();
        let most = units.iter().map(|unit| like(unit.size.length)).max()?;
        units.iter().map(|unit| unit.size.length).find(|height| like(*height) == most)
    }

    /// The units that are not as high as the row, beyond a tolerance.
    pub fn odd(&self, tolerance: Length) -> Vec<PlacedUnit<'_>> {
        let (Some(units), Some(height)) = (&self.units, self.height()) else { return Vec::new() };
        units.iter().filter(|unit| (unit.size.length - height).abs() > tolerance).copied().collect()
    }
}
