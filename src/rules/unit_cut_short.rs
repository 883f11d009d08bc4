//! A piece of a unit is cut too small.

use super::wording::unit::{StatedCut, StripSum, Verdict, stated_cuts, strip_sums};
use super::{Context, sentence};
use crate::finding::{Finding, Label};
use crate::quantity::Round;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let cuts = stated_cuts(context);
    findings.extend(cuts.iter().filter(|cut| cut.verdict() == Verdict::Short).map(|cut| too_small(context, cut)));
    let sums = strip_sums(&context.needs.units, context.settings);
    findings.extend(sums.iter().filter(|sum| sum.verdict == Verdict::Short).map(too_narrow));
}

fn too_small(context: &Context<'_>, cut: &StatedCut<'_>) -> Finding {
    let short = cut.short_by().show_fine(cut.needs.measure, Round::Up);
    let message = format!(
        "{} stated for {}; {}{} needed: {short} short.",
        sentence(&cut.stated()),
        cut.subject(),
        cut.needed(),
        cut.exactly()
    );
    let at = Label::new(cut.at, format!("{short} short"));
    cut.explain(&context.source.text, Finding::new(at, message)).help(format!("Cut it {}.", cut.needed()))
}

fn too_narrow(sum: &StripSum<'_>) -> Finding {
    let needs = sum.needs;
    let short = needs.up(sum.finished - sum.comes_to);
    let message = format!(
        "The strips of unit {} come to {} when they are sewn; {} needed: {short} short.",
        sum.unit.stated.name,
        needs.down(sum.comes_to),
        needs.up(sum.finished),
    );
    sum.explain(Finding::new(Label::new(sum.at, format!("{short} short")), message))
        .help(format!("Cut them {short} wider in all."))
}
