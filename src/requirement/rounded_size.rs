//! A finished size on point that is printed rounded, since it is no fraction.

use super::layout::{LayoutNeeds, LayoutsNeeds};
use crate::manuscript::model::Set;
use crate::quantity::{Length, Unit, Written, common_divisor};
use crate::quilt_math::layout::{Border, Side};

/// How a stated size is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoundedSize {
    /// The step that both sides are rounded to.
    pub step: Length,
    /// Whether the top inside the borders is rounded to it, and the borders are added to that.
    pub inside_borders: bool,
    /// How much narrower and how much shorter the stated size is than what the layout makes, or nothing.
    pub less: (Length, Length),
}

/// How the stated size of a layout on point is rounded; `None` where a side is not the multiple of the step that is
/// nearest to what the layout makes.
pub fn rounded_size(needs: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>) -> Option<RoundedSize> {
    let top = laid.top.as_ref().filter(|top| top.set == Set::OnPoint && laid.borders_whole)?;
    let (width, length) = laid.size.finished.value()?;
    // An outline is cut from the layout, which may be larger.
    let trimmed = laid.size.outline.stated().is_some();
    let made = needs.finished(top);
    let borders: (Length, Length) =
        (top.borders.iter().map(Border::across).sum(), top.borders.iter().map(Border::down).sum());
    let near = |step: Length| {
        let is_near = |made: Side, stated: Length| {
            let slack = step.half().max(needs.slack(made));
            if trimmed { made.reaches(stated - slack) } else { made.is_within(slack, stated) }
        };
        is_near(made.0, width.length) && is_near(made.1, length.length)
    };
    let step = |less: (Length, Length)| step_of((width, length), less);
    let none = (Length::ZERO, Length::ZERO);
    let (step, inside_borders) =
        [(step(none), false), (step(borders), true)].into_iter().find(|(step, _)| near(*step))?;
    let less = |made: Side, stated: Length| {
        if trimmed { Length::ZERO } else { (made.above() - stated).max(Length::ZERO) }
    };
    Some(RoundedSize { step, inside_borders, less: (less(made.0, width.length), less(made.1, length.length)) })
}

/// The largest step of which both sides less the borders are multiples: half an inch for 56 1/2 x 71. No size is rounded
/// to more than a whole inch or centimetre.
fn step_of((width, length): (Written, Written), borders: (Length, Length)) -> Length {
    let most = |unit: Unit| if unit.is_metric() { Unit::Cm.one() } else { Unit::Inch.one() };
    let lengths = [width.length - borders.0, length.length - borders.1, most(width.unit), most(length.unit)];
    Length::from_ticks(lengths.into_iter().map(|length| length.abs().ticks()).fold(0, common_divisor))
}
