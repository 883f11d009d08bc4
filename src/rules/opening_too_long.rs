//! The opening does not fit on any side of a size.

use super::{Context, Rule};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::model::Size;
use crate::quantity::{Length, Measure, Scale};
use crate::requirement::binding::BindingNeeds;
use crate::requirement::edge::edge;
use crate::requirement::layout::OPENING_CLEAR_OF_CORNER;
use crate::trade::outline::Edge;

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
            findings.push(finding(needs, opening, clear, &edge, size));
        }
    }
}

fn finding(needs: &BindingNeeds<'_>, opening: Length, clear: Length, edge: &Edge, size: &Size) -> Finding {
    let longest = edge.longest_side();
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
        "{open}; {}, which has room for {most_words}{}. The opening is {} too long.",
        edge_words(needs, edge, &size.name),
        if edge.cornered { format!(": {} must stay sewn at each corner", needs.up(clear)) } else { String::new() },
        needs.up(opening - most.max(Length::ZERO)),
    );
    let advice = if most.is_positive() {
        format!(
            "State an opening of {most_words}. The tails then reach farther than they must, so the binding is a little longer."
        )
    } else {
        "So small a piece is better bound with one strip whose ends are joined before it is sewn on.".to_string()
    };
    let working = if edge.cornered {
        let whole = opening + clear * 2;
        let scale = Scale::of(needs.measure, &[opening, clear, whole]);
        let (sewn, whole) = (scale.up(clear), scale.up(whole));
        format!("{} + 2 x {sewn} = {whole}, and the side is {}.", scale.up(opening), needs.down(longest))
    } else {
        format!("The opening is {}, and the whole edge is {}.", needs.up(opening), needs.down(longest))
    };
    let at = stated.or(size.finished.at()).unwrap_or(size.at);
    Finding::new(Label::new(at, format!("longer than {} has room for", size.name)), message)
        .for_size(&size.name)
        .see(size.finished.at().filter(|place| *place != at), edge_words(needs, edge, "the quilt"))
        .help(working)
        .help(advice)
        .numbers(needs.down(opening), most_words)
        .corrected(correction(needs, most))
}

/// The stretch that the opening is on: a side, a scallop, or the whole of a round edge.
fn edge_words(needs: &BindingNeeds<'_>, edge: &Edge, name: &str) -> String {
    let longest = needs.down(edge.longest_side());
    match (edge.cornered, edge.curved) {
        (false, _) => format!("the edge of {name} is {longest} round"),
        (true, true) => format!("the longest scallop of {name} is {longest} along its edge"),
        (true, false) => format!("the longest side of {name} is {longest}"),
    }
}

/// The longest opening that fits, on a mark of the ruler.
fn correction(needs: &BindingNeeds<'_>, most: Length) -> Option<Correction> {
    let stated = needs.stated.opening.stated()?;
    let step = match needs.measure {
        Measure::Inch => Length::inch_fraction(1, 2),
        Measure::Cm => Length::millimetres(10),
    };
    let length = most.down_to(step);
    length.is_positive().then(|| Correction::new(stated.at, stated.value.rewrite(length)))
}
