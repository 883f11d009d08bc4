//! The square for continuous bias gives too little strip.

use super::Context;
use super::wording::binding::edge_working;
use super::wording::fold::ruler_step;
use crate::finding::{Correction, Finding, Label};
use crate::quantity::Length;
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::BindingNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.bias.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.square.stated()?;
    let square = stated.value.length;
    if square >= size.square() {
        return None;
    }
    let needed = size.square().up_to(ruler_step(context.settings, &stated.value));
    // A yield is a quotient: eighths say it plainly, and the rest of them is not there.
    let gives = size.given_by(square).down_to(Length::inch_fraction(1, 8));
    let message = format!(
        "A square of {} stated; {} needed: it gives {} of strip, {} short.",
        needs.down(square),
        needs.up(needed),
        needs.down(gives),
        needs.short(size.lengths.asked, gives),
    );
    let inside = (square - size.seam * 2).max(Length::ZERO);
    Some(
        Finding::new(Label::new(stated.at, format!("gives {} of strip", needs.down(gives))), message)
            .for_size(&size.size.name)
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .see(needs.stated.strip_width.at(), "how wide the strip is cut")
            .help(edge_working(needs, size.size, &size.lengths))
            .help(format!(
                "Square: its two seams leave {} x {}; cut {} wide, that makes {} of strip.",
                needs.down(inside),
                needs.down(inside),
                needs.up(size.strip_width),
                needs.down(gives)
            ))
            .help(advice(needs, size, needed))
            .numbers(needs.down(square), needs.up(needed))
            .corrected(Some(Correction::new(stated.at, stated.value.rewrite(needed)))),
    )
}

/// What to cut instead: no square comes out of fabric that is narrower.
fn advice(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>, needed: Length) -> String {
    if needed <= size.usable_width {
        return format!("Cut a square of {}.", needs.up(needed));
    }
    let usable = needs.down(size.usable_width);
    format!("No square of {} comes out of fabric with {usable} usable: cut single bias strips.", needs.up(needed))
}
