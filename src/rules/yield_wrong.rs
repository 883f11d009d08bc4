//! The number of units that one set of pieces gives is not what the method gives.

use super::Context;
use super::wording::subject;
use super::wording::unit::of_make;
use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::design::Make;
use crate::quantity::Count;
use crate::requirement::units::{UnitNeeds, UnitsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.needs.units.units.iter().filter_map(|unit| finding(&context.needs.units, unit)));
}

fn finding(needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>) -> Option<Finding> {
    let (stated, gives) = (unit.stated.yields.stated()?, unit.gives?);
    if stated.value == gives {
        return None;
    }
    let strips = unit.stated.make.value().is_some_and(Make::is_strip_set);
    let thing = if strips { "segment" } else { "unit" };
    let set = if strips { "strip set" } else { "set of pieces" };
    let end = if stated.value > gives {
        format!(", not {}", stated.value)
    } else {
        format!(", and {} would be left over", gives.less(stated.value))
    };
    let message = format!(
        "{} stated from one {set} of unit {}; this method makes {gives}{end}.",
        stated.value.of(thing),
        unit.stated.name
    );
    let level = match (stated.value > gives, strips) {
        (true, _) => Level::Error,
        (false, false) => Level::Query,
        // Whoever squares up the ends of a strip set gets fewer.
        (false, true) => Level::Note,
    };
    let correction = Correction::new(stated.at, gives.to_string());
    Some(
        Finding::new(Label::new(stated.at, format!("this method makes {gives}")), message)
            .about(subject::unit(unit.stated))
            .see(unit.stated.method.at().or(unit.stated.make.at()), "how it is made")
            .see(unit.stated.segment.at(), "how wide segments are cut")
            .help(working(needs, unit, gives))
            .numbers(stated.value.to_string(), gives.to_string())
            .corrected((gives.0 > 0).then_some(correction))
            .at_most(level),
    )
}

fn working(needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>, gives: Count) -> String {
    let shortest = unit.strips.iter().filter_map(|strip| strip.length).min();
    if let Some((length, segment)) = shortest.zip(unit.segment) {
        return format!("Strips {} long, in segments of {}: {gives}.", needs.down(length), needs.up(segment));
    }
    let pieces: Vec<String> =
        unit.parts.iter().map(|part| format!("{} {}", part.part.pieces, part.part.name)).collect();
    let pieces = if pieces.is_empty() { "its pieces".to_string() } else { pieces.join(" and ") };
    format!("One set of unit {}{}: {pieces} give {gives}.", unit.stated.name, of_make(unit))
}
