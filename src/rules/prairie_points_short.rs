//! The stated prairie points leave gaps along the edge.

use super::Context;
use crate::finding::{Correction, Finding, Label, Subject};
use crate::quantity::{Count, Measure, Round, Scale};
use crate::requirement::extras::PointsNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.extras;
    findings.extend(needs.points.iter().filter_map(|points| finding(needs.measure, points)));
}

/// How many points are needed: `Points: 4 in - 2 seams make a base of 3 1/2 in; ...`.
pub(crate) fn points_working(measure: Measure, points: &PointsNeeds<'_>) -> Option<String> {
    let (sides, needed) = (points.sides.as_ref()?, points.needed()?);
    let pitch = points.base - points.overlap;
    if let Some(edge) = &points.outline {
        let scale = Scale::of(measure, &[points.base, points.overlap, pitch]);
        let around = edge.perimeter().show(measure, Round::Up);
        let sides = if edge.cornered { format!(" on {} sides", sides.len()) } else { String::new() };
        return Some(format!(
            "Points: each is {} wide at the seam and {} further than the last; {needed} for the {around} of the edge{sides}.",
            scale.down(points.base),
            scale.down(pitch),
        ));
    }
    let [across, down] = [0, 1].map(|side| sides.get(side).copied().unwrap_or_default());
    let scale = Scale::of(measure, &[points.base, points.overlap, pitch, points.quilt.width, points.quilt.length]);
    Some(format!(
        "Points: each is {} wide at the seam and {} further than the last; {across} for {} and {down} for {}: 2 x \
         ({across} + {down}) = {needed}.",
        scale.down(points.base),
        scale.down(pitch),
        scale.up(points.quilt.width),
        scale.up(points.quilt.length),
    ))
}

fn finding(measure: Measure, points: &PointsNeeds<'_>) -> Option<Finding> {
    let (stated, needed) = (points.count.value, points.needed()?);
    if stated >= needed {
        return None;
    }
    let short = needed.less(stated);
    let message =
        format!("{} stated; {needed} needed to go around without a gap: {short} short.", stated.of("prairie point"));
    let correction = (needed <= Count::MAX).then(|| Correction::new(points.count.at, needed.to_string()));
    Some(
        Finding::new(Label::new(points.count.at, format!("{short} short")), message)
            .for_size(&points.size.name)
            .about(Subject::number("prairie points"))
            .see(points.size.finished.at(), "the edge that they go around")
            .see(points.stated.square.at(), "what each is folded from")
            .see(points.stated.overlap.at(), "how much of each lies in the next")
            .help(points_working(measure, points)?)
            .numbers(stated.of("prairie point"), needed.of("prairie point"))
            .corrected(correction),
    )
}
