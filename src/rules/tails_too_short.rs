//! The tails cannot bridge the opening and overlap for the join.

use super::Context;
use crate::finding::{Correction, Finding, Label};
use crate::quantity::{Length, Measure, Scale};
use crate::requirement::binding::BindingNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(finding(context));
}

fn finding(context: &Context<'_>) -> Option<Finding> {
    let needs = context.needs.binding.as_ref()?;
    let (method, (start, end), opening) = (needs.method.as_ref()?, needs.tails?, needs.opening?);
    let needed = opening + method.join_loss;
    if start + end >= needed {
        return None;
    }
    let stated = needs.stated;
    let at = stated.tails.at.or(stated.opening.at()).unwrap_or(stated.at);
    let scale = Scale::of(needs.measure, &[start, end, opening, method.join_loss, needed]);
    let tails = format!("{} and {}", scale.down(start), scale.down(end));
    let tails = match stated.tails.at {
        Some(_) => format!("Tails of {tails} stated"),
        None => format!("No tails stated, so {tails} are taken"),
    };
    let short = scale.up(needed - start - end);
    let message = format!(
        "{tails}, {} together; {} needed: {} to bridge the opening, and {} to overlap for the join. They are {short} short.",
        scale.down(start + end),
        scale.up(needed),
        scale.up(opening),
        scale.up(method.join_loss),
    );
    let bridged = start + end - method.join_loss;
    let shorter = if bridged.is_positive() {
        format!(", or make the opening {} at most", needs.down(bridged))
    } else {
        String::new()
    };
    Some(
        Finding::new(Label::new(at, format!("the tails are {short} short of closing")), message)
            .see(stated.opening.at().filter(|place| *place != at), "the opening that they must bridge")
            .see(stated.strip_width.at(), "the join takes its overlap from this")
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
