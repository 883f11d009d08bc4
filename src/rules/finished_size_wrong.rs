//! The stated finished size is not what the layout makes.

use super::Context;
use super::wording::layout::size_working;
use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::Spanned;
use crate::manuscript::model::{BorderWidths, Set};
use crate::quantity::{Count, Length, Measure, Round, Unit, Written, rewrite_sides};
use crate::quilt_math::layout::{Sashing, Side, Top};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::show;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::rounded_size::{RoundedSize, rounded_size};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.layouts;
    findings.extend(needs.sizes.iter().filter_map(|laid| finding(needs, laid)));
}

fn finding(needs: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>) -> Option<Finding> {
    let top = laid.top.as_ref().filter(|_| laid.borders_whole)?;
    let finished = laid.size.finished.stated()?;
    if laid.size.outline.is_unread() {
        return None;
    }
    // An outline is cut from the layout, which must be large enough for it.
    let trimmed = laid.size.outline.stated().is_some();
    let (width, length) = needs.finished(top);
    let (stated_width, stated_length) = finished.value;
    let ways = [("width", width, stated_width), ("length", length, stated_length)];
    let wrong: Vec<String> =
        ways.iter().filter_map(|(name, made, stated)| differs(needs, trimmed, name, *made, stated.length)).collect();
    if wrong.is_empty() {
        return None;
    }
    if let Some(rounding) = rounded_size(needs, laid) {
        return Some(rounded(needs, laid, top, finished, rounding));
    }
    let made = Rectangle::new(needs.printed(width), needs.printed(length));
    let stated = show(Rectangle::new(stated_width.length, stated_length.length), needs.measure, Round::Down);
    let made_words = show(made, needs.measure, Round::Up);
    let message = format!("{stated} stated; the layout makes {made_words}: {}.", wrong.join(", and "));
    let borders = laid.stated.borders.iter().map(|border| border.width.at());
    let mut finding = Finding::new(Label::new(finished.at, format!("the layout makes {made_words}")), message)
        .for_size(&laid.size.name)
        .see(Some(laid.stated.at), "its layout")
        .see(laid.stated.rows.at().or(laid.stated.columns.at()), "its blocks")
        .see(laid.stated.times.at(), "so many times over")
        .see(laid.stated.sashing.at(), "the sashing, between every two blocks");
    for at in borders {
        finding = finding.see(at, "a border, which counts twice each way");
    }
    let correction = Correction::new(finished.at, rewritten(finished.value, made));
    Some(
        finding
            .help(size_working(needs, top))
            .help(if laid.rows.is_some() {
                "If the size is what was meant, the layout is wrong: look at its rows and columns, how many times over they \
                 are sewn, and the borders."
            } else {
                "If the size is what was meant, the layout is wrong: look at the blocks across and down, the sashing and the borders."
            })
            .numbers(stated, made_words)
            .corrected((made.width.max(made.length) <= Length::LONGEST).then_some(correction))
            .or_corrected(corrections_of_layout(needs, laid, top, finished.value)),
    )
}

/// The most blocks that are tried one way.
const MAX_BLOCKS: u64 = 100;

/// The numbers of the layout that, changed by themselves, make the finished size that is stated.
fn corrections_of_layout(
    needs: &LayoutsNeeds<'_>,
    laid: &LayoutNeeds<'_>,
    top: &Top,
    finished: (Written, Written),
) -> Vec<Correction> {
    let stated = laid.stated;
    let trimmed = laid.size.outline.stated().is_some();
    let fits = |top: &Top| {
        let (width, length) = needs.finished(top);
        let right = |side: Side, stated: Written| differs(needs, trimmed, "side", side, stated.length).is_none();
        right(width, finished.0) && right(length, finished.1)
    };
    let mut corrections = Vec::new();
    let counts = || (1..=MAX_BLOCKS).map(Count);
    let across = counts().find(|count| fits(&Top { across: *count, ..top.clone() }));
    let down = counts().find(|count| fits(&Top { down: *count, ..top.clone() }));
    for (count, at) in [(across, stated.across.at()), (down, stated.down.at())] {
        corrections.extend(count.zip(at).map(|(count, at)| Correction::new(at, count.to_string())));
    }
    if top.set != Set::Straight {
        corrections.extend(sashing_on_point(needs, top, stated.sashing.stated(), fits));
        return corrections;
    }
    let lacks = finished.0.length - needs.finished(top).0.straight;
    let lacks_down = finished.1.length - needs.finished(top).1.straight;
    if let Some((rows, times)) = laid.rows.as_ref().zip(stated.times.stated()) {
        let (inner, lacks) = if rows.are_columns { (top.block.width, lacks) } else { (top.block.length, lacks_down) };
        let other = if rows.are_columns { lacks_down } else { finished.0.length - needs.finished(top).0.straight };
        let count = rows.times_for(inner + lacks).filter(|_| other.ticks() == 0);
        corrections.extend(count.map(|count| Correction::new(times.at, count.to_string())));
    }
    corrections.extend(sides_of_borders(laid, (lacks, lacks_down)));
    for (index, border) in stated.borders.iter().enumerate() {
        let (Some(width), mut changed) = (border.width.stated(), top.clone()) else { continue };
        let Some(border) = changed.borders.get_mut(index) else { continue };
        let Some((written, length)) = width.value.all_round().zip(border.all_round()) else { continue };
        let length = length + lacks.half();
        (border.sides, border.top, border.bottom) = (length, length, length);
        if length.is_positive() && fits(&changed) {
            corrections.push(Correction::new(width.at, written.rewrite(length)));
        }
    }
    corrections.extend(sashing(top, stated.sashing.stated(), lacks, fits));
    corrections
}

