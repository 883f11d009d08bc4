//! The quilt is smaller than the bed that it is for.

use super::Context;
use crate::caution::CRIB;
use crate::finding::{Finding, Label, Level};
use crate::manuscript::model::{Bed, Size};
use crate::manuscript::{Keyword, Spanned};
use crate::quantity::{Length, Measure, Round, Scale};
use crate::requirement::batting::show_in;
use crate::requirement::bed::{BedNeeds, bed};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let measure = context.manuscript.measure;
    for size in &context.manuscript.sizes {
        if size.bed.value() == Some(Bed::Crib) {
            findings.extend(crib(size));
            continue;
        }
        let (Some(needs), Some(name)) = (bed(size, context.settings), size.bed.stated()) else { continue };
        if needs.quilt.width < needs.needed.width || needs.quilt.length < needs.needed.length {
            findings.extend(finding(measure, size, name, &needs));
        }
    }
}

/// A crib quilt is measured against no mattress: where a drop is stated as for a bed, the caution is told.
fn crib(size: &Size) -> Option<Finding> {
    let drop = size.drop.stated()?;
    let (first, rest) = CRIB.split_once(". ")?;
    Some(
        Finding::new(Label::new(drop.at, "not for a crib"), format!("{first}."))
            .at_most(Level::Note)
            .for_size(&size.name)
            .see(size.bed.at(), "for a crib")
            .help(rest),
    )
}

fn finding(measure: Measure, size: &Size, name: &Spanned<Bed>, needs: &BedNeeds) -> Option<Finding> {
    let sides = [needs.quilt, needs.needed, needs.mattress].into_iter().flat_map(|sheet| [sheet.width, sheet.length]);
    let scale = Scale::of(measure, &sides.chain([needs.drop, needs.tuck]).collect::<Vec<_>>());
    let up = |length: Length| scale.up(length);
    let finished = size.finished.stated()?;
    let mut short = Vec::new();
    let (width, length) = (needs.needed.width - needs.quilt.width, needs.needed.length - needs.quilt.length);
    if width.is_positive() {
        short.push(format!("{} short in the width", up(width)));
    }
    if length.is_positive() {
        short.push(format!("{} short in the length", up(length)));
    }
    let short = short.join(" and ");
    let bed = name.value.word();
    let (quilt, needed) = (show_in(scale, needs.quilt, Round::Down), show_in(scale, needs.needed, Round::Up));
    let tuck = |words: &str| if needs.tuck.is_positive() { words.replace('#', &up(needs.tuck)) } else { String::new() };
    let what = if needs.drop.is_positive() {
        format!("it with a drop of {}{}", up(needs.drop), tuck(" and # tucked in"))
    } else {
        format!("its top alone{}", tuck(", with # tucked in"))
    };
    let message = format!("{quilt} stated for a {bed}; {needed} needed to cover {what}: the quilt is {short}.");
    let mattress = show_in(scale, needs.mattress, Round::Up);
    let working = if needs.drop.is_positive() {
        let tuck = tuck(", and # more in the length under the pillows");
        format!("Mattress {mattress}, with a drop of {} at both sides and at the foot{tuck}: {needed}.", up(needs.drop))
    } else {
        let tuck = tuck(" and # more in the length under the pillows");
        format!("Mattress {mattress}; no drop is stated, so only its top must be covered{tuck}.")
    };
    Some(
        Finding::new(Label::new(finished.at, short), message)
            .for_size(&size.name)
            .see(Some(name.at), "the bed that it is for")
            .see(size.drop.at(), "the drop")
            .see(size.tuck.at(), "what is tucked under the pillows")
            .help(working)
            .help(if needs.tuck.is_positive() {
                "Make the quilt larger, state a smaller drop or tuck, or name the bed that it covers."
            } else {
                "Make the quilt larger, state a smaller drop, or name the bed that it covers."
            })
            .numbers(quilt, needed),
    )
}
