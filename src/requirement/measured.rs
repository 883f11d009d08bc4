//! How large the text says that blocks and the quilt top measure with their seams, step by step, beside how large the
//! design makes them.

use super::layout::{LayoutNeeds, LayoutsNeeds};
use crate::manuscript::Spanned;
use crate::manuscript::design::Block;
use crate::manuscript::model::{Manuscript, Size};
use crate::quantity::{Length, Unit, Written};
use crate::quilt_math::layout::Side;

/// A size that the text says to measure, with its seams.
#[derive(Debug)]
pub struct Measured<'m> {
    /// What is measured.
    pub what: MeasuredOf<'m>,
    /// What is stated.
    pub stated: &'m Spanned<(Written, Written)>,
    /// How wide and how long it finishes; `None` where that is not known.
    pub finished: Option<(Side, Side)>,
    /// The seam at each of its sides; `None` where it could not be read.
    pub seam: Option<Length>,
    /// Why nothing is computed, where something can be said of that.
    pub unchecked: Option<&'static str>,
}

/// What is measured.
#[derive(Clone, Copy, Debug)]
pub enum MeasuredOf<'m> {
    /// A block.
    Block(&'m Block),
    /// The top of a size with so many borders, and the place of its layout.
    Top(&'m Size, usize, usize),
}

/// How a stated size stands to the design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// It is what the design makes.
    Right,
    /// It is that, rounded as it is printed: a size on point is no fraction.
    Rounded,
    /// It is another.
    Wrong,
}

impl Measured<'_> {
    /// How wide and how long it measures with its seams.
    pub fn needed(&self) -> Option<(Side, Side)> {
        let seams = self.seam? * 2;
        self.finished.map(|(width, length)| (width.plus(seams), length.plus(seams)))
    }

    /// How what is stated stands to that; `slack` is how far a length may be off.
    pub fn fit(&self, slack: impl Fn(Side) -> Length) -> Option<Fit> {
        let (width, length) = self.needed()?;
        let (stated_width, stated_length) = self.stated.value;
        let sides = [(width, stated_width), (length, stated_length)];
        let within = |more: &dyn Fn(Side, Written) -> Length| {
            sides.iter().all(|(side, stated)| side.is_within(slack(*side).max(more(*side, *stated)), stated.length))
        };
        // Both sides are rounded to the same step.
        let roots = sides.iter().filter(|(side, _)| side.diagonal.is_positive());
        let step = roots.map(|(_, stated)| printed_step(*stated)).min().unwrap_or_default();
        let rounding = |side: Side, _: Written| if side.diagonal.is_positive() { step.half() } else { Length::ZERO };
        Some(if within(&|_, _| Length::ZERO) {
            Fit::Right
        } else if within(&rounding) {
            Fit::Rounded
        } else {
            Fit::Wrong
        })
    }
}

/// The step that a length is printed to: a half for 17 1/2, a whole for 17.
fn printed_step(stated: Written) -> Length {
    let whole = if stated.unit.is_metric() { Unit::Cm.one() } else { Unit::Inch.one() };
    let parts: i128 = if stated.unit.is_metric() { 10 } else { 8 };
    let divides = |step: &Length| (stated.length.ticks() % step.ticks()) == 0;
    let steps = [1, 2, 4, 8, 10].into_iter().filter(|part| *part <= parts && whole.ticks() % part == 0);
    steps.map(|part| Length::from_ticks(whole.ticks() / part)).find(divides).unwrap_or(Length::ZERO)
}

/// All sizes that the text says to measure: the blocks, then the top of each size, from the inside.
pub fn measured<'m>(manuscript: &'m Manuscript, layouts: &LayoutsNeeds<'m>) -> Vec<Measured<'m>> {
    let straight = |(width, length): (Written, Written)| (Side::straight(width.length), Side::straight(length.length));
    let blocks = manuscript.blocks.iter().filter_map(|block| {
        let finished = block.finished.value().map(straight);
        let (what, stated) = (MeasuredOf::Block(block), block.unfinished.stated()?);
        Some(Measured { what, stated, finished, seam: layouts.seam, unchecked: None })
    });
    let tops = layouts.sizes.iter().enumerate().flat_map(|(place, laid)| of_top(layouts, place, laid));
    blocks.chain(tops).collect()
}

fn of_top<'m>(layouts: &LayoutsNeeds<'m>, place: usize, laid: &LayoutNeeds<'m>) -> Vec<Measured<'m>> {
    let measured = laid.stated.steps_measured().filter_map(|(borders, stated)| {
        let top = laid.top.as_ref().filter(|top| borders <= top.borders.len());
        Some(Measured {
            what: MeasuredOf::Top(laid.size, place, borders),
            stated: stated.stated()?,
            finished: top.map(|top| top.inside(borders)),
            seam: layouts.seam,
            unchecked: laid.unchecked,
        })
    });
    measured.collect()
}
