//! A border piece that is cut too narrow, or too short for its side.

use std::collections::BTreeMap;

use super::Context;
use super::wording::count::border_name;
use super::wording::layout::{resized, size_working};
use super::wording::subject::piece_of;
use crate::finding::{Finding, Label, Level, SubjectKind};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Corners, YesNo};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Length, Round, Scale};
use crate::quilt_math::layout::{BorderStrips, Side};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::counts::{BorderPiece, border_pieces, entry, strip_of};
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::rounded_size::rounded_size;

/// What a piece must be for one border of one size, and by how much it is less.
struct Lack<'a> {
    laid: &'a LayoutNeeds<'a>,
    piece: &'a Spanned<PieceRef>,
    index: usize,
    /// What lacks: `too narrow`.
    way: &'static str,
    /// What is stated, and what is needed.
    stated: Length,
    needed: Length,
    working: String,
    /// Whether it is long enough for the finished size that is stated, which is only rounded.
    goes_by_rounded: bool,
}

impl Lack<'_> {
    fn by(&self) -> Length {
        self.needed - self.stated
    }

    /// What is a lack whatever is rounded is worse.
    fn badness(&self) -> (bool, Length) {
        (!self.goes_by_rounded, self.by())
    }
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    // A cut size that is stated once is told once, for the border that lacks most.
    let mut worst: BTreeMap<(PieceRef, Option<Span>, &str), Lack<'_>> = BTreeMap::new();
    for laid in &context.needs.layouts.sizes {
        for lack in lacks(context, laid) {
            let cut = entry(&context.needs.fabrics, lack.piece.value);
            let stated = cut.and_then(|(_, cut)| cut.size.of(laid.index).at());
            let key = (lack.piece.value, stated, lack.way);
            if worst.get(&key).is_none_or(|known| known.badness() < lack.badness()) {
                worst.insert(key, lack);
            }
        }
    }
    findings.extend(worst.values().filter_map(|lack| finding(context, lack)));
}

fn lacks<'a>(context: &'a Context<'_>, laid: &'a LayoutNeeds<'a>) -> Vec<Lack<'a>> {
    let needs = &context.needs.layouts;
    let (Some(top), Some(seam)) = (&laid.top, needs.seam) else { return Vec::new() };
    let mut lacks = Vec::new();
    for (index, stated) in laid.stated.borders.iter().enumerate() {
        let Some(strips) = top.border_strips(index, seam) else { break };
        let narrow = |piece, width| too_narrow(context, laid, piece, index, width);
        let cornered = stated.cornerstone.stated().filter(|_| strips.cornerstones.0 > 0);
        // Where top and bottom differ, one piece cannot say how large the corners of both are cut: none is smaller than this.
        let (short, long) = Rectangle::new(strips.width, strips.top_width.min(strips.bottom_width)).sides();
        lacks.extend(cornered.and_then(|piece| narrow(piece, short)));
        lacks.extend(cornered.and_then(|piece| corner_too_short(context, laid, piece, index, long)));
        let joined = stated.pieced.or(YesNo::Yes) != Some(YesNo::No);
        for BorderPiece { piece, width: cut_width, .. } in border_pieces(stated, &strips) {
            if joined {
                lacks.extend(narrow(piece, cut_width));
                continue;
            }
            let both = stated.piece_across.is_absent();
            let is_for_sides = stated.piece.stated().is_some_and(|sides| sides.at == piece.at);
            let (longest, way) = longest(&strips, both, is_for_sides);
            let rounded = rounded_size(needs, laid).map_or(Length::ZERO, |rounding| match way {
                Way::Length => rounding.less.1,
                Way::Width => rounding.less.0,
            });
            // A wide border round a small quilt is cut from pieces that are wider than they are long.
            let (width, longest) = if longest.above() < cut_width {
                (longest.below(), Side::straight(cut_width))
            } else {
                (cut_width, longest)
            };
            let Some(sides) = strip_of(&context.needs.fabrics, piece.value, laid.index) else { continue };
            // Where the longer side is just as wide as the border, it is the length that came out shorter.
            let is_wide = sides.0 < width - needs.size_slack && (sides.1 - width).abs() <= needs.size_slack;
            let long = if is_wide && !longest.fits(sides.1 + needs.slack(longest)) {
                sides.0
            } else {
                lacks.extend(narrow(piece, width));
                sides.1
            };
            lacks.extend(too_short(context, laid, piece, index, (longest, rounded, long)));
        }
    }
    lacks
}

