//! The fabric that a binding is cut from, where it is bought for the binding alone.

use super::ShownLength;
use super::bias::{square, strips};
use super::strips::{FabricCut, FabricDrawing, bolt};
use crate::manuscript::model::{Grain, Size};
use crate::quantity::{Count, Length};
use crate::quilt_math::plan::{Plan, StripCut, Strips};
use crate::quilt_math::taken::Taken;
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

/// What is cut for the binding of a size; `None` where it shares another fabric, or not all of it was read.
pub(super) fn binding_of(needs: &BindingNeeds<'_>, size: &Size, rows: usize) -> Option<FabricDrawing> {
    let on_bias = needs.bias.iter().find(|known| known.size.name == size.name);
    let cut = match on_bias {
        Some(known) => bias(needs, known)?,
        // Strips that share a fabric are drawn on it.
        None if !needs.stated.from.is_absent() => return None,
        None => straight(needs, needs.sizes.iter().find(|known| known.size.name == size.name)?, rows)?,
    };
    Some(FabricDrawing { fabric: "binding".to_string(), cut })
}

/// Rows of strips: crosswise ones lie end to end in a row, lengthwise ones side by side.
fn straight(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>, most: usize) -> Option<FabricCut> {
    // Where fabric alone is stated, the spare strip is drawn too.
    let cut = if size.stated.strips.is_absent() { size.print } else { size.cut };
    let (cut, method, usable_width) = (cut?, size.method, needs.usable_width?);
    if size.stated.fabric.is_unread() {
        return None;
    }
    let (across, along) = match needs.grain? {
        Grain::Lengthwise => (method.strip_width, size.strip_length),
        Grain::Crosswise | Grain::Bias => (size.strip_length, method.strip_width),
    };
    let alike = |rows: u64, each: u64| Strips {
        count: Count(rows),
        width: along,
        cuts: vec![StripCut {
            piece: 0,
            count: Count(each),
            from: Length::ZERO,
            above: Length::ZERO,
            across,
            along,
            stacked: Count(1),
        }],
        rest: usable_width - across * Count(each),
    };
    // The last row holds what the others leave.
    let full = cut.strips.0 / cut.per_row.0.max(1);
    let last = cut.strips.0 - full * cut.per_row.0;
    let rows = [(full, cut.per_row.0), (u64::from(last > 0), last)];
    let strips = rows.into_iter().filter(|(rows, _)| *rows > 0).map(|(rows, each)| alike(rows, each)).collect();
    let plan = Plan { strips, left_over: Vec::new() };
    let taken = Taken { plan: plan.into(), strip_length: usable_width, small: None, joined: Vec::new() };
    let stated = size.stated.fabric.stated().map(|fabric| ShownLength::stated(&fabric.value, needs.measure));
    bolt((needs.measure, most), &taken, stated, |_| "binding".to_string()).map(FabricCut::Bolt)
}

fn bias(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<FabricCut> {
    if size.stated.fabric.is_unread() || size.stated.square.is_unread() {
        return None;
    }
    if size.stated.square.is_absent() {
        return strips(needs, size).map(FabricCut::Bias);
    }
    // A rectangle is not drawn.
    let is_square = size.sides().is_none_or(|(width, length)| width == length);
    is_square.then(|| FabricCut::Square(square(needs, size)))
}
