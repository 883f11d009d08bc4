//! A finished size that is printed as about so large: where the design makes a size that near to it, everything is
//! computed with what the design makes.

use super::layout::LayoutsNeeds;
use crate::manuscript::{Field, Manuscript, Spanned};
use crate::quantity::{Length, Written};
use crate::rule_book::{LengthValue, Settings};

/// How far a size that is printed as about so large may be from what the design makes.
const ABOUT_WITHIN: LengthValue = LengthValue::named("about_within");

/// Puts what the design makes for the finished sizes that are printed as about that.
pub fn go_by_design(manuscript: &mut Manuscript, settings: &Settings) {
    if manuscript.sizes.iter().all(|size| !size.about) {
        return;
    }
    let made = made(manuscript, settings);
    for (size, made) in manuscript.sizes.iter_mut().zip(made) {
        let (Some(made), Field::Stated(Spanned { value, .. })) = (made, &mut size.finished) else { continue };
        let written = |written: Written, length: Length| Written { length, other: None, ..written };
        *value = (written(value.0, made.0), written(value.1, made.1));
    }
}

/// For each size that is printed as about so large what the design makes, where that is near enough.
fn made(manuscript: &Manuscript, settings: &Settings) -> Vec<Option<(Length, Length)>> {
    let within = settings.length(ABOUT_WITHIN);
    let layouts = LayoutsNeeds::new(manuscript, settings);
    let of = |(index, size): (usize, &crate::manuscript::model::Size)| {
        let (width, length) = size.finished.value().filter(|_| size.about)?;
        let laid = layouts.sizes.iter().find(|laid| laid.index == index && laid.borders_whole)?;
        let (across, down) = layouts.finished(laid.top.as_ref()?);
        let made = (layouts.printed(across), layouts.printed(down));
        let is_near = |made: Length, stated: Length| (made - stated).abs() <= within;
        (is_near(made.0, width.length) && is_near(made.1, length.length)).then_some(made)
    };
    manuscript.sizes.iter().enumerate().map(of).collect()
}
