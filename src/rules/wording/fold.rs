//! The working of the fold in words, which three rules share.

use crate::finding::{Correction, Finding};
use crate::manuscript::model::{Finish, Fold, Side};
use crate::quantity::{Length, Scale, Written};
use crate::quilt_math::binding::width_for_reach;
use crate::requirement::binding::{BindingNeeds, StripWidth};
use crate::rule_book::{LengthValue, Settings};

const COVER_MACHINE: LengthValue = LengthValue::named("cover_machine");
const COVER_HAND: LengthValue = LengthValue::named("cover_hand");
const COVER_DITCH: LengthValue = LengthValue::named("cover_ditch");
const RULER_STEP: LengthValue = LengthValue::named("ruler_step");
const RULER_STEP_METRIC: LengthValue = LengthValue::named("ruler_step_metric");

/// How far past the stitching the fold should reach so that the finish holds it.
pub(crate) fn cover(settings: &Settings, needs: &BindingNeeds<'_>) -> Option<Length> {
    let value = match needs.finish? {
        Finish::Machine => COVER_MACHINE,
        Finish::Hand => COVER_HAND,
        Finish::Ditch => COVER_DITCH,
    };
    Some(settings.length(value))
}

/// The step in which a width is cut: what the rulers of its unit show.
pub(in crate::rules) fn ruler_step(settings: &Settings, written: &Written) -> Length {
    let metric = written.unit.is_metric();
    settings.length(if metric { RULER_STEP_METRIC } else { RULER_STEP })
}

/// How far the fold reaches: `1 1/4 in folded - 3 x 1/4 in seam - 1/16 in loft = 7/16 in past the stitching`.
pub(crate) fn fold_working(needs: &BindingNeeds<'_>, strip: &StripWidth<'_>) -> Option<String> {
    let width = strip.folded;
    let (fold, seam, loft, reach) = (needs.fold?, needs.seam?, needs.loft?, strip.reach?);
    let half = if fold == Fold::Double { width.half() } else { width };
    let scale = Scale::of(needs.measure, &[width, half, seam, loft, reach]);
    let (folded, seams) = match fold {
        Fold::Double => (format!("{} / 2 = {} folded", scale.up(width), scale.up(half)), 3),
        Fold::Single => (scale.up(width), 4),
        Fold::Facing => return None,
    };
    let end = if reach.is_negative() {
        format!("{} short of the stitching", scale.up(-reach))
    } else {
        format!("{} past the stitching", scale.down(reach))
    };
    let fold = format!("{folded}; less {seams} x {} seam and {} loft: {end}.", scale.up(seam), scale.up(loft));
    let Some(flange) = needs.flange else { return Some(fold) };
    let own = strip.stated.value.length;
    let scale = Scale::of(needs.measure, &[own, flange.width, flange.seam, width]);
    let (own, wide, seam, width) = (scale.up(own), scale.up(flange.width), scale.up(flange.seam), scale.up(width));
    Some(format!("With the flange: {own} + {wide} - 2 seams x {seam} = {width}. {fold}"))
}

/// The narrowest strip on the ruler whose fold reaches so far.
pub(crate) fn width_for(
    settings: &Settings,
    needs: &BindingNeeds<'_>,
    strip: &StripWidth<'_>,
    reach: Length,
) -> Option<Length> {
    Some(exact_width_for(needs, strip, reach)?.up_to(ruler_step(settings, &strip.stated.value)))
}

/// The widest strip on the ruler whose fold reaches no farther.
pub(in crate::rules) fn widest_for(
    settings: &Settings,
    needs: &BindingNeeds<'_>,
    strip: &StripWidth<'_>,
    reach: Length,
) -> Option<Length> {
    Some(exact_width_for(needs, strip, reach)?.down_to(ruler_step(settings, &strip.stated.value)))
}

/// How wide a strip is whose fold reaches just so far, without what a flange adds to it.
fn exact_width_for(needs: &BindingNeeds<'_>, strip: &StripWidth<'_>, reach: Length) -> Option<Length> {
    let folded = width_for_reach(needs.fold?, reach, needs.seam?, needs.loft?)?;
    Some(folded - (strip.folded - strip.stated.value.length))
}

/// The side that the fold comes over to.
pub(in crate::rules) fn folded_side(needs: &BindingNeeds<'_>) -> &'static str {
    match needs.sewn_first_to {
        Some(Side::Front) => "back",
        _ => "front",
    }
}

/// Says for which size the strip is, and points at the seam and the loft where they are stated.
pub(in crate::rules) fn see_seam_and_loft(
    finding: Finding,
    needs: &BindingNeeds<'_>,
    strip: &StripWidth<'_>,
) -> Finding {
    let stated = needs.stated;
    finding
        .for_some_size(strip.size.map(|size| size.name.as_str()))
        .see(stated.seam.at(), "the seam that the fold must cover")
        .see(stated.loft.at(), "the thickness that the fold goes around")
}

/// Another strip width, where it brings no shortage of strips or fabric with it.
pub(in crate::rules) fn width_correction(strip: &StripWidth<'_>, width: Length) -> Correction {
    Correction::new(strip.stated.at, strip.stated.value.rewrite(width))
}
