//! Borders that are sewn from units: how many lie along each side, and whether that is a whole number.

use super::layout::{LayoutNeeds, LayoutsNeeds};
use crate::manuscript::design::Unit;
use crate::manuscript::model::Corners;
use crate::manuscript::{Manuscript, Span};
use crate::quantity::{Count, Length};
use crate::quilt_math::layout::Side;

/// A border of units.
#[derive(Debug)]
pub struct UnitBorder<'m> {
    /// The layout, by its place among those that are stated.
    pub layout: usize,
    /// Which border, counted from the inside.
    pub index: usize,
    /// The unit, with its place among the units.
    pub unit: (&'m Unit, usize),
    /// Where the border names it.
    pub at: Span,
    /// How it lies.
    pub fit: UnitFit,
}

/// How units lie along a border.
#[derive(Clone, Copy, Debug)]
pub enum UnitFit {
    /// Neither side of the unit is as wide as the border.
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
}

impl UnitBorder<'_> {
    /// How many there are all around; `None` where they do not fit.
    pub fn count(&self) -> Option<Count> {
        match self.fit {
            UnitFit::OtherWidth { .. } => None,
            UnitFit::Along { sides, ends, .. } => Some(sides.1? * Count(2) + ends.1? * Count(2)),
        }
    }
}

/// The borders of a layout that are sewn from units, as far as they could be read.
pub fn unit_borders<'m>(
    manuscript: &'m Manuscript,
    layouts: &LayoutsNeeds<'m>,
    place: usize,
    laid: &LayoutNeeds<'m>,
) -> Vec<UnitBorder<'m>> {
    let borders = laid.stated.borders.iter().enumerate();
    let of_units = borders.filter_map(|(index, stated)| {
        let (unit, at) = (stated.of.value()?, stated.of.at()?);
        let fit = fit(manuscript.units.get(unit)?, layouts, laid, index)?;
        Some(UnitBorder { layout: place, index, unit: (manuscript.units.get(unit)?, unit), at, fit })
    });
    of_units.collect()
}

fn fit(unit: &Unit, layouts: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, index: usize) -> Option<UnitFit> {
    let (width, height) = unit.finished.value().map(|(width, height)| (width.length, height.length))?;
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
