//! The stated strips cannot reach.

use super::Context;
use super::wording::binding::{asked_for, edge_working, print_strips, strips_correction, strips_working};
use crate::finding::{Finding, Label};
use crate::quantity::Length;
use crate::quilt_math::binding::Ends;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.strips.stated()?;
    let (enough, print) = (size.strips?, size.strips_to_print(needs)?);
    if stated.value >= enough {
        return None;
    }
    if let Some(unworded) = context.unworded(stated.at, &size.size.name) {
        return Some(unworded);
    }
    let method = &size.method;
    let joined = size.joined(stated.value);
    let spare = match needs.spares.0 {
        0 => String::new(),
        _ => format!(", and {} to spare", needs.spares),
    };
    let needed = format!(
        "{} stated; {print} needed: {enough} to go around with {}{spare}",
        stated.value.of("strip"),
        asked_for(&method.ends)
    );
    let strips = stated.value.of("strip");
    let short = if joined < size.lengths.bare {
        let by = needs.short(size.lengths.bare, joined);
        let least = needs.up(size.lengths.bare);
        match method.ends {
            Ends::Sides if size.is_by_side => {
                format!("{strips} cannot reach along all sides, each cut by itself")
            }
            Ends::Sides => format!("{strips} cannot reach along all sides: {by} short of {least}"),
            _ => {
                format!("{strips} cannot go around the quilt at all: {by} short of the {least} that can just be closed")
            }
        }
    } else {
        let by = needs.short(size.lengths.asked, joined);
        format!("{strips} can go around the quilt, but cannot leave {}: {by} short", asked_for(&method.ends))
    };
    let message = format!("{needed}. {short}.");
    let at = Label::new(stated.at, short_label(needs, joined));
    Some(
        Finding::new(at, message)
            .for_size(&size.size.name)
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .help(edge_working(needs, size.size, &size.lengths))
            .help(strips_working(needs, size, enough))
            .help(print_strips(context, needs, size, print))
            .numbers(stated.value.of("strip"), print.of("strip"))
            .corrected(strips_correction(context, needs, size, print)),
    )
}

fn short_label(needs: &BindingNeeds<'_>, joined: Length) -> String {
    format!("joined, these make {}", needs.down(joined))
}
