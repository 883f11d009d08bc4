//! The number of units that one set of pieces gives is not what the method gives.

use super::Context;
use super::wording::subject;
use super::wording::unit::of_make;
use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::Keyword;
use crate::manuscript::design::{CutFrom, Make, PartCut};
use crate::manuscript::model::CutAgain;
use crate::quantity::Count;
use crate::quilt_math::makes::Diagonally;
use crate::requirement::counts::entry;
use crate::requirement::units::{UnitNeeds, UnitsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for unit in &context.needs.units.units {
        findings.extend(finding(&context.needs.units, unit));
        findings.extend(unit.stated.cut.iter().filter_map(|part| cut_otherwise(context, unit, part)));
    }
}

/// Squares that the list cuts into two triangles where the unit takes four of each, or the other way round.
fn cut_otherwise(context: &Context<'_>, unit: &UnitNeeds<'_>, part: &PartCut) -> Option<Finding> {
    let CutFrom::Piece(piece) = part.from.value()? else { return None };
    let (fabric, cut) = entry(&context.needs.fabrics, piece)?;
    let stated = cut.cut_again.stated()?;
    let (taken, needed) = match unit.stated.way()?.part(&part.part)?.cut {
        Diagonally::Once => (CutAgain::Once, "2 triangles"),
        Diagonally::Twice => (CutAgain::Twice, "4 triangles"),
        // Squares that are sewn whole may be cut first as well.
        Diagonally::Whole => return None,
    };
    if stated.value == taken {
        return None;
    }
    let (name, own) =
        (fabric.name(piece.cut), if stated.value == CutAgain::Once { "2 triangles" } else { "4 triangles" });
    let message = format!(
        "Squares {name} are cut {} diagonally, into {own}; unit {} takes {needed} from each, cut {} diagonally.",
        stated.value.word(),
        unit.stated.name,
        taken.word(),
    );
    let help = match taken {
        CutAgain::Once => "Cut it once (cut_again: once): cut twice, the short sides of the triangles are on the bias.",
        CutAgain::Twice => "Cut it twice (cut_again: twice): cut once, the long side of the triangles is on the bias.",
    };
    Some(
        Finding::new(Label::new(stated.at, format!("cut {} here", stated.value.word())), message)
            .about(subject::piece(fabric.stated, piece.cut))
            .see(part.from.at(), format!("{} is cut from it", part.part))
            .help(help)
            .numbers(stated.value.word(), taken.word())
            .corrected(Some(Correction::new(stated.at, taken.word().to_string()))),
    )
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
        unit.parts.iter().map(|part| format!("{} {}", part.part.pieces, part.part.name.replace('_', " "))).collect();
    let pieces = if pieces.is_empty() { "its pieces".to_string() } else { pieces.join(" and ") };
    format!("One set of unit {}{}: {pieces} give {gives}.", unit.stated.name, of_make(unit))
}
