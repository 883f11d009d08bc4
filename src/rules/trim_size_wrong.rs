//! The size that units are trimmed to is not the finished size and its seams.

use super::Context;
use super::wording::seam::{of_trim, other_seam};
use super::wording::subject;
use super::wording::unit::{tolerance, trim_is_right, unfinished_words};
use crate::finding::{Correction, Finding, Label};
use crate::quantity::{Length, Scale, rewrite_square_or_sides};
use crate::requirement::units::{UnitNeeds, UnitsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.needs.units.units.iter().filter_map(|unit| finding(context, &context.needs.units, unit)));
}

fn finding(context: &Context<'_>, needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>) -> Option<Finding> {
    if trim_is_right(unit, context.settings)? {
        return None;
    }
    let stated = unit.stated.trim.stated()?;
    let (needed, finished, (seam, seam_at)) = (unit.unfinished()?, unit.finished?, unit.seam?);
    let (width, height) = stated.value;
    // The text may name either side first.
    let turned = (width.length > height.length) != (needed.width > needed.length) && width.length != height.length;
    let (needed, finished) = if turned { (needed.turned(), finished.turned()) } else { (needed, finished) };
    let about = |one: Length, other: Length| (one - other).abs() <= tolerance(context.settings);
    let shown = [finished.width, finished.length, needed.width, needed.length, seam];
    let scale = Scale::of(needs.measure, &shown);
    let size = |(width, height): (Length, Length)| {
        let (width, height) = (scale.up(width), scale.up(height));
        if width == height { format!("{width} square") } else { format!("{width} x {height}") }
    };
    let told = {
        let scale = Scale::of(needs.measure, &[width.length, height.length]);
        let (width, height) = (scale.down(width.length), scale.down(height.length));
        if width == height { format!("{width} square") } else { format!("{width} x {height}") }
    };
    let is_finished = about(width.length, finished.width) && about(height.length, finished.length);
    let slip = if is_finished { " What is stated is the finished size: the seam allowance is left out." } else { "" };
    let message =
        format!("Unit {} is trimmed to {told}; {} needed.{slip}", unit.stated.name, unfinished_words(needs, unit)?);
    let text = stated.at.text(&context.source.text);
    let correction = rewrite_square_or_sides(text, (&width, &height), (needed.width, needed.length));
    let seams = scale.up(seam);
    Some(
        Finding::new(Label::new(stated.at, "not the finished size and its seams"), message)
            .about(subject::unit(unit.stated))
            .see(unit.stated.finished.at(), "the finished size")
            .see(seam_at, format!("the seam is {seams}"))
            .help(format!(
                "Trim to: {} finished and a seam of {seams} at each side = {}.",
                size((finished.width, finished.length)),
                size((needed.width, needed.length))
            ))
            .numbers(told, size((needed.width, needed.length)))
            .corrected(Some(Correction::new(stated.at, correction)))
            .or_corrected(other_seam(context, of_trim(unit)).into_iter().collect()),
    )
}
