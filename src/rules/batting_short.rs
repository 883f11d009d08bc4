//! The stated batting is smaller than the quilt and its overhang.

use super::Context;
use super::wording::backing::short_words;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::model::BattingSize;
use crate::quantity::{Length, Round, Written, rewrite_sides};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::{BattingNeeds, SizeBatting, larger_words, sheet_sum, show};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.batting.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BattingNeeds<'_>, size: &SizeBatting<'_>) -> Option<Finding> {
    let needed = size.needed.filter(|needed| !size.sheet.holds(*needed))?;
    let overhang = size.overhang?;
    if let Some(unworded) = context.unworded(size.stated.at, &size.size.name) {
        return Some(unworded);
    }
    let short = short_words(needs.bought(size), needs.before_washing(needed), needs.measure);
    let enough = show(needs.before_washing(needed), needs.measure, Round::Up);
    let stated = needs.stated_words(size);
    let message = format!("Batting of {stated} stated; {enough} needed: it is {short}.");
    let package = needs.package_for(needed).map(|(name, package)| {
        format!("The smallest packaged size that does is \"{}\", {}.", name, show(package, needs.measure, Round::Down))
    });
    let mut finding = Finding::new(Label::new(size.stated.at, short), message)
        .for_size(&size.size.name)
        .see(size.size.finished.at(), format!("the batting must be {}", larger_words(overhang, needs.measure)))
        .see(needs.stated.overhang.of(size.index).at(), "how far it must reach at each side")
        .help(format!(
            "Batting: {}{}.",
            sheet_sum(size.top, overhang, needed, needs.measure),
            needs.before_washing_words(needed)
        ));
    if let Some(package) = package.filter(|_| !matches!(size.stated.value, BattingSize::Measured(..))) {
        finding = finding.help(package);
    }
    Some(finding.numbers(show(needs.bought(size), needs.measure, Round::Down), enough).corrected(correction(
        needs,
        size,
        needs.before_washing(needed),
    )))
}

/// The size that is needed, the way round and in the units in which it is stated.
fn correction(needs: &BattingNeeds<'_>, size: &SizeBatting<'_>, needed: Rectangle) -> Option<Correction> {
    if needed.sides().1 > Length::LONGEST {
        return None;
    }
    // A package is mended by the smallest that does.
    if !matches!(size.stated.value, BattingSize::Measured(..))
        && let Some((package, _)) = needs.package_for(size.needed?)
    {
        return Some(Correction::new(size.stated.at, package));
    }
    let bare = Written { length: Length::ZERO, unit: needs.measure.bare_unit(), bare: true, other: None };
    let (width, length, needed) = match size.stated.value {
        BattingSize::Measured(width, length) => (width, length, needed.lying_as(size.sheet)),
        BattingSize::Packaged(_) | BattingSize::OfHouse(_) => (bare, bare, needed),
    };
    let replacement = rewrite_sides((&width, &length), (needed.width, needed.length));
    Some(Correction::new(size.stated.at, replacement))
}
