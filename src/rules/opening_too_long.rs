//! The opening does not fit on any side of a size.

use std::borrow::Cow;

use super::Context;
use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::model::Size;
use crate::quantity::{Length, Measure, Scale};
use crate::quilt_math::outline::Edge;
use crate::requirement::binding::BindingNeeds;
use crate::requirement::binding_course::OPENING_CLEAR_OF_CORNER;
use crate::requirement::edge::edge;
use crate::rule_book::LengthValue;

/// The shortest opening in which the two ends can be joined.
const SHORTEST_OPENING: LengthValue = LengthValue::named("shortest_opening");

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    let Some(opening) = needs.opening else { return };
    let clear = context.settings.length(OPENING_CLEAR_OF_CORNER);
    for (index, size) in context.manuscript.sizes.iter().enumerate() {
        let known = needs.sizes.iter().find(|known| known.index == index).map(|known| Cow::Borrowed(&known.edge));
        let Some(edge) = known.or_else(|| edge(size).map(Cow::Owned)) else { continue };
        if opening > edge.room_for_opening(clear) {
            let clear = if edge.cornered { clear } else { Length::ZERO };
            let join = needs.method.map(|method| method.closing).unwrap_or_default();
            let room = OpeningLimit { edge, clear, least: context.settings.length(SHORTEST_OPENING).max(join) };
            findings.push(finding(needs, opening, &room, size));
        }
    }
}

/// What an edge leaves for an opening.
struct OpeningLimit<'a> {
    edge: Cow<'a, Edge>,
    /// What must stay sewn at each corner.
    clear: Length,
    /// The shortest opening in which the ends can be joined.
    least: Length,
}

impl OpeningLimit<'_> {
    /// The longest opening that fits, where the ends can be joined in it.
    fn most(&self) -> Option<Length> {
        Some(self.edge.longest_side() - self.clear * 2).filter(|most| *most >= self.least)
    }
}

fn finding(needs: &BindingNeeds<'_>, opening: Length, room: &OpeningLimit<'_>, size: &Size) -> Finding {
    let (edge, clear) = (&*room.edge, room.clear);
    let longest = edge.longest_side();
    let stated = needs.stated.opening.at();
    let fits = longest - clear * 2;
    let fits_words =
        if fits.is_positive() { format!("{} at most", needs.down(fits)) } else { "none at all".to_string() };
    let open = needs.down(opening);
    let open = if stated.is_some() {
        format!("An opening of {open} stated")
    } else {
        format!("No opening stated, so {open} is taken")
    };
    let message = format!(
        "{open}; {}, which has room for {fits_words}{}. The opening is {} too long.",
        edge_words(needs, edge, &size.name),
        if edge.cornered { format!(": {} must stay sewn at each corner", needs.up(clear)) } else { String::new() },
        needs.up(opening - fits.max(Length::ZERO)),
    );
    let advice = match room.most() {
        Some(most) => format!(
            "State an opening of {} at most. The tails then reach farther than they must, so the binding is a little longer.",
            needs.down(most)
        ),
        None => format!(
            "In less than {} the ends can hardly be joined: bind this size with one strip whose ends are joined before it is sewn on.",
            needs.up(room.least)
        ),
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
    // An opening that nobody has stated may be shorter on a small quilt.
    let level = if stated.is_some() { Level::Error } else { Level::Query };
    Finding::new(Label::new(at, format!("longer than {} has room for", size.name)), message)
        .at_most(level)
        .for_size(&size.name)
        .see(size.finished.at().filter(|place| *place != at), edge_words(needs, edge, "the quilt"))
        .help(working)
        .help(advice)
        .numbers(needs.down(opening), fits_words)
        .corrected(correction(needs, room))
}

/// The stretch that the opening is on: a side, the scallops of a side, or the whole of a round edge.
fn edge_words(needs: &BindingNeeds<'_>, edge: &Edge, name: &str) -> String {
    let longest = needs.down(edge.longest_side());
    match (edge.cornered, edge.curved) {
        (false, _) => format!("the perimeter of {name} is {longest}"),
        (true, true) => format!("the longest side of {name} is {longest} along its scallops"),
        (true, false) => format!("the longest side of {name} is {longest}"),
    }
}

/// The longest opening that fits, on a mark of the ruler.
fn correction(needs: &BindingNeeds<'_>, room: &OpeningLimit<'_>) -> Option<Correction> {
    let stated = needs.stated.opening.stated()?;
    let step = match needs.measure {
        Measure::Inch => Length::inch_fraction(1, 2),
        Measure::Cm => Length::millimetres(10),
    };
    let length = Some(room.most()?.down_to(step)).filter(|length| *length >= room.least)?;
    Some(Correction::new(stated.at, stated.value.rewrite(length)))
}