/// The widths of single sides of borders whose sides differ that make a top longer by what it lacks.
fn sides_of_borders(laid: &LayoutNeeds<'_>, (across, down): (Length, Length)) -> Vec<Correction> {
    let mut corrections = Vec::new();
    for width in laid.stated.borders.iter().filter_map(|border| border.width.stated()) {
        let BorderWidths { sides, top, bottom, at_sides, at_top, at_bottom } = width.value;
        let both =
            [(sides, at_sides, across.half(), down), (top, at_top, down, across), (bottom, at_bottom, down, across)];
        for (written, at, lacks, other) in both {
            let length = written.length + lacks;
            if let Some(at) = at.filter(|_| other.ticks() == 0 && lacks.ticks() != 0 && length.is_positive()) {
                corrections.push(Correction::new(at, written.rewrite(length)));
            }
        }
    }
    corrections
}

/// The width of the sashing with which a top on point is as large as it is said to be, in the steps that print uses.
fn sashing_on_point(
    needs: &LayoutsNeeds<'_>,
    top: &Top,
    stated: Option<&Spanned<Written>>,
    fits: impl Fn(&Top) -> bool,
) -> Option<Correction> {
    let (stated, sashing) = (stated?, top.sashing?);
    let step = if needs.measure == Measure::Inch { Length::inch_fraction(1, 8) } else { Unit::Mm.one() * Count(5) };
    let width = (1..=MAX_BLOCKS).map(|steps| step * Count(steps)).find(|width| {
        *width != sashing.width && fits(&Top { sashing: Some(Sashing { width: *width, ..sashing }), ..top.clone() })
    })?;
    Some(Correction::new(stated.at, stated.value.rewrite(width)))
}

/// The width of the sashing that makes a top longer by what it lacks.
fn sashing(
    top: &Top,
    stated: Option<&Spanned<Written>>,
    lacks: Length,
    fits: impl Fn(&Top) -> bool,
) -> Option<Correction> {
    let (stated, sashing) = (stated?, top.sashing?);
    let between = if sashing.round { top.across + Count(1) } else { top.across.less(Count(1)) };
    let ticks = lacks.ticks().checked_div(i128::from(between.0))?;
    let width = sashing.width + Length::from_ticks(ticks);
    let changed = Top { sashing: Some(Sashing { width, ..sashing }), ..top.clone() };
    (width.is_positive() && fits(&changed)).then(|| Correction::new(stated.at, stated.value.rewrite(width)))
}

/// By how much one side differs, where it does.
fn differs(needs: &LayoutsNeeds<'_>, trimmed: bool, name: &str, made: Side, stated: Length) -> Option<String> {
    let slack = needs.slack(made);
    let right = if trimmed { made.reaches(stated - slack) } else { made.is_within(slack, stated) };
    if right {
        return None;
    }
    let by = stated - needs.printed(made);
    let by = if by.ticks() == 0 { stated - made.below() } else { by };
    let way = if by.is_positive() { "large" } else { "small" };
    Some(format!("the stated {name} is {} too {way}", needs.up(by.abs())))
}

/// A size on point that is no more than rounded.
fn rounded(
    needs: &LayoutsNeeds<'_>,
    laid: &LayoutNeeds<'_>,
    top: &Top,
    finished: &Spanned<(Written, Written)>,
    rounding: RoundedSize,
) -> Finding {
    let (width, length) = finished.value;
    let stated = show(Rectangle::new(width.length, length.length), needs.measure, Round::Down);
    let sides = needs.finished(top);
    let exact = [sides.0, sides.1].map(|side| side.below().show_fine(needs.measure, Round::Down)).join(" x ");
    let step = rounding.step.show(needs.measure, Round::Up);
    let inside = if rounding.inside_borders { " inside the borders" } else { "" };
    let message = format!("{stated} stated, rounded to the nearest {step}{inside}; the layout makes {exact}.");
    Finding::new(Label::new(finished.at, format!("the layout makes {exact}")), message)
        .at_most(Level::Note)
        .for_size(&laid.size.name)
        .see(Some(laid.stated.at), "its layout")
        .help(size_working(needs, top))
        .help("On point the exact size must be rounded: check that you round your other sizes the same way.")
        .numbers(stated, exact)
}

fn rewritten((width, length): (Written, Written), made: Rectangle) -> String {
    rewrite_sides((&width, &length), (made.width, made.length))
}