/// Which way of the quilt a strip runs.
enum Way {
    Width,
    Length,
}

/// The longest strip that is cut from a piece.
fn longest(strips: &BorderStrips, both: bool, is_for_sides: bool) -> (Side, Way) {
    let (sides, ends) = ((strips.sides, Way::Length), (strips.ends, Way::Width));
    match (both, is_for_sides) {
        (true, _) if strips.sides.above() < strips.ends.above() => ends,
        (true, _) | (false, true) => sides,
        (false, false) => ends,
    }
}

fn too_narrow<'a>(
    context: &'a Context<'_>,
    laid: &'a LayoutNeeds<'a>,
    piece: &'a Spanned<PieceRef>,
    index: usize,
    needed: Length,
) -> Option<Lack<'a>> {
    let (stated, _) = strip_of(&context.needs.fabrics, piece.value, laid.index)?;
    less_than_finishes(context, laid, piece, index, ("too narrow", stated, needed))
}

/// A corner of a border whose sides differ, which is no square.
fn corner_too_short<'a>(
    context: &'a Context<'_>,
    laid: &'a LayoutNeeds<'a>,
    piece: &'a Spanned<PieceRef>,
    index: usize,
    needed: Length,
) -> Option<Lack<'a>> {
    let (_, stated) = strip_of(&context.needs.fabrics, piece.value, laid.index)?;
    // A square that is too small is told as too narrow.
    if laid.border(index)?.1.all_round().is_some() {
        return None;
    }
    less_than_finishes(context, laid, piece, index, ("too short", stated, needed))
}

fn less_than_finishes<'a>(
    context: &'a Context<'_>,
    laid: &'a LayoutNeeds<'a>,
    piece: &'a Spanned<PieceRef>,
    index: usize,
    (way, stated, needed): (&'static str, Length, Length),
) -> Option<Lack<'a>> {
    let needs = &context.needs.layouts;
    let seam = needs.seam?;
    let scale = Scale::of(needs.measure, &[needed - seam * 2, seam, needed]);
    let working = format!(
        "It finishes {}, and a seam of {} at each side makes {}.",
        scale.up(needed - seam * 2),
        scale.up(seam),
        scale.up(needed)
    );
    (stated < needed - needs.size_slack).then_some(Lack {
        laid,
        piece,
        index,
        way,
        stated,
        needed,
        working,
        goes_by_rounded: false,
    })
}

/// Whether a piece of a stated length is shorter than its side, which is the more by so much than the finished size
/// that is stated.
fn too_short<'a>(
    context: &'a Context<'_>,
    laid: &'a LayoutNeeds<'a>,
    piece: &'a Spanned<PieceRef>,
    index: usize,
    (needed, rounded, stated): (Side, Length, Length),
) -> Option<Lack<'a>> {
    let needs = &context.needs.layouts;
    if needed.fits(stated + needs.slack(needed)) {
        return None;
    }
    let working = length_working(needs, laid, index)?;
    let goes_by_rounded = needed.fits(stated + rounded);
    Some(Lack { laid, piece, index, way: "too short", stated, needed: needed.above(), working, goes_by_rounded })
}

