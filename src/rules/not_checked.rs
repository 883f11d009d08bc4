//! Something is stated that cannot be checked, and why.
//!
//! What is stated and not checked is said, so that silence always means "checked and right".

use super::Context;
use super::wording::count::border_name;
use super::wording::fabric::listed;
use super::wording::subject;
use crate::finding::{Finding, Label, Subject, SubjectKind};
use crate::manuscript::design::{Block, Unit};
use crate::manuscript::model::{Border, Corners, Size, SoldAs};
use crate::requirement::binding::BindingNeeds;
use crate::requirement::design_gaps::DesignGaps;
use crate::requirement::fabrics::FabricNeeds;
use crate::requirement::fabrics::TOO_MANY_OF_A_REPEAT;
use crate::requirement::layout::LayoutNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.needs.fabrics.fabrics.iter().filter_map(fabric));
    findings.extend(context.needs.fabrics.fabrics.iter().filter_map(without_amount));
    findings.extend(context.needs.binding.as_ref().and_then(without_strip_width));
    findings.extend(context.needs.layouts.sizes.iter().filter_map(layout));
    findings.extend(context.needs.layouts.sizes.iter().flat_map(uncounted_borders));
    findings.extend(context.needs.gaps.sizes.iter().filter_map(|size| without_layout(&context.needs.gaps, size)));
    findings.extend(context.needs.gaps.units.iter().map(|unit| unused_unit(unit)));
    findings.extend(context.needs.gaps.blocks.iter().map(|block| unused_block(block)));
    for size in context.needs.binding.as_ref().iter().flat_map(|needs| &needs.bias) {
        let Some(strips) = size.stated.strips.stated().filter(|_| size.no_run_stated()) else { continue };
        let message = format!(
            "{} on the bias stated, and nothing says how long each is: they cannot be checked.",
            strips.value.of("strip")
        );
        let help = "State the fabric that they are cut from (fabric: 3/4 yd), or how long each is (strip_length: 40).";
        findings.push(
            Finding::new(Label::new(strips.at, "cannot be checked"), message)
                .for_size(&size.size.name)
                .about(Subject::number("binding strips"))
                .help(help),
        );
    }
}

/// A layout that is none of those that are known here.
fn layout(laid: &LayoutNeeds<'_>) -> Option<Finding> {
    let why = laid.unchecked?;
    let message = format!("The layout of {} cannot be checked: {why}.", laid.size.name);
    let help = if laid.fills_with_one_block() {
        "Work out by hand its finished size, how many blocks it has, and how many pieces these take."
    } else {
        "Work out by hand its finished size and whether its blocks fill it. The pieces of its blocks are counted by the blocks that are stated."
    };
    let at = Label::new(laid.stated.at, "cannot be checked");
    Some(Finding::new(at, message).for_size(&laid.size.name).about(Subject::number("layout")).help(help))
}

/// Borders of units with mitered corners, where units are cut through, and with sides of which one unit is not as wide as
/// all.
fn uncounted_borders(laid: &LayoutNeeds<'_>) -> Vec<Finding> {
    let finding = |(index, border): (usize, &Border)| {
        let name = super::sentence(&border_name(index));
        let size = &laid.size.name;
        let sewn = border.of.at().map(|at| (at, "units"));
        let (at, units) = sewn.or_else(|| border.corner_of.at().map(|at| (at, "units in its corners")))?;
        let widths = border.width.value();
        let (message, help) = if border.corners.value() == Some(Corners::Mitred) {
            (
                format!(
                    "{name} of {size} is sewn from units and mitered, so that units are cut through at its corners: how \
                     many it takes is not checked."
                ),
                "Count them by hand, or state corners: cornerstones where the corners are squares or units.",
            )
        } else if widths.is_some_and(|widths| widths.all_round().is_none()) {
            (
                format!(
                    "{name} of {size} is sewn from {units}, and its sides are not all of one width: how many it takes is \
                     not checked."
                ),
                "Count them by hand, or state two borders: a plain one where it is wider, and one of units that is as wide all round.",
            )
        } else {
            return None;
        };
        let finding = Finding::new(Label::new(at, "not counted"), message).for_size(size);
        Some(finding.about(Subject::of(SubjectKind::Border, (index + 1).to_string())).help(help))
    };
    laid.stated.borders.iter().enumerate().filter_map(finding).collect()
}

