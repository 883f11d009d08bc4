//! The words of an edge: its title, its caption, and all that is drawn for those who do not see it.

use super::edge_labels::{join_from, join_where};
use super::words::{by, clean, of};
use crate::drawing::binding_layout::BindingLayout;
use crate::drawing::edge::{EdgeDrawing, StripCounts};

/// How many joins or strips the words tell one by one.
const MAX_TOLD: usize = 60;

pub(super) fn title(size: &str) -> String {
    format!("The binding around {}", clean(size))
}

/// What is drawn, in a few sentences.
pub(super) fn caption(size: &str, drawing: &EdgeDrawing) -> String {
    let mut words = format!(
        "{}: the binding around {}, perimeter {}. {}",
        clean(size),
        by(&drawing.width, &drawing.length),
        drawing.round.shown,
        length_words(drawing)
    );
    match (&drawing.laid, &drawing.not_laid) {
        (Some(laid), _) => {
            words.push_str(&assumed_words(laid));
        }
        (None, Some(why)) => words.push_str(&format!(" How it lies is not drawn: {}", lowered(why))),
        (None, None) => {}
    }
    words
}

/// A sentence as the end of another.
fn lowered(sentence: &str) -> String {
    let mut letters = sentence.chars();
    let first = letters.next().map(|c| c.to_lowercase().to_string()).unwrap_or_default();
    first + letters.as_str()
}

fn assumed_words(laid: &BindingLayout) -> String {
    if !laid.assumed {
        return String::new();
    }
    " The pattern states an extra length and no tails, so nobody knows where the first stitch is: half of what is beyond \
     the edge is drawn as each tail, and the joins are only where they would then be."
        .to_string()
}

/// How long the binding must be and how long it is.
fn length_words(drawing: &EdgeDrawing) -> String {
    let needed = format!("{} is needed", drawing.needed.shown);
    let Some(had) = &drawing.had else { return format!("{needed}.") };
    let made = match &drawing.strips {
        Some(strips) => made_words(strips),
        None => "the square gives".to_string(),
    };
    let stands = match (&drawing.short, &drawing.strips) {
        (Some(short), _) => format!("{} is missing", short.shown),
        (None, Some(strips)) if strips.left_over > 0 => format!("{} left over", of(strips.left_over, "strip")),
        (None, _) => match &drawing.over {
            Some(over) => format!("{} left over", over.shown),
            None => "enough".to_string(),
        },
    };
    format!("{needed}; {made} {}: {stands}.", had.shown)
}

fn made_words(strips: &StripCounts) -> String {
    let make = if strips.count == 1 { "makes" } else { "make" };
    let count = of(strips.count, "strip");
    let each = &strips.strip_length.shown;
    let unstated = if strips.stated { "" } else { " (the pattern states none)" };
    format!("{count} of {each}{unstated} {make}")
}

/// All that is drawn.
pub(super) fn alternative(size: &str, drawing: &EdgeDrawing) -> String {
    let mut words = vec![format!(
        "The edge of {}, {}, perimeter {}, with {}.",
        clean(size),
        by(&drawing.width, &drawing.length),
        drawing.round.shown,
        sides_words(drawing)
    )];
    words.push(length_words(drawing));
    if let Some(take_up) = &drawing.take_up {
        words.push(format!("Each corner takes up {}.", take_up.shown));
    }
    match (&drawing.laid, &drawing.not_laid) {
        (Some(laid), _) => words.extend(layout_words(laid)),
        (None, Some(why)) => words.push(why.clone()),
        (None, None) => {}
    }
    words.join(" ")
}

fn sides_words(drawing: &EdgeDrawing) -> String {
    const MAX_SIDES: usize = 12;
    let sides = &drawing.sides;
    if sides.len() == 1 {
        return "no corners".to_string();
    }
    let told: Vec<&str> = sides.iter().take(MAX_SIDES).map(|side| side.length.shown.as_str()).collect();
    let more = if sides.len() > MAX_SIDES { " and so on" } else { "" };
    format!("{} sides in turn from the one with the start: {}{more}", sides.len(), told.join(", "))
}

fn layout_words(laid: &BindingLayout) -> Vec<String> {
    let mut words = Vec::new();
    words.push(match &laid.start {
        Some(start) => format!("The start, at the first stitch, is {} past the corner behind it.", start.shown),
        None => "The start is at the first stitch.".to_string(),
    });
    if let Some(open) = &laid.opening {
        words.push(format!("The opening behind it is {}.", open.shown));
    }
    words.push(format!("The start tail is {}, the end tail {}.", laid.start_tail.shown, laid.end_tail.shown));
    words.push(assumed_words(laid).trim_start().to_string());
    for join in laid.joins.iter().take(MAX_TOLD) {
        let place = join_where(join);
        let place = if place.is_empty() { place } else { format!(", {place}") };
        words.push(format!(
            "Join {}, of strips {} and {}: {}{place}.",
            join.join,
            join.join,
            join.join + 1,
            join_from(join),
        ));
    }
    let more = laid.more + laid.joins.len().saturating_sub(MAX_TOLD) as u64;
    if more > 0 {
        words.push(format!("And {more} more joins."));
    }
    if let Some(ends) = laid.ends.as_ref().filter(|_| laid.more == 0) {
        words.push(format!("The binding ends {} from the start.", ends.shown));
    }
    if let Some(cut_off) = &laid.cut_off {
        words.push(format!("{} of the last strip is cut off.", cut_off.shown));
    }
    words.retain(|words| !words.is_empty());
    words
}
