//! The working of a binding in words, and the corrections that several rules share.

use std::fmt::Display;

use super::super::Context;
use super::pair::purchase;
use super::plan::{before_washing, sum};
use crate::finding::Correction;
use crate::manuscript::model::{Bought, Closing, Grain, Join, Outline, Size};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Count, Length, Round, Scale, Written, Yardage};
use crate::quilt_math::binding::{CutPlan, Ends, Lengths};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::fabric::Shop;
use crate::requirement::fabrics::FabricsNeeds;

/// How long the binding must be: `Length: perimeter 2 x (54 in + 72 in) = 252 in + 2 in at the corners ... = 262 in.`
pub(crate) fn edge_working(needs: &BindingNeeds<'_>, size: &Size, lengths: &Lengths) -> String {
    let ends = needs.method.as_ref().map(|method| method.ends).filter(|_| lengths.asked > lengths.bare);
    let closing = lengths.bare - lengths.perimeter - lengths.corners;
    let mut shown = vec![lengths.perimeter, lengths.corners, lengths.asked];
    match ends {
        Some(Ends::Tails { start, end, opening }) => shown.extend([start, end, opening]),
        Some(Ends::Extra(extra)) => shown.push(extra),
        Some(Ends::Sides) | None => shown.push(closing),
    }
    shown.extend(outline_lengths(size));
    let scale = Scale::of(needs.measure, &shown);
    let up = |length| scale.up(length);
    let round = round_working(scale, size, &up(lengths.perimeter));
    // A round edge has no corners to speak of.
    let corners = match lengths.corners {
        Length::ZERO => String::new(),
        corners => format!(" + {} at the corners", up(corners)),
    };
    let ends = match ends {
        Some(Ends::Tails { start, end, opening }) => {
            format!("{corners} + {} and {} tails - {} opening", up(start), up(end), up(opening))
        }
        Some(Ends::Extra(extra)) => format!(" + {} extra", up(extra)),
        Some(Ends::Sides) | None => match needs.closing {
            _ if closing == Length::ZERO => corners,
            Some(Closing::Tucked) => format!("{corners} + {} to tuck the ends", up(closing)),
            _ => format!("{corners} + {} to join the ends", up(closing)),
        },
    };
    format!("Length: {round}{ends} = {}.", up(lengths.asked))
}

/// The lengths that an outline is stated with.
fn outline_lengths(size: &Size) -> Vec<Length> {
    let finished = size.finished.value().map(|(width, length)| [width.length, length.length]);
    let mut lengths: Vec<Length> = finished.into_iter().flatten().collect();
    match size.outline.stated().map(|outline| &outline.value) {
        Some(Outline::Regular { side, .. }) => lengths.push(side.length),
        Some(Outline::Clipped(clip)) => lengths.push(clip.length),
        Some(Outline::Scalloped { depth, .. }) => lengths.push(depth.length),
        None | Some(Outline::Circle | Outline::Points(_)) => {}
    }
    lengths
}

/// The length of the edge and where it comes from: `perimeter 252 in, 2 x (54 in + 72 in),`. Of a rectangle without more
/// the sum itself stands first. Roots and circles do not come out with the numbers that are shown.
fn round_working(scale: Scale, size: &Size, perimeter: &str) -> String {
    let up = |written: &Written| scale.up(written.length);
    let (width, length) = match size.finished.stated() {
        Some(finished) => (up(&finished.value.0), up(&finished.value.1)),
        None => return format!("perimeter {perimeter}"),
    };
    match size.outline.stated().map(|outline| &outline.value) {
        None => format!("perimeter 2 x ({width} + {length}) = {perimeter}"),
        Some(Outline::Circle) => format!("perimeter of a circle {width} across, {perimeter}"),
        Some(Outline::Regular { sides, side }) => format!("perimeter {sides} sides x {} = {perimeter}", up(side)),
        Some(Outline::Clipped(clip)) => {
            format!("perimeter of {width} x {length} with four corners clipped by {}, {perimeter}", up(clip))
        }
        Some(Outline::Scalloped { across, down, depth }) => {
            format!("perimeter of 2 x ({across} + {down}) scallops {} deep, {perimeter}", up(depth))
        }
        Some(Outline::Points(points)) => format!("perimeter of the {} sides, {perimeter}", points.len()),
    }
}

