//! Another seam than the one that is stated, by which most of what is measured with its seams would be right.

use crate::finding::Correction;
use crate::quantity::{Length, Written};
use crate::requirement::measured::Measured;
use crate::requirement::units::UnitNeeds;
use crate::rules::Context;

/// How many sizes must agree on another seam before it is taken for the one that is meant.
const AGREEING: usize = 3;

/// The seam that a size with its seams says, where it is the same at all sides.
fn of_sides(stated: (Written, Written), finished: (Length, Length)) -> Option<Length> {
    let (wide, long) = (stated.0.length - finished.0, stated.1.length - finished.1);
    (wide == long && wide.is_positive()).then(|| wide.half())
}

/// The seam that a measured block or top says.
pub(in crate::rules) fn of_measured(measured: &Measured<'_>) -> Option<Length> {
    let (width, length) = measured.finished?;
    let is_plain = !width.diagonal.is_positive() && !length.diagonal.is_positive();
    is_plain.then(|| of_sides(measured.stated.value, (width.straight, length.straight)))?
}

/// The seam that the trim size of a unit says.
pub(in crate::rules) fn of_trim(unit: &UnitNeeds<'_>) -> Option<Length> {
    let finished = unit.finished.filter(|_| unit.stated.seam.is_absent())?;
    of_sides(unit.stated.trim.value()?, (finished.width, finished.length))
}

/// The correction of the seam that the pattern states, where most sizes agree on this one.
pub(in crate::rules) fn other_seam(context: &Context<'_>, seam: Option<Length>) -> Option<Correction> {
    let (stated, seam) = (context.manuscript.assumes.seam.stated()?, seam?);
    let measured = context.needs.measured.iter().map(of_measured);
    let trims = context.needs.units.units.iter().filter(|unit| unit.stated.trim.stated().is_some()).map(of_trim);
    let all: Vec<Option<Length>> = measured.chain(trims).collect();
    let agree = all.iter().filter(|other| **other == Some(seam)).count();
    let most = agree >= AGREEING && agree * 2 > all.len() && seam != stated.value.length;
    most.then(|| Correction::new(stated.at, stated.value.rewrite(seam)))
}
