//! The batting is larger than the backing that it lies on.

use super::Context;
use super::wording::backing::{buy, fabric_correction, panels_words, sheet_words, sheet_working};
use super::wording::pair::Halves;
use crate::finding::{Finding, Label};
use crate::manuscript::Span;
use crate::quantity::{Count, Length, Round};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::batting::overhang_words;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.backing.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(needs, size)));
}

fn finding(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Finding> {
    let (batting, batting_at) = size.batting?;
    // A batting no larger than the backing must be is held by every backing that is not short, which others say.
    if size.sheet.holds(batting) {
        return None;
    }
    let fabric = size.stated.fabric.stated();
    let overhang = needs.stated.overhang.of(size.index).at().or(size.stated.size.at());
    // The backing is as large as the stated fabric makes it, whatever the least is that the overhang asks for.
    if size.covers(batting, fabric.map(|fabric| fabric.value.least()), overhang.is_some()) {
        return None;
    }
    let (message, label) = match (fabric, overhang) {
        (None, Some(_)) => finding_by_overhang(needs, size, batting),
        _ => finding_by_fabric(needs, size, batting),
    };
    let at = if fabric.is_none() && overhang.is_some() { batting_at } else { backing_number(size) };
    let smaller = match overhang {
        Some(_) => format!("state a batting of {} at most", sheet_words(needs, carried(size), Round::Down)),
        None => "state a smaller batting".to_string(),
    };
    let advice = match (fabric, overhang) {
        (None, Some(_)) => format!(
            "State an overhang of {} for the backing, and the panels for it, or {smaller}.",
            needs.up(least_overhang(size, batting))
        ),
        _ => format!("Buy {}, so that the batting lies on it, or {smaller}.", buy(needs, size)),
    };
    Some(
        Finding::new(Label::new(at, label), message)
            .for_size(&size.size.name)
            .see(Some(batting_at).filter(|place| *place != at), "the batting that lies on it")
            .see(overhang, "the overhang of the backing")
            .help(sheet_working(needs, size))
            .help(advice)
            .numbers(stated_words(needs, size), sheet_words(needs, batting, Round::Up))
            .corrected(fabric_correction(needs, size)),
    )
}

/// The largest batting that the stated backing carries: as large as its fabric makes it, where that is no less than the
/// overhang asks for.
fn carried(size: &SizeBacking<'_>) -> Rectangle {
    let fabric = size.stated.fabric.stated().map(|fabric| fabric.value.least());
    fabric.and_then(|fabric| size.made_of(fabric)).filter(|made| made.holds(size.sheet)).unwrap_or(size.sheet)
}

/// How large the stated backing is: what its fabric makes, or what the overhang asks for.
fn stated_words(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> String {
    let fabric = size.stated.fabric.stated().map(|fabric| fabric.value.least());
    let made = fabric.and_then(|fabric| size.made_of(fabric)).unwrap_or(size.sheet);
    sheet_words(needs, made, Round::Down)
}

fn finding_by_overhang(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, batting: Rectangle) -> (String, String) {
    let (backing, batting) = (sheet_words(needs, size.sheet, Round::Down), sheet_words(needs, batting, Round::Up));
    let message = format!(
        "Batting of {batting} stated, and the backing {} is {backing}: it must be no smaller than the batting, which lies on it.",
        if size.sheet == size.needed {
            format!("with {}", overhang_words(size.overhang, needs.measure))
        } else {
            "as stated".to_string()
        },
    );
    (message, format!("the backing is {backing}, the batting {batting}"))
}

fn finding_by_fabric(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, batting: Rectangle) -> (String, String) {
    let batting = sheet_words(needs, batting, Round::Up);
    let stated = match (size.stated.fabric.stated(), size.stated.panels.value()) {
        (Some(fabric), _) => Halves::new(needs.shop, &fabric.value).stated(),
        (None, count) => count.unwrap_or_default().of("panel"),
    };
    let made = size.stated.fabric.stated().map(|_| {
        let panels = panels_words(size.panels.count, size.panels.run);
        let gives = if size.panels.count == Count(1) { "gives" } else { "give" };
        format!("{panels} {gives} {}, and ", stated_words(needs, size))
    });
    let message = format!(
        "{stated} stated for the backing, which does not cover the batting of {batting}: {}the backing must be no smaller than the batting, which lies on it.",
        made.unwrap_or_default()
    );
    (message, format!("does not cover the batting of {batting}"))
}

/// The number of the backing that is to blame.
fn backing_number(size: &SizeBacking<'_>) -> Span {
    size.stated.fabric.at().or(size.stated.panels.at()).unwrap_or(size.stated.at)
}

/// The overhang with which the backing is as large as the batting.
fn least_overhang(size: &SizeBacking<'_>, batting: Rectangle) -> Length {
    let batting = batting.lying_as(size.top);
    (batting.width - size.top.width).max(batting.length - size.top.length).half()
}
