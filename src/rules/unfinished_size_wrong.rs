//! A size with its seams that the text says a block or the top measures is not what the design makes.

use super::Context;
use super::wording::layout::size_inside;
use super::wording::seam::{of_measured, other_seam};
use crate::finding::{Correction, Finding, Label, Level, Subject, SubjectKind};
use crate::quantity::{Length, Round, Scale, rewrite_square_or_sides};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::show;
use crate::requirement::layout::LayoutsNeeds;
use crate::requirement::measured::{Fit, Measured, MeasuredOf};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.needs.measured.iter().filter_map(|measured| finding(context, measured)));
}

fn finding(context: &Context<'_>, measured: &Measured<'_>) -> Option<Finding> {
    let needs = &context.needs.layouts;
    let fit = measured.fit(|side| needs.slack(side))?;
    if fit == Fit::Right {
        return None;
    }
    let (needed, (width, length)) = (needed(needs, measured)?, measured.stated.value);
    let told = Rectangle::new(width.length, length.length);
    let (stated, must) = (show(told, needs.measure, Round::Down), show(needed, needs.measure, Round::Up));
    let slip = if fit == Fit::Wrong { slip(needs, measured, told).unwrap_or("") } else { "" };
    let rounded = if fit == Fit::Rounded { " What is stated is rounded." } else { "" };
    let what = what(measured);
    let message = format!("{what}: {stated} stated, with its seams; the design makes {must}.{slip}{rounded}");
    let (about, size) = match measured.what {
        MeasuredOf::Block(block) => (Subject::of(SubjectKind::Block, &block.name), None),
        MeasuredOf::Top(size, _, 0) => (Subject::number("quilt top"), Some(size)),
        MeasuredOf::Top(size, _, borders) => (Subject::of(SubjectKind::Border, borders.to_string()), Some(size)),
    };
    let text = measured.stated.at.text(&context.source.text);
    let text = rewrite_square_or_sides(text, (&width, &length), (needed.width, needed.length));
    let finding = Finding::new(Label::new(measured.stated.at, format!("the design makes {must}")), message)
        .at_most(if fit == Fit::Rounded { Level::Note } else { Level::Error })
        .about(about)
        .see(context.manuscript.assumes.seam.at(), "the seam at each side")
        .help(working(needs, measured)?)
        .numbers(stated, must)
        .corrected((fit == Fit::Wrong).then(|| Correction::new(measured.stated.at, text)))
        .or_corrected(other_seam(context, of_measured(measured)).into_iter().collect());
    Some(match (measured.what, size) {
        (MeasuredOf::Block(block), _) => finding.see(block.finished.at(), "the finished size"),
        (MeasuredOf::Top(..), Some(size)) => finding.for_size(&size.name),
        (MeasuredOf::Top(..), None) => finding,
    })
}

/// What is measured, as a sentence begins: `Block star`, `The top without borders`.
fn what(measured: &Measured<'_>) -> String {
    match measured.what {
        MeasuredOf::Block(block) => format!("Block {}", block.name),
        MeasuredOf::Top(_, _, 0) => "The top before borders".to_string(),
        MeasuredOf::Top(_, _, borders) => format!("The top with border {borders}"),
    }
}

/// What is to print.
pub(crate) fn needed(needs: &LayoutsNeeds<'_>, measured: &Measured<'_>) -> Option<Rectangle> {
    let (width, length) = measured.needed()?;
    Some(Rectangle::new(needs.printed(width), needs.printed(length)))
}

/// How it comes to what it must be.
pub(crate) fn working(needs: &LayoutsNeeds<'_>, measured: &Measured<'_>) -> Option<String> {
    let ((width, length), seam) = (measured.finished?, measured.seam?);
    let finished = Rectangle::new(needs.printed(width), needs.printed(length));
    let with_seams = finished.with_overhang(seam);
    let scale = Scale::of(needs.measure, &[finished.width, finished.length, seam, with_seams.width, with_seams.length]);
    let size = |size: Rectangle| format!("{} x {}", scale.up(size.width), scale.up(size.length));
    let seams =
        format!("{} finished, and a seam of {} at each side: {}.", size(finished), scale.up(seam), size(with_seams));
    let inside = match measured.what {
        MeasuredOf::Block(_) => None,
        MeasuredOf::Top(_, place, borders) => {
            let top = needs.sizes.get(place)?.top.as_ref()?;
            Some(size_inside(needs, top, borders))
        }
    };
    Some(inside.map_or(seams.clone(), |inside| format!("{inside} {seams}")))
}

/// What was left out, where that is plain.
fn slip(needs: &LayoutsNeeds<'_>, measured: &Measured<'_>, stated: Rectangle) -> Option<&'static str> {
    let (width, length) = measured.finished?;
    let about = |side: crate::quilt_math::layout::Side, stated: Length| side.is_within(needs.slack(side), stated);
    (about(width, stated.width) && about(length, stated.length))
        .then_some(" What is stated is the finished size: the seam allowance is left out.")
}
