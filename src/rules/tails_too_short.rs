//! The tails cannot bridge the opening and overlap for the join.

use super::Context;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::model::Closing;
use crate::quantity::{Length, Measure, Scale};
use crate::requirement::binding::BindingNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(finding(context));
}

fn finding(context: &Context<'_>) -> Option<Finding> {
    let needs = context.needs.binding.as_ref()?;
    let (method, (start, end), opening) = (needs.method.as_ref()?, needs.tails?, needs.opening?);
    let needed = opening + method.closing;
    if start + end >= needed {
        return None;
    }
    let stated = needs.stated;
    let at = stated.tails.at.or(stated.opening.at()).unwrap_or(stated.at);
    let scale = Scale::of(needs.measure, &[start, end, opening, method.closing, needed]);
    let tails = format!("{} and {}", scale.down(start), scale.down(end));
    let tails = match stated.tails.at {
        Some(_) => format!("Tails of {tails} stated"),
        None => format!("No tails stated, so {tails} are taken"),
    };
    let short = scale.up(needed - start - end);
    let ends =
        if needs.closing == Some(Closing::Tucked) { "where one is tucked into the other" } else { "for the join" };
    let message = format!(
        "{tails}, {} together; {} needed: {} to bridge the opening, and {} to overlap {ends}. They are {short} short.",
        scale.down(start + end),
        scale.up(needed),
        scale.up(opening),
        scale.up(method.closing),
    );
    let overlap = stated.strip_width.at().filter(|_| needs.closing != Some(Closing::Tucked));
    let bridged = start + end - method.closing;
    let shorter = if bridged.is_positive() {
        format!(", or make the opening {} at most", needs.down(bridged))
    } else {
        String::new()
    };
    Some(
        Finding::new(Label::new(at, format!("the tails are {short} short of closing")), message)
            .see(stated.opening.at().filter(|place| *place != at), "the opening that they must bridge")
            .see(overlap, "the join takes its overlap from this")
            .see(stated.ends.at(), "the ends are tucked, and not joined")
            .help(format!("Leave tails of {} each{shorter}.", needs.up(each_tail(needs, needed))))
            .numbers(needs.down(start + end), needs.up(needed))
            .corrected(correction(needs, start, needed)),
    )
}

/// Half of what is needed, on the next mark of a ruler.
fn each_tail(needs: &BindingNeeds<'_>, together: Length) -> Length {
    let step = match needs.measure {
        Measure::Inch => Length::inch_fraction(1, 8),
        Measure::Cm => Length::millimetres(1),
    };
    together.half().up_to(step)
}

/// Longer tails: both where one number says both, otherwise the one at the end.
fn correction(needs: &BindingNeeds<'_>, start: Length, needed: Length) -> Option<Correction> {
    let tails = &needs.stated.tails;
    let (first, second) = (tails.start.stated()?, tails.end.stated()?);
    let length = if first.at == second.at { each_tail(needs, needed) } else { needed - start };
    Some(Correction::new(second.at, second.value.rewrite(length)))
}
