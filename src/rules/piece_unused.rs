//! A piece of the cutting list that nothing uses.

use super::Context;
use super::wording::layout_pieces::layout_pieces;
use super::wording::subject::piece_of;
use crate::finding::{Finding, Label};
use crate::manuscript::design::{CutFrom, PieceRef};
use crate::quilt_math::rectangle::Rectangle;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    // Where part of the design is not stated, or not read, that part may use it.
    if !context.needs.counts.whole {
        return;
    }
    for (fabric, needs) in context.needs.fabrics.fabrics.iter().enumerate() {
        for cut in 0..needs.stated.cut.len() {
            findings.extend(finding(context, PieceRef::entry(fabric, cut)));
        }
    }
}

fn finding(context: &Context<'_>, piece: PieceRef) -> Option<Finding> {
    let cut = context.manuscript.fabrics.get(piece.fabric)?.cut.get(piece.cut)?;
    // What is cut for something else is no part of the layouts.
    let name = cut.piece.stated().filter(|_| cut.used_for.is_absent())?;
    let means = |used: &PieceRef| used.means(piece, context.manuscript.fabrics.iter());
    if context.needs.counts.sizes.iter().any(|counts| counts.pieces.keys().any(means)) {
        return None;
    }
    let idle = context.manuscript.units.iter().find(|unit| {
        unit.cut.iter().any(|part| match part.from.value() {
            Some(CutFrom::Piece(of)) => means(&of),
            Some(CutFrom::Size(..)) | None => false,
        })
    });
    let why = match idle {
        Some(unit) => format!("only {} is made of it, and no layout has that", unit.name),
        None => "no unit, sashing or border is made of it".to_string(),
    };
    let message = format!("Piece {} is cut, and nothing in the layouts uses it: {why}.", name.value);
    let help = named_by_nothing(context, piece, &name.value).unwrap_or_else(|| {
        "Either something that uses it is left out of the design, or it is left over from an older one.".to_string()
    });
    Some(
        Finding::new(Label::new(name.at, "used by nothing"), message)
            .about(piece_of(context, piece))
            .see(idle.map(|unit| unit.at), "made of it, and in no layout")
            .help(help),
    )
}

/// What in a layout is cut to the size of a piece and says no piece that it is cut from, with the word that says it.
fn named_by_nothing(context: &Context<'_>, piece: PieceRef, name: &str) -> Option<String> {
    let needs = &context.needs.layouts;
    let cut = context.manuscript.fabrics.get(piece.fabric)?.cut.get(piece.cut)?;
    needs.sizes.iter().find_map(|laid| {
        let (width, length) = cut.size.of(laid.index).value()?;
        let size = Rectangle::new(width.length, length.length);
        let pieces = layout_pieces(needs, laid);
        let mut fit = pieces.iter().filter(|piece| piece.stated.is_absent() && piece.is_cut(size, needs.size_slack));
        let fits = fit.next()?;
        Some(format!(
            "The layout of {} does not say what the {} are cut from, and this is their size. If it is this piece, state there \
             {}: {name}.",
            laid.size.name, fits.what, fits.word
        ))
    })
}
