//! The stated fabric is less than the strips take.

use super::Context;
use super::wording::binding::{buying_for, cut_working, edge_working, fabric_correction, strips_working};
use super::wording::pair::Halves;
use super::wording::plan::before_washing;
use crate::finding::{Correction, Finding, Label, Subject};
use crate::quantity::{Length, Measure, Scale, Unit, Written};
use crate::quilt_math::binding::CutPlan;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
    findings.extend(needs.sizes.iter().filter_map(|size| flange(context, needs, size)));
}

/// The flange's fabric is less than its strips take.
fn flange(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.flange.stated()?;
    let plan = size.flange_plan(needs, context.settings)?;
    if stated.value.least() >= plan.fabric {
        return None;
    }
    if let Some(unworded) = context.unworded(stated.at, &size.size.name) {
        return Some(unworded.about(Subject::number("flange fabric")));
    }
    let halves = Halves::new(needs.shop, &stated.value);
    let (amount, needed) = (halves.stated(), halves.to_buy(plan.fabric));
    let working = flange_working(needs, &plan);
    let short = halves.short_of(plan.fabric);
    let message = format!("{amount} stated for the flange; {needed} needed: {working}, so {short}.");
    let fits = needs.shop.to_buy(plan.fabric, stated.value.first.unit).0 <= Length::LONGEST;
    let text = needs.shop.rewrite(&stated.value, plan.fabric);
    Some(
        Finding::new(Label::new(stated.at, halves.short_label(plan.fabric)), message)
            .for_size(&size.size.name)
            .about(Subject::number("flange fabric"))
            .see(size.stated.strips.at(), "as many strips as of the binding")
            .see(needs.stated.flange.at(), "how wide each is cut")
            .help(edge_working(needs, size.size, &size.lengths))
            .numbers(halves.stated(), needed)
            .corrected(fits.then(|| Correction::new(stated.at, text))),
    )
}

/// How much of the bolt the flange's strips take: `9 strips x 1 1/2 in = 13 1/2 in`.
pub(super) fn flange_working(needs: &BindingNeeds<'_>, plan: &CutPlan) -> String {
    let scale = Scale::of(needs.measure, &[plan.row, plan.cut()]);
    let washed = before_washing(needs.measure, plan.shrinks, plan.fabric.0);
    format!("{} x {} = {}{washed}", plan.rows.of("strip"), scale.up(plan.row), scale.up(plan.cut()))
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let plan = size.cut?;
    // Where one half of a pair is enough, the other is for `pair-disagrees`.
    if stated.value.most() >= plan.fabric {
        return None;
    }
    if let Some(unworded) = context.unworded(stated.at, &size.size.name) {
        return Some(unworded);
    }
    let halves = Halves::new(needs.shop, &stated.value);
    // The strips that are stated, or those that go round where none are, prove it short; those that are missing and the
    // spare are bought with them.
    let print = size.print.unwrap_or(plan);
    let (needed, working) = (halves.to_buy(print.fabric), cut_working(needs, size, &print));
    let (amount, short) = (halves.stated(), halves.short_of(plan.fabric));
    let message = match (print == plan, size.stated.strips.is_absent()) {
        (true, _) => format!("{amount} stated; {needed} needed: {working}, so {short}."),
        (false, true) => {
            let round = needs.up(plan.fabric.0);
            format!("{amount} stated; {needed} needed: {working}. Those that go around take {round}, so {short}.")
        }
        (false, false) => {
            let told = cut_working(needs, size, &plan);
            format!("{amount} stated: {told}, so {short}. For all that is needed, {needed} must be bought.")
        }
    };
    let round_working = strips_that_go_round(needs, size).unwrap_or_default();
    Some(
        Finding::new(Label::new(stated.at, halves.short_label(plan.fabric)), message)
            .for_size(&size.size.name)
            .see(size.stated.strips.at(), format!("{} to cut", plan.strips.of("strip")))
            .see(needs.stated.strip_width.of(size.index).at(), "how wide each is cut")
            .help(round_working.0)
            .help(round_working.1)
            .help(format!("{working}; {}.", buying_for(needs, stated, print.fabric)))
            .help(bare_number(needs, &stated.value.first))
            .numbers(halves.stated(), needed)
            .corrected(fabric_correction(needs, size)),
    )
}

/// How the strips that go round are counted, where the manuscript states none.
fn strips_that_go_round(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<(String, String)> {
    let round = size.strips.filter(|_| size.stated.strips.is_absent())?;
    Some((edge_working(needs, size.size, &size.lengths), strips_working(needs, size, round)))
}

/// A number without a mark is in inches or centimetres; a writer who meant yards or metres may wonder.
fn bare_number(needs: &BindingNeeds<'_>, written: &Written) -> String {
    let meant = match needs.measure {
        Measure::Inch => "yd",
        Measure::Cm => "m",
    };
    if written.bare && written.length < Unit::Yard.one().half().half() {
        let number = written.rewrite(written.length);
        let read = written.unit.mark();
        return format!("Without a unit, {number} is read as {number} {read}. Did you mean {number} {meant}?");
    }
    String::new()
}
