//! The square for continuous bias gives too little strip.

use super::Context;
use super::wording::binding::edge_working;
use super::wording::fold::ruler_step;
use crate::finding::{Correction, Finding, Label};
use crate::quantity::{Length, Round, rewrite_sides};
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::BindingNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.bias.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.square.stated()?;
    let sides = size.sides()?;
    if size.sides_reach(sides) {
        return None;
    }
    if sides.0 != sides.1 {
        return rectangle(context, needs, size);
    }
    let (square, written) = (sides.0, stated.value.0);
    let needed = size.square().up_to(ruler_step(context.settings, &written));
    // A yield is a quotient: eighths say it plainly, and the rest of them is not there.
    let gives = size.given_by(sides).down_to(Length::inch_fraction(1, 8));
    let message = format!(
        "A square of {} stated; {} needed: it gives {} of strip, {} short.",
        needs.down(square),
        needs.up(needed),
        needs.down(gives),
        needs.short(size.lengths.asked, gives),
    );
    Some(
        too_little(needs, size, message, ("Square", sides, gives))?
            .help(advice(needs, size, needed))
            .numbers(needs.down(square), needs.up(needed))
            .corrected(Some(Correction::new(stated.at, written.rewrite(needed)))),
    )
}

/// A rectangle that gives too little: its shorter side stays, and the longer one is what that needs.
fn rectangle(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.square.stated()?;
    let (width, length) = stated.value;
    let sides = size.sides()?;
    let gives = size.given_by(sides).down_to(Length::inch_fraction(1, 8));
    let short = needs.short(size.lengths.asked, gives);
    let across_is_shorter = sides.0 < sides.1;
    let other = size.other_side(sides.0.min(sides.1));
    let other =
        other.map(|side| side.up_to(ruler_step(context.settings, &width))).filter(|side| *side <= Length::LONGEST);
    let made = |other: Length| if across_is_shorter { (sides.0, other) } else { (other, sides.1) };
    let show = |(width, length): (Length, Length)| format!("{} x {}", needs.down(width), needs.down(length));
    let needed = other.map_or("a larger one".to_string(), |other| show(made(other)));
    let message = format!(
        "A rectangle of {} stated; {needed} needed: it gives {} of strip, {short} short.",
        show(sides),
        needs.down(gives),
    );
    let correction = other.map(|other| Correction::new(stated.at, rewrite_sides((&width, &length), made(other))));
    Some(
        too_little(needs, size, message, ("Rectangle", sides, gives))?
            .numbers(show(sides), needed)
            .corrected(correction),
    )
}

/// A square or a rectangle of two sides that gives so much of strip, with the working.
fn too_little(
    needs: &BindingNeeds<'_>,
    size: &BiasNeeds<'_>,
    message: String,
    (what, sides, gives): (&str, (Length, Length), Length),
) -> Option<Finding> {
    let at = Label::new(size.stated.square.at()?, format!("gives {} of strip", needs.down(gives)));
    let inside = |side: Length| needs.down((side - size.seam * 2).max(Length::ZERO));
    // A quotient is shown finer than a ruler, so that a reader who divides finds the same.
    let makes = gives.show_fine(needs.measure, Round::Down);
    Some(
        Finding::new(at, message)
            .for_size(&size.size.name)
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .see(needs.stated.strip_width.at(), "how wide the strip is cut")
            .help(edge_working(needs, size.size, &size.lengths))
            .help(format!(
                "{what}: its two seams leave {} x {}; cut {} wide, that makes {makes} of strip.",
                inside(sides.0),
                inside(sides.1),
                needs.up(size.strip_width),
            )),
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
