//! A cut width that no ruler shows.

use super::Context;
use super::wording::fold::ruler_step;
use crate::finding::{Finding, Label};
use crate::requirement::binding::StripWidth;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.widths.iter().filter_map(|strip| finding(context, strip)));
}

fn finding(context: &Context<'_>, strip: &StripWidth<'_>) -> Option<Finding> {
    let stated = strip.stated;
    let step = ruler_step(context.settings, &stated.value);
    if stated.value.length.is_multiple_of(step) {
        return None;
    }
    let text = stated.at.text(&context.source.text).trim_matches(['"', '\'']);
    let (below, above) = (stated.value.length.down_to(step), stated.value.length.up_to(step));
    let unit = |length| {
        if stated.value.bare {
            format!("{} {}", stated.value.rewrite(length), stated.value.unit.mark())
        } else {
            stated.value.rewrite(length)
        }
    };
    let text = if stated.value.bare { format!("{text} {}", stated.value.unit.mark()) } else { text.to_string() };
    let message = format!(
        "Strips {text} wide stated. A cutting ruler does not show that width: it is marked every {}.",
        unit(step)
    );
    Some(
        Finding::new(Label::new(stated.at, "between two marks of the ruler"), message)
            .help(format!("The marks next to it are {} and {}.", unit(below), unit(above)))
            .for_some_size(strip.size.map(|size| size.name.as_str()))
            .numbers(text, format!("{} or {}", unit(below), unit(above))),
    )
}