/// What a binding needs to have beyond the edge, as the pattern asks for it.
pub(in crate::rules) fn asked_for(ends: &Ends) -> &'static str {
    match ends {
        Ends::Tails { .. } => "the tails",
        Ends::Extra(_) => "the extra length",
        Ends::Sides => "a strip for each side",
    }
}

/// How long so many strips are: `Strips: 8 x 40 in - 7 diagonal joins x 2 1/2 in = 302 1/2 in.`
pub(crate) fn strips_working(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>, strips: Count) -> String {
    let method = &size.method;
    if size.is_by_side {
        let longest = size.edge.longest_side() + method.take_up;
        let scale = Scale::of(needs.measure, &[size.strip_length, longest, method.take_up]);
        return format!(
            "Strips: each side is cut by itself, {} longer than it is, from strips {} long: {strips}.",
            scale.up(method.take_up),
            scale.down(size.strip_length),
        );
    }
    let joined = size.joined(strips);
    let scale = Scale::of(needs.measure, &[size.strip_length, method.join_loss, joined]);
    let long = format!("{strips} x {}", scale.up(size.strip_length));
    let joins = strips.less(Count(1));
    let kind = match needs.join {
        Some(Join::Straight) => "straight join",
        _ => "diagonal join",
    };
    let joined = scale.down(joined);
    match joins.0 {
        0 => format!("Strips: {long} = {joined}."),
        _ => format!("Strips: {long} - {} x {} = {joined}.", joins.of(kind), scale.up(method.join_loss)),
    }
}

/// How much of the bolt strips take: `9 strips x 2 1/2 in = 22 1/2 in`. Where fabric alone is stated, with which of them go
/// round and which are to spare: `6 strips (5 to go round and 1 to spare) x 2 1/2 in = 15 in`.
pub(crate) fn cut_working(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>, plan: &CutPlan) -> String {
    let round = size.strips.filter(|round| size.stated.strips.is_absent() && *round < plan.strips);
    let which = round.map(|round| format!(" ({round} to go around and {} to spare)", plan.strips.less(round)));
    let strips = format!("{}{}", plan.strips.of("strip"), which.unwrap_or_default());
    let scale = Scale::of(needs.measure, &[plan.row, plan.cut()]);
    let (row, total) = (scale.up(plan.row), scale.up(plan.cut()));
    let total = format!("{total}{}", before_washing(needs.measure, plan.shrinks, plan.fabric.0));
    match (needs.grain, plan.per_row.0) {
        (Some(Grain::Lengthwise), _) if plan.rows.0 == 1 => format!("{strips} side by side, {row} long = {total}"),
        (Some(Grain::Lengthwise), per_row) => {
            format!("{strips}, {per_row} side by side: {} x {row} = {total}", plan.rows)
        }
        (_, 1) => format!("{strips} x {row} = {total}"),
        (_, per_row) => format!("{strips}, {per_row} from each width of fabric: {} x {row} = {total}", plan.rows),
    }
}

/// What to buy for fabric that is cut: `with 1/2 in for squaring up, buy 3/4 yd`.
pub(crate) fn buying(needs: &BindingNeeds<'_>, cut: Yardage) -> String {
    let buy = needs.shop.to_buy(cut, needs.measure.bare_unit());
    buying_of(&needs.shop, buy.show_both(needs.measure, Round::Up))
}

/// The same where an amount is stated, in its own units.
pub(in crate::rules) fn buying_for(needs: &BindingNeeds<'_>, stated: &Spanned<Amount>, cut: Yardage) -> String {
    buying_of(&needs.shop, purchase(&needs.shop, &stated.value, cut))
}

/// What to buy, after what is lost on the way.
pub(in crate::rules) fn buying_of(shop: &Shop, buy: impl Display) -> String {
    format!("with {} for squaring up, buy {buy}", shop.squaring.show(shop.measure, Round::Up))
}

