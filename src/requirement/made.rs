//! How many units and blocks the text says to make, beside how many the layouts take.

use super::counts::{CountsNeeds, SizeCounts};
use super::layout::LayoutsNeeds;
use super::units::{UnitNeeds, UnitsNeeds};
use crate::manuscript::design::{Block, Unit};
use crate::manuscript::model::{Manuscript, Size};
use crate::manuscript::{BySize, Spanned};
use crate::quantity::Count;

/// How many of a unit or a block the text says to make for one size.
#[derive(Debug)]
pub struct Made<'m> {
    /// What is made.
    pub what: MadeOf<'m>,
    /// For which size.
    pub size: &'m Size,
    /// What is stated.
    pub stated: &'m Spanned<Count>,
    /// How many the layout takes; `None` where that is not known.
    pub needed: Option<Count>,
    /// How many one set of pieces gives: a set is made whole.
    pub set: Count,
    /// The layout of that size, by its place among those that are stated.
    pub layout: Option<usize>,
}

/// What is made.
#[derive(Clone, Copy, Debug)]
pub enum MadeOf<'m> {
    /// A unit, and its place among the units.
    Unit(&'m Unit, usize),
    /// A block, and its place among the blocks.
    Block(&'m Block, usize),
}

impl Made<'_> {
    /// Whether more are made than whole sets give for what is needed.
    pub fn is_more(&self) -> bool {
        let in_sets = self.needed.and_then(|needed| Some(needed.in_groups_of(self.set)? * self.set));
        in_sets.is_some_and(|most| self.stated.value > most)
    }

    /// Whether fewer are made than are needed.
    pub fn is_less(&self) -> bool {
        self.needed.is_some_and(|needed| self.stated.value < needed)
    }
}

/// All that is stated to make, in the order of the units, the blocks and the sizes.
pub fn made<'m>(
    manuscript: &'m Manuscript,
    layouts: &LayoutsNeeds<'m>,
    counts: &CountsNeeds<'m>,
    units: &UnitsNeeds<'m>,
) -> Vec<Made<'m>> {
    let of =
        |what: MadeOf<'m>, makes: &'m BySize<Count>, set: Count, needed: &dyn Fn(&SizeCounts<'m>) -> Option<Count>| {
            let sizes = manuscript.sizes.iter().enumerate();
            let made = sizes.filter_map(|(index, size)| {
                let stated = makes.of(index).stated()?;
                let layout = layouts.sizes.iter().position(|laid| laid.index == index);
                let needed = layout.and_then(|layout| counts.sizes.get(layout)).and_then(needed);
                Some(Made { what, size, stated, needed, set, layout })
            });
            made.collect::<Vec<_>>()
        };
    let mut all = Vec::new();
    for (place, unit) in manuscript.units.iter().enumerate().filter(|(_, unit)| !unit.makes.is_absent()) {
        let set = units.units.get(place).and_then(UnitNeeds::counted).filter(|set| set.0 > 0).unwrap_or(Count(1));
        let needed = |counts: &SizeCounts<'m>| counts.of_unit(place);
        all.extend(of(MadeOf::Unit(unit, place), &unit.makes, set, &needed));
    }
    for (place, block) in manuscript.blocks.iter().enumerate().filter(|(_, block)| !block.makes.is_absent()) {
        let needed = |counts: &SizeCounts<'m>| counts.of_block(place);
        all.extend(of(MadeOf::Block(block, place), &block.makes, Count(1), &needed));
    }
    all
}