/// How long the strips of a border are cut: `Inside border 1 the top is 36 x 48 in. Sides: 48 in + 2 seams x 1/4 in =
/// 48 1/2 in. Top and bottom: ...`. A side on point is a root, so its sum is told finer than the length to cut.
pub(crate) fn length_working(needs: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, index: usize) -> Option<String> {
    let (top, seam) = (laid.top.as_ref()?, needs.seam?);
    let (_, border) = laid.border(index)?;
    let (width, length) = top.inside(index);
    let strips = top.border_strips(index, seam)?;
    let plain = [border.sides, border.top, border.bottom, seam, border.ease.max(seam * 2)];
    let is_root = width.diagonal.is_positive();
    let scale = if is_root {
        Scale::fine_beside(needs.measure, &plain)
    } else {
        Scale::of(needs.measure, &[[width.straight, length.straight].as_slice(), &plain].concat())
    };
    let inside = |side: Side| scale.rounded(side.above(), Round::Up);
    let strip = |side: Side, with_border: Option<[Length; 2]>, cut: Side| {
        let (border_words, border_width) = match with_border {
            Some([one, other]) if one == other => (format!(" + 2 x {}", scale.up(one)), one * 2),
            Some([one, other]) => (format!(" + {} + {}", scale.up(one), scale.up(other)), one + other),
            None => (String::new(), Length::ZERO),
        };
        let (end_words, ends) = match border.corners {
            Corners::Mitred => {
                let ease = border.ease.max(seam * 2);
                (format!(" + {} for the miter", scale.up(ease)), ease)
            }
            Corners::Butted | Corners::Cornerstones => (format!(" + 2 seams x {}", scale.up(seam)), seam * 2),
        };
        let sum = scale.up(inside(side) + border_width + ends);
        let cut = if is_root { format!(", cut {}", needs.up(cut.above())) } else { String::new() };
        format!("{}{border_words}{end_words} = {sum}{cut}", scale.up(inside(side)))
    };
    Some(format!(
        "Inside {} the top is {} x {}. Sides: {}. Top and bottom: {}.",
        border_name(index),
        scale.number(inside(width), Round::Up),
        scale.up(inside(length)),
        strip(length, (border.corners == Corners::Mitred).then_some([border.top, border.bottom]), strips.sides),
        strip(width, (border.corners != Corners::Cornerstones).then_some([border.sides; 2]), strips.ends),
    ))
}

fn finding(context: &Context<'_>, lack: &Lack<'_>) -> Option<Finding> {
    let needs = &context.needs.layouts;
    let (fabric, cut) = entry(&context.needs.fabrics, lack.piece.value)?;
    let size = lack.laid.index;
    let at: Span = cut.size.of(size).at().or(cut.strip_width.of(size).at())?;
    let name = fabric.name(lack.piece.value.cut);
    // What is short is the difference of what is shown.
    let scale = Scale::of(needs.measure, &[lack.stated, lack.needed]);
    let (stated, needed) = (scale.down(lack.stated), scale.up(lack.needed));
    let by = scale.rounded(lack.needed, Round::Up) - scale.rounded(lack.stated, Round::Down);
    let short = scale.up(by);
    let border = border_name(lack.index);
    let (measure, less) = if lack.way == "too narrow" { ("wide", "narrow") } else { ("long", "short") };
    let message = format!("{name} is {stated} {measure}; {needed} needed for {border}: {short} too {less}.");
    let stated_border = lack.laid.stated.borders.get(lack.index)?;
    let to_cut = scale.rounded(lack.needed, Round::Up);
    let (shorter, longer) = strip_of(&context.needs.fabrics, lack.piece.value, lack.laid.index)?;
    let is_shorter = lack.way == "too narrow" || (lack.stated == shorter && shorter < longer);
    let (narrow, too_short) = if is_shorter { (Some(to_cut), None) } else { (None, Some(to_cut)) };
    // What is cut for a narrow top and a wide bottom as well may lack a piece of its own.
    let is_one_width = lack.laid.border(lack.index)?.1.all_round().is_some() || !stated_border.piece_bottom.is_absent();
    let layout = lack.laid.top.as_ref().filter(|_| lack.way == "too short").map(|top| size_working(needs, top));
    let (level, ease) = if lack.goes_by_rounded {
        let ease = "It goes by the finished size, which is rounded. Tell readers to measure the top and to ease it to the border, or print the border longer.";
        (Level::Note, ease)
    } else {
        (Level::Error, "")
    };
    Some(
        Finding::new(Label::new(at, format!("{short} too {less}")), message)
            .at_most(level)
            .for_size(&lack.laid.size.name)
            .about(piece_of(context, lack.piece.value).and(SubjectKind::Border, (lack.index + 1).to_string()))
            .see(Some(lack.piece.at), format!("{border} is cut from it"))
            .see(stated_border.width.at(), "how wide it finishes")
            .help(super::sentence(&lack.working))
            .help(layout.unwrap_or_default())
            .help(ease)
            .numbers(stated, needed)
            .corrected(resized((cut, size), narrow, too_short).filter(|_| is_one_width)),
    )
}
