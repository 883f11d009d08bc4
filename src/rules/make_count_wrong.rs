//! How many units or blocks the text says to make is not how many the layout takes.

use super::wording::count::{block_counts_working, units_working};
use super::wording::subject;
use super::{Context, sentence};
use crate::finding::{Correction, Finding, Label, Level, Subject, SubjectKind};
use crate::quantity::Count;
use crate::requirement::counts::CountsNeeds;
use crate::requirement::layout::LayoutsNeeds;
use crate::requirement::made::{Made, MadeOf};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.needs.made.iter().filter_map(|made| finding(context, made)));
}

fn finding(context: &Context<'_>, made: &Made<'_>) -> Option<Finding> {
    let (stated, needed) = (made.stated.value, made.needed?);
    let (by, level) = match (made.is_less(), made.is_more()) {
        (true, _) => (format!("{} too few", needed.less(stated)), Level::Error),
        (_, true) => (format!("{} too many", stated.less(needed)), Level::Query),
        _ => return None,
    };
    let (kind, name, about) = match made.what {
        MadeOf::Unit(unit, _) => ("unit", &unit.name, subject::unit(unit)),
        MadeOf::Block(block, _) => ("block", &block.name, Subject::of(SubjectKind::Block, &block.name)),
    };
    let message = format!("{stated} of {kind} {name} stated for {}; {needed} needed: {by}.", made.size.name);
    let (layouts, counts) = (&context.needs.layouts, &context.needs.counts);
    let laid = layouts.sizes.get(made.layout?)?;
    let working =
        made_working(layouts, counts, made).map(|working| format!("{}.", sentence(&working))).unwrap_or_default();
    let sets = if made.set > Count(1) { format!("They are made {} at a time.", made.set) } else { String::new() };
    Some(
        Finding::new(Label::new(made.stated.at, by), message)
            .at_most(level)
            .for_size(&made.size.name)
            .about(about)
            .see(Some(laid.stated.at), "its layout")
            .help(working)
            .help(sets)
            .numbers(stated.to_string(), needed.to_string())
            .corrected(Some(Correction::new(made.stated.at, needed.to_string()))),
    )
}

/// Which blocks take what is made.
pub(crate) fn made_working(layouts: &LayoutsNeeds<'_>, counts: &CountsNeeds<'_>, made: &Made<'_>) -> Option<String> {
    let (laid, counts) = (layouts.sizes.get(made.layout?)?, counts.sizes.get(made.layout?)?);
    match made.what {
        MadeOf::Unit(unit, index) => Some(match counts.units.get(&index) {
            Some(units) => units_working(units),
            None => format!("nothing in the layout takes {}", unit.name),
        }),
        MadeOf::Block(block, index) => Some(block_counts_working(laid, counts, block, index)),
    }
}
