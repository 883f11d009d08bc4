//! Enough strips, and not one to spare.

use super::binding_words::{edge_working, print_strips, strips_correction, strips_working};
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) const RULE: Rule = Rule { name: "spare-strip", page: include_str!("../../rules/spare-strip.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.binding else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.strips.stated()?;
    let (enough, print) = (size.strips?, size.strips_to_print(needs)?);
    if stated.value < enough || stated.value >= print {
        return None;
    }
    let left = size.joined(stated.value, needs.method.as_ref()?) - size.lengths.asked;
    let spare = stated.value.less(enough);
    let have = match spare.0 {
        0 => "none to spare".to_string(),
        _ => format!("{spare} to spare"),
    };
    let message = format!(
        "{} stated; {print} needed: {enough} to go round with the ends, and {} to spare. What is stated is enough, with {have}: one bad cut and the reader is short.",
        stated.value.of("strip"),
        needs.spares,
    );
    Some(
        Finding::new(Label::new(stated.at, format!("enough, with {} left over", needs.down(left))), message)
            .for_size(&size.size.name)
            .see(size.size.finished.at(), format!("the edge is {} round", needs.up(size.lengths.perimeter)))
            .help(edge_working(needs, size))
            .help(strips_working(needs, size, stated.value))
            .help(print_strips(needs, size, print))
            .numbers(stated.value.of("strip"), print.of("strip"))
            .corrected(strips_correction(context, needs, size, print)),
    )
}
