//! A hanging sleeve that is too narrow for its rod, or longer or much shorter than the quilt is wide.

use super::Context;
use crate::finding::{Correction, Finding, Label, Level, Subject};
use crate::quantity::{Length, Measure, Round, Scale, rewrite_sides};
use crate::requirement::extras::SleeveNeeds;
use crate::rule_book::LengthValue;

/// How much of the quilt's width a sleeve leaves free at each end, at least and at most.
const CLEAR: LengthValue = LengthValue::named("sleeve_clear");
const MOST_CLEAR: LengthValue = LengthValue::named("sleeve_most_clear");

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.extras;
    for sleeve in &needs.sleeves {
        let length = || length(needs.measure, context, sleeve);
        findings.extend(narrow(needs.measure, sleeve).or_else(length));
    }
}

/// The strip is cut too narrow.
fn narrow(measure: Measure, sleeve: &SleeveNeeds<'_>) -> Option<Finding> {
    let stated = sleeve.cut.value.0.length;
    if stated >= sleeve.width {
        return None;
    }
    let scale = Scale::of(measure, &[stated, sleeve.width, sleeve.depth, sleeve.seam, sleeve.deep]);
    let (shown, needed) = (scale.down(stated), scale.up(sleeve.width));
    let message = format!(
        "A sleeve from a strip {shown} wide stated; {needed} needed: sewn to a tube it is {} deep, and {} is asked for.",
        scale.down(sleeve.deep),
        scale.up(sleeve.depth),
    );
    let working = format!("Sleeve: 2 x {} + 2 seams x {} = {needed}.", scale.up(sleeve.depth), scale.up(sleeve.seam));
    let label = format!("makes a tube {} deep", scale.down(sleeve.deep));
    let finding = about(sleeve, Label::new(sleeve.cut.at, label), message).help(working);
    let (width, length) = sleeve.cut.value;
    let text = rewrite_sides((&width, &length), (sleeve.width, length.length));
    Some(finding.numbers(shown, needed).corrected(Some(Correction::new(sleeve.cut.at, text))))
}

/// The strip is cut too long, or much too short.
fn length(measure: Measure, context: &Context<'_>, sleeve: &SleeveNeeds<'_>) -> Option<Finding> {
    // Of another outline nothing says how wide the quilt is where the sleeve is.
    if !sleeve.size.outline.is_absent() {
        return None;
    }
    let (clear, most_clear) = (context.settings.length(CLEAR), context.settings.length(MOST_CLEAR));
    let (longest, shortest) = (sleeve.quilt - clear * 2, sleeve.quilt - most_clear * 2);
    if (shortest..=longest).contains(&sleeve.long) {
        return None;
    }
    let stated = sleeve.cut.value.1.length;
    let most = longest + sleeve.hem * 2;
    let scale = Scale::of(measure, &[stated, most, sleeve.hem, sleeve.long, sleeve.quilt, clear]);
    let hems =
        format!("less 2 hems of {} it is {} long", scale.up(sleeve.hem), scale.down(sleeve.long.max(Length::ZERO)));
    let is_long = sleeve.long > longest;
    let wrong = match (is_long, sleeve.long >= sleeve.quilt) {
        (true, true) => "it would show at the ends".to_string(),
        (true, false) => format!("less than {} is free at each end", scale.up(clear)),
        (false, _) => "the quilt would sag beside it".to_string(),
    };
    let message = format!(
        "A sleeve {} long stated; {} needed: {hems}, and the quilt is {} wide, so {wrong}.",
        scale.down(stated),
        scale.up(most),
        scale.down(sleeve.quilt),
    );
    let label = format!("{} long when it is hemmed", sleeve.long.max(Length::ZERO).show(measure, Round::Down));
    let working = format!(
        "Sleeve: {} - 2 x {} free at the ends + 2 hems x {} = {}.",
        scale.up(sleeve.quilt),
        scale.up(clear),
        scale.up(sleeve.hem),
        scale.up(most)
    );
    let (width, length) = sleeve.cut.value;
    let text = rewrite_sides((&width, &length), (width.length, most));
    let finding = about(sleeve, Label::new(sleeve.cut.at, label), message).help(working);
    let finding = if is_long && sleeve.long > sleeve.quilt { finding } else { finding.at_most(Level::Query) };
    Some(finding.numbers(scale.down(stated), scale.up(most)).corrected(Some(Correction::new(sleeve.cut.at, text))))
}

fn about(sleeve: &SleeveNeeds<'_>, at: Label, message: String) -> Finding {
    Finding::new(at, message)
        .for_size(&sleeve.size.name)
        .about(Subject::number("sleeve"))
        .see(sleeve.size.finished.at(), "how wide the quilt is")
        .see(sleeve.stated.depth.at(), "how deep it is to be")
}