/// The strips to print and the smallest purchase for them: `Print 9 strips: 9 strips x 2 1/2 in = ...; buy 3/4 yd.` Where
/// they are cut from a fabric of the list, what is cut from that in all.
pub(in crate::rules) fn print_strips(
    context: &Context<'_>,
    needs: &BindingNeeds<'_>,
    size: &SizeNeeds<'_>,
    print: Count,
) -> String {
    let Some(plan) = size.cut.and_then(|_| size.plan_for(print, needs)) else {
        return format!("Print {}.", print.of("strip"));
    };
    let working = format!("Print {}: {}", print.of("strip"), cut_working(needs, size, &plan));
    if !needs.stated.from.is_absent() {
        let in_all = needs.stated.from.value().and_then(|fabric| cut_in_all(context, size, fabric));
        return format!("{working}.{}", in_all.map(|in_all| format!(" {in_all}")).unwrap_or_default());
    }
    let buying = match size.stated.fabric.stated() {
        Some(stated) => buying_for(needs, stated, plan.fabric),
        None => buying(needs, plan.fabric),
    };
    format!("{working}; {buying}.")
}

/// What is cut from a fabric in all, with the binding that should be printed: `From ink in all: 7 strips x 3 1/2 in + 10
/// strips x 2 1/2 in = 49 1/2 in; with 1/2 in for squaring up, buy 1 1/2 yd.`
fn cut_in_all(context: &Context<'_>, size: &SizeNeeds<'_>, fabric: usize) -> Option<String> {
    let needs = &context.needs.fabrics;
    let fabric = needs.fabrics.get(fabric)?;
    let of_size = fabric.sizes.iter().find(|known| known.size.name == size.size.name)?;
    let printed = of_size.printed()?;
    let name = &fabric.stated.name;
    if let Some(small) = printed.small {
        return Some(format!("From {name} in all: {}.", small.of(&fabric.sold_as_words())));
    }
    let cut = of_size.unwashed(printed);
    let buying = match of_size.required {
        Some(Bought::Amount(stated)) => buying_of(&needs.shop, purchase(&needs.shop, &stated.value, cut)),
        _ => fabric_buying(needs, cut),
    };
    Some(format!("From {name} in all: {}; {buying}.", sum(needs, fabric, printed)))
}

/// The strips to print, and with them the fabric where what is stated no longer serves for so many.
pub(in crate::rules) fn strips_correction(
    context: &Context<'_>,
    needs: &BindingNeeds<'_>,
    size: &SizeNeeds<'_>,
    print: Count,
) -> Option<Correction> {
    // More than a manuscript may state mends nothing.
    let strips = (size.stated.strips.at().filter(|_| print <= Count::MAX)?, print.to_string());
    let Some(fabric) = size.stated.fabric.stated() else {
        // A fabric amount that could not be read stays as it is; one that is shared may no longer be enough.
        return Some(Correction::new(strips.0, strips.1));
    };
    let cut = size.plan_for(print, needs)?.fabric;
    let serves = fabric.value.halves().all(|half| {
        let (amount, unit) = (Yardage(half.length), half.unit);
        amount >= cut + Yardage(needs.shop.squaring) && amount < needs.shop.generous_from(cut, unit)
    });
    if serves {
        return Some(Correction::new(strips.0, strips.1));
    }
    let fabric: (Span, String) = (fabric.at, rewritten(needs, &fabric.value, cut)?);
    Some(Correction::of_both(&context.source.text, strips, fabric))
}

/// The fabric to print, where fabric is stated: enough for the strips that must still be added as well.
pub(in crate::rules) fn fabric_correction(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Correction> {
    let fabric = size.stated.fabric.stated()?;
    let cut = size.print?.fabric;
    Some(Correction::new(fabric.at, rewritten(needs, &fabric.value, cut)?))
}

/// The amount written again, where it is no more than a manuscript may state.
fn rewritten(needs: &BindingNeeds<'_>, amount: &Amount, cut: Yardage) -> Option<String> {
    let sold = amount.halves().all(|half| needs.shop.to_buy(cut, half.unit).0 <= Length::LONGEST);
    sold.then(|| needs.shop.rewrite(amount, cut))
}

/// `with 1/2 in for squaring up, buy 3/4 yd`.
pub(crate) fn fabric_buying(needs: &FabricsNeeds<'_>, cut: Yardage) -> String {
    let buy = needs.shop.to_buy(cut, needs.measure.bare_unit()).show_both(needs.measure, Round::Up);
    buying_of(&needs.shop, buy)
}
