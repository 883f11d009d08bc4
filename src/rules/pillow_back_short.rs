//! The pieces of a pillow's back do not cover it, or hardly overlap.

use super::Context;
use crate::finding::{Correction, Finding, Label, Level, Subject};
use crate::manuscript::Field;
use crate::quantity::{Length, Measure, Scale, Written, rewrite_sides};
use crate::requirement::extras::PillowNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.extras;
    for pillow in &needs.pillows {
        let narrow: Vec<Finding> = pieces(pillow).filter_map(|piece| narrow(needs.measure, pillow, piece)).collect();
        let covers = narrow.is_empty();
        findings.extend(narrow);
        findings.extend(overlap(needs.measure, pillow).filter(|_| covers));
    }
}

/// The two pieces, each with what it is called and how long it is along the opening.
fn pieces<'a>(
    pillow: &'a PillowNeeds<'_>,
) -> impl Iterator<Item = (&'static str, &'a Field<(Written, Written)>, Length)> {
    let [first, second] = pillow.cut;
    [("first", &pillow.pieces.first, first.width), ("second", &pillow.pieces.second, second.width)].into_iter()
}

/// A piece that is shorter than the front along the opening.
fn narrow(
    measure: Measure,
    pillow: &PillowNeeds<'_>,
    (name, piece, along): (&str, &Field<(Written, Written)>, Length),
) -> Option<Finding> {
    let needed = pillow.front.width;
    if along >= needed {
        return None;
    }
    let scale = Scale::of(measure, &[along, needed]);
    let (shown, needed) = (scale.down(along), scale.up(needed));
    let message = format!(
        "The {name} piece of the back is {shown} along the opening; {needed} needed, as the front is with its seams."
    );
    Some(
        Finding::new(Label::new(piece.at()?, "shorter than the front"), message)
            .for_size(&pillow.size.name)
            .about(Subject::number(&format!("pillow back {name}")))
            .see(pillow.size.finished.at(), "the pillow")
            .numbers(shown, needed)
            .corrected(resized(piece, |(_, across)| (pillow.front.width, across))),
    )
}

/// A piece with other sides.
fn resized(
    piece: &Field<(Written, Written)>,
    sides: impl Fn((Length, Length)) -> (Length, Length),
) -> Option<Correction> {
    let stated = piece.stated()?;
    let (width, length) = stated.value;
    let sides = sides((width.length, length.length));
    let fits = sides.0.max(sides.1) <= Length::LONGEST;
    fits.then(|| Correction::new(stated.at, rewrite_sides((&width, &length), sides)))
}

/// How far the pieces overlap: `Back: 12 in + 14 in - 2 hems x 1 in - 18 1/2 in = 5 1/2 in.`
pub(crate) fn overlap_working(measure: Measure, pillow: &PillowNeeds<'_>) -> String {
    let [first, second] = pillow.cut;
    let lengths = [first.length, second.length, pillow.hem, pillow.front.length, pillow.overlaps];
    let scale = Scale::of(measure, &lengths);
    let end = if pillow.overlaps.is_negative() {
        format!("a gap of {}", scale.up(-pillow.overlaps))
    } else {
        format!("{} of overlap", scale.down(pillow.overlaps))
    };
    format!(
        "Back: {} + {}, less 2 hems x {} and the front's {}: {end}.",
        scale.down(first.length),
        scale.down(second.length),
        scale.up(pillow.hem),
        scale.up(pillow.front.length),
    )
}

fn overlap(measure: Measure, pillow: &PillowNeeds<'_>) -> Option<Finding> {
    if pillow.overlaps >= pillow.overlap {
        return None;
    }
    let piece = &pillow.pieces.second;
    let scale = Scale::of(measure, &[pillow.overlaps, pillow.overlap]);
    let (level, message) = if pillow.overlaps.is_negative() {
        let gap = scale.up(-pillow.overlaps);
        (Level::Error, format!("The two pieces of the back do not meet: there is a gap of {gap} between them."))
    } else {
        let (overlaps, wanted) = (scale.down(pillow.overlaps), scale.up(pillow.overlap));
        (
            Level::Query,
            format!("The two pieces of the back overlap {overlaps}; {wanted} needed, so that it stays closed."),
        )
    };
    Some(
        Finding::new(Label::new(piece.at()?, "too little overlap"), message)
            .at_most(level)
            .for_size(&pillow.size.name)
            .about(Subject::number("pillow back"))
            .see(pillow.pieces.first.at(), "the other piece")
            .see(pillow.size.finished.at(), "the pillow")
            .help(overlap_working(measure, pillow))
            .numbers(scale.down(pillow.overlaps.max(Length::ZERO)), scale.up(pillow.overlap))
            .corrected(resized(piece, |(along, across)| (along, across + pillow.overlap - pillow.overlaps))),
    )
}
