//! The fold reaches the stitching, but hardly covers it.

use super::Context;
use super::wording::fold::{cover, fold_working, folded_side, see_seam_and_loft, width_correction, width_for};
use crate::finding::{Finding, Label};
use crate::manuscript::model::Finish;
use crate::quantity::{Length, Measure};
use crate::requirement::binding::{BindingNeeds, StripWidth};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.widths.iter().filter_map(|strip| finding(context, needs, strip)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, strip: &StripWidth<'_>) -> Option<Finding> {
    let cover = cover(context.settings, needs)?;
    let reach = strip.reach.filter(|reach| !reach.is_negative() && *reach < cover)?;
    let stated = strip.stated;
    let width = width_for(context.settings, needs, strip, cover)?;
    let side = folded_side(needs);
    let finish = match needs.finish? {
        Finish::Machine => "stitched by machine",
        Finish::Hand => "stitched by hand",
        Finish::Ditch => "stitched in the ditch",
    };
    // Less than the least that is printed would be printed as nothing.
    let least_shown = match needs.measure {
        Measure::Inch => Length::inch_fraction(1, 64),
        Measure::Cm => Length::millimetres(1),
    };
    let past = if reach >= least_shown {
        format!("reaches only {} past the stitching", needs.down(reach))
    } else {
        "only just meets the stitching".to_string()
    };
    let message = format!(
        "Strips {} wide stated; {} needed: folded over to the {side}, the binding {past}. When it is {finish}, it should reach {} past.",
        needs.down(stated.value.length),
        needs.up(width),
        needs.up(cover),
    );
    let finding = Finding::new(Label::new(stated.at, format!("the fold {past}")), message)
        .see(needs.stated.finish.at(), format!("{finish}, it should reach {} past", needs.up(cover)))
        .help(fold_working(needs, strip)?)
        .help(format!("Cut strips {} wide, or sew a slightly narrower seam.", needs.up(width)))
        .numbers(needs.down(stated.value.length), needs.up(width))
        .corrected(Some(width_correction(strip, width)));
    Some(see_seam_and_loft(finding, needs, strip))
}