/// A size without a layout, where others have one.
fn without_layout(gaps: &DesignGaps<'_>, size: &Size) -> Option<Finding> {
    let like = gaps.like?;
    let mut unchecked = vec!["its finished size", "how many pieces it takes"];
    unchecked.extend(gaps.other.sashing.then_some("its sashing"));
    unchecked.extend(gaps.other.borders.then_some("its borders"));
    let message =
        format!("{} has no layout, and {} has one: {} are not checked.", size.name, like.name, listed(&unchecked));
    let help = format!("State the layout of {} under layout, or work these out by hand.", size.name);
    let finding = Finding::new(Label::new(size.at, "has no layout"), message).for_size(&size.name);
    Some(finding.about(Subject::number("layout")).help(help))
}

fn unused_unit(unit: &Unit) -> Finding {
    let message = format!("Unit {} is in no block and sets none: its count and its pieces are not checked.", unit.name);
    let about = subject::unit(unit);
    let help = "Put it into the rows of a block, or take it out if it is left over from an older design.";
    Finding::new(Label::new(unit.at, "used by nothing"), message).about(about).help(help)
}

fn unused_block(block: &Block) -> Finding {
    let message = format!("No layout has block {}: its count, units and pieces are not checked.", block.name);
    let about = Subject::of(SubjectKind::Block, &block.name);
    let help = "Name it under blocks in the layout of a size, or take it out if it is left over from an older design.";
    Finding::new(Label::new(block.at, "used by nothing"), message).about(about).help(help)
}

/// A fabric of which nothing says how much to buy.
fn without_amount(fabric: &FabricNeeds<'_>) -> Option<Finding> {
    let stated = fabric.stated;
    if !stated.requires.is_empty() || stated.sold_as.or(SoldAs::Yardage)? == SoldAs::Scraps {
        return None;
    }
    let message = format!("No amount of {} is stated: how much of it is needed is not checked.", stated.name);
    let help = "State it for each size, such as requires: { lap: 3/4 yd }, or sold_as: scraps where none is bought.";
    Some(Finding::new(Label::new(stated.at, "no amount"), message).about(subject::fabric(stated)).help(help))
}

/// A binding of which nothing says how wide its strips are.
fn without_strip_width(needs: &BindingNeeds<'_>) -> Option<Finding> {
    if !needs.stated.strip_width.is_absent() {
        return None;
    }
    let message = "No strip width of the binding is stated: its strips and its fabric are not checked.".to_string();
    let help = "State how wide each strip is cut, such as strip_width: 2 1/2.";
    let finding = Finding::new(Label::new(needs.stated.at, "no strip width"), message);
    Some(finding.about(Subject::number("binding strip_width")).help(help))
}

/// One note for a fabric, whatever the number of its sizes: why it cannot be checked is the same for all of them.
fn fabric(fabric: &FabricNeeds<'_>) -> Option<Finding> {
    let unchecked = fabric.sizes.iter().filter(|size| size.required.is_some());
    let sizes: Vec<(&str, &str)> =
        unchecked.filter_map(|size| Some((size.size.name.as_str(), size.unchecked?))).collect();
    let (_, why) = *sizes.first()?;
    let names: Vec<&str> = sizes.iter().map(|(name, _)| *name).collect();
    let amounts = if names.len() == 1 { "amount" } else { "amounts" };
    let message = format!("The {amounts} of {} for {} cannot be checked: {why}.", fabric.stated.name, listed(&names));
    let help = if why == TOO_MANY_OF_A_REPEAT {
        "Correct per_repeat: how many whole pieces one repeat gives, side by side and one above another."
    } else if fabric.stated.cut.iter().any(crate::manuscript::model::Cut::is_centered) {
        "State how far apart the print repeats (such as repeat: 12) and how many pieces one repeat gives (such as per_repeat: 4), or work out by hand how many repeats it takes."
    } else if fabric.stated.sold_as.value() == Some(SoldAs::Panel) {
        "Work out by hand how many panels it takes."
    } else if fabric.binding_from.is_none() {
        "State what is cut from it under `cut`, each piece with its size and how many; otherwise work it out by hand."
    } else if why.contains("on the bias") {
        "Work out by hand what the bias strips take beside everything else that is cut from it."
    } else {
        "State the strip width of the binding (such as strip_width: 2 1/2), or work out by hand what its strips take beside everything else."
    };
    let at = Label::new(fabric.stated.at, "cannot be checked");
    Some(Finding::new(at, message).about(subject::fabric(fabric.stated)).see(fabric.binding_from, why).help(help))
}
