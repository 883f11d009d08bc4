//! The stated backing fabric is less than its panels take.

use super::Context;
use super::wording::backing::{
    advice, fabric_correction, fabric_working, needed_working, panels_words, seams_working, see_size, sheet_words,
    sheet_working, short_words,
};
use super::wording::pair::Halves;
use crate::finding::{Correction, Finding, Label, Subject};
use crate::quantity::{Length, Round, Yardage, rewrite_sides};
use crate::quilt_math::backing::Panels;
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::batting::larger_words;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.backing.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
    findings.extend(needs.sizes.iter().filter_map(|size| size_finding(context, needs, size)));
}

/// The stated size is smaller than the quilt and its overhang.
fn size_finding(context: &Context<'_>, needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Finding> {
    let (stated, told) = (size.stated.size.stated()?, size.told()?);
    if told.holds(size.needed) {
        return None;
    }
    if let Some(unworded) = context.unworded(stated.at, &size.size.name) {
        return Some(unworded.about(Subject::number("backing size")));
    }
    let short = short_words(told, size.needed, needs.measure);
    let (shown, needed) = (sheet_words(needs, told, Round::Down), sheet_words(needs, size.needed, Round::Up));
    let message = format!("A backing of {shown} stated; {needed} needed: it is {short}.");
    let larger = format!("the backing must be {}", larger_words(size.overhang, needs.measure));
    let (width, length) = stated.value;
    let lying = size.needed.lying_as(Rectangle::new(width.length, length.length));
    let fits = size.needed.sides().1 <= Length::LONGEST;
    let replacement = fits.then(|| rewrite_sides((&width, &length), (lying.width, lying.length)));
    Some(
        Finding::new(Label::new(stated.at, short), message)
            .for_size(&size.size.name)
            .about(Subject::number("backing size"))
            .see(size.size.finished.at(), larger)
            .see(needs.stated.overhang.of(size.index).at(), "how far it must reach at each side")
            .help(needed_working(needs, size))
            .numbers(shown, needed)
            .corrected(replacement.map(|text| Correction::new(stated.at, text))),
    )
}

fn finding(context: &Context<'_>, needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let panels = &size.panels;
    // Where one half of a pair is enough, the other is for `pair-disagrees`.
    let amount = stated.value.most();
    if amount >= panels.fabric {
        return None;
    }
    if let Some(unworded) = context.unworded(stated.at, &size.size.name) {
        return Some(unworded);
    }
    let halves = Halves::new(needs.shop, &stated.value);
    let (shown, needed) = (halves.stated(), halves.to_buy(panels.fabric));
    let message = format!(
        "{shown} stated; {needed} needed: {}, so {}.{}",
        fabric_working(needs, panels),
        halves.short_of(panels.fabric),
        least(needs, size, amount).map(|least| format!(" {least}")).unwrap_or_default(),
    );
    let finding = Finding::new(Label::new(stated.at, halves.short_label(panels.fabric)), message);
    Some(
        see_size(finding.for_size(&size.size.name), needs, size)
            .see(size.stated.panels_run.at().or(needs.stated.directional.at()), "the way that the panels run")
            .see(size.stated.panels.at(), "the panels that are cut from it")
            .help(sheet_working(needs, size))
            .help(seams_working(needs, size, panels))
            .help(advice(needs, size))
            .numbers(shown, needed)
            .corrected(fabric_correction(needs, size)),
    )
}

/// Which panels need the least, and whether the stated amount would do for others than those that are printed.
fn least(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, amount: Yardage) -> Option<String> {
    let takes = |panels: &Panels| {
        let long = needs.up(panels.fabric.0);
        format!(
            "{}, which {} {long}",
            panels_words(panels.count, panels.run),
            if panels.count.0 == 1 { "takes" } else { "take" }
        )
    };
    if size.least.fabric < size.panels.fabric {
        let enough = if amount >= size.least.fabric {
            "what is stated is enough for that"
        } else {
            "what is stated is not enough for that either"
        };
        return Some(format!("The least is needed with {}: {enough}.", takes(&size.least)));
    }
    // What is printed needs the least: nothing else can do with less, which is worth saying where there is a choice.
    let other = size.other_way().filter(|other| other.fabric > size.panels.fabric)?;
    Some(format!("No other way needs less: the other is {}.", takes(&other)))
}
