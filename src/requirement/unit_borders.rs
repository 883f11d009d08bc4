//! Borders that are sewn from units or blocks: how many lie along each side, and whether that is a whole number.

use super::layout::{LayoutNeeds, LayoutsNeeds};
use crate::manuscript::design::{Block, Sewn, Unit};
use crate::manuscript::model::Corners;
use crate::manuscript::{Field, Manuscript, Span};
use crate::quantity::{Count, Length, Written};
use crate::quilt_math::layout::Side;

/// What a border is sewn from.
#[derive(Clone, Copy, Debug)]
pub enum SewnFrom<'m> {
    /// A unit, and its place among the units.
    Unit(&'m Unit, usize),
    /// A block, and its place among the blocks.
    Block(&'m Block, usize),
}

impl<'m> SewnFrom<'m> {
    /// The unit or the block of a place.
    pub fn new(manuscript: &'m Manuscript, sewn: Sewn) -> Option<SewnFrom<'m>> {
        Some(match sewn {
            Sewn::Unit(unit) => SewnFrom::Unit(manuscript.units.get(unit)?, unit),
            Sewn::Block(block) => SewnFrom::Block(manuscript.blocks.get(block)?, block),
        })
    }

    /// What the pattern calls it.
    pub fn name(self) -> &'m str {
        match self {
            SewnFrom::Unit(unit, _) => &unit.name,
            SewnFrom::Block(block, _) => &block.name,
        }
    }

    /// `unit` or `block`.
    pub const fn word(self) -> &'static str {
        match self {
            SewnFrom::Unit(..) => "unit",
            SewnFrom::Block(..) => "block",
        }
    }

    /// Its finished size as it is stated.
    pub const fn finished(self) -> &'m Field<(Written, Written)> {
        match self {
            SewnFrom::Unit(unit, _) => &unit.finished,
            SewnFrom::Block(block, _) => &block.finished,
        }
    }

    /// Its finished width and height.
    pub fn size(self) -> Option<(Length, Length)> {
        self.finished().value().map(|(width, height)| (width.length, height.length))
    }
}

/// A border of units or blocks, or its corners.
#[derive(Debug)]
pub struct UnitBorder<'m> {
    /// The layout, by its place among those that are stated.
    pub layout: usize,
    /// Which border, counted from the inside.
    pub index: usize,
    /// What it is sewn from.
    pub of: SewnFrom<'m>,
    /// Where the border names it.
    pub at: Span,
    /// How it lies.
    pub fit: UnitFit,
}

/// How units or blocks lie along a border.
#[derive(Clone, Copy, Debug)]
pub enum UnitFit {
    /// Neither side is as wide as the border.
    OtherWidth {
        /// The width and the height of the unit.
        unit: (Length, Length),
        /// How wide the border finishes.
        border: Length,
    },
    /// They lie side by side.
    Along {
        /// How much of a side each takes.
        each: Length,
        /// A side of the quilt, and how many lie along it where they fit.
        sides: (Side, Option<Count>),
        /// The same at the top and the bottom.
        ends: (Side, Option<Count>),
    },
    /// One stands in each corner; its size there, and whether it is that.
    Corners {
        /// How wide and how high the corner is.
        corner: (Length, Length),
        /// Whether it fits.
        fits: bool,
    },
}

impl UnitBorder<'_> {
    /// How many there are all around; `None` where they do not fit.
    pub fn count(&self) -> Option<Count> {
        match self.fit {
            UnitFit::OtherWidth { .. } => None,
            UnitFit::Along { sides, ends, .. } => Some(sides.1? * Count(2) + ends.1? * Count(2)),
            UnitFit::Corners { fits, .. } => fits.then_some(Count(4)),
        }
    }
}

/// The borders of a layout that are sewn from units or blocks, as far as they could be read.
pub fn unit_borders<'m>(
    manuscript: &'m Manuscript,
    layouts: &LayoutsNeeds<'m>,
    place: usize,
    laid: &LayoutNeeds<'m>,
) -> Vec<UnitBorder<'m>> {
    let borders = laid.stated.borders.iter().enumerate();
    let of_units = borders.flat_map(|(index, stated)| {
        let border = |of: &Field<Sewn>, fit: fn(SewnFrom<'m>, &LayoutsNeeds<'_>, &LayoutNeeds<'_>, usize) -> _| {
            let from = SewnFrom::new(manuscript, of.value()?)?;
            let fit: UnitFit = fit(from, layouts, laid, index)?;
            Some(UnitBorder { layout: place, index, of: from, at: of.at()?, fit })
        };
        [border(&stated.of, along_sides), border(&stated.corner_of, in_corners)]
    });
    of_units.flatten().collect()
}

fn along_sides(of: SewnFrom<'_>, layouts: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, index: usize) -> Option<UnitFit> {
    let (width, height) = of.size()?;
    let (_, border) = laid.border(index)?;
    // Where its sides differ, one unit is not as wide as all of them.
    let wide = border.all_round()?;
    let same = |one: Length| (one - wide).abs() <= layouts.size_slack;
    let each = match (same(height), same(width)) {
        (true, _) => width,
        (false, true) => height,
        (false, false) => return Some(UnitFit::OtherWidth { unit: (width, height), border: wide }),
    };
    let (inner_width, inner_length) = laid.top.as_ref()?.inside(index);
    let ends = match border.corners {
        Corners::Butted => inner_width.plus(border.across()),
        Corners::Cornerstones => inner_width,
        // Units are cut through at a mitered corner.
        Corners::Mitred => return None,
    };
    let along = |side: Side| {
        let count = (side.below() + layouts.slack(side)).pieces_of(each);
        let fits = side.is_within(layouts.slack(side), each * count);
        (side, fits.then_some(count).filter(|count| count.0 > 0))
    };
    Some(UnitFit::Along { each, sides: along(inner_length), ends: along(ends) })
}

fn in_corners(of: SewnFrom<'_>, layouts: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, index: usize) -> Option<UnitFit> {
    let (width, height) = of.size()?;
    let (_, border) = laid.border(index)?;
    // Where its top and its bottom differ, one unit is not as high as both.
    let high = (border.top == border.bottom).then_some(border.top)?;
    let same = |one: Length, other: Length| (one - other).abs() <= layouts.size_slack;
    let fits = (same(width, border.sides) && same(height, high)) || (same(height, border.sides) && same(width, high));
    Some(UnitFit::Corners { corner: (border.sides, high), fits })
}
