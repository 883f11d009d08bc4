//! The opening does not fit on any side of a size.

use super::{Context, Rule};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::model::Size;
use crate::quantity::{Length, Measure};
use crate::requirement::binding::BindingNeeds;
use crate::requirement::edge::edge;
use crate::requirement::layout::OPENING_CLEAR_OF_CORNER;

pub(super) const RULE: Rule =
    Rule { name: "opening-too-long", page: include_str!("../../rules/opening-too-long.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.binding else { return };
    let Some(opening) = needs.opening else { return };
    let clear = context.settings.length(OPENING_CLEAR_OF_CORNER);
    for size in &context.manuscript.sizes {
        let Some(edge) = edge(size) else { continue };
        if opening > edge.room_for_opening(clear) {
            let clear = if edge.cornered { clear } else { Length::ZERO };
            findings.push(finding(needs, opening, clear, edge.longest_side(), size));
        }
    }
}

fn finding(needs: &BindingNeeds<'_>, opening: Length, clear: Length, longest: Length, size: &Size) -> Finding {
    let stated = needs.stated.opening.at();
    let most = longest - clear * 2;
    let most_words =
        if most.is_positive() { format!("{} at most", needs.down(most)) } else { "none at all".to_string() };
    let open = needs.down(opening);
    let open = if stated.is_some() {
        format!("An opening of {open} stated")
    } else {
        format!("No opening stated, so {open} is taken")
    };
    let message = format!(
        "{open}; the longest side of {} is {}, which has room for {most_words}: {} must stay sewn at each corner. The opening is {} too long.",
        size.name,
        needs.down(longest),
        needs.up(clear),
        needs.up(opening - most.max(Length::ZERO)),
    );
    let advice = if most.is_positive() {
        format!(
            "State an opening of {most_words}. The tails then reach farther than they must, so the binding is a little longer."
        )
    } else {
        "So small a piece is better bound with one strip whose ends are joined before it is sewn on.".to_string()
    };
    let at = stated.or(size.finished.at()).unwrap_or(size.at);
    Finding::new(Label::new(at, format!("longer than {} has room for", size.name)), message)
        .for_size(&size.name)
        .see(size.finished.at().filter(|place| *place != at), format!("the longest side is {}", needs.down(longest)))
        .help(format!(
            "{} + 2 x {} = {}, and the side is {}.",
            needs.up(opening),
            needs.up(clear),
            needs.up(opening + clear * 2),
            needs.down(longest)
        ))
        .help(advice)
        .numbers(needs.down(opening), most_words)
        .corrected(correction(needs, most))
}

/// The longest opening that fits, on a mark of the ruler.
fn correction(needs: &BindingNeeds<'_>, most: Length) -> Option<Correction> {
    let stated = needs.stated.opening.stated()?;
    let step = match needs.measure {
        Measure::Inch => Length::inch_fraction(1, 2),
        Measure::Cm => Length::millimetres(10),
    };
    let length = most.down_to(step);
    length.is_positive().then(|| Correction::new(stated.at, stated.value.rewrite(length)).if_harmless())
}
