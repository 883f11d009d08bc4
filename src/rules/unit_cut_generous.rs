//! A piece of a unit is cut larger than the unit needs.

use super::wording::unit::{StatedCut, StripSum, Verdict, stated_cuts, strip_sums, unfinished_words};
use super::{Context, sentence};
use crate::finding::{Finding, Label};
use crate::manuscript::design::Make;
use crate::quantity::Round;
use crate::quilt_math::units::Share;
use crate::requirement::units::{UnitNeeds, UnitsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let cuts = stated_cuts(context);
    findings.extend(cuts.iter().filter(|cut| cut.verdict() == Verdict::Generous).map(too_large));
    let sums = strip_sums(&context.needs.units, context.settings);
    findings.extend(sums.iter().filter(|sum| sum.verdict == Verdict::Generous).map(too_wide));
}

fn too_large(cut: &StatedCut<'_>) -> Finding {
    let fine = |length: crate::quantity::Length| length.show_fine(cut.needs.measure, Round::Down);
    let (excess, out) = (cut.excess(), cut.share.of(cut.excess()));
    let message = format!(
        "{} stated for {}; {}{} is enough. {}",
        sentence(&cut.stated()),
        cut.subject(),
        cut.needed(),
        cut.exactly(),
        trim(cut, &fine(out)),
    );
    let at = Label::new(cut.at, format!("{} more than is needed", fine(excess)));
    Finding::new(at, message)
        .about(cut.about())
        .see(cut.named_at, "cut from this piece")
        .see(cut.unit.stated.finished.at(), "the finished size")
        .help(cut.working())
        .help(trimming(cut.needs, cut.unit, cut.share == Share::SeamMoves))
        .numbers(cut.stated(), cut.needed())
}

/// What to do where the extra is meant.
fn trimming(needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>, seam_moves: bool) -> String {
    let stays = seam_moves || unit.stated.make.value().is_some_and(Make::sets_blocks);
    match unfinished_words(needs, unit).filter(|_| unit.stated.trim.is_absent() && !stays) {
        Some(size) => format!("If the extra is meant for trimming, state as trim that the unit is trimmed to {size}."),
        None => "If the extra is meant, accept this finding with the reason.".to_string(),
    }
}

/// What the extra comes to.
fn trim(cut: &StatedCut<'_>, out: &str) -> String {
    let unit = cut.unit;
    if cut.share == Share::SeamMoves {
        return format!("The seam across it lies {out} too far in.");
    }
    if unit.stated.make.value().is_some_and(Make::sets_blocks) {
        return format!("The triangles reach {out} beyond the blocks: trim that off the edge of the quilt.");
    }
    match unfinished_words(cut.needs, unit) {
        Some(size) => format!("The unit comes out {out} too large: trim that off, to {size}."),
        None => String::new(),
    }
}

fn too_wide(sum: &StripSum<'_>) -> Finding {
    let needs = sum.needs;
    let more = needs.down(sum.comes_to - sum.finished);
    let message = format!(
        "The strips of unit {} come to {} when they are sewn; {} is enough. Trim {more} off the outer strips.",
        sum.unit.stated.name,
        needs.down(sum.comes_to),
        needs.up(sum.finished),
    );
    sum.explain(Finding::new(Label::new(sum.at, format!("{more} more than is needed")), message))
        .help(trimming(sum.needs, sum.unit, false))
}
