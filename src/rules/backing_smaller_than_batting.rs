//! The batting is larger than the backing that it lies on.

use super::backing_words::{buy, fabric_correction, sheet_words, sheet_working};
use super::half_words::Halves;
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::manuscript::Span;
use crate::quantity::{Length, Round};
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::trade::rectangle::Rectangle;

pub(super) const RULE: Rule = Rule {
    name: "backing-smaller-than-batting",
    page: include_str!("../../rules/backing-smaller-than-batting.yaml"),
    check,
};

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.backing else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(needs, size)));
}

fn finding(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Finding> {
    let (batting, batting_at) = size.batting?;
    // A batting no larger than the backing must be is held by every backing that is not short, which others say.
    if size.sheet.holds(batting) {
        return None;
    }
    let fabric = size.stated.fabric.stated();
    let carried = size.covers(batting, fabric.map(|fabric| fabric.value.least()));
    let overhang = needs.stated.overhang.at();
    // Without a stated overhang the backing is as large as its fabric makes it.
    if carried && overhang.is_none() {
        return None;
    }
    let at = if carried { batting_at } else { backing_number(size) };
    let (message, label) = match overhang {
        Some(_) => told_by_overhang(needs, size, batting),
        None => told_by_fabric(needs, size, batting),
    };
    let correction = if overhang.is_none() { fabric_correction(needs, size) } else { None };
    let least = least_overhang(size, batting);
    let advice = match overhang {
        Some(_) => format!(
            "State an overhang of {} for the backing, and the fabric for it, or a batting of {} at most.",
            needs.up(least),
            sheet_words(needs, size.sheet, Round::Down)
        ),
        None => format!("Buy {}, so that the batting lies on it, or state a smaller batting.", buy(needs, size)),
    };
    Some(
        Finding::new(Label::new(at, label), message)
            .for_size(&size.size.name)
            .see(Some(batting_at).filter(|place| *place != at), "the batting that lies on it")
            .see(overhang, "the overhang of the backing")
            .help(sheet_working(needs, size))
            .help(advice)
            .numbers(sheet_words(needs, size.sheet, Round::Down), sheet_words(needs, batting, Round::Up))
            .corrected(correction),
    )
}

fn told_by_overhang(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, batting: Rectangle) -> (String, String) {
    let (backing, batting) = (sheet_words(needs, size.sheet, Round::Down), sheet_words(needs, batting, Round::Up));
    let message = format!(
        "Batting of {batting} stated, and the backing with {} at each side is {backing}: it must be no smaller than the batting, which lies on it.",
        needs.up(size.overhang),
    );
    (message, format!("the backing is {backing}, the batting {batting}"))
}

fn told_by_fabric(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, batting: Rectangle) -> (String, String) {
    let batting = sheet_words(needs, batting, Round::Up);
    let stated = match (size.stated.fabric.stated(), size.stated.panels.value()) {
        (Some(fabric), _) => Halves::new(needs.shop, &fabric.value).stated(),
        (None, count) => count.unwrap_or_default().of("panel"),
    };
    let message = format!(
        "{stated} stated for the backing, which does not cover the batting of {batting}: the backing must be no smaller than the batting, which lies on it.",
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
