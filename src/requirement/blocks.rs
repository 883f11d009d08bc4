//! What each block is sewn from, and what its rows and columns come to.

use crate::manuscript::Span;
use crate::manuscript::design::{Block, BlockUnit, Row, Unit};
use crate::manuscript::model::Manuscript;
use crate::quantity::{Count, Length, Measure, Round};
use crate::quilt_math::rectangle::Rectangle;

/// How many of each unit a block takes, by the unit's place among the units; `None` where part of the block could not
/// be read.
pub fn units_per_block(block: &Block) -> Option<Vec<(usize, Count)>> {
    if !block.whole {
        return None;
    }
    let mut units: Vec<(usize, Count)> = Vec::new();
    for place in block.rows.iter().flat_map(|row| &row.places) {
        let unit = place.value()?.unit;
        match units.iter_mut().find(|(known, _)| *known == unit) {
            Some((_, count)) => *count = *count + Count(1),
            None => units.push((unit, Count(1))),
        }
    }
    Some(units)
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

/// A unit as it lies in a block.
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
}

impl<'m> BlocksNeeds<'m> {
    /// What the blocks of a manuscript come to.
    pub fn new(manuscript: &'m Manuscript) -> BlocksNeeds<'m> {
        let blocks = manuscript.blocks.iter().map(|stated| BlockNeeds {
            stated,
            finished: stated.finished.value().map(|(width, height)| Rectangle::new(width.length, height.length)),
            rows: stated.rows.iter().map(|row| row_needs(row, &manuscript.units)).collect(),
        });
        BlocksNeeds { measure: manuscript.measure, blocks: blocks.collect() }
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }
}

fn row_needs<'m>(row: &Row, units: &'m [Unit]) -> RowNeeds<'m> {
    let placed = |place: Option<BlockUnit>| {
        let place = place?;
        let unit = units.get(place.unit)?;
        let (width, height) = unit.finished.value()?;
        let size = Rectangle::new(width.length, height.length);
        let size = if place.turned { size.turned() } else { size };
        Some(PlacedUnit { name: &unit.name, turned: place.turned, size, at: unit.finished.at() })
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
