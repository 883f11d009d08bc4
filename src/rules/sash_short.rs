//! A sash or a cornerstone that is cut smaller than it must be.

use std::collections::BTreeSet;

use super::Context;
use super::wording::layout::resized;
use super::wording::subject::{piece_of, unit as unit_subject};
use crate::finding::{Finding, Label};
use crate::manuscript::Spanned;
use crate::manuscript::design::PieceRef;
use crate::quantity::{Length, Round, Scale};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::show;
use crate::requirement::counts::{entry, strip_of};
use crate::requirement::layout::LayoutNeeds;

/// A piece, and what it must be.
struct Needed<'a> {
    piece: &'a Spanned<PieceRef>,
    what: &'static str,
    /// How wide it finishes, and how long where that is cut to measure.
    width: Length,
    length: Option<Length>,
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<PieceRef> = BTreeSet::new();
    for laid in &context.needs.layouts.sizes {
        findings.extend(unit(context, laid));
        for needed in needed(laid) {
            // One cut size serves all sizes: it is told once.
            if !told.contains(&needed.piece.value)
                && let Some(finding) = finding(context, laid, &needed)
            {
                told.insert(needed.piece.value);
                findings.push(finding);
            }
        }
    }
}

fn needed<'a>(laid: &'a LayoutNeeds<'_>) -> Vec<Needed<'a>> {
    let Some((top, sashing)) = laid.top.as_ref().and_then(|top| Some((top, top.sashing?))) else { return Vec::new() };
    // One piece for all must be long enough for each; where no sash is needed, that is any.
    let any = if top.rows.is_some() { sashing.width } else { top.upright_sashes().length };
    let stated = laid.stated;
    let longest = laid.sashes_of_short_piece().iter().map(|sashes| sashes.length).max().unwrap_or(any);
    let pieces = [
        (&stated.sash, "sashes", Some(longest)),
        (&stated.long_sash, "long sashes", None),
        (&stated.cornerstone, "cornerstones", Some(sashing.width)),
    ];
    let needed = |(piece, what, length): (&'a crate::manuscript::Field<PieceRef>, _, _)| {
        Some(Needed { piece: piece.stated()?, what, width: sashing.width, length })
    };
    pieces.into_iter().filter_map(needed).collect()
}

/// Sashes that are sewn from a unit of another size.
fn unit(context: &Context<'_>, laid: &LayoutNeeds<'_>) -> Option<Finding> {
    let needs = &context.needs.layouts;
    let named = laid.stated.sash_of.stated()?;
    let stated = context.manuscript.units.get(named.value)?;
    let (width, height) = stated.finished.value()?;
    let sashing = laid.top.as_ref().and_then(|top| top.sashing)?;
    let lengths = laid.sashes_of_short_piece();
    let has = Rectangle::new(width.length, height.length).sides();
    let fits = |length: Length| {
        let must = Rectangle::new(sashing.width, length).sides();
        (has.0 - must.0).abs() <= needs.size_slack && (has.1 - must.1).abs() <= needs.size_slack
    };
    let length = lengths.iter().map(|sashes| sashes.length).find(|length| !fits(*length))?;
    let (has, must) = (Rectangle::new(width.length, height.length), Rectangle::new(sashing.width, length));
    let (has, must) = (show(has, needs.measure, Round::Down), show(must, needs.measure, Round::Up));
    let message = format!("Unit {} finishes {has}; the sashes for {} finish {must}.", stated.name, laid.size.name);
    Some(
        Finding::new(Label::new(named.at, format!("finishes {has}")), message)
            .for_size(&laid.size.name)
            .about(unit_subject(stated))
            .see(stated.finished.at(), "the finished unit")
            .see(laid.stated.sashing.at(), "how wide the sashing finishes")
            .help("A sash is as long as the side of the block beside it.")
            .numbers(has, must),
    )
}

fn finding(context: &Context<'_>, laid: &LayoutNeeds<'_>, needed: &Needed<'_>) -> Option<Finding> {
    let needs = &context.needs.layouts;
    let seam = needs.seam?;
    let (fabric, cut) = entry(&context.needs.fabrics, needed.piece.value)?;
    let (width, length) = strip_of(&context.needs.fabrics, needed.piece.value, laid.index)?;
    // Of sashes that are wider than they are long, the width is the longer side.
    let finished = Rectangle::new(needed.width, needed.length.unwrap_or(length));
    let (short, long) = Rectangle::new(finished.width + seam * 2, finished.length + seam * 2).sides();
    let narrow = width < short - needs.size_slack;
    let too_short = needed.length.is_some() && length < long - needs.size_slack;
    if !narrow && !too_short {
        return None;
    }
    let name = fabric.name(needed.piece.value.cut);
    let scale = Scale::of(needs.measure, &[needed.width, seam, short, long]);
    let by = needs.up(if narrow { short - width } else { long - length });
    let less = if narrow { "narrow" } else { "short" };
    let (stated, must) = match needed.length {
        Some(_) => (
            show(Rectangle::new(width, length), needs.measure, Round::Down),
            show(Rectangle::new(short, long), needs.measure, Round::Up),
        ),
        None => (
            format!("{} wide", width.show(needs.measure, Round::Down)),
            format!("{} wide", needs.up(needed.width + seam * 2)),
        ),
    };
    let message = format!("{name} is cut {stated}; {must} needed for {}: {by} too {less}.", needed.what);
    Some(
        Finding::new(
            Label::new(
                cut.size.of(laid.index).at().or(cut.strip_width.of(laid.index).at())?,
                format!("{by} too {less}"),
            ),
            message,
        )
        .for_size(&laid.size.name)
        .about(piece_of(context, needed.piece.value))
        .see(Some(needed.piece.at), format!("{} are cut from it", needed.what))
        .see(laid.stated.sashing.at(), "how wide it finishes")
        .help(format!(
            "The sashing finishes {}, and each side takes a seam of {}.",
            scale.up(needed.width),
            scale.up(seam)
        ))
        .numbers(stated, must)
        .corrected(resized((cut, laid.index), narrow.then_some(short), too_short.then_some(long))),
    )
}
